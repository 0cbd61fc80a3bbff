//! The height window of the pots on a bench, as far as the plan and the record give one.

use super::summary::mean;
use crate::crop::height::{Curve, START_PLANT_CM, Target, Window};
use crate::limits::Limits;
use crate::record::{Kind, KindName, Lot, Pinch};
use crate::season::History;
use chrono::{Days, NaiveDate};

/// Days after planting at which the curve starts where no pinch is wanted (house rule).
const UNPINCHED_START: u64 = 14;
/// A height read this long after the start still is the start height (house rule).
const START_READING: u64 = 7;

/// The target of a lot for these pots; `None` where the plan names no finished heights, or the pinch is still to come.
pub fn of(lot: &Lot, history: &History<'_>, _limits: &Limits) -> Option<Target> {
    let finished = Window { low_cm: lot.height_low_cm?, high_cm: lot.height_high_cm? };
    let start = start(lot, history)?;
    let start_cm = start_height(history, start).or_else(|| Some(lot.pot_height_cm? + START_PLANT_CM))?;
    Target::new(Curve::default(), (start, start_cm), lot.ready_by, finished).ok()
}

fn start(lot: &Lot, history: &History<'_>) -> Option<NaiveDate> {
    match lot.pinch {
        Pinch::None => lot.planted.checked_add_days(Days::new(UNPINCHED_START)),
        Pinch::Soft | Pinch::Hard => history.of(KindName::Pinched).next().map(crate::record::Entry::day),
    }
}

fn start_height(history: &History<'_>, start: NaiveDate) -> Option<f64> {
    let end = start.checked_add_days(Days::new(START_READING))?;
    let first = history.of(KindName::Height).find(|e| e.day() >= start)?;
    match &first.kind {
        Kind::Height { cm } if first.day() <= end => mean(cm),
        _ => None,
    }
}
