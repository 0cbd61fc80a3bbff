//! When the color comes: first color, cyathia, full color and first pollen, as ranges, moved by what has been seen.
//!
//! The count starts at the start of short days and runs for the response weeks the grower gives for the cultivar at the
//! site; published response groups seldom fit at other sites, so it is an input to mend from last year's dates.
//! Temperature moves it by a table that is read between its rows and never beyond them.

mod pace;
pub mod response;

pub use pace::{Pace, PaceBasis, TABLE_F, pace};

use super::{CropError, Days, Estimate, day_after, within};
use crate::units::Temperature;
use chrono::NaiveDate;

/// First color as a share of the days from SD to first pollen: 30 of 54 days at 70 °F (J. Barrett, University of Florida,
/// about 2008; one mid-season red, scaled to others: low confidence).
pub const FIRST_COLOR_SHARE: f64 = 0.56;
/// Cyathia visible: 35 of the same 54 days.
pub const CYATHIA_SHARE: f64 = 0.65;
/// Bracts fully colored (house rule; no published figure was found).
pub const FULL_COLOR_SHARE: f64 = 0.86;
/// The response weeks taken as possible (published ones run from 6 to 13).
pub const RESPONSE_WEEKS: (f64, f64) = (4.0, 20.0);

/// A milestone of the crop, in order.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Milestone {
    /// Bracts start to color: stage 2.
    FirstColor,
    /// Cyathia visible: stage 3.
    Cyathia,
    /// Bracts fully colored: stage 4.
    FullColor,
    /// The first cyathia shed pollen: stage 5.
    FirstPollen,
}

impl Milestone {
    /// All four, in order.
    pub const ALL: [Self; 4] = [Self::FirstColor, Self::Cyathia, Self::FullColor, Self::FirstPollen];

    /// Its share of the days from the start of short days to first pollen.
    pub const fn share(self) -> f64 {
        match self {
            Self::FirstColor => FIRST_COLOR_SHARE,
            Self::Cyathia => CYATHIA_SHARE,
            Self::FullColor => FULL_COLOR_SHARE,
            Self::FirstPollen => 1.0,
        }
    }

    /// The bract stage at which it is reached (Kansas State's scale of 1 to 7).
    pub const fn stage(self) -> u8 {
        match self {
            Self::FirstColor => 2,
            Self::Cyathia => 3,
            Self::FullColor => 4,
            Self::FirstPollen => 5,
        }
    }

    /// In the words of the trade.
    pub const fn words(self) -> &'static str {
        match self {
            Self::FirstColor => "first color",
            Self::Cyathia => "cyathia visible",
            Self::FullColor => "full color",
            Self::FirstPollen => "first pollen",
        }
    }
}

/// One look at the bracts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Look {
    /// The day.
    pub day: NaiveDate,
    /// The bract stage, 1 to 7 (Kansas State's scale).
    pub stage: u8,
}

/// The four milestones, each first, likely and last day. One that has been seen is one day: the day it was first seen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Forecast {
    /// Bracts start to color.
    pub first_color: Days,
    /// Cyathia visible.
    pub cyathia: Days,
    /// Bracts fully colored; the crop can be sold from here on.
    pub full_color: Days,
    /// The first pollen.
    pub first_pollen: Days,
    /// How the range was made from the temperature.
    pub pace: Pace,
}

impl Forecast {
    /// One of the four.
    pub const fn of(&self, milestone: Milestone) -> Days {
        match milestone {
            Milestone::FirstColor => self.first_color,
            Milestone::Cyathia => self.cyathia,
            Milestone::FullColor => self.full_color,
            Milestone::FirstPollen => self.first_pollen,
        }
    }
}

/// Forecasts the color of a lot or bench.
///
/// - `sd`: start of short days; `response_weeks`: from it to first pollen, as known for the cultivar at the site.
/// - `temperature`: the mean over 24 hours since then; none when not known. See [`pace`] for what it does.
/// - `looks`: bract stages seen, in any order. A milestone seen is set to the first day its stage (or a later one) was
///   seen; those after it are counted on from there. One that was still missing at the last look is moved past it, and
///   the later ones with it (house rule; at 80 °F a crop 8 days late at the bud was 11 late at pollen, J. Barrett, about
///   2008, so a crop that is late does not catch up). Looks before `sd` do not count.
///
/// # Errors
/// [`CropError::Impossible`] for response weeks outside [`RESPONSE_WEEKS`], a stage outside 1 to 7 or a temperature no
/// house has; [`CropError::NoSuchDay`] when a day leaves the years 1900 to 2199.
pub fn forecast(
    sd: NaiveDate,
    response_weeks: f64,
    temperature: Option<Temperature>,
    looks: &[Look],
) -> Result<Forecast, CropError> {
    let weeks = within("the response", response_weeks, RESPONSE_WEEKS.0, RESPONSE_WEEKS.1, "weeks")?;
    for look in looks {
        within("bract stage", f64::from(look.stage), 1.0, 7.0, "")?;
    }
    let pace = pace(weeks, temperature)?;
    let days = Estimate::new(weeks * 7.0 * pace.low, weeks * 7.0 * pace.likely, weeks * 7.0 * pace.high);
    let mut walk = Walk { sd, days, from: Estimate::new(0.0, 0.0, 0.0), share: 0.0 };
    Ok(Forecast {
        first_color: walk.next(Milestone::FirstColor, looks)?,
        cyathia: walk.next(Milestone::Cyathia, looks)?,
        full_color: walk.next(Milestone::FullColor, looks)?,
        first_pollen: walk.next(Milestone::FirstPollen, looks)?,
        pace,
    })
}

/// Projects the milestones in turn: `from` is the last known point (days after SD), at `share` of the way.
struct Walk {
    sd: NaiveDate,
    days: Estimate<f64>,
    from: Estimate<f64>,
    share: f64,
}

impl Walk {
    fn next(&mut self, milestone: Milestone, looks: &[Look]) -> Result<Days, CropError> {
        let counted = looks.iter().filter(|l| l.day >= self.sd);
        let reached = counted.clone().filter(|l| l.stage >= milestone.stage()).map(|l| l.day).min();
        let share = milestone.share();
        if let Some(day) = reached {
            let offset = (day - self.sd).num_days() as f64;
            self.from = Estimate::new(offset, offset, offset);
            self.share = share;
            return Ok(Estimate::new(day, day, day));
        }
        let ahead = |from: f64, days: f64| (share - self.share).mul_add(days, from);
        let mut at = Estimate::new(
            ahead(self.from.low, self.days.low),
            ahead(self.from.likely, self.days.likely),
            ahead(self.from.high, self.days.high),
        );
        if let Some(last) = counted.map(|l| l.day).max() {
            let earliest = (last - self.sd).num_days() as f64 + 1.0;
            let late = (earliest - at.likely).max(0.0);
            at = Estimate::new(at.low.max(earliest), at.likely + late, at.high + late);
            if late > 0.0 {
                self.from = at;
                self.share = share;
            }
        }
        at.try_map(|offset| day_after(milestone.words(), self.sd, offset))
    }
}

#[cfg(test)]
mod tests;
