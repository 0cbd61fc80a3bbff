//! Root zone pH and EC against the ranges the warnings go by.

use super::{ChartInput, Topic, last, level};
use crate::dates::{add_days, days_between};
use crate::record::{Kind, KindName, Term, TestMethod};
use crate::report::chart::{Chart, Layer, Reading, Stroke};
use crate::units::plain;
use crate::warnings::salt_bounds;
use chrono::NaiveDate;

pub(super) fn ph(input: &ChartInput<'_>) -> Chart {
    let limits = &input.limits.feed;
    let tests = input.readings(KindName::RootZone, |e| match *e.kind {
        Kind::RootZone { ph, .. } => ph,
        _ => None,
    });
    let text = format!(
        "Root zone pH of bench {}. {} Range {} to {}.",
        input.bench,
        last(&tests, ""),
        plain(limits.ph_low),
        plain(limits.ph_high)
    );
    let layers = vec![
        low_side(input),
        level(input.days, format!("high above {}", plain(limits.ph_high)), limits.ph_high, Stroke::Dashed),
        Layer::Dots { name: "pH".to_owned(), points: tests },
    ];
    input.chart(Topic::Ph, ("pH", Some((4.5, 7.5))), text, layers)
}

/// The low limit, lower in the first days of the crop.
fn low_side(input: &ChartInput<'_>) -> Layer {
    let limits = &input.limits.feed;
    let planted = input.shown.as_ref().map(|s| s.lot.planted);
    let young = |d: NaiveDate| planted.is_some_and(|p| days_between(p, d) <= limits.ph_young_until);
    let bound = |d: NaiveDate| if young(d) { limits.ph_low_young } else { limits.ph_low };
    let (first, end) = input.days;
    // Where the limit steps up, and the day before; a line has no need of the days between.
    let turn = planted.map(|p| add_days(p, limits.ph_young_until));
    let mut days: Vec<NaiveDate> =
        [Some(first), turn, turn.and_then(|d| d.succ_opt()), Some(end)].into_iter().flatten().collect();
    days.retain(|d| first <= *d && *d <= end);
    days.sort_unstable();
    days.dedup();
    Layer::Line {
        name: format!("low below {}", plain(limits.ph_low)),
        points: days.into_iter().map(|d| (d, bound(d))).collect(),
        stroke: Stroke::Dashed,
    }
}

/// A chart of the method last used: readings by different methods are not on one scale.
pub(super) fn salts(input: &ChartInput<'_>) -> Chart {
    let tests = || input.shown.iter().flat_map(|s| s.of(KindName::RootZone));
    let method = tests().rev().find_map(|e| match *e.kind {
        Kind::RootZone { method, ec_ms_cm: Some(_), .. } => Some(method),
        _ => None,
    });
    let method = method.unwrap_or(TestMethod::PourThrough);
    let by = |wanted: bool| -> Vec<Reading> {
        let reading = |e: &crate::record::Entry| match *e.kind {
            Kind::RootZone { method: m, ec_ms_cm: Some(ec), .. } if (m == method) == wanted => {
                Some((e.day(), ec, None))
            }
            _ => None,
        };
        tests().filter_map(reading).collect()
    };
    let (readings, others) = (by(true), by(false).len());
    let bounds = salt_bounds(input.limits, method);
    let mut text = format!(
        "Root zone EC of bench {} by {}. {} Range {} to {} mS/cm.",
        input.bench,
        method.text(),
        last(&readings, "mS/cm"),
        plain(bounds.low),
        plain(bounds.high)
    );
    if others > 0 {
        text.push_str(&format!(" {others} readings by another method are not drawn."));
    }
    let top = readings.iter().map(|r| r.1).filter(|v| v.is_finite()).fold(bounds.high * 1.3, f64::max);
    let layers = vec![
        level(input.days, format!("low below {}", plain(bounds.low)), bounds.low, Stroke::Dashed),
        level(input.days, format!("high above {}", plain(bounds.high)), bounds.high, Stroke::Dashed),
        Layer::Dots { name: format!("EC by {}", method.text()), points: readings },
    ];
    input.chart(Topic::Salts, ("mS/cm", Some((0.0, top))), text, layers)
}
