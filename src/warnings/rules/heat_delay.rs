//! `heat-delay`: warm nights that hold back bud and color.
//!
//! **Sees** in the first 28 days of short days nights of 24 °C or more on 3 days, or one 24-hour mean of 26 °C or more
//! (R. Kobayashi: over 79 °F): act. A night over 22 °C there: watch (classic texts put the limit at 65-70 °F, chamber work near
//! 79-82: caution first). A bud seen before the color is the sign of heat at any time (Florida, about 2008): act.
//! Beside it stands when first color is expected now.
//! **Ends** it keeps its level 7 days after the last such day, then stands 7 more as watch.
//! **Class** event: it fades by days.

use crate::crop::color::Milestone;
use crate::crop::symptoms::Cause as Possible;
use crate::dates::days_between;
use crate::limits::{Key, Light};
use crate::record::{Entry, KindName, LeafSign};
use crate::warnings::bench_day::has_sign;
use crate::warnings::builder::of_bench;
use crate::warnings::color_forecast;
use crate::warnings::fading::fading;
use crate::warnings::temperatures::{means, nights};
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Evidence, Figure, Find, Remedy, Rule, Severity, Signs, Step, Warning,
    WarningName as N,
};
use chrono::NaiveDate;

/// Everything about `heat-delay`.
pub(super) static RULE: Rule = Rule {
    name: N::HeatDelay,
    code: "heat-delay",
    find: Find::Bench(rule),
    cause: Cause::Color,
    class: Class::Event,
    title: "heat delay",
    why: "Heat in the first weeks of short days holds back bud and color: at 80 °F (27 °C) a published crop came 11 days late.",
    next: &[
        Step::todo("Vent and cool in the evening; open the black cloth after dark where the house is warm."),
        Step::remark(
            "The forecast counts every hot day logged as no more than a usual one; after four hot weeks color comes after the bud.",
        ),
    ],
    answers: &[Answer { title: "temperatures read", remedy: Remedy::Entry(KindName::Climate) }],
    basis: HEAT,
    signs: Some(Signs { leaves: &[LeafSign::BudBeforeColor], roots: false, but: &[Possible::HeatDelay] }),
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

const HEAT: Basis = Basis::Published(
    "R. Kobayashi (79 °F), Clemson chamber work, J. Barrett about 2008; days: Benchwalk's rule of thumb",
);

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().light;
    let found = hot_days(bench).into_iter().chain(warm_night(bench)).chain(bud_first(bench));
    let strongest = found.filter_map(|(level, seen, figure)| {
        let began = seen.last()?.day();
        Some((fading(bench, level, began)?, seen, figure))
    });
    let (level, seen, figure) = strongest.max_by_key(|(level, seen, _)| (*level, seen.last().map(|e| e.day())))?;
    let since = seen.first()?.day();
    let warning = of_bench(bench, N::HeatDelay, level, since).saw_all(seen);
    let warning = match figure {
        Some((value, key)) => warning.figure(Figure::Celsius, value, bench.context.limit(key)),
        None => warning,
    };
    let unseen = color_forecast::expected(bench).filter(|_| bench.first_stage(Milestone::FirstColor.stage()).is_none());
    let expected = unseen.map(|forecast| Evidence::Color {
        milestone: Milestone::FirstColor,
        days: forecast.first_color,
        temperatures: forecast.temperatures,
    });
    let warning = expected.into_iter().fold(warning, Warning::also);
    Some(warning.again(bench.in_days(limits.climate_days)))
}

/// A level, what was seen, and the number it is held against.
type Heat<'a> = (Severity, Vec<&'a Entry>, Option<(f64, Key<f64>)>);

/// Climate entries of the first days of short days.
fn in_window(bench: &BenchDay<'_>, day: NaiveDate) -> bool {
    bench.short_days().is_some_and(|sd| (0..bench.limits().light.heat_days).contains(&days_between(sd, day)))
}

/// Hot nights on enough days, or a hot mean.
fn hot_days<'a>(bench: &BenchDay<'a>) -> Vec<Heat<'a>> {
    let limits = &bench.limits().light;
    let mut found: Vec<Heat<'a>> = Vec::new();
    let mut hot: Vec<(&'a Entry, f64)> = nights(bench);
    hot.retain(|(e, c)| in_window(bench, e.day()) && *c >= limits.heat_night_c);
    hot.dedup_by_key(|(e, _)| e.day());
    if hot.len() >= usize::try_from(limits.heat_nights).unwrap_or(usize::MAX) {
        let last = hot.last().map(|(_, c)| *c).unwrap_or_default();
        let seen = hot.into_iter().map(|(e, _)| e).collect();
        found.push((Severity::Act, seen, Some((last, Light::heat_night_c))));
    }
    let mean = means(bench).into_iter().rfind(|(e, c)| in_window(bench, e.day()) && *c >= limits.heat_mean_c);
    found.extend(mean.map(|(e, c)| (Severity::Act, vec![e], Some((c, Light::heat_mean_c)))));
    found
}

fn warm_night<'a>(bench: &BenchDay<'a>) -> Option<Heat<'a>> {
    let limits = &bench.limits().light;
    let warm = nights(bench).into_iter().rfind(|(e, c)| in_window(bench, e.day()) && *c > limits.warm_night_c);
    warm.map(|(e, c)| (Severity::Watch, vec![e], Some((c, Light::warm_night_c))))
}

/// A bud before the color: the latest look that saw it.
fn bud_first<'a>(bench: &BenchDay<'a>) -> Option<Heat<'a>> {
    let looks = bench.of(KindName::Leaves).iter().rev().copied();
    let seen = looks.into_iter().find(|e| has_sign(e, LeafSign::BudBeforeColor))?;
    Some((Severity::Act, vec![seen], None))
}
