//! `molybdenum-due` and `molybdenum-missed`: the extra molybdenum of the sixth week.
//!
//! **Sees** the crop's age and what was given. Due once, on the days of the first magnesium: shown from day 35, missed from day
//! 46, until 21 days before the sale. Met by a molybdenum nutrient, constant feed or `fed` of 0.1 ppm Mo.
//! Where the record began after it was due and nobody said whether it was given, both keep quiet.
//! **Why** deficiency yellows and rolls leaf margins; under pH 5.5 little of it is taken up.
//! **Level** watch; act with yellow leaf edges, or a root zone under pH 5.5 (a test of the last 14 days).
//! **Ends** with what meets it, or 21 days before the sale. On a wet bench the next step is to give it as the next watering.
//! **Class** date: it stands until done or moot.

use crate::crop::feed::Given;
use crate::record::{Entry, Kind, KindName, LeafSign, Material, Method};
use crate::warnings::before::{Earlier, EarlierWork};
use crate::warnings::doses::{dose_warning, first_dates};
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Find, Remedy, Rule, Severity, Signs, Step, Warning, WarningName as N,
};

/// Everything about `molybdenum-due`.
pub(super) static DUE: Rule = Rule {
    name: N::MolybdenumDue,
    code: "molybdenum-due",
    find: Find::Bench(rule),
    cause: Cause::Extras,
    class: Class::Date,
    title: "molybdenum due",
    why: "Molybdenum deficiency yellows and rolls leaf margins.",
    next: &[Step::nutrient("Apply molybdenum once, from a stock solution.")],
    answers: ANSWERS,
    basis: MO,
    signs: None,
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

/// Everything about `molybdenum-missed`.
pub(super) static MISSED: Rule = Rule {
    name: N::MolybdenumMissed,
    code: "molybdenum-missed",
    find: Find::Twin(N::MolybdenumDue),
    cause: Cause::Extras,
    class: Class::Date,
    title: "molybdenum missed",
    why: "Molybdenum deficiency yellows and rolls leaf margins; under pH 5.5 little of it is taken up.",
    next: &[
        Step::nutrient("Apply molybdenum once, from a stock solution."),
        Step::check("Check the pH of the root zone."),
    ],
    answers: ANSWERS,
    basis: MO,
    signs: Some(Signs { leaves: &[LeafSign::EdgeYellow, LeafSign::EdgeBrown], roots: false, but: &[] }),
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

/// What is given: once, as a drench or a spray, or in the feed.
const ANSWERS: &[Answer] = &[
    Answer {
        title: "molybdenum once, as a drench",
        remedy: Remedy::Nutrient { material: Material::SodiumMolybdate, given: Given::Apart(Method::Drench) },
    },
    Answer {
        title: "molybdenum once, as a spray (may injure leaves)",
        remedy: Remedy::Nutrient { material: Material::SodiumMolybdate, given: Given::Apart(Method::Spray) },
    },
    Answer {
        title: "molybdenum in the feed",
        remedy: Remedy::Nutrient { material: Material::SodiumMolybdate, given: Given::InFeed },
    },
];

const MO: Basis =
    Basis::Published("week 6 is common practice; 0.1 ppm Mo: Purdue Extension, trade article by university authors");

/// The first entry that met the need for molybdenum.
pub(in crate::warnings) fn first_given<'a>(bench: &BenchDay<'a>) -> Option<&'a Entry> {
    let least = bench.limits().feed.molybdenum_ppm;
    bench.entries.iter().copied().find(|e| match *e.kind {
        Kind::Nutrient { material: Material::SodiumMolybdate | Material::AmmoniumMolybdate, ppm, .. }
        | Kind::Fed { mo_ppm: Some(ppm), .. } => ppm >= least,
        _ => false,
    })
}

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().feed;
    let constant = bench.lot.feed_mo_ppm.is_some_and(|ppm| ppm >= limits.molybdenum_ppm);
    if constant || first_given(bench).is_some() || bench.earlier(EarlierWork::Molybdenum) != Earlier::NotDone {
        return None;
    }
    let dates = first_dates(bench);
    let missed = dates.missed_on(bench)?;
    let name = if missed { N::MolybdenumMissed } else { N::MolybdenumDue };
    let edges = bench.sign(LeafSign::EdgeYellow);
    let acid = bench
        .recent(KindName::RootZone, limits.root_zone_days)
        .filter(|e| matches!(*e.kind, Kind::RootZone { ph: Some(ph), .. } if ph < limits.molybdenum_ph));
    let level = if edges.is_some() || acid.is_some() { Severity::Act } else { Severity::Watch };
    Some(dose_warning(bench, (name, level), (&dates, missed), (None, None)).saw_all(edges).saw_all(acid))
}
