//! Sun and warmth, day by day: bright and dull days come in spells.

use super::{between, date, days};
use crate::rng::Rng;
use chrono::NaiveDate;

/// Days after August 1, and how much a crop draws there against mid-August (from memory: light halves from August to
/// November, water use falls less, because the houses are heated).
const SEASON: [(f64, f64); 5] = [(16.0, 1.0), (47.0, 0.93), (77.0, 0.82), (108.0, 0.72), (130.0, 0.68)];

pub(crate) struct Weather {
    /// From August 1 on: 1 is a usual day.
    sun: Vec<f64>,
}

impl Weather {
    pub(crate) fn new(rng: &mut Rng) -> Self {
        let mut spell = 0.0;
        let sun = (0..160).map(|_| {
            spell = 0.65 * spell + 0.19 * rng.normal();
            (1.0 + spell).clamp(0.5, 1.4)
        });
        Self { sun: sun.collect() }
    }

    /// A dull spell, put in by hand.
    pub(crate) fn dull(&mut self, from: NaiveDate, to: NaiveDate, sun: f64) {
        let from = usize::try_from(days(date(8, 1), from)).unwrap();
        let to = usize::try_from(days(date(8, 1), to)).unwrap();
        self.sun[from..=to].fill(sun);
    }

    fn sun(&self, day: NaiveDate) -> f64 {
        let n = usize::try_from(days(date(8, 1), day)).unwrap_or(0);
        self.sun[n.min(self.sun.len() - 1)]
    }

    /// How much a crop draws on a day against a usual day of mid-August.
    pub(crate) fn draw(&self, day: NaiveDate) -> f64 {
        between(&SEASON, days(date(8, 1), day) as f64) * (0.35 + 0.65 * self.sun(day))
    }

    /// Mean by day and by night, °C, and humidity, %, in a heated and vented house.
    pub(crate) fn climate(&self, day: NaiveDate) -> (f64, f64, f64) {
        let late = between(&[(16.0, 0.0), (47.0, 1.0), (77.0, 2.2), (108.0, 2.6)], days(date(8, 1), day) as f64);
        let sun = self.sun(day) - 1.0;
        (25.2 - late + 2.6 * sun, 20.2 - late + 0.6 * sun, 66.0 + 1.5 * late - 14.0 * sun)
    }
}
