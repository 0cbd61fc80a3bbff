//! When the color comes: first color, cyathia, full color and first pollen, as ranges, moved by what has been seen and by the
//! temperatures written.
//!
//! The count starts at the start of short days and runs for the response weeks the grower gives for the cultivar at the
//! site; published response groups seldom fit at other sites, so it is an input to mend from last year's dates. Every day counts
//! by its mean temperature ([`response`]).

pub mod response;

pub use response::MOST_DAYS;

use super::{CropError, Days, Estimate, day_after, within};
use crate::crop::climate::AIR_C;
use crate::units::Temperature;
use chrono::NaiveDate;
use response::{Counter, House, KNOWN_C, Seen, USUAL_C};

/// First color as a share of the days from SD to first pollen: 30 of 54 days at 70 °F (J. Barrett, University of Florida,
/// about 2008; one mid-season red, scaled to others: low confidence).
pub const FIRST_COLOR_SHARE: f64 = 30.0 / 54.0;
/// Cyathia visible: 35 of the same 54 days.
pub const CYATHIA_SHARE: f64 = 35.0 / 54.0;
/// Bracts fully colored (house rule; no published figure was found).
pub const FULL_COLOR_SHARE: f64 = 0.86;
/// The response weeks taken as possible (published ones run from 6 to 13).
pub const RESPONSE_WEEKS: (f64, f64) = (4.0, 20.0);
/// The means at which a response can hold, °C (house rule: 61 to 75 °F).
pub const RESPONSE_C: (f64, f64) = (16.0, 24.0);

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

/// How long a cultivar takes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Response {
    /// From the start of short days to first pollen, weeks, as known for the cultivar at the site.
    pub weeks: f64,
    /// The mean over 24 hours at which these weeks hold; 70 °F (21.1 °C) where it is not known.
    pub mean: Option<Temperature>,
}

/// What of the temperatures a forecast goes by.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Temperatures {
    /// The mean over 24 hours at which the response is taken to hold.
    pub usual: Temperature,
    /// True where nobody gave that mean: 70 °F is taken.
    pub assumed: bool,
    /// Days since the start of short days with a mean written.
    pub written: usize,
    /// The mean of the last week, which is carried on; `None` where too little is written of it: usual days are taken.
    pub carried: Option<Temperature>,
    /// True where a day was outside the means that anything is published of (12 to 30 °C): it may be later than the forecast says.
    pub beyond: bool,
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
    /// What of the temperatures it goes by.
    pub temperatures: Temperatures,
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
/// - `sd`: start of short days.
/// - `days_c`: the mean over 24 hours of each day since then, °C; `None` where it is not written. The days to come follow its end.
/// - `looks`: bract stages seen, in any order. A milestone seen is set to the first day its stage (or a later one) was
///   seen; those after it are counted on from there. One that was still missing at the last look is moved past it, and
///   the later ones with it (house rule; at 80 °F a crop 8 days late at the bud was 11 late at pollen, J. Barrett, about
///   2008, so a crop that is late does not catch up). Looks before `sd` do not count.
///
/// # Errors
/// [`CropError::Impossible`] for response weeks outside [`RESPONSE_WEEKS`] or their mean outside [`RESPONSE_C`], a stage outside
/// 1 to 7 or a temperature no house has; [`CropError::NoSuchDay`] when a day leaves the years 1900 to 2199.
pub fn forecast(
    sd: NaiveDate,
    response: Response,
    days_c: &[Option<f64>],
    looks: &[Look],
) -> Result<Forecast, CropError> {
    let weeks = within("the response", response.weeks, RESPONSE_WEEKS.0, RESPONSE_WEEKS.1, "weeks")?;
    let usual = response.mean.map_or(USUAL_C, Temperature::c);
    let usual_c = within("the temperature of the response", usual, RESPONSE_C.0, RESPONSE_C.1, "°C")?;
    for look in looks {
        within("bract stage", f64::from(look.stage), 1.0, 7.0, "")?;
    }
    let mut written = 0;
    let mut beyond = false;
    for c in days_c.iter().flatten() {
        within("mean temperature", *c, AIR_C.0, AIR_C.1, "°C")?;
        written += 1;
        beyond |= !(KNOWN_C.0..=KNOWN_C.1).contains(c);
    }
    let counter = House { response_days: weeks * 7.0, usual_c, days_c }.counter();
    let temperatures = Temperatures {
        usual: Temperature::from_c(usual_c),
        assumed: response.mean.is_none(),
        written,
        carried: counter.carried_c().map(Temperature::from_c),
        beyond,
    };
    let mut walk = Walk { sd, counter, looks, from: Seen::NOTHING, seen_share: 0.0, ahead: None };
    // Where first color comes after the cyathia it is looked for after them.
    let (first_color, cyathia) = if counter.is_hot_start() && walk.reached(Milestone::FirstColor).is_none() {
        let cyathia = walk.next(Milestone::Cyathia)?;
        (walk.next(Milestone::FirstColor)?, cyathia)
    } else {
        (walk.next(Milestone::FirstColor)?, walk.next(Milestone::Cyathia)?)
    };
    Ok(Forecast {
        first_color,
        cyathia,
        full_color: walk.next(Milestone::FullColor)?,
        first_pollen: walk.next(Milestone::FirstPollen)?,
        temperatures,
    })
}

/// Projects the milestones in turn.
struct Walk<'a> {
    sd: NaiveDate,
    counter: Counter<'a>,
    looks: &'a [Look],
    /// The last known point: a stage seen, or one moved past the look that missed it.
    from: Seen,
    /// The share of the last stage seen.
    seen_share: f64,
    /// The milestones counted from there, once they are asked for.
    ahead: Option<[Estimate<f64>; 4]>,
}

impl Walk<'_> {
    /// The first day on which a milestone, or a later stage, was seen.
    fn reached(&self, milestone: Milestone) -> Option<NaiveDate> {
        self.counted().filter(|look| look.stage >= milestone.stage()).map(|look| look.day).min()
    }

    fn counted(&self) -> impl Iterator<Item = &Look> {
        self.looks.iter().filter(|look| look.day >= self.sd)
    }

    /// The count begins again at a day since the start of short days.
    fn begin(&mut self, day: f64, share: f64) {
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held within a few thousand days")]
        let day = day.clamp(0.0, 9_999.0) as usize;
        self.from = Seen { day, share: share.max(self.from.share) };
        self.ahead = None;
    }

    fn next(&mut self, milestone: Milestone) -> Result<Days, CropError> {
        let share = self.counter.share_seen(milestone);
        if let Some(day) = self.reached(milestone) {
            self.begin((day - self.sd).num_days() as f64, share);
            self.seen_share = self.from.share;
            return Ok(Estimate::new(day, day, day));
        }
        let (counter, from, seen_share) = (self.counter, self.from, self.seen_share);
        let [color, cyathia, full, pollen] = *self.ahead.get_or_insert_with(|| counter.milestones(from, seen_share));
        let mut at = match milestone {
            Milestone::FirstColor => color,
            Milestone::Cyathia => cyathia,
            Milestone::FullColor => full,
            Milestone::FirstPollen => pollen,
        };
        // After a hot start cyathia are there before the first color: a look without color does not say that they are missing,
        // and one with color holds back nothing after them.
        let before_color = milestone == Milestone::Cyathia && counter.is_hot_start();
        let hidden = before_color && self.reached(Milestone::FirstColor).is_none();
        if let Some(last) = self.counted().map(|look| look.day).max().filter(|_| !hidden) {
            let earliest = (last - self.sd).num_days() as f64 + 1.0;
            let late = (earliest - at.likely).max(0.0);
            at = Estimate::new(at.low.max(earliest), at.likely + late, at.high + late);
            if late > 0.0 && !before_color {
                self.begin(earliest, share);
            }
        }
        at.try_map(|offset| day_after(milestone.words(), self.sd, offset))
    }
}

#[cfg(test)]
mod tests;
