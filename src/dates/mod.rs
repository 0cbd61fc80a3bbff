//! Days: saturating arithmetic, and the formats in which days and times are shown.

use chrono::{DateTime, Datelike, FixedOffset, MappedLocalTime, NaiveDate, NaiveDateTime, TimeDelta, TimeZone};
use std::fmt::Display;

mod zone;
pub use zone::{Tz, TzOffset, UnknownZone};

/// `n` days after a day (before it when negative); the day itself where the calendar ends.
pub fn add_days(day: NaiveDate, n: i64) -> NaiveDate {
    TimeDelta::try_days(n).and_then(|d| day.checked_add_signed(d)).unwrap_or(day)
}

/// Days from one day to another; negative when the second is the earlier.
pub fn days_between(from: NaiveDate, to: NaiveDate) -> i64 {
    (to - from).num_days()
}

/// `days` after a day (before it when negative), to the nearest whole day, a half rounding up. `None` when that is not in the
/// years 1900 to 2199 or `days` is not finite.
pub fn add_part_days(day: NaiveDate, days: f64) -> Option<NaiveDate> {
    const LONGEST: f64 = 200_000.0;
    if !days.is_finite() || days.abs() > LONGEST {
        return None;
    }
    #[expect(clippy::cast_possible_truncation, reason = "held within 200,000 just above")]
    let whole = (days + 0.5).floor() as i64;
    day.checked_add_signed(TimeDelta::days(whole)).filter(|d| (1900..2200).contains(&d.year()))
}

/// The instant of a local time in a zone. A missing one (clocks put forward, or a day left out) moves to the next that exists; of
/// a double one (clocks put back) the first. None only at the ends of the calendar.
pub fn at_local(zone: Tz, local: NaiveDateTime) -> Option<DateTime<FixedOffset>> {
    // The longest jump in the zone data left out one whole day; gaps end on whole minutes.
    const LONGEST_GAP_MINUTES: i64 = 26 * 60;
    if let Some(found) = first_of(zone, local) {
        return Some(found);
    }
    let minute = local.checked_sub_signed(TimeDelta::seconds(local.and_utc().timestamp().rem_euclid(60)))?;
    (1..=LONGEST_GAP_MINUTES)
        .map_while(|n| minute.checked_add_signed(TimeDelta::minutes(n)))
        .find_map(|later| first_of(zone, later))
}

/// The earlier instant of a local time. The two of a double time are compared, not taken in the order the library names them.
fn first_of(zone: Tz, local: NaiveDateTime) -> Option<DateTime<FixedOffset>> {
    let found = match zone.from_local_datetime(&local) {
        MappedLocalTime::None => return None,
        MappedLocalTime::Single(one) => one,
        MappedLocalTime::Ambiguous(one, other) => one.min(other),
    };
    Some(found.fixed_offset())
}

/// `Oct 8`.
pub fn short(day: NaiveDate) -> String {
    format!("{} {}", day.format("%b"), day.day())
}

/// `Mon Oct 12`.
pub fn weekday(day: NaiveDate) -> String {
    format!("{} {}", day.format("%a"), short(day))
}

/// `Mon Oct 12, 2026`.
pub fn long(day: NaiveDate) -> String {
    format!("{}, {}", weekday(day), day.year())
}

/// `Aug 31`, `Oct 8 to 12`, or `Aug 31 to Sep 2`.
pub fn range(from: NaiveDate, to: NaiveDate) -> String {
    if from == to {
        short(from)
    } else if (from.year(), from.month()) == (to.year(), to.month()) {
        format!("{} to {}", short(from), to.day())
    } else {
        format!("{} to {}", short(from), short(to))
    }
}

/// `19:00`.
pub fn time<Z: TimeZone>(at: &DateTime<Z>) -> String
where
    Z::Offset: Display,
{
    at.format("%H:%M").to_string()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn oct(day: u32) -> NaiveDate {
        NaiveDate::from_ymd_opt(2026, 10, day).unwrap()
    }

    #[test]
    fn every_form_of_a_day_can_be_shown() {
        let day = oct(8);
        assert_eq!(
            (short(day), weekday(day), long(day)),
            ("Oct 8".into(), "Thu Oct 8".into(), "Thu Oct 8, 2026".into())
        );
        assert_eq!((range(day, day), range(day, oct(12))), ("Oct 8".into(), "Oct 8 to 12".into()));
        let at = DateTime::parse_from_rfc3339("2026-10-08T07:05:00-04:00").unwrap();
        assert_eq!(time(&at), "07:05");
    }

    #[test]
    fn days_are_added_and_counted_both_ways() {
        assert_eq!((add_days(oct(8), 4), add_days(oct(12), -4)), (oct(12), oct(8)));
        assert_eq!((days_between(oct(8), oct(12)), days_between(oct(12), oct(8))), (4, -4));
        assert_eq!(add_days(NaiveDate::MAX, 1), NaiveDate::MAX);
        assert_eq!(add_days(oct(8), i64::MAX), oct(8));
    }

    #[test]
    fn a_half_day_rounds_up() {
        let next = |n: f64| add_part_days(oct(3), n).unwrap().to_string();
        assert_eq!(next(0.5), "2026-10-04");
        assert_eq!(next(-0.5), "2026-10-03");
        assert_eq!(next(-3.0), "2026-09-30");
    }

    proptest! {
        #[test]
        fn any_number_of_days_is_answered_within_the_calendar(days in proptest::num::f64::ANY, year in -260_000i32..260_000) {
            if let Some(from) = NaiveDate::from_ymd_opt(year, 2, 3) {
                let answer = add_part_days(from, days);
                prop_assert!(answer.is_none_or(|d| (1900..2200).contains(&d.year())));
            }
        }
    }
}
