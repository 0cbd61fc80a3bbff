//! `dry-young`: a young plant that dried out once.
//!
//! **Sees** a water reading of 1 in the first 14 days.
//! **Why** a plug that dried out sheds water and loses root tips; leaf edges burn in the days after, also where it was watered
//! at once (a growers' association, 2007: dry young plants in hot weather).
//! **Numbers** house rules. **Level** watch; left at 1 it is `too-dry` as well. **Ends** 7 days after the last such reading.
//! **Class** event: it fades by days.

use crate::limits::Water;
use crate::record::KindName;
use crate::warnings::builder::of_bench;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Figure, Find, Remedy, Rule, Severity, Step, Warning, WarningName as N,
};

/// Everything about `dry-young`.
pub(super) static RULE: Rule = Rule {
    name: N::DryYoung,
    code: "dry-young",
    find: Find::Bench(rule),
    cause: Cause::Dry,
    class: Class::Event,
    title: "young plants dry",
    why: "A plug that dried out sheds water: the mix around it reads moist while its roots die.",
    next: &[
        Step::check("Feel the plugs after watering; water a dry plug twice, slowly."),
        Step::todo("Read young plants twice a day in hot weather, bench ends and corners first."),
    ],
    answers: &[
        Answer { title: "watered", remedy: Remedy::Entry(KindName::Watered) },
        Answer { title: "water scored again", remedy: Remedy::Entry(KindName::Water) },
    ],
    basis: YOUNG,
    signs: None,
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

const YOUNG: Basis =
    Basis::Published("a growers' association, 2007: dry young plants in heat; the days: Benchwalk's rule of thumb");

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().water;
    let young = |day| bench.crop_day_of(day) <= limits.dry_young_until;
    let dry = bench.readings.iter().rev().find(|r| r.level <= limits.dry_at && young(r.day))?;
    if bench.age(dry.entry) > limits.dry_young_stands {
        return None;
    }
    let day = bench.crop_day_of(dry.day) as f64;
    let warning = of_bench(bench, N::DryYoung, Severity::Watch, dry.day).saw(dry.entry);
    Some(warning.figure(Figure::CropDay, day, bench.context.limit(Water::dry_young_until)))
}
