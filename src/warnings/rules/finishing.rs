//! `finishing-tall` and `finishing-short`: inside the window today, but heading out of it.
//!
//! **Sees** a height inside today, but projected outside at the sale at two readings running: with the whole 90% interval both
//! times act, with the likely height watch.
//! **Why** stretch does not come back; both the gap and the pace count (Fisher and Heins 1995). **Numbers** house rules where no
//! source is named. **Ends** with the next reading; after 9 days it says since when nobody measured.
//! **Class** state: it stands until a newer look of its kind.

use crate::crop::height::{Outlook, Place};
use crate::dates::add_days;
use crate::record::KindName;
use crate::warnings::builder::of_bench;
use crate::warnings::heights::{held, outlook, stands};
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Figure, Find, Limit, Remedy, Rule, Severity, Step, Warning, WarningName as N,
};

/// Everything about `finishing-tall`.
pub(super) static TALL: Rule = Rule {
    name: N::FinishingTall,
    code: "finishing-tall",
    find: Find::Bench(rule),
    cause: Cause::Height,
    class: Class::State,
    title: "trending tall",
    why: "Inside today, but at this rate it finishes above the window.",
    next: &[Step::check("Measure again in a week; check night and day temperature and spacing.")],
    answers: &[
        Answer { title: "heights measured", remedy: Remedy::Entry(KindName::Height) },
        Answer { title: "growth regulator given", remedy: Remedy::GrowthRegulator },
    ],
    basis: CURVE,
    signs: None,
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

/// Everything about `finishing-short`.
pub(super) static SHORT: Rule = Rule {
    name: N::FinishingShort,
    code: "finishing-short",
    find: Find::Twin(N::FinishingTall),
    cause: Cause::Height,
    class: Class::State,
    title: "trending short",
    why: "Inside today, but at this rate it finishes below the window.",
    next: &[Step::todo("Hold off on growth regulators; measure again in a week.")],
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
    // The likely gain leads to the middle of the window, so both sides are needed.
    bench.lot.height_low_cm.and(bench.lot.height_high_cm)?;
    let held = held(bench)?;
    let count = held.readings.len();
    let (last, before) = (*held.readings.last()?, *held.readings.get(count.checked_sub(2)?)?);
    let counts = bench.limits().growth.height_days;
    if !bench.stands(last.0, counts) || bench.day() > held.target.finish() {
        return None;
    }
    if stands(bench, &held, last)?.place != Place::Inside {
        return None;
    }
    let now = outlook(bench, &held, last.0)?;
    if now.1 == Outlook::Inside {
        // Most benches are: the reading before need not be projected.
        return None;
    }
    let then = outlook(bench, &held, before.0)?;
    let (name, level) = match (now.1, then.1) {
        (Outlook::SurelyTall, Outlook::SurelyTall) => (N::FinishingTall, Severity::Act),
        (Outlook::SurelyTall | Outlook::LikelyTall, Outlook::SurelyTall | Outlook::LikelyTall) => {
            (N::FinishingTall, Severity::Watch)
        }
        (Outlook::SurelyShort, Outlook::SurelyShort) => (N::FinishingShort, Severity::Act),
        (Outlook::SurelyShort | Outlook::LikelyShort, Outlook::SurelyShort | Outlook::LikelyShort) => {
            (N::FinishingShort, Severity::Watch)
        }
        _ => return None,
    };
    let finished = held.target.finished();
    let value = if name == N::FinishingTall { finished.high_cm } else { finished.low_cm };
    let limit = Some(Limit::planned(value));
    let range = Some((now.0.interval.low, now.0.interval.high));
    let warning = of_bench(bench, name, level, last.0.day()).saw(before.0).saw(last.0);
    let warning = warning.carried(bench, last.0, counts);
    let warning = warning.ranged(Figure::HeightAtSale, now.0.height_cm, range, limit);
    let again = add_days(last.0.day(), bench.limits().round.height_every).max(bench.in_days(1));
    Some(warning.step_if(held.estimated, Step::START_HEIGHT_CALCULATED).again(again))
}
