//! `heat-early`: hot days on young plants.
//!
//! **Sees** from planting to day 21: day temperatures of 32 °C or more on 2 of the last 3 days on which one is logged.
//! **Why** plants whose roots do not yet fill the pot wilt and burn in heat.
//! **Numbers** house rule, between a ceiling of 90 °F (32 °C) in propagation and damage over 35 °C (a growers' association, 2007).
//! **Level** watch. **Ends** 7 days after the last such day.
//! **Class** event: it fades by days.

use crate::dates::days_between;
use crate::limits::Light;
use crate::record::{Entry, KindName};
use crate::warnings::builder::of_bench;
use crate::warnings::temperatures;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Figure, Find, Remedy, Rule, Severity, Step, Warning, WarningName as N,
};

/// Everything about `heat-early`.
pub(super) static RULE: Rule = Rule {
    name: N::HeatEarly,
    code: "heat-early",
    find: Find::Bench(rule),
    cause: Cause::Color,
    class: Class::Event,
    title: "heat on young plants",
    why: "Plants with few roots wilt and burn in heat.",
    next: &[
        Step::todo("Shade and move the air; mist finely and only early, so that leaves are dry by evening."),
        Step::check("Feel the plugs at midday: a plug can dry out inside moist mix."),
    ],
    answers: &[Answer { title: "temperatures read", remedy: Remedy::Entry(KindName::Climate) }],
    basis: HEAT,
    signs: None,
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

const HEAT: Basis = Basis::Published(
    "a growers' association, 2007: damage over 35 °C; 90 °F (32 °C) ceiling in propagation; the days: Benchwalk's rule of thumb",
);

/// Days looked at together.
const OF_LAST: usize = 3;

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().light;
    let days = day_temperatures(bench);
    let is_hot = |at: usize| days.get(at).is_some_and(|(_, c)| *c >= limits.early_heat_c);
    let enough = usize::try_from(limits.early_heat_days).unwrap_or(usize::MAX);
    let hot_near = |at: usize| (at.saturating_sub(OF_LAST - 1)..=at).filter(|day| is_hot(*day)).count();
    let last = (0..days.len()).rev().find(|at| is_hot(*at) && hot_near(*at) >= enough)?;
    let seen = days.get(last.saturating_sub(OF_LAST - 1)..=last)?;
    let hot: Vec<(&Entry, f64)> = seen.iter().filter(|(_, c)| *c >= limits.early_heat_c).copied().collect();
    let (first, newest) = (hot.first()?.0, hot.last()?.0);
    if days_between(newest.day(), bench.day()) > limits.early_heat_stands {
        return None;
    }
    let most = hot.iter().map(|(_, c)| *c).max_by(f64::total_cmp)?;
    let warning = of_bench(bench, N::HeatEarly, Severity::Watch, first.day()).saw_all(hot.iter().map(|(e, _)| *e));
    Some(warning.figure(Figure::Celsius, most, bench.context.limit(Light::early_heat_c)))
}

/// The highest day temperature of each day up to the limit's day that has one, oldest first.
fn day_temperatures<'a>(bench: &BenchDay<'a>) -> Vec<(&'a Entry, f64)> {
    let mut days: Vec<(&'a Entry, f64)> = Vec::new();
    for (entry, c) in temperatures::days(bench) {
        let age = bench.crop_day_of(entry.day());
        if !(0..=bench.limits().light.early_heat_until).contains(&age) {
            continue;
        }
        match days.last_mut() {
            Some(last) if last.0.day() == entry.day() => {
                if c > last.1 {
                    *last = (entry, c);
                }
            }
            _ => days.push((entry, c)),
        }
    }
    days
}
