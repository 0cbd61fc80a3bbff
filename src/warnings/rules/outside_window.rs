//! `too-tall` and `too-short`: a bench whose height lies outside its window today.
//!
//! **Sees** the last reading, of 3 plants or more, taken 21 days or more after the start and 9 days old at most, beyond its day's
//! limit with the whole 90% interval of its mean, and by 1.0 cm or more (act). Too short is watch from first color on, when
//! little can be done. A lot with only one finished height in its plan is held against that side alone.
//! **Why** stretch does not come back; both the gap and the pace count (Fisher and Heins 1995). **Numbers** house rules where no
//! source is named; a trial at Georgia (2015) held crops within 2.5 cm. **Ends** with the next reading.
//! **Class** state: it stands until a newer look of its kind.

use crate::crop::height::Place;
use crate::record::{Entry, KindName};
use crate::warnings::builder::of_bench;
use crate::warnings::heights::{held, stands};
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Figure, Find, FollowUp, Limit, Remedy, Rule, Severity, Step, Warning,
    WarningName as N,
};

/// Everything about `too-tall`.
pub(super) static TALL: Rule = Rule {
    name: N::TooTall,
    code: "too-tall",
    find: Find::Bench(rule),
    cause: Cause::Height,
    class: Class::State,
    title: "too tall",
    why: "The bench average is above its window; stretch cannot be undone.",
    next: &[
        Step::spray("Decide on a growth regulator on the Mixing page: only before its last safe day, by the label."),
        Step::todo("A cool morning dip and wider spacing help, too."),
    ],
    answers: &[
        Answer { title: "heights measured", remedy: Remedy::Entry(KindName::Height) },
        Answer { title: "growth regulator given", remedy: Remedy::GrowthRegulator },
    ],
    basis: CURVE,
    signs: None,
    follow_up: Some(FollowUp { kinds: &[KindName::GrowthRegulator], against: &[] }),
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

/// Everything about `too-short`.
pub(super) static SHORT: Rule = Rule {
    name: N::TooShort,
    code: "too-short",
    find: Find::Twin(N::TooTall),
    cause: Cause::Height,
    class: Class::State,
    title: "too short",
    why: "The bench average is below its window.",
    next: &[
        Step::todo("No growth regulator; positive DIF and no water stress."),
        Step::todo("Check the roots: short plants often have poor roots."),
    ],
    answers: &[Answer { title: "heights measured", remedy: Remedy::Entry(KindName::Height) }],
    basis: CURVE,
    signs: None,
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

const CURVE: Basis = Basis::Published(
    "Fisher and Heins 1995 (curve and control); University of Georgia 2015; margins: Benchwalk's rule of thumb",
);

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    let held = held(bench)?;
    let last = *held.readings.last()?;
    if bench.age(last.0) > bench.limits().growth.height_days {
        return None;
    }
    let stood = stands(bench, &held, last)?;
    let colored = bench.stage_reached().is_some_and(|(_, s)| s > 1);
    let (has_high, has_low) = (bench.lot.height_high_cm.is_some(), bench.lot.height_low_cm.is_some());
    let (name, level, limit_cm) = match stood.place {
        Place::Above if !has_high => return None,
        Place::Below if !has_low => return None,
        Place::Above => (N::TooTall, Severity::Act, stood.window.high_cm),
        Place::Below if colored => (N::TooShort, Severity::Watch, stood.window.low_cm),
        Place::Below => (N::TooShort, Severity::Act, stood.window.low_cm),
        Place::Inside | Place::TooFew => return None,
    };
    let same = |r: &&(&Entry, &[f64])| stands(bench, &held, **r).is_some_and(|s| s.place == stood.place);
    let since = held.readings.iter().rev().take_while(same).last().map_or_else(|| last.0.day(), |(e, _)| e.day());
    let range = stood.interval.map(|i| (i.low, i.high));
    let limit = Some(Limit::planned(limit_cm));
    let warning = of_bench(bench, name, level, since).saw(last.0);
    let warning = warning.ranged(Figure::HeightNow, stood.sample.mean, range, limit);
    Some(warning.step_if(held.estimated, Step::START_HEIGHT_CALCULATED).again(bench.in_days(7)))
}
