//! How fast pots dry down: the days from a wet reading after a watering to the first reading of 2, when it is time to water.
//!
//! Compared with the other benches of the same lot over the same days it shows a drip, a blocked drain or a failing root before the
//! readings themselves are out of the ordinary. It is an observation; nothing here is a limit.
//!
//! Readings are levels 1 (dry) to 5 (soaked), one a day, taken before that day's watering. All numbers of this file are house rules:
//! no published dry-down time for poinsettia benches was found.

use crate::dates::days_between;
use crate::stats::median;
use chrono::NaiveDate;
use std::collections::BTreeMap;

/// A dry-down begins with the first reading at or above this level after a watering (house rule: heavy or soaked).
pub const WET: u8 = 4;
/// It ends with the first reading at or under this level (house rule: light, time to water).
pub const DRY: u8 = 2;
/// Most days between two readings of one dry-down: after a longer gap it is not known what happened in between (house rule).
pub const GAP: i64 = 2;
/// Most days between the beginnings of two dry-downs that are compared, so that both saw much the same weather (house rule).
pub const ABREAST: i64 = 4;
/// Fewest other benches of a lot that one is compared with (house rule).
pub const OTHERS: usize = 2;
/// A bench dries slower than its lot when it takes this many days more (house rule) ...
pub const SLOWER_DAYS: f64 = 2.0;
/// ... and this many times as long (house rule: with [`SLOWER_DAYS`] rare in a sound season).
pub const SLOWER_TIMES: f64 = 1.5;
/// A dry-down speaks this many days after its end (house rule).
pub const SPEAKS: i64 = 7;

/// From wet to dry once.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DryDown {
    /// The day of the first wet reading.
    pub from: NaiveDate,
    /// The level read that day, 4 or 5.
    pub level: u8,
    /// The day of the first reading of 2 or less.
    pub to: NaiveDate,
}

impl DryDown {
    /// Days it took.
    pub fn days(&self) -> i64 {
        days_between(self.from, self.to)
    }
}

/// A dry-down that has not ended at the last reading.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Open {
    /// The day of the first wet reading.
    pub from: NaiveDate,
    /// The level read that day, 4 or 5.
    pub level: u8,
    /// The day of the last reading.
    pub last: NaiveDate,
}

impl Open {
    /// Days it takes at least: at the last reading it was not dry yet.
    pub fn least(&self) -> i64 {
        days_between(self.from, self.last).saturating_add(1)
    }
}

/// The dry-downs of a bench.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Drying {
    /// Those that ended, oldest first.
    pub ended: Vec<DryDown>,
    /// The one that goes on.
    pub open: Option<Open>,
}

impl Drying {
    /// The last that ended.
    pub fn last(&self) -> Option<&DryDown> {
        self.ended.last()
    }

    /// The days of those before the last, the newest first, `most` at most.
    pub fn before(&self, most: usize) -> Vec<i64> {
        self.ended.iter().rev().skip(1).take(most).map(DryDown::days).collect()
    }

    /// Days of the dry-down that began nearest to a day, [`ABREAST`] days from it at most.
    fn near(&self, day: NaiveDate) -> Option<i64> {
        let apart = |d: &&DryDown| days_between(d.from, day).abs();
        let later = self.ended.partition_point(|d| days_between(day, d.from) <= ABREAST);
        let (not_later, _) = self.ended.split_at(later);
        let near = not_later.iter().rev().take_while(|d| apart(d) <= ABREAST);
        // Of two that are as near the earlier.
        near.fold(None, |best: Option<&DryDown>, d| Some(best.filter(|b| apart(b) < apart(&d)).unwrap_or(d)))
            .map(DryDown::days)
    }
}

/// The dry-downs in some readings (one a day, by day, taken before that day's watering) and days of watering (by day).
///
/// One begins with the first wet reading after a logged watering, or after a rise of two levels, which only an unlogged watering
/// explains. A reading one level higher than the last is taken for a misreading. A watering before it is dry ends it without a figure.
pub fn drying(readings: &[(NaiveDate, u8)], waterings: &[NaiveDate]) -> Drying {
    let mut all = Drying::default();
    let mut before: Option<(NaiveDate, u8)> = None;
    for (day, level) in readings.iter().copied() {
        let last = waterings.iter().rev().find(|w| **w < day).copied();
        let watered = last.is_some_and(|w| before.is_none_or(|(then, _)| w >= then));
        let known = match before {
            _ if watered => last.is_some_and(|w| days_between(w, day) <= GAP),
            Some((then, _)) => days_between(then, day) <= GAP,
            None => false,
        };
        let risen = before.is_some_and(|(_, then)| level >= then.saturating_add(2));
        before = Some((day, level));
        if !known {
            all.open = None;
        } else if watered || risen {
            all.open = (level >= WET).then_some(Open { from: day, level, last: day });
        } else if let Some(open) = &mut all.open {
            open.last = day;
            let (from, began) = (open.from, open.level);
            if level <= DRY {
                all.ended.push(DryDown { from, level: began, to: day });
                all.open = None;
            }
        }
    }
    all
}

/// How long the benches of a lot took last, as the median of those whose last dry-down ended within [`SPEAKS`] days of a day.
pub fn of_lot<'d>(all: impl Iterator<Item = &'d Drying>, on: NaiveDate) -> Option<f64> {
    let fresh = |d: &&DryDown| days_between(d.to, on) <= SPEAKS;
    let days: Vec<f64> = all.filter_map(|d| d.last().filter(fresh)).map(|d| d.days() as f64).collect();
    median(&days)
}

/// A bench that dries slower than its lot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slow {
    /// Days it took, or takes at least.
    pub days: i64,
    /// True where it is not dry yet.
    pub at_least: bool,
    /// Median of the others of its lot over the same days.
    pub lot: f64,
}

/// The dry-downs of all benches of a lot, each of them compared with the others.
#[derive(Debug, Default)]
pub struct OfLot<'d> {
    all: Vec<&'d Drying>,
    /// By a day the lengths of those that began nearest to it, ascending: many benches of a lot are wet on the same days.
    near: BTreeMap<NaiveDate, Vec<i64>>,
}

impl<'d> OfLot<'d> {
    /// Adds those of a bench.
    pub fn add(&mut self, drying: &'d Drying) {
        self.all.push(drying);
        self.near.clear();
    }

    /// Days of the dry-downs of the others that began nearest to a day.
    fn near(&mut self, day: NaiveDate, but: &Drying) -> Vec<f64> {
        let all = self.near.entry(day).or_insert_with(|| {
            let mut all: Vec<i64> = self.all.iter().filter_map(|drying| drying.near(day)).collect();
            all.sort_unstable();
            all
        });
        let own = but.near(day).and_then(|own| all.iter().position(|days| *days == own));
        all.iter().enumerate().filter(|(at, _)| Some(*at) != own).map(|(_, days)| *days as f64).collect()
    }
}

/// Whether a bench dries clearly slower than the others of its lot, of which it is one: the dry-down that goes on, else the last
/// that ended within [`SPEAKS`] days. `None` where it does not, or where fewer than [`OTHERS`] of them dried over the same days.
pub fn slower(own: &Drying, lot: &mut OfLot<'_>, on: NaiveDate) -> Option<Slow> {
    let open = own.open.filter(|o| days_between(o.last, on) <= GAP).map(|o| (o.from, o.least(), true));
    let ended = own.last().filter(|d| days_between(d.to, on) <= SPEAKS).map(|d| (d.from, d.days(), false));
    // None dries down within a day, so that fewer days than these are never clearly slower.
    let may_be = |days: i64| days as f64 >= 1.0 + SLOWER_DAYS;
    open.into_iter().chain(ended).filter(|(_, days, _)| may_be(*days)).find_map(|(from, days, at_least)| {
        let near = lot.near(from, own);
        let lot = if near.len() >= OTHERS { median(&near)? } else { return None };
        let slow = days as f64 >= lot + SLOWER_DAYS && days as f64 >= lot * SLOWER_TIMES;
        slow.then_some(Slow { days, at_least, lot })
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn day(n: u64) -> NaiveDate {
        NaiveDate::from_ymd_opt(2026, 10, 1).unwrap() + chrono::Days::new(n)
    }

    /// Readings from October 1 on, 0 for none.
    fn read(levels: &[u8], waterings: &[u64]) -> Drying {
        let readings: Vec<_> = (0..).zip(levels).filter(|(_, l)| **l > 0).map(|(n, l)| (day(n), *l)).collect();
        drying(&readings, &waterings.iter().map(|n| day(*n)).collect::<Vec<_>>())
    }

    fn days(of: &Drying) -> Vec<i64> {
        of.ended.iter().map(DryDown::days).collect()
    }

    #[test]
    fn it_runs_from_the_first_wet_reading_after_a_watering_to_the_first_two() {
        assert_eq!(days(&read(&[2, 5, 4, 3, 2, 5, 4, 2], &[0, 4])), [3, 2]);
        assert_eq!(days(&read(&[2, 5, 4, 3, 2, 5, 4, 2], &[])), [3, 2], "unlogged: the reading rose by two");
        assert_eq!(days(&read(&[2, 4, 3, 2], &[0])), [2], "never read 5");
        assert_eq!(days(&read(&[2, 4, 5, 3, 2], &[0])), [3], "one level up is a misreading");
        assert_eq!(days(&read(&[5, 4, 3, 2], &[])), [0; 0], "when it was watered is not known");
        assert_eq!(days(&read(&[2, 5, 4, 3, 5, 2], &[0, 3])), [1], "watered before it was dry");
        assert_eq!(days(&read(&[2, 5, 0, 3, 2], &[0])), [3], "one day not read");
        assert_eq!(days(&read(&[2, 5, 0, 0, 2], &[0])), [0; 0], "two days not read");
    }

    #[test]
    fn what_is_not_dry_yet_takes_a_day_more_at_least() {
        let wet = read(&[2, 5, 5, 4], &[0]);
        assert_eq!(wet.open.map(|o| o.least()), Some(3));
        assert_eq!(read(&[2, 5, 5, 4, 2], &[0]).open, None);
    }

    #[test]
    fn slower_is_two_days_and_half_as_long_again() {
        let lot = [read(&[2, 5, 4, 3, 2], &[0]), read(&[2, 5, 4, 3, 2], &[0])];
        let beside = |levels: &[u8], others: &[Drying], on| {
            let own = read(levels, &[0]);
            let mut all = OfLot::default();
            others.iter().chain([&own]).for_each(|drying| all.add(drying));
            slower(&own, &mut all, day(on)).map(|s| (s.days, s.at_least))
        };
        let slow = |levels: &[u8], on| beside(levels, &lot, on);
        assert_eq!(slow(&[2, 5, 4, 4, 3, 2], 5), None, "4 days, lot 3");
        assert_eq!(slow(&[2, 5, 4, 4, 3, 3, 2], 6), Some((5, false)));
        assert_eq!(slow(&[2, 5, 4, 4, 3], 4), None);
        assert_eq!(slow(&[2, 5, 4, 4, 3, 3], 5), Some((5, true)), "not dry yet: 5 days at least");
        assert_eq!(slow(&[2, 5, 4, 4, 3, 3, 2], 13), Some((5, false)));
        assert_eq!(slow(&[2, 5, 4, 4, 3, 3, 2], 14), None, "eight days ago");
        assert_eq!(beside(&[2, 5, 4, 4, 3, 3, 2], &lot[..1], 6), None, "one other bench");
    }

    proptest! {
        #[test]
        fn no_dry_down_takes_less_than_a_day(levels in prop::collection::vec(0u8..=5, 0..60), wet in prop::collection::vec(0u64..60, 0..20)) {
            let mut wet = wet;
            wet.sort_unstable();
            let all = read(&levels, &wet);
            prop_assert!(all.ended.iter().all(|d| d.days() >= 1 && d.level >= WET));
            prop_assert!(all.ended.windows(2).all(|w| w[0].to <= w[1].from));
            prop_assert!(all.open.is_none_or(|o| o.least() >= 1));
        }
    }
}
