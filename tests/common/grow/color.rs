//! How the color of a lot truly comes by the warmth of its house.

use super::between;
use super::plant::stage_at;

/// A lot on its way to color: slower where it is cool, flat from 21.1 to 23.9 °C, slower again in heat. The slopes are near the
/// published ones, but each lot has its own: a truth that need not follow the program's.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Color {
    /// The mean at which its weeks hold, °C.
    usual: f64,
    /// Usual days this lot needs for one.
    own: f64,
    /// Lost a day for each °C over 23.9 °C.
    heat: f64,
    /// Usual days gone.
    gone: f64,
}

/// Hours of day by days after August 1, from memory for 43° north.
const DAY_HOURS: [(f64, f64); 3] = [(50.0, 12.2), (80.0, 10.8), (116.0, 9.4)];

impl Color {
    pub(crate) const fn new(usual: f64, own: f64, heat: f64) -> Self {
        Self { usual, own, heat, gone: 0.0 }
    }

    fn worth(&self, mean: f64) -> f64 {
        if mean < 21.1 { (mean - 3.0) / 18.1 } else { 1.0 - self.heat * (mean - 23.9).max(0.0) }
    }

    /// One day of short days with these means by day and by night, °C; so many days after August 1.
    pub(crate) fn pass(&mut self, (day, night): (f64, f64), after: f64) {
        let share = between(&DAY_HOURS, after) / 24.0;
        let worth = self.worth(day * share + night * (1.0 - share)) / self.worth(self.usual);
        self.gone += worth.clamp(0.05, 1.1) / self.own;
    }

    /// The bract stage of a cultivar of so many weeks.
    pub(crate) fn stage(&self, response_weeks: f64) -> u8 {
        stage_at(self.gone / (7.0 * response_weeks))
    }
}
