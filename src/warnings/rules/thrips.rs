//! `thrips`: sticky cards over the limit.
//!
//! **Sees** 40 per card per week at the latest reading of cards, until the next; after 14 days it says since when nobody read
//! them (Rutgers; a card left longer is calculated down to a week). **Level** act. **Ends** with the next reading under it.
//! **Class** state: it stands until a newer look of its kind.

use crate::crop::pests::CardCatch;
use crate::limits::Pests;
use crate::record::{KindName, PestCount, PestName};
use crate::warnings::builder::of_bench;
use crate::warnings::pest_counts::latest;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Figure, Find, FollowUp, Remedy, Rule, Severity, Step, Warning,
    WarningName as N,
};

/// Everything about `thrips`.
pub(super) static RULE: Rule = Rule {
    name: N::Thrips,
    code: "thrips",
    find: Find::Bench(rule),
    cause: Cause::Pest(N::Thrips),
    class: Class::State,
    title: "thrips",
    why: "Card counts are over the limit: expect distorted leaves and scarred bracts.",
    next: &[Step::todo("Find where they come from (vents, weeds); ask your extension or crop advisor.")],
    answers: &[
        Answer { title: "sprayed", remedy: Remedy::Spray { against: "thrips" } },
        Answer { title: "beneficials released", remedy: Remedy::Entry(KindName::Released) },
        Answer { title: "cards counted again", remedy: Remedy::Count(PestName::Thrips) },
    ],
    basis: RUTGERS,
    signs: None,
    follow_up: Some(FollowUp { kinds: &[KindName::Sprayed, KindName::Released], against: &["thrip"] }),
    recheck: &[],
    is_sick: false,
    house_wide: true,
};

const RUTGERS: Basis = Basis::Published("Rutgers, pest counts and action thresholds; fungus gnats 2009");

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    let limit = bench.limits().pests.thrips;
    let (entry, catch) = latest(bench, PestName::Thrips, |count| match count {
        PestCount::Cards { cards, count, days } => {
            CardCatch { cards: *cards, count: *count, days: f64::from(*days) }.per_card_week().ok()
        }
        PestCount::Plants { .. } | PestCount::Wedge { .. } => None,
    })?;
    (catch >= limit).then(|| {
        let warning = of_bench(bench, N::Thrips, Severity::Act, entry.day()).saw(entry);
        let warning = warning.figure(Figure::CardWeek, catch, bench.context.limit(Pests::thrips));
        warning.carried(bench, entry, bench.limits().pests.finding_days).again(bench.in_days(7))
    })
}
