//! `lights-missed`: nights on which the lights did not follow the plan.
//!
//! **Sees** the log of each past night, on a lot under lights: off on a night before its last lit night, or on after it.
//! **Why** long nights start the flower, lights hold it back (R. Kobayashi).
//! **Level** act. **Ends** 14 days after the last such night, since by then the forecast has taken it in.
//! **Class** event: it fades by days.

use crate::dates::days_between;
use crate::record::{Entry, KindName, Nights};
use crate::warnings::builder::of_bench;
use crate::warnings::nights::nights;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Find, Remedy, Rule, Severity, Step, Warning, WarningName as N,
};
use chrono::NaiveDate;

/// Everything about `lights-missed`.
pub(super) static RULE: Rule = Rule {
    name: N::LightsMissed,
    code: "lights-missed",
    find: Find::Bench(rule),
    cause: Cause::Color,
    class: Class::Event,
    title: "night lighting missed",
    why: "A night without lights starts flowering early; expect split bracts.",
    next: &[
        Step::check("Check timer, breaker and bulbs before dark; shut the power off before you touch a light."),
        Step::todo(
            "Only GFCI-protected, wet-location equipment; wiring is a licensed electrician's job, by local code.",
        ),
    ],
    answers: &[Answer { title: "last night logged", remedy: Remedy::LastNight(KindName::Lights) }],
    basis: FLOWERS,
    signs: None,
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

const FLOWERS: Basis =
    Basis::Published("R. Kobayashi, poinsettia flower initiation: long nights start it, lights hold it back");

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().light;
    let until = bench.lot.lights_until.filter(|_| bench.lot.nights == Nights::Lights)?;
    let wrong: Vec<(NaiveDate, &Entry)> = nights(bench, KindName::Lights)
        .into_iter()
        .filter(|(night, (on, _))| if *night < until { !on } else { *on && *night > until })
        .filter(|(night, _)| (0..=limits.reading_days).contains(&days_between(*night, bench.day())))
        .map(|(night, (_, entry))| (night, entry))
        .collect();
    let (since, _) = wrong.first()?;
    let warning = of_bench(bench, N::LightsMissed, Severity::Act, *since);
    Some(warning.saw_all(wrong.iter().map(|(_, e)| *e)))
}
