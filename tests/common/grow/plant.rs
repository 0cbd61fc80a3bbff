//! Pots and plants: how much a pot holds and uses, how high it stands, how far its color is.

use super::between;
use crate::season::lot;
use benchwalk::record::{Lot, Pinch};

/// A container and how plants are grown in it. Its numbers are invented.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Size {
    pub(crate) container: &'static str,
    pub(crate) cuttings: u32,
    pub(crate) pinch: Pinch,
    pub(crate) rim_cm: f64,
    pub(crate) pot_cm: f64,
    /// Lowest and highest height at the sale, pot included, cm.
    pub(crate) sold_cm: (f64, f64),
    /// Water between soaked and wilting, mL.
    pub(crate) holds_ml: f64,
    /// Use of water against a pinched plant in a 15 cm pot.
    pub(crate) uses: f64,
    /// What one watering takes, mL per pot.
    pub(crate) watering_ml: f64,
    /// Slow-release topdressed at potting, g per pot; 0 is none.
    pub(crate) topdressed_g: f64,
    /// Pot centers after spacing, cm.
    pub(crate) centers_cm: f64,
    pub(crate) nodes_left: u32,
}

/// Use of a pinched plant in a 15 cm pot: (weeks after planting, mL a day). Pacheco-Hernandez and others 2014 (weighed pots,
/// August to November); the points between are straight lines.
const USE: [(f64, f64); 5] = [(0.0, 30.0), (1.0, 46.0), (4.0, 72.0), (10.0, 150.0), (13.0, 122.0)];

impl Size {
    /// A lot in this container, with its sizes and the height it is sold at; no slow-release in the mix.
    pub(crate) fn lot(self, code: &str) -> Lot {
        Lot {
            container: self.container.to_owned(),
            cuttings_per_pot: self.cuttings,
            pinch: self.pinch,
            rim_cm: Some(self.rim_cm),
            pot_height_cm: Some(self.pot_cm),
            height_low_cm: Some(self.sold_cm.0),
            height_high_cm: Some(self.sold_cm.1),
            slow_release_g: None,
            ..lot(code)
        }
    }

    /// Use on a usual day, mL.
    pub(crate) fn use_ml(self, day: i64) -> f64 {
        self.uses * between(&USE, day as f64 / 7.0)
    }
}

/// The level for what is left of the water: 5 soaked to 1 dry.
pub(crate) fn level(left: f64) -> u8 {
    match left {
        x if x > 0.84 => 5,
        x if x > 0.60 => 4,
        x if x > 0.38 => 3,
        x if x > 0.14 => 2,
        _ => 1,
    }
}

/// Share of the growth made after a share of the time: the three-phase form with K 10, x1 0.25, x2 0.80, Kp 8, tabulated.
const GROWN: [(f64, f64); 11] = [
    (0.0, 0.0),
    (0.05, 0.0072),
    (0.10, 0.0190),
    (0.15, 0.0385),
    (0.20, 0.0707),
    (0.25, 0.1238),
    (0.80, 0.8655),
    (0.85, 0.9210),
    (0.90, 0.9583),
    (0.95, 0.9833),
    (1.0, 1.0),
];

/// Share of the growth made after a share of the time.
pub(crate) fn grown(x: f64) -> f64 {
    between(&GROWN, x)
}

/// Bract stage after some days of short days of a plant that needs so many weeks to first pollen (first color at 56 %,
/// cyathia at 65 %: UF/IFAS 2008, scaled; full color at 86 %: house rule).
pub(crate) fn stage(short_days: i64, response_weeks: f64) -> u8 {
    stage_at(short_days as f64 / (7.0 * response_weeks))
}

/// Bract stage after a share of the way to first pollen.
pub(crate) fn stage_at(share: f64) -> u8 {
    match share {
        x if x < 0.56 => 1,
        x if x < 0.65 => 2,
        x if x < 0.86 => 3,
        x if x < 1.0 => 4,
        _ => 5,
    }
}

/// Root class of a share of brown roots, percent.
pub(crate) fn root_class(brown: f64) -> u8 {
    match brown {
        x if x < 3.0 => 0,
        x if x <= 10.0 => 1,
        x if x <= 25.0 => 2,
        x if x <= 50.0 => 3,
        x if x <= 75.0 => 4,
        _ => 5,
    }
}
