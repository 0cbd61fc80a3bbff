//! What a bench's warnings of the evening before ask to be looked at again today.
//!
//! A warning of the evening before stands by the record as it is now: a reading voided since asks for nothing. One that is
//! postponed to a later day waits until then.

use super::bench_day::{BenchDay, DayContext};
use super::{CheckName, Evidence, Find, RULES, Recheck, Warning, WarningName, assess};
use crate::dates::{add_days, days_between};
use crate::record::Entry;

/// The checks asked for again today, each once, with the warning that asks. `answers` tells whether an entry is a look of a
/// check.
pub(super) fn asked(
    bench: &BenchDay<'_>,
    answers: impl Fn(&Entry, CheckName) -> bool,
) -> Vec<(CheckName, WarningName)> {
    if bench.past_sale() {
        return Vec::new();
    }
    let context = DayContext::new(bench.context.season, add_days(bench.day(), -1), bench.limits());
    let Some(evening) = BenchDay::new(&context, bench.code()) else { return Vec::new() };
    if evening.lot.lot != bench.lot.lot || evening.standing.since != bench.standing.since {
        return Vec::new();
    }
    let mut asked: Vec<(CheckName, WarningName)> = Vec::new();
    for warning in standing(&evening, bench) {
        for recheck in warning.name.rule().recheck {
            let known = asked.iter().any(|(check, _)| *check == recheck.check);
            if !known && is_due(&evening, bench, &warning, recheck, &answers) {
                asked.push((recheck.check, warning.name));
            }
        }
    }
    asked
}

/// The warnings of the evening that ask for something again and still stand today.
fn standing(evening: &BenchDay<'_>, today: &BenchDay<'_>) -> Vec<Warning> {
    let rules = RULES.iter().filter(|rule| !rule.recheck.is_empty());
    let mut warnings: Vec<Warning> =
        rules.filter_map(|rule| if let Find::Bench(find) = rule.find { find(evening) } else { None }).collect();
    let voided =
        |seen: &Evidence| matches!(seen, Evidence::Entry(entry) if today.context.season.is_struck(entry, today.day()));
    warnings.retain(|warning| !warning.evidence.iter().any(voided));
    assess::put_off_of(evening, &mut warnings);
    warnings.retain(|warning| warning.put_off_until.is_none_or(|until| until <= today.day()));
    warnings
}

/// True where no look was taken since the warning began, or the last one is so many days ago.
fn is_due(
    evening: &BenchDay<'_>,
    today: &BenchDay<'_>,
    warning: &Warning,
    recheck: &Recheck,
    answers: &impl Fn(&Entry, CheckName) -> bool,
) -> bool {
    let mut looks = evening.entries.iter().rev().filter(|entry| answers(entry, recheck.check));
    match looks.next().map(|entry| entry.day()).filter(|day| *day >= warning.since) {
        Some(day) => days_between(day, today.day()) >= recheck.after,
        None => true,
    }
}
