//! The clock: the only reader of the system's time and zone, and the maker of ids.
//!
//! Everything else takes the day or the instant as an argument, so that any day can be replayed. An entry keeps its local day,
//! its instant and its offset; day arithmetic is on days only, because a local midnight may not exist.

use crate::dates::{Tz, at_local};
use chrono::{DateTime, FixedOffset, NaiveDate, Offset, TimeZone, Utc};
use std::sync::atomic::{AtomicI64, AtomicU64, Ordering};
use uuid::Uuid;

/// The current time, and new ids.
pub trait Clock: Send + Sync {
    /// The present instant, whole seconds.
    fn now(&self) -> DateTime<Utc>;
    /// A new id for an entry made here: UUIDv7, from the real time even when entries are written for another day.
    fn id(&self) -> Uuid;
    /// The laptop's own offset at present; used only while no site is known.
    fn own_offset(&self) -> FixedOffset;
}

/// The system's clock.
#[derive(Debug, Clone, Copy, Default)]
pub struct Real;

impl Clock for Real {
    #[expect(clippy::disallowed_methods, reason = "this is the one place that reads the clock")]
    fn now(&self) -> DateTime<Utc> {
        whole_seconds(Utc::now())
    }

    fn id(&self) -> Uuid {
        Uuid::now_v7()
    }

    #[expect(clippy::disallowed_methods, reason = "this is the one place that reads the zone")]
    fn own_offset(&self) -> FixedOffset {
        chrono::Local::now().offset().fix()
    }
}

/// A clock that shows a set instant, for tests and for replaying a day. Its ids are consecutive.
#[derive(Debug)]
pub struct Fixed {
    seconds: AtomicI64,
    ids: AtomicU64,
}

impl Fixed {
    /// A clock set to an instant.
    pub fn at(instant: DateTime<Utc>) -> Self {
        Self { seconds: AtomicI64::new(instant.timestamp()), ids: AtomicU64::new(0) }
    }

    /// Sets the clock to another instant, forward or back.
    pub fn set(&self, instant: DateTime<Utc>) {
        self.seconds.store(instant.timestamp(), Ordering::Relaxed);
    }

    /// Advances it by whole seconds; a negative number sets it back.
    pub fn step(&self, seconds: i64) {
        self.seconds.fetch_add(seconds, Ordering::Relaxed);
    }
}

impl Clock for Fixed {
    fn now(&self) -> DateTime<Utc> {
        DateTime::from_timestamp(self.seconds.load(Ordering::Relaxed), 0).unwrap_or_default()
    }

    fn id(&self) -> Uuid {
        let number = self.ids.fetch_add(1, Ordering::Relaxed);
        let milliseconds = u64::try_from(self.now().timestamp_millis()).unwrap_or(0);
        let mut tail = [0_u8; 10];
        for (to, from) in tail.iter_mut().skip(2).zip(number.to_be_bytes()) {
            *to = from;
        }
        uuid::Builder::from_unix_timestamp_millis(milliseconds, &tail).into_uuid()
    }

    fn own_offset(&self) -> FixedOffset {
        Utc.fix()
    }
}

/// The local time an entry written now gets: the present time of day in the site's zone, on the present day or on the day given
/// by `--on`. Without a site the laptop's own offset is used.
///
/// A local time that does not exist that day moves to the next that does; of a double one the first is taken.
pub fn stamp(clock: &dyn Clock, zone: Option<Tz>, on: Option<NaiveDate>) -> DateTime<FixedOffset> {
    let Some(zone) = zone else {
        let here = clock.now().with_timezone(&clock.own_offset());
        let moved = on.and_then(|day| here.offset().from_local_datetime(&day.and_time(here.time())).earliest());
        return moved.unwrap_or(here);
    };
    let now = clock.now().with_timezone(&zone).fixed_offset();
    match on {
        Some(day) if day != now.date_naive() => at_local(zone, day.and_time(now.time())).unwrap_or(now),
        Some(_) | None => now,
    }
}

/// The day in the site's zone; `--on` when given.
pub fn day(clock: &dyn Clock, zone: Option<Tz>, on: Option<NaiveDate>) -> NaiveDate {
    on.unwrap_or_else(|| stamp(clock, zone, None).date_naive())
}

fn whole_seconds(instant: DateTime<Utc>) -> DateTime<Utc> {
    DateTime::from_timestamp(instant.timestamp(), 0).unwrap_or(instant)
}

#[cfg(test)]
mod tests {
    use super::*;
    use chrono::{Duration, NaiveDateTime};

    fn zone(name: &str) -> Tz {
        name.parse().unwrap()
    }

    fn shown(name: &str, local: &str) -> String {
        at_local(zone(name), local.parse().unwrap()).unwrap().to_rfc3339()
    }

    #[test]
    fn a_missing_local_time_moves_to_the_next_that_exists() {
        // Clock changes: IANA time zone database.
        assert_eq!(shown("America/New_York", "2026-03-08T02:30:10"), "2026-03-08T03:00:00-04:00");
        assert_eq!(shown("America/New_York", "2026-03-08T01:59:59"), "2026-03-08T01:59:59-05:00");
        // Santiago goes forward at midnight: 00:00 to 00:59 do not exist.
        assert_eq!(shown("America/Santiago", "2025-09-07T00:00:00"), "2025-09-07T01:00:00-03:00");
        // Half an hour on Lord Howe Island.
        assert_eq!(shown("Australia/Lord_Howe", "2026-10-04T02:10:00"), "2026-10-04T02:30:00+11:00");
        // Samoa left out a whole day.
        assert_eq!(shown("Pacific/Apia", "2011-12-30T07:00:00"), "2011-12-31T00:00:00+14:00");
    }

    #[test]
    fn of_a_double_local_time_the_first() {
        assert_eq!(shown("America/New_York", "2026-11-01T01:30:00"), "2026-11-01T01:30:00-04:00");
        assert_eq!(shown("Australia/Lord_Howe", "2026-04-05T01:45:00"), "2026-04-05T01:45:00+11:00");
    }

    #[test]
    fn a_day_given_keeps_the_time_of_day_of_the_site() {
        let clock = Fixed::at("2026-11-20T12:05:07Z".parse().unwrap());
        let site = Some(zone("America/New_York"));
        assert_eq!(stamp(&clock, site, None).to_rfc3339(), "2026-11-20T07:05:07-05:00");
        let on = "2026-10-12".parse().ok();
        assert_eq!(stamp(&clock, site, on).to_rfc3339(), "2026-10-12T07:05:07-04:00");
        assert_eq!(day(&clock, site, on).to_string(), "2026-10-12");
        assert_eq!(stamp(&clock, None, on).to_rfc3339(), "2026-10-12T12:05:07+00:00");
    }

    #[test]
    fn the_second_pass_of_a_double_hour_is_not_turned_back_today() {
        // 06:30 UTC is 01:30 for the second time in New York.
        let clock = Fixed::at("2026-11-01T06:30:00Z".parse().unwrap());
        let today = "2026-11-01".parse().ok();
        assert_eq!(stamp(&clock, Some(zone("America/New_York")), today).to_rfc3339(), "2026-11-01T01:30:00-05:00");
    }

    #[test]
    fn every_minute_of_a_year_finds_its_instant() {
        for name in ["America/New_York", "America/Santiago", "Africa/Casablanca", "Europe/Amsterdam"] {
            let start: NaiveDateTime = "2026-01-01T00:00:00".parse().unwrap();
            let mut before = None;
            for quarter in 0..365 * 96 {
                let local = start + Duration::minutes(quarter * 15);
                let found = at_local(zone(name), local).unwrap();
                assert!(found.naive_local() >= local, "{name} {local}");
                assert!(before <= Some(found), "{name} {local}");
                before = Some(found);
            }
        }
    }

    #[test]
    fn ids_follow_one_another_and_are_version_7() {
        let clock = Fixed::at("2026-11-20T12:05:07Z".parse().unwrap());
        let (one, two) = (clock.id(), clock.id());
        assert!(one < two);
        assert_eq!(one.get_version_num(), 7);
        assert_eq!(Real.id().get_version_num(), 7);
        assert!(Real.id() < Real.id());
        clock.step(-2 * 86_400);
        assert_eq!(clock.now().to_rfc3339(), "2026-11-18T12:05:07+00:00");
    }
}
