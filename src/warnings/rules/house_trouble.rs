//! `house-trouble`: the same problem on many benches becomes house-wide.
//!
//! **Sees** the same water, root or pest warning at act or above, and not postponed, on 3 benches or more of a house: one warning
//! for each such problem. A round not made (roots unchecked) and a feed not given are no problems of a house, nor are lot-wide
//! warnings.
//! **Why** look at what the benches share: line, boiler, drain, door.
//! **Numbers** house rule. **Ends** when fewer benches have it.
//! **Class** state: it stands until a newer look of its kind.

use super::RULES;
use crate::limits::Round;
use crate::warnings::builder::of_group;
use crate::warnings::{
    Basis, Cause, Class, Evidence, Figure, Find, Group, Rule, Severity, Step, Warning, WarningName as N,
};

/// Everything about `house-trouble`.
pub(super) static RULE: Rule = Rule {
    name: N::HouseTrouble,
    code: "house-trouble",
    find: Find::HouseEach(rule),
    cause: Cause::House,
    class: Class::State,
    title: "house-wide problem",
    why: "The same problem on several benches points to a shared cause.",
    next: &[Step::check("Check the line, boiler, drain and door before the benches.")],
    answers: &[],
    basis: Basis::HouseRule,
    signs: None,
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

/// The problems that a house shares.
fn rule(group: &Group<'_, '_>) -> Vec<Warning> {
    let Some(first) = group.benches.first() else { return Vec::new() };
    let least = usize::try_from(first.limits().round.house_benches).unwrap_or(usize::MAX);
    let shared = |name: N| {
        let found: Vec<(&str, &Warning)> = group
            .benches
            .iter()
            .filter_map(|s| group.of_bench.get_key_value(s.code()))
            .filter_map(|(code, all)| Some((code.as_str(), all.iter().find(|w| counts(w, name))?)))
            .collect();
        if found.len() < least {
            return None;
        }
        // It became the house's with the bench that made the number full.
        let mut began: Vec<_> = found.iter().map(|(_, w)| w.since).collect();
        began.sort_unstable();
        let since = began.get(least.saturating_sub(1)).copied().unwrap_or(first.day());
        let benches = found.iter().map(|(code, _)| (*code).to_owned()).collect();
        let warning = of_group(group, (N::HouseTrouble, Severity::Act), since, benches);
        let limit = first.context.limit(Round::house_benches);
        Some(warning.also(Evidence::Warning(name)).figure(Figure::Benches, found.len() as f64, limit))
    };
    RULES.iter().filter(|rule| rule.house_wide).filter_map(|rule| shared(rule.name)).collect()
}

fn counts(warning: &Warning, name: N) -> bool {
    warning.name == name && warning.level >= Severity::Act && warning.put_off_until.is_none()
}
