//! `night-light`: light that shortens the night.
//!
//! **Sees** the latest light reading taken at night in short days, 60 minutes or more after sunset and before sunrise (so that
//! twilight is not taken for artificial light: house rule), until a later night reading; after 14 days it says since when
//! nobody read it.
//! **Numbers** over 11 lux watch (Michigan State: some plants respond below 1 foot-candle), over 20 (Texas A&M: under 2
//! foot-candles cancels the night) urgent in the first 6 weeks of short days (Kansas State), then act.
//! **Ends** with a later night reading of 11 lux or less.
//! **Class** state: it stands until a newer look of its kind.

use crate::crop::night;
use crate::crop::night::Sky;
use crate::dates::days_between;
use crate::limits::Light;
use crate::record::{Entry, Kind, KindName};
use crate::warnings::builder::of_bench;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Figure, Find, Remedy, Rule, Severity, Step, Warning, WarningName as N,
};
use chrono::{NaiveDate, TimeDelta, Timelike};

/// Everything about `night-light`.
pub(super) static RULE: Rule = Rule {
    name: N::NightLight,
    code: "night-light",
    find: Find::Bench(rule),
    cause: Cause::Color,
    class: Class::State,
    title: "light at night",
    why: "A little light in the long night stops or delays flower initiation.",
    next: &[
        Step::todo("Find the light source and shade it tonight; read the light again after dark."),
        Step::todo("At night: cords and wet floors; wiring is a licensed electrician's job, by local code."),
    ],
    answers: &[Answer { title: "light read after dark", remedy: Remedy::Entry(KindName::NightLight) }],
    basis: SOURCES,
    signs: None,
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

const SOURCES: Basis = Basis::Published(
    "Texas A&M: under 2 foot-candles cancels the night; Michigan State: some plants respond below 1; 60 min: Benchwalk's rule of thumb",
);

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().light;
    let short_days = bench.short_days()?;
    let readings = bench.of(KindName::NightLight).iter().rev().copied();
    let dark: Vec<&Entry> = readings.filter(|e| evening(bench, e).is_some_and(|d| d >= short_days)).collect();
    let last = dark.first().filter(|e| bench.stands(e, limits.reading_days))?;
    let lux = lux(last)?;
    let (level, key) = if lux > limits.lux_harm {
        let early = days_between(short_days, bench.day()) < limits.first_weeks;
        (if early { Severity::Urgent } else { Severity::Act }, Light::lux_harm)
    } else if lux > limits.lux_watch {
        (Severity::Watch, Light::lux_watch)
    } else {
        return None;
    };
    let bright = dark.iter().take_while(|e| self::lux(e).is_some_and(|l| l > limits.lux_watch));
    let since = bright.last().map_or_else(|| last.day(), |e| e.day());
    let warning = of_bench(bench, N::NightLight, level, since).saw(last);
    let warning = warning.carried(bench, last, limits.reading_days);
    Some(warning.figure(Figure::Lux, lux, bench.context.limit(key)))
}

fn lux(entry: &Entry) -> Option<f64> {
    if let Kind::NightLight { lux } = &*entry.kind { Some(*lux) } else { None }
}

/// The evening of the night a reading was taken in; `None` for one taken by day or in twilight.
fn evening(bench: &BenchDay<'_>, entry: &Entry) -> Option<NaiveDate> {
    let place = bench.context.place()?;
    let margin = TimeDelta::try_minutes(bench.limits().light.dark_after_min)?;
    let local = entry.at.with_timezone(&bench.context.site()?.time_zone);
    let date = local.date_naive();
    let evening = if local.hour() < 12 { date.pred_opt()? } else { date };
    let at = entry.instant();
    let after_sunset = match night::sun_times(&place, evening).ok()?.sun {
        Sky::Crosses(light) => at >= light.ends.checked_add_signed(margin)?,
        Sky::StaysDown => true,
        Sky::StaysUp => false,
    };
    let before_sunrise = match night::sun_times(&place, evening.succ_opt()?).ok()?.sun {
        Sky::Crosses(light) => at <= light.begins.checked_sub_signed(margin)?,
        Sky::StaysDown => true,
        Sky::StaysUp => false,
    };
    (after_sunset && before_sunrise).then_some(evening)
}
