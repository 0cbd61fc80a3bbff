//! `cold-nights`: nights too cold for colored bracts.
//!
//! **Sees** a night under 10 °C (UMass, Purdue 2012, Delaware: harm, worse with time), or on a day of a logger its lowest reading
//! under that, while a reading counts (3 days): urgent.
//! 24-hour means under 16 °C on 3 days between first color and stage 4, the last of them 3 days ago at most: watch (Clemson 2011:
//! 15.5 °C left bracts under market size).
//! **Ends** when the last such reading no longer counts.
//! **Class** event: it fades by days.

use crate::limits::Light;
use crate::record::{Entry, KindName};
use crate::warnings::builder::of_bench;
use crate::warnings::temperatures::{coldest, means};
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Figure, Find, Remedy, Rule, Severity, Step, Warning, WarningName as N,
};

/// Everything about `cold-nights`.
pub(super) static RULE: Rule = Rule {
    name: N::ColdNights,
    code: "cold-nights",
    find: Find::Bench(rule),
    cause: Cause::Damp,
    class: Class::Event,
    title: "cold nights",
    why: "Cold turns red bracts blue and stops their growth.",
    next: &[Step::check("Check heat and vents tonight; read it in corners and at bench ends, too.")],
    answers: &[Answer { title: "temperatures read", remedy: Remedy::Entry(KindName::Climate) }],
    basis: COLD,
    signs: None,
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

const COLD: Basis = Basis::Published(
    "UMass, Purdue 2012, Delaware: harm under 50 °F (10 °C); Clemson 2011: 60 °F (15.5 °C) from first color",
);

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().light;
    let recent = |e: &Entry| bench.age(e) <= limits.climate_days;
    let mut frost = coldest(bench);
    frost.retain(|(e, c)| recent(e) && *c < limits.cold_night_c);
    if let (Some((first, _)), Some((_, coldest))) = (frost.first(), frost.iter().min_by(|a, b| a.1.total_cmp(&b.1))) {
        let warning = of_bench(bench, N::ColdNights, Severity::Urgent, first.day());
        let warning = warning.saw_all(frost.iter().map(|(e, _)| *e));
        return Some(warning.figure(Figure::Celsius, *coldest, bench.context.limit(Light::cold_night_c)));
    }
    let (from, to) = (bench.first_stage(2)?.day(), bench.first_stage(4).map(Entry::day));
    let mut cool: Vec<(&Entry, f64)> = means(bench)
        .into_iter()
        .filter(|(e, c)| *c < limits.cool_mean_c && e.day() >= from && to.is_none_or(|to| e.day() < to))
        .collect();
    cool.dedup_by_key(|(e, _)| e.day());
    let enough = cool.len() >= usize::try_from(limits.cool_means).unwrap_or(usize::MAX);
    let (last, mean) = *cool.last().filter(|(e, _)| enough && recent(e))?;
    let since = cool.get(cool.len().saturating_sub(3)).map_or_else(|| last.day(), |(e, _)| e.day());
    let warning = of_bench(bench, N::ColdNights, Severity::Watch, since);
    let warning = warning.saw_all(cool.iter().rev().take(3).rev().map(|(e, _)| *e));
    Some(warning.figure(Figure::Celsius, mean, bench.context.limit(Light::cool_mean_c)))
}
