//! When an extra nutrient is due: the days both magnesium and molybdenum go by, and what their warnings share.

use super::builder::of_bench;
use super::{BenchDay, Figure, Severity, Step, Warning, WarningName};
use crate::dates::{add_days, days_between};
use crate::limits::{Feed, Key};
use crate::record::{Entry, KindName};
use chrono::NaiveDate;

/// The day a dose is due from and missed from.
pub(super) struct Dates {
    pub(super) due: NaiveDate,
    pub(super) missed: NaiveDate,
    pub(super) missed_key: Key<i64>,
    pub(super) due_key: Key<i64>,
}

impl Dates {
    /// The level on a day: due, missed, or neither; nothing from 21 days before the sale on.
    pub(super) fn missed_on(&self, bench: &BenchDay<'_>) -> Option<bool> {
        let over = bench.days_to_sale() < bench.limits().feed.magnesium_until;
        if over || bench.day() < self.due { None } else { Some(bench.day() >= self.missed) }
    }
}

/// The days of the first dose.
pub(super) fn first_dates(bench: &BenchDay<'_>) -> Dates {
    let limits = &bench.limits().feed;
    Dates {
        due: add_days(bench.lot.planted, limits.magnesium_shown),
        missed: add_days(bench.lot.planted, limits.magnesium_missed),
        due_key: Feed::magnesium_first,
        missed_key: Feed::magnesium_missed,
    }
}

/// What both nutrients share: since when, what was last given (by the log, or as the plan says of the time before the record), how old the crop is, and how to give it to a wet bench.
pub(super) fn dose_warning(
    bench: &BenchDay<'_>,
    (name, level): (WarningName, Severity),
    (dates, missed): (&Dates, bool),
    (last, earlier): (Option<&Entry>, Option<NaiveDate>),
) -> Warning {
    let (since, key) = if missed { (dates.missed, dates.missed_key) } else { (dates.due, dates.due_key) };
    let warning = of_bench(bench, name, level, since);
    let warning = match (last, earlier) {
        (Some(entry), _) => warning.saw(entry).figure(Figure::Days, bench.age(entry) as f64, bench.context.limit(key)),
        (None, Some(day)) => {
            let days = days_between(day, bench.day()) as f64;
            warning.missing(KindName::Nutrient, Some(day)).figure(Figure::Days, days, bench.context.limit(key))
        }
        (None, None) => warning.missing(KindName::Nutrient, None).figure(
            Figure::CropDay,
            bench.crop_day() as f64,
            bench.context.limit(key),
        ),
    };
    let wet = bench.water().filter(|_| bench.is_wet());
    warning.saw_all(wet.map(|r| r.entry)).step_if(wet.is_some(), Step::WAIT_UNTIL_DRY)
}

impl Step {
    /// How to give it to a bench that is wet.
    pub const WAIT_UNTIL_DRY: Self =
        Self::when_dry("Where the mix is wet, give it as the next watering, once it reads 2.");
}
