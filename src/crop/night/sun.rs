//! Corrections to the solar crate's events.
//!
//! `sunrise` takes the sun's place at noon for the whole day, and holds the earth's perihelion still among the stars, so that
//! its sun falls behind by 20 minutes with each year since 2000. Together that is two to five minutes of sunset at 65°
//! north. Both are corrected in the same way: the crate is called as if the place lay so far west that its noon falls on the hour of the
//! event (and on the lag), and the answer is moved back by as much.

use super::Place;
use chrono::{DateTime, NaiveDate, TimeDelta, Utc};
use sunrise::{Coordinates, SolarDay, SolarEvent};

const DAY_SECONDS: f64 = 86_400.0;
/// Degrees a century by which the crate's perihelion falls short: 1.7195 (J. Meeus, Astronomical Algorithms, chapter 25)
/// less its own 0.3180.
const SHORT_DEGREES: f64 = 1.4015;
/// Degrees the mean sun moves in a day.
const SUN_DEGREES: f64 = 0.985_6;

/// Time the sun crosses a depression angle on a day; `None` if it never does.
pub(super) fn event_time(place: &Place, day: NaiveDate, event: SolarEvent, morning: bool) -> Option<DateTime<Utc>> {
    let lag = lag_days(day);
    let quarter = if morning { -0.25 } else { 0.25 };
    // Where the sun barely crosses, the initial guess decides; noon and midnight are its extremes.
    let guess =
        [quarter, 0.0, 2.0 * quarter].into_iter().find_map(|hour| Some((hour, asked(place, day, event, lag + hour)?)));
    let (_, mut found) = guess?;
    for _ in 0..2 {
        found = asked(place, day, event, lag + hour_of(place, day, found)).unwrap_or(found);
    }
    Some(found)
}

/// Days the crate's sun is behind.
fn lag_days(day: NaiveDate) -> f64 {
    let since = NaiveDate::from_ymd_opt(2000, 1, 1).map_or(0, |start| (day - start).num_days());
    SHORT_DEGREES / 36_525.0 * since as f64 / SUN_DEGREES
}

/// How far an instant lies from the day's mean noon at the place, in days; half a day either way at most.
fn hour_of(place: &Place, day: NaiveDate, found: DateTime<Utc>) -> f64 {
    let noon = day.and_time(chrono::NaiveTime::MIN).and_utc().timestamp() as f64
        + DAY_SECONDS * (0.5 - place.longitude / 360.0);
    ((found.timestamp() as f64 - noon) / DAY_SECONDS).clamp(-0.5, 0.5)
}

/// The crate's event with its sun evaluated `shift` days after noon.
fn asked(place: &Place, day: NaiveDate, event: SolarEvent, shift: f64) -> Option<DateTime<Utc>> {
    let west = place.longitude - 360.0 * shift;
    let turns = ((west + 180.0) / 360.0).floor();
    let there = Coordinates::new(place.latitude, 360.0f64.mul_add(-turns, west).clamp(-180.0, 180.0))?;
    #[expect(clippy::cast_possible_truncation, reason = "a lag of at most five days and half a day")]
    let day = day.checked_sub_signed(TimeDelta::days(turns as i64))?;
    #[expect(clippy::cast_possible_truncation, reason = "as above, in seconds")]
    let back = TimeDelta::seconds((shift * DAY_SECONDS).round() as i64);
    SolarDay::new(there, day).event_time(event)?.checked_sub_signed(back)
}
