//! How the color of a lot truly comes: by the calendar, or by the warmth of its house.

use super::plant::stage_at;

/// A lot on its way to color by the warmth of each day: slower where it is cool, flat from 21.1 to 23.9 °C, slower again in heat. The
/// slopes are near the published ones, but this lot's own: a truth that need not follow the program's.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Color {
    /// Usual days this lot needs for one.
    pub(crate) own: f64,
    /// Lost a day for each °C over 23.9 °C.
    pub(crate) heat: f64,
    /// Usual days gone.
    gone: f64,
}

impl Color {
    pub(crate) const fn new(own: f64, heat: f64) -> Self {
        Self { own, heat, gone: 0.0 }
    }

    /// One day of short days at this mean over 24 hours, °C.
    pub(crate) fn pass(&mut self, mean: f64) {
        let worth = if mean < 21.1 { (mean - 3.0) / 18.1 } else { 1.0 - self.heat * (mean - 23.9).max(0.0) };
        self.gone += worth.clamp(0.05, 1.0) / self.own;
    }

    /// The bract stage of a cultivar of so many weeks.
    pub(crate) fn stage(&self, response_weeks: f64) -> u8 {
        stage_at(self.gone / (7.0 * response_weeks))
    }
}
