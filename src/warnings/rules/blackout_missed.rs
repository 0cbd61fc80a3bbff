//! `blackout-missed`: nights without the black cloth.
//!
//! **Sees** the log of each past night (the latest entry of a night counts; tonight is not yet past), on a lot under
//! black cloth, nights of the first 6 weeks from its first covered night: a night logged as not covered is act; one not logged
//! at all while others are is watch. A night not logged is only unknown, so it counts nothing in the delay.
//! **Why** the first six weeks of short days decide when the color comes.
//! **Numbers** the delay as a range, 1-2 days per night (newspaper column, 2020; Kansas State), summed over all nights not covered.
//! **Ends** 14 days after the last such night, since by then the forecast has taken it in.
//! **Class** event: it fades by days.

use crate::crop::night::delay_of_missed_nights;
use crate::dates::{add_days, days_between};
use crate::record::{Entry, KindName, Nights};
use crate::warnings::builder::of_bench;
use crate::warnings::nights::nights;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Figure, Find, Remedy, Rule, Severity, Step, Warning, WarningName as N,
};
use chrono::NaiveDate;

/// Everything about `blackout-missed`.
pub(super) static RULE: Rule = Rule {
    name: N::BlackoutMissed,
    code: "blackout-missed",
    find: Find::Bench(rule),
    cause: Cause::Color,
    class: Class::Event,
    title: "black cloth missed",
    why: "Each missed night early on sets color back one to two days.",
    next: &[
        Step::todo("Cover tonight; log every night."),
        Step::todo("Keep clear of moving cloth, cables and motors; nobody is under the cloth while it closes."),
    ],
    answers: &[Answer { title: "last night logged", remedy: Remedy::LastNight(KindName::Blackout) }],
    basis: DELAY,
    signs: None,
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

const DELAY: Basis =
    Basis::Published("Kansas State (2 days per night); a newspaper column, 2020 (1 day): first six weeks");

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().light;
    let from = bench.lot.blackout_from.filter(|_| bench.lot.nights == Nights::Blackout)?.max(bench.lot.planted);
    let written = nights(bench, KindName::Blackout);
    let recent = |night: NaiveDate| days_between(night, bench.day()) <= limits.reading_days;
    let past = from.iter_days().take(usize::try_from(limits.first_weeks).ok()?).take_while(|n| *n < bench.day());
    let open: Vec<(NaiveDate, &Entry)> =
        past.clone().filter_map(|n| written.get(&n).filter(|(covered, _)| !covered).map(|(_, e)| (n, *e))).collect();
    let unknown: Vec<NaiveDate> =
        if written.is_empty() { Vec::new() } else { past.filter(|n| !written.contains_key(n) && recent(*n)).collect() };
    let recent_open: Vec<&(NaiveDate, &Entry)> = open.iter().filter(|(n, _)| recent(*n)).collect();
    let (level, since) = match (recent_open.first(), unknown.first()) {
        (Some((night, _)), _) => (Severity::Act, *night),
        (None, Some(night)) => (Severity::Watch, *night),
        (None, None) => return None,
    };
    let warning = of_bench(bench, N::BlackoutMissed, level, add_days(since, 1));
    let warning = warning.saw_all(recent_open.iter().map(|(_, e)| *e));
    let warning = match unknown.last() {
        Some(night) => warning.missing(KindName::Blackout, written.range(..*night).next_back().map(|(n, _)| *n)),
        None => warning,
    };
    let (least, most) = delay_of_missed_nights(u32::try_from(open.len()).unwrap_or(u32::MAX));
    let (least, most) = (f64::from(least), f64::from(most));
    Some(if open.is_empty() {
        warning
    } else {
        warning.ranged(Figure::DelayDays, f64::midpoint(least, most), Some((least, most)), None)
    })
}
