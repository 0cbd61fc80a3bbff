//! The turn of the season: the first long night after midsummer, and a lot's start of short days.

use super::{Night, Place, night};
use crate::crop::{CropError, within};
use crate::terms::NightConvention;
use chrono::{Datelike, Days, NaiveDate};

/// How a lot comes into its short days.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Nights {
    /// By the season alone.
    Natural,
    /// Covered with black cloth from this evening on.
    BlackoutFrom(NaiveDate),
    /// Lit at night up to and including this night.
    LightsUntil(NaiveDate),
}

/// Days from the midsummer solstice to the midwinter one.
const HALF_YEAR: u64 = 183;

/// The first day after midsummer whose night reaches so many minutes; `None` when not one does before midwinter.
///
/// Midsummer is 21 June in the north (the equator counts with it) and 21 December of the year **before** `year` in the
/// south, so that the day found is the one of the crop that finishes in `year`. Near the equator every night may be long
/// enough; then it is the day after midsummer. An unbroken (polar) night is long enough, a night that never comes is not.
///
/// Table: our own of eight latitudes, from sun geometry; the trade's dates are "some time in September" (R. Kobayashi) to
/// "mid September to early October" (Millar and Faust, Clemson 2022).
///
/// # Errors
/// [`CropError::Impossible`] for minutes outside 0 to 1,440; [`CropError::NoSuchDay`] outside the years 1901 to 2199.
pub fn first_night_reaching(
    place: &Place,
    year: i32,
    minutes: f64,
    convention: NightConvention,
) -> Result<Option<NaiveDate>, CropError> {
    let wanted = within("the night wanted", minutes, 0.0, 1_440.0, "minutes")?;
    let midsummer = if place.is_northern() {
        NaiveDate::from_ymd_opt(year, 6, 21)
    } else {
        year.checked_sub(1).and_then(|y| NaiveDate::from_ymd_opt(y, 12, 21))
    };
    let midsummer = midsummer.ok_or(CropError::NoSuchDay { what: "midsummer" })?;
    let after = |days| midsummer.checked_add_days(Days::new(days)).ok_or(CropError::NoSuchDay { what: "midwinter" });
    let long_enough = |days| -> Result<bool, CropError> {
        Ok(match night(place, after(days)?, convention)? {
            Night::Minutes(m) => m >= wanted,
            Night::Unbroken => true,
            Night::None => false,
        })
    };
    if !long_enough(HALF_YEAR)? {
        return Ok(None);
    }
    // Nights only lengthen until midwinter: halve the days between one that is not long enough and one that is.
    let (mut short, mut long) = (0, HALF_YEAR);
    while long - short > 1 {
        let between = short.midpoint(long);
        if long_enough(between)? {
            long = between;
        } else {
            short = between;
        }
    }
    after(long).map(Some)
}

/// A lot's start of short days (SD): the day its response weeks are counted from.
///
/// - natural: the first night that reaches `minutes` in the half-year of lengthening nights that ends at the first midwinter
///   after planting; planting itself when that is later;
/// - black cloth: the day it is first drawn;
/// - lights: the day after the last lit night, or the natural day when that is later, since long nights come only then.
///
/// `None` when the natural night never gets that long. Basis: R. Kobayashi, Poinsettia Flower Initiation (11 h 40 min,
/// [`super::CRITICAL_NIGHT_MINUTES`]); which of two dates counts is our reading.
///
/// # Errors
/// As [`first_night_reaching`].
pub fn start_of_short_days(
    place: &Place,
    planted: NaiveDate,
    nights: Nights,
    minutes: f64,
    convention: NightConvention,
) -> Result<Option<NaiveDate>, CropError> {
    let natural = || -> Result<Option<NaiveDate>, CropError> {
        let found = first_night_reaching(place, season_of(place, planted), minutes, convention)?;
        Ok(found.map(|day| day.max(planted)))
    };
    match nights {
        Nights::Natural => natural(),
        Nights::BlackoutFrom(day) => Ok(Some(day.max(planted))),
        Nights::LightsUntil(last) => {
            let dark = last.succ_opt().ok_or(CropError::NoSuchDay { what: "the day after the lights" })?;
            Ok(natural()?.map(|day| day.max(dark)))
        }
    }
}

/// The year of the first midwinter on or after a day (north: 21 December; south: 21 June).
fn season_of(place: &Place, planted: NaiveDate) -> i32 {
    let (month, day) = (planted.month(), planted.day());
    let past = if place.is_northern() { (month, day) > (12, 21) } else { (month, day) > (6, 21) };
    planted.year().saturating_add(i32::from(past))
}

/// Days a crop falls behind for missed nights within the first six weeks of short days: least and most.
///
/// One day a night (newspaper column, 2020) to two (W. Upham, Kansas State, on reblooming): a range, not a point.
///
/// ```
/// assert_eq!(benchwalk::crop::night::delay_of_missed_nights(3), (3, 6));
/// ```
pub const fn delay_of_missed_nights(nights: u32) -> (u32, u32) {
    (nights, nights.saturating_mul(2))
}
