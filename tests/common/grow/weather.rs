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
    /// How much warmer than usual the house is by day and by night, °C, from August 1 on; empty where it never is.
    warmer: Vec<(f64, f64)>,
}

/// Days from August 1 that are known.
const DAYS: usize = 160;

/// The place of a day among them.
fn at(day: NaiveDate) -> usize {
    usize::try_from(days(date(8, 1), day)).unwrap_or(0).min(DAYS - 1)
}

impl Weather {
    pub(crate) fn new(rng: &mut Rng) -> Self {
        let mut spell = 0.0;
        let sun = (0..DAYS).map(|_| {
            spell = 0.65 * spell + 0.19 * rng.normal();
            (1.0 + spell).clamp(0.5, 1.4)
        });
        Self { sun: sun.collect(), warmer: Vec::new() }
    }

    /// A dull spell, put in by hand.
    pub(crate) fn dull(&mut self, from: NaiveDate, to: NaiveDate, sun: f64) {
        self.sun[at(from)..=at(to)].fill(sun);
    }

    /// A house of its own: its level against the usual one (SD 1.0 °C), and weeks that hang together (SD 1.2 °C); vents and
    /// heating keep it within 2 °C.
    pub(crate) fn wander(&mut self, rng: &mut Rng) {
        let (level, mut week) = (rng.normal(), 0.0);
        self.warmer = (0..DAYS)
            .map(|day| {
                if day % 7 == 0 {
                    week = 0.7 * week + 0.86 * rng.normal();
                }
                let by = (level + week).clamp(-2.0, 2.0);
                (by, by)
            })
            .collect();
    }

    /// Days and nights warmer (or cooler) by so much, °C, in place of what they would have been.
    pub(crate) fn warm(&mut self, from: NaiveDate, to: NaiveDate, by: (f64, f64)) {
        self.warmer.resize(DAYS, (0.0, 0.0));
        self.warmer[at(from)..=at(to)].fill(by);
    }

    fn sun(&self, day: NaiveDate) -> f64 {
        self.sun[at(day)]
    }

    /// How much a crop draws on a day against a usual day of mid-August.
    pub(crate) fn draw(&self, day: NaiveDate) -> f64 {
        between(&SEASON, days(date(8, 1), day) as f64) * (0.35 + 0.65 * self.sun(day))
    }

    /// Mean by day and by night, °C, and humidity, %, in a heated and vented house.
    pub(crate) fn climate(&self, day: NaiveDate) -> (f64, f64, f64) {
        let late = between(&[(16.0, 0.0), (47.0, 1.0), (77.0, 2.2), (108.0, 2.6)], days(date(8, 1), day) as f64);
        let sun = self.sun(day) - 1.0;
        let (by_day, by_night) = self.warmer.get(at(day)).copied().unwrap_or_default();
        (25.2 - late + 2.6 * sun + by_day, 20.2 - late + 0.6 * sun + by_night, 66.0 + 1.5 * late - 14.0 * sun)
    }
}
