//! `humid-leaves`: damp air before color, which suits what spots and blisters leaves.
//!
//! **Sees** before first color is seen: humidity over 85% read after 10:00 on 2 of 3 days, the last of them counting. From first
//! color on the same days are `mold-weather`.
//! **Why** leaves that stay wet get latex blisters, bacterial spot, powdery mildew and scab: published reports of growers had damp
//! weather before each of these.
//! **Numbers** those of `mold-weather`; the hours are a house rule. **Level** watch. **Ends** when the last damp reading no
//! longer counts.
//! **Class** event: it fades by days.

use crate::record::{KindName, LeafSign};
use crate::warnings::builder::of_bench;
use crate::warnings::damp::{damp_days, dampest};
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Find, Remedy, Rule, Severity, Signs, Step, Warning, WarningName as N,
};

/// Everything about `humid-leaves`.
pub(super) static RULE: Rule = Rule {
    name: N::HumidLeaves,
    code: "humid-leaves",
    find: Find::Bench(rule),
    cause: Cause::Damp,
    class: Class::Event,
    title: "damp leaves",
    why: "Leaves that stay damp get latex blisters, bacterial spot, powdery mildew and scab.",
    next: &[
        Step::todo("Heat and vent at the end of the day; water early, so that leaves are dry by evening."),
        Step::check("Look at the leaves for blisters, brown spots, white powder and raised spots."),
    ],
    answers: &[
        Answer { title: "leaves checked", remedy: Remedy::Entry(KindName::Leaves) },
        Answer { title: "humidity read", remedy: Remedy::Entry(KindName::Climate) },
    ],
    basis: Basis::HouseRule,
    signs: Some(Signs {
        leaves: &[LeafSign::Blisters, LeafSign::BrownSpots, LeafSign::RaisedSpots, LeafSign::PaleSpots],
        roots: false,
        but: &[],
    }),
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    if bench.stage_reached().is_some_and(|(_, stage)| stage > 1) {
        return None;
    }
    let damp = damp_days(bench);
    let since = damp.first()?.entry.day();
    let worst = dampest(&damp)?;
    let warning = of_bench(bench, N::HumidLeaves, Severity::Watch, since).saw_all(damp.iter().map(|day| day.entry));
    Some(warning.figure(worst.figure, worst.value, bench.context.limit(worst.limit)))
}
