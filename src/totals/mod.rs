//! What a season came to, as data: pots sold against the orders, losses by cause, the time the round took, materials, and the
//! plan that the next season may start from. Only what the record says: what is not written is counted as not written, never
//! estimated.

mod labor;
mod losses;
mod materials;
mod next;
mod sales;

pub use labor::{Labor, PAUSE_MIN, Round, Week};
pub use losses::{Cause, losses};
pub use materials::{Given, Materials, Product, Substance};
pub use next::{LotDates, Next, NextError, Shift};
pub use sales::{DayGrades, DaySales, LotSales, OrderMet, sales};

use crate::season::Season;
use crate::units::System;
use chrono::NaiveDate;
use serde::Serialize;

/// Everything a season came to up to the end of a day.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Totals {
    /// The site.
    pub site: String,
    /// The units of the site; the figures here are metric, as their names say.
    pub units: System,
    /// The last day that counts.
    pub on: NaiveDate,
    /// Pots of each lot, by lot.
    pub lots: Vec<LotSales>,
    /// Pots lost by cause, most first.
    pub losses: Vec<Cause>,
    /// The time the round took.
    pub labor: Labor,
    /// Growth regulators, feed and water.
    pub materials: Materials,
}

impl Totals {
    /// Of a season up to the end of a day; `None` where it has no site.
    pub fn of(season: &Season, on: NaiveDate) -> Option<Self> {
        let site = season.site()?;
        Some(Self {
            site: site.name.clone(),
            units: site.units,
            on,
            lots: sales(season, on),
            losses: losses(season, on),
            labor: Labor::of(season, on),
            materials: Materials::of(season, on),
        })
    }
}
