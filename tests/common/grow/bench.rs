//! One bench of pots through the season: what is truly so, whether or not somebody looks.

use super::plant::{Size, level, root_class};
use super::weather::Weather;
use crate::rng::Rng;
use chrono::NaiveDate;

/// What happens to a bench beside the weather.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Trouble {
    /// A line leaks: soaked every morning.
    pub(crate) leaks: bool,
    /// Water stands under the pots: the base stays soaked while the top dries.
    pub(crate) base_stands: bool,
    /// Draws this much more than its neighbors (a fan, an edge).
    pub(crate) drier: f64,
}

#[derive(Debug, Clone)]
pub(crate) struct Stand {
    pub(crate) size: Size,
    pub(crate) planted: NaiveDate,
    /// Share of the water left, 0 to 1.
    pub(crate) left: f64,
    /// Days on end that the mix did not dry.
    pub(crate) soaked_days: f64,
    /// Days on end with no water left.
    pub(crate) dry_days: u32,
    /// Share of brown roots of the worst pot, percent.
    pub(crate) brown: f64,
    /// Share of plants with whitefly.
    pub(crate) whitefly: f64,
    /// Draws this much of the usual.
    pace: f64,
    /// How fast its roots give in.
    weakness: f64,
    /// Six tagged plants, cm from the mean.
    pub(crate) plants: [f64; 6],
    pub(crate) trouble: Trouble,
}

impl Stand {
    pub(crate) fn new(size: Size, planted: NaiveDate, rng: &mut Rng) -> Self {
        let bench = 0.4 * rng.normal();
        let plants = std::array::from_fn(|_| bench + 0.55 * rng.normal());
        Self {
            size,
            planted,
            left: 1.0,
            soaked_days: 0.0,
            dry_days: 0,
            brown: 0.0,
            whitefly: 0.0,
            pace: 1.0 + 0.05 * rng.normal(),
            weakness: (1.0 + 0.25 * rng.normal()).max(0.5),
            plants,
            trouble: Trouble::default(),
        }
    }

    /// Pots taken to another bench: they go on as they were, but dry at a pace of their own.
    pub(crate) fn divided(&self, rng: &mut Rng) -> Self {
        let plants = std::array::from_fn(|i| self.plants[i] + 0.3 * rng.normal());
        Self { pace: 1.0 + 0.05 * rng.normal(), plants, trouble: Trouble::default(), ..self.clone() }
    }

    /// From one morning to the next.
    pub(crate) fn pass(&mut self, day: NaiveDate, weather: &Weather) {
        let age = super::days(self.planted, day);
        let draw = self.pace * (1.0 + self.trouble.drier) * weather.draw(day);
        self.left = (self.left - draw * self.size.use_ml(age) / self.size.holds_ml).max(0.0);
        self.dry_days = if self.left > 0.0 { 0 } else { self.dry_days + 1 };
        if self.trouble.leaks {
            self.left = self.left.max(0.92);
        }
        if self.left > 0.60 || self.trouble.base_stands {
            self.soaked_days += 1.0;
        } else {
            self.soaked_days = 0.0;
            self.brown = (self.brown - 0.4).max(0.0);
        }
        // From memory: roots bear about five days without air, then brown faster and faster.
        let over = self.soaked_days - 5.0;
        if over > 0.0 {
            self.brown = (self.brown + self.weakness * (0.9 + 0.25 * over)).min(100.0);
        }
        self.whitefly = (self.whitefly * (1.0 + 0.11 * (1.0 - self.whitefly))).min(1.0);
    }

    pub(crate) fn water(&mut self) {
        self.left = 1.0;
    }

    /// Water level by lift, truly.
    pub(crate) fn level(&self) -> u8 {
        level(self.left)
    }

    /// Water level at the base, truly: 5 only where water stands.
    pub(crate) fn base(&self) -> u8 {
        if self.trouble.base_stands || self.trouble.leaks { 5 } else { self.level().min(4) }
    }

    /// Root class of the worst pot, truly.
    pub(crate) fn roots(&self) -> u8 {
        root_class(self.brown)
    }
}
