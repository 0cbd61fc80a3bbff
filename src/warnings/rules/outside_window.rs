//! `too-tall` and `too-short`: a bench whose height lies outside its window today.
//!
//! **Sees** the last reading, of 3 plants or more, taken 21 days or more after the start, beyond its day's
//! limit with the whole 90% interval of its mean, and by 1.0 cm or more (act). Too short is watch from first color on, when
//! little can be done (benzyladenine with gibberellins 4 and 7: Michigan State 2007 and 2009, Florida 2011; no strength is
//! filled in). A lot with only one finished height in its plan is held against that side alone.
//! **Why** stretch does not come back; both the gap and the pace count (Fisher and Heins 1995). **Numbers** house rules where no
//! source is named; a trial at Georgia (2015) held crops within 2.5 cm. **Ends** with the next reading; after 9 days it says
//! since when nobody measured.
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
        Step::todo("Stop growth retardants; positive DIF and no water stress."),
        Step::todo("Check the roots: short plants often have poor roots."),
        Step::todo(
            "BA plus GA4+7 adds height by or soon after first color (one note: best 7 to 10 days after): on trial plants first; the label decides.",
        ),
        Step::todo(
            "Published: 3 to 5 ppm once, 10 days before another; 20 to 30 days after first color it only enlarges bracts.",
        ),
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
    let counts = bench.limits().growth.height_days;
    if !bench.stands(last.0, counts) {
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
    let warning = warning.carried(bench, last.0, counts);
    Some(warning.step_if(held.estimated, Step::START_HEIGHT_CALCULATED).again(bench.in_days(7)))
}
