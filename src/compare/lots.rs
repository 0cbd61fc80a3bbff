//! Lot by lot: what came earlier or later, what is taller, drier or warmer, what stood, what was lost.

use super::{By, Come, Course, Judged, Measure, Pairs, Pots, Rate};
use crate::record::{Lot, Place};
use crate::warnings::WarningName;
use chrono::NaiveDate;
use std::collections::BTreeSet;

/// When something came in both years.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ComeRow {
    /// What.
    pub what: Come,
    /// This year; `None` where it has not come.
    pub this: Option<NaiveDate>,
    /// Last year; `None` where it never came.
    pub last: Option<NaiveDate>,
    /// Crop days later than last year, negative where earlier; of the planting, days of the calendar year. Of what came last year
    /// and not yet this year, the days by which it is later so far, where it is.
    pub later: Option<i64>,
}

/// What was measured in both years.
#[derive(Debug, Clone, PartialEq)]
pub struct MeasureRow {
    /// What.
    pub what: Measure,
    /// The crop week compared, counted from 1: the last one read in both years.
    pub week: i64,
    /// The mean of that week this year.
    pub this: f64,
    /// The mean of the same crop week last year.
    pub last: f64,
}

/// The pots in both years.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PotRow {
    /// This year, so far.
    pub this: Pots,
    /// Last year, up to the same crop day.
    pub last: Pots,
    /// Last year, the whole season.
    pub whole: Pots,
}

/// A warning in either year.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StoodRow {
    /// Which warning.
    pub name: WarningName,
    /// This year so far: the first day, and on how many days it stood.
    pub this: Option<(NaiveDate, usize)>,
    /// Last year, up to the same crop day.
    pub last: Option<(NaiveDate, usize)>,
    /// Last year, the whole season.
    pub whole: Option<(NaiveDate, usize)>,
}

/// Causes of what was lost, each with its pots.
pub type Causes = Vec<(String, u64)>;

/// A lot of this year beside one of last year.
#[derive(Debug, Clone, PartialEq)]
pub struct LotBeside {
    /// This year's lot.
    pub this: Lot,
    /// Last year's lot.
    pub last: Lot,
    /// How they came to stand beside each other.
    pub by: By,
    /// Days from planting to the day compared: the same in both years.
    pub crop_day: i64,
    /// That day last year.
    pub then: NaiveDate,
    /// What came when.
    pub came: Vec<ComeRow>,
    /// What was measured.
    pub measured: Vec<MeasureRow>,
    /// How often it was watered, this year and last year up to the same crop day.
    pub watered: Option<(Rate, Rate)>,
    /// The pots.
    pub pots: PotRow,
    /// Causes of what was lost this year and in last year's whole season, with the pots, the most first.
    pub causes: (Causes, Causes),
    /// The warnings at act or urgent, in the order of the rules.
    pub stood: Vec<StoodRow>,
}

/// The lots of this year that stand beside one of last year, by code. `judged` may be empty while the seasons are not assessed.
pub fn lots(
    pairs: &Pairs,
    (this, last): (&[Course], &[Course]),
    day: NaiveDate,
    (now, before): (&Judged, &Judged),
) -> Vec<LotBeside> {
    let find = |all: &[Course], lot: &str| all.iter().find(|course| course.lot.lot == lot).cloned();
    let one = |pair: &super::Pair| {
        let (last_lot, by) = pair.last.as_ref()?;
        let (this, last) = (find(this, &pair.this)?, find(last, last_lot)?);
        Some(beside((&this, &last), *by, day, (now, before)))
    };
    pairs.pairs.iter().filter_map(one).collect()
}

fn beside((this, last): (&Course, &Course), by: By, day: NaiveDate, (now, before): (&Judged, &Judged)) -> LotBeside {
    let crop_day = this.crop_day(day.min(this.until)).max(0);
    let then = last.day(crop_day);
    LotBeside {
        this: this.lot.clone(),
        last: last.lot.clone(),
        by,
        crop_day,
        then,
        came: Come::ALL.into_iter().filter_map(|what| came(what, this, last, crop_day)).collect(),
        measured: measured(this, last, day),
        watered: this.rate(day).zip(last.rate(then)),
        pots: PotRow { this: this.pots(day), last: last.pots(then), whole: last.pots(last.until) },
        causes: (causes(this), causes(last)),
        stood: stood((this, now), (last, before), (day, then)),
    }
}

fn came(what: Come, this: &Course, last: &Course, crop_day: i64) -> Option<ComeRow> {
    let (now, before) = (this.came.get(&what).copied(), last.came.get(&what).copied());
    let on = |course: &Course, day: NaiveDate| course.crop_day(day);
    let later = match (now, before) {
        (None, None) => return None,
        (Some(now), Some(before)) if what == Come::Planted => {
            Some(of_the_year(now).saturating_sub(of_the_year(before)))
        }
        (Some(now), Some(before)) => Some(on(this, now).saturating_sub(on(last, before))),
        (None, Some(before)) => Some(crop_day.saturating_sub(on(last, before))).filter(|days| *days > 0),
        (Some(_), None) => None,
    };
    Some(ComeRow { what, this: now, last: before, later })
}

fn of_the_year(day: NaiveDate) -> i64 {
    use chrono::Datelike;
    i64::from(day.ordinal())
}

/// The last crop week read in both years, measure by measure.
fn measured(this: &Course, last: &Course, day: NaiveDate) -> Vec<MeasureRow> {
    let both: BTreeSet<Measure> = this.measures().collect();
    let row = |what: Measure| {
        let before = last.weekly(what, last.until);
        let same = |week: i64| before.iter().find(|(other, ..)| *other == week).map(|(_, _, value)| *value);
        let mut now = this.weekly(what, day).into_iter().rev();
        now.find_map(|(week, _, value)| {
            Some(MeasureRow { what, week: week.saturating_add(1), this: value, last: same(week)? })
        })
    };
    both.into_iter().filter_map(row).collect()
}

/// Pots lost by cause, the most first.
fn causes(course: &Course) -> Causes {
    let mut all = Causes::new();
    for lost in &course.lost {
        let cause = lost.cause.clone().unwrap_or_else(|| "no cause logged".to_owned());
        match all.iter_mut().find(|(known, _)| *known == cause) {
            Some((_, pots)) => *pots = pots.saturating_add(u64::from(lost.pots)),
            None => all.push((cause, u64::from(lost.pots))),
        }
    }
    all.sort_by(|a, b| (b.1, &a.0).cmp(&(a.1, &b.0)));
    all
}

fn stood(
    (this, now): (&Course, &Judged),
    (last, before): (&Course, &Judged),
    (day, then): (NaiveDate, NaiveDate),
) -> Vec<StoodRow> {
    let find = |judged: &Judged, lot: &str, name: WarningName, until: NaiveDate| {
        let of = Place::Lot(lot.into());
        judged.stood.iter().find(|stood| stood.name == name && stood.of == of).and_then(|stood| stood.until(until))
    };
    let names = |judged: &Judged, lot: &str| -> Vec<WarningName> {
        let of = Place::Lot(lot.into());
        judged.stood.iter().filter(|stood| stood.of == of).map(|stood| stood.name).collect()
    };
    let all: BTreeSet<WarningName> =
        names(now, &this.lot.lot).into_iter().chain(names(before, &last.lot.lot)).collect();
    let row = |name| StoodRow {
        name,
        this: find(now, &this.lot.lot, name, day),
        last: find(before, &last.lot.lot, name, then),
        whole: find(before, &last.lot.lot, name, last.until),
    };
    all.into_iter().map(row).collect()
}
