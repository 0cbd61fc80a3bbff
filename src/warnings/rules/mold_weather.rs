//! `mold-weather`: damp air and wet bracts that invite gray mold.
//!
//! **Sees** from stage 2 on: humidity over 85% read after 10:00 on 2 of 3 days (Georgia 2023; the hours are a house rule), the
//! last of them counting, or wet bracts seen. A day of a logger is as damp with 12 hours over that humidity (house rule).
//! **Level** act; urgent with gray fuzz. **Ends** when neither counts.
//! **Class** event: it fades by days.

use crate::record::{Entry, KindName, LeafSign};
use crate::warnings::builder::of_bench;
use crate::warnings::damp::{damp_days, dampest};
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Find, Remedy, Rule, Severity, Signs, Step, Warning, WarningName as N,
};

/// Everything about `mold-weather`.
pub(super) static RULE: Rule = Rule {
    name: N::MoldWeather,
    code: "mold-weather",
    find: Find::Bench(rule),
    cause: Cause::Damp,
    class: Class::Event,
    title: "gray mold weather",
    why: "Wet bracts and damp air bring gray mold within days.",
    next: &[
        Step::todo("Heat and vent at the end of the day; no watering after noon."),
        Step::todo("Bag fallen and moldy tissue at the bench."),
    ],
    answers: &[
        Answer { title: "leaves checked", remedy: Remedy::Entry(KindName::Leaves) },
        Answer { title: "humidity read", remedy: Remedy::Entry(KindName::Climate) },
    ],
    basis: GRAY,
    signs: Some(Signs { leaves: &[LeafSign::WetBracts, LeafSign::EdgeBrown], roots: false, but: &[] }),
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

const GRAY: Basis =
    Basis::Published("University of Georgia 2023: over 85% humidity; the hours: Benchwalk's rule of thumb");

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    bench.stage_reached().filter(|(_, s)| *s > 1)?;
    let wet = bench.sign(LeafSign::WetBracts);
    let damp = damp_days(bench);
    if wet.is_none() && damp.is_empty() {
        return None;
    }
    let fuzz = bench.sign(LeafSign::GrayFuzz);
    let level = if fuzz.is_some() { Severity::Urgent } else { Severity::Act };
    let mut seen: Vec<&Entry> = damp.iter().map(|day| day.entry).chain(wet).chain(fuzz).collect();
    seen.sort_by_key(|e| e.order());
    seen.dedup_by_key(|e| e.id);
    let since = seen.first()?.day();
    let warning = of_bench(bench, N::MoldWeather, level, since).saw_all(seen);
    Some(match dampest(&damp) {
        Some(worst) => warning.figure(worst.figure, worst.value, bench.context.limit(worst.limit)),
        None => warning,
    })
}
