//! The plan: where the crop stands and what it is meant to become. Plan lines are revised, never overwritten.

use super::{Entry, Nights, Pinch, Region};
use crate::units::System;
use chrono::NaiveDate;
use chrono_tz::Tz;

/// The place of the season: one site, one file.
#[derive(Debug, Clone, PartialEq)]
pub struct Site {
    /// Its name.
    pub name: String,
    /// Degrees, north positive.
    pub latitude: f64,
    /// Degrees, east positive.
    pub longitude: f64,
    /// IANA time zone.
    pub time_zone: Tz,
    /// What the site reads and types.
    pub units: System,
    /// Climate.
    pub region: Region,
    /// Houses that get little light and dry slowly.
    pub dull_houses: Vec<String>,
    /// The site's own text shown with the cautions.
    pub emergency: Option<String>,
    /// Revision of this line, from 1.
    pub rev: u32,
}

/// Plants of one cultivar, one container and one planting date.
#[derive(Debug, Clone, PartialEq)]
pub struct Lot {
    /// Its code.
    pub lot: String,
    /// Color and response, in words.
    pub cultivar: String,
    /// The container, in words (`6 in`).
    pub container: String,
    /// Cuttings in one pot.
    pub cuttings_per_pot: u32,
    /// Pots of the lot.
    pub pots: u32,
    /// Planting day; day 0 of the crop.
    pub planted: NaiveDate,
    /// Pinch planned.
    pub pinch: Pinch,
    /// Weeks from the start of short days to first pollen.
    pub response_weeks: f64,
    /// How the long nights come about.
    pub nights: Nights,
    /// The sale: the day it must be ready.
    pub ready_by: NaiveDate,
    /// Diameter of the rim, cm.
    pub rim_cm: Option<f64>,
    /// Height of the pot, cm.
    pub pot_height_cm: Option<f64>,
    /// First night under cloth (evening's date), for `blackout`.
    pub blackout_from: Option<NaiveDate>,
    /// Last night with lamps, for `lights`.
    pub lights_until: Option<NaiveDate>,
    /// Least finished height, pot included, cm.
    pub height_low_cm: Option<f64>,
    /// Greatest finished height, pot included, cm.
    pub height_high_cm: Option<f64>,
    /// N of the constant feed and water together, ppm.
    pub feed_n_ppm: Option<f64>,
    /// Mg of the constant feed and water together, ppm.
    pub feed_mg_ppm: Option<f64>,
    /// Mo of the constant feed and water together, ppm.
    pub feed_mo_ppm: Option<f64>,
    /// Slow-release fertilizer mixed in or given at potting, g a pot.
    pub slow_release_g: Option<f64>,
    /// True where calcium sprays are wanted.
    pub calcium: bool,
    /// Revision of this line, from 1.
    pub rev: u32,
}

/// The smallest place that is scored.
#[derive(Debug, Clone, PartialEq)]
pub struct Bench {
    /// Its code.
    pub bench: String,
    /// The house it stands in.
    pub house: String,
    /// Its place in the walk, lowest first.
    pub order: u32,
    /// Its area, m2.
    pub area_m2: Option<f64>,
    /// Revision of this line, from 1.
    pub rev: u32,
}

/// Where pots are first set down.
#[derive(Debug, Clone, PartialEq)]
pub struct Placement {
    /// The bench.
    pub bench: String,
    /// The lot.
    pub lot: String,
    /// Pots set down; 0 in a later revision takes the placement back.
    pub pots: u32,
    /// The day.
    pub from: NaiveDate,
    /// Revision of this line, from 1.
    pub rev: u32,
}

/// Pots promised for a day.
#[derive(Debug, Clone, PartialEq)]
pub struct Order {
    /// The lot.
    pub lot: String,
    /// The day.
    pub date: NaiveDate,
    /// Pots promised.
    pub pots: u32,
    /// Revision of this line, from 1.
    pub rev: u32,
}

/// One line of a journal after its first.
#[derive(Debug, Clone, PartialEq)]
pub enum Line {
    /// The site.
    Site(Site),
    /// A lot.
    Lot(Lot),
    /// A bench.
    Bench(Bench),
    /// Pots set down.
    Placement(Placement),
    /// Pots promised.
    Order(Order),
    /// A finding or work.
    Entry(Entry),
}

/// Every plan line kept, all revisions. The highest revision of a key holds for every day.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Plan {
    /// All revisions of the site.
    pub sites: Vec<Site>,
    /// All revisions of all lots.
    pub lots: Vec<Lot>,
    /// All revisions of all benches.
    pub benches: Vec<Bench>,
    /// All revisions of all placements.
    pub placements: Vec<Placement>,
    /// All revisions of all orders.
    pub orders: Vec<Order>,
}

impl Plan {
    /// Keeps a line. An entry is no part of a plan: it is given back.
    pub fn keep(&mut self, line: Line) -> Option<Entry> {
        match line {
            Line::Site(l) => self.sites.push(l),
            Line::Lot(l) => self.lots.push(l),
            Line::Bench(l) => self.benches.push(l),
            Line::Placement(l) => self.placements.push(l),
            Line::Order(l) => self.orders.push(l),
            Line::Entry(entry) => return Some(entry),
        }
        None
    }
}
