//! Which dated copies are kept: the newest seven, and the first of each month.

use chrono::{Datelike, NaiveDate};
use std::collections::BTreeSet;

/// The days of this many copies are kept, whatever their month.
pub(super) const DAYS: usize = 7;

/// The days whose copies are to be removed on `today`.
///
/// Only the order of the days decides, never how long ago they are, so that a pause of months removes nothing. A day after
/// `today` was written by a clock that was ahead, or `today` comes from one that is behind: such a copy is neither removed nor
/// counted, and a clock that is behind removes nothing that the right one would keep.
pub(super) fn to_remove(days: &BTreeSet<NaiveDate>, today: NaiveDate) -> Vec<NaiveDate> {
    let past: Vec<NaiveDate> = days.range(..=today).copied().collect();
    let older = past.len().saturating_sub(DAYS);
    let mut month = None;
    let mut removed = Vec::new();
    for day in past.into_iter().take(older) {
        let its_month = (day.year(), day.month());
        if month.replace(its_month) == Some(its_month) {
            removed.push(day);
        }
    }
    removed
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn day(text: &str) -> NaiveDate {
        text.parse().unwrap()
    }

    #[test]
    fn a_season_of_daily_starts_keeps_seven_days_and_the_first_of_each_month() {
        let mut kept = BTreeSet::new();
        for today in day("2026-08-20").iter_days().take_while(|d| *d <= day("2026-11-10")) {
            kept.insert(today);
            for gone in to_remove(&kept, today) {
                kept.remove(&gone);
            }
        }
        let wanted = [
            "2026-08-20",
            "2026-09-01",
            "2026-10-01",
            "2026-11-01",
            "2026-11-04",
            "2026-11-05",
            "2026-11-06",
            "2026-11-07",
            "2026-11-08",
            "2026-11-09",
            "2026-11-10",
        ];
        assert_eq!(kept.into_iter().collect::<Vec<_>>(), wanted.map(day));
    }

    #[test]
    fn a_pause_of_months_removes_nothing() {
        let kept: BTreeSet<_> = (1..=7).map(|n| day(&format!("2026-03-0{n}"))).collect();
        assert_eq!(to_remove(&kept, day("2026-11-20")), []);
    }

    #[test]
    fn a_clock_that_was_ahead_does_not_push_out_the_days_before() {
        let mut kept: BTreeSet<_> = (20..=26).map(|n| day(&format!("2026-11-{n}"))).collect();
        kept.insert(day("2062-01-01"));
        assert_eq!(to_remove(&kept, day("2026-11-26")), []);
        // Set back to 1970: nothing at all.
        assert_eq!(to_remove(&kept, day("1970-01-01")), []);
        // The next right day counts the days up to itself.
        kept.insert(day("2026-11-27"));
        assert_eq!(to_remove(&kept, day("2026-11-27")), []);
        kept.insert(day("2026-11-28"));
        assert_eq!(to_remove(&kept, day("2026-11-28")), [day("2026-11-21")]);
    }

    fn any_day() -> impl Strategy<Value = NaiveDate> {
        // 1970 to 2079: some near one another, some far.
        prop_oneof![719_163_i32..759_500, 739_900_i32..740_020]
            .prop_map(|n| NaiveDate::from_num_days_from_ce_opt(n).unwrap())
    }

    proptest! {
        #[test]
        fn whatever_the_days_the_last_seven_and_the_first_of_each_month_stay(
            days in proptest::collection::btree_set(any_day(), 0..60), today in any_day(), earlier in any_day(),
        ) {
            let removed: BTreeSet<_> = to_remove(&days, today).into_iter().collect();
            for gone in &removed {
                prop_assert!(days.contains(gone) && *gone <= today);
                let newer = days.iter().filter(|d| *d > gone && **d <= today).count();
                prop_assert!(newer >= DAYS, "{gone} is one of the last seven");
                let month = |d: &NaiveDate| (d.year(), d.month()) == (gone.year(), gone.month());
                prop_assert!(days.iter().any(|d| month(d) && d < gone && !removed.contains(d)), "{gone} was the first");
            }
            // No more is kept than the rule says.
            let kept: Vec<_> = days.iter().filter(|d| **d <= today && !removed.contains(d)).collect();
            for pair in kept[..kept.len().saturating_sub(DAYS)].windows(2) {
                prop_assert!((pair[0].year(), pair[0].month()) != (pair[1].year(), pair[1].month()));
            }
            // A clock that is behind removes nothing that the right one would keep.
            let behind: BTreeSet<_> = to_remove(&days, earlier.min(today)).into_iter().collect();
            prop_assert!(behind.is_subset(&removed));
        }
    }
}
