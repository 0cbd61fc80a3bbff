//! Every lot's calendar: from planting to the sale, what is done, due, late or to be expected.

use super::{Step, steps};
use crate::limits::Limits;
use crate::record::Lot;
use crate::report::words;
use crate::season::Season;
use crate::units::System;
use crate::warnings::{BenchView, bench_views};
use chrono::{Days, NaiveDate};

/// The calendar of one lot.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LotCalendar {
    /// The lot.
    pub lot: String,
    /// Cultivar and container.
    pub title: String,
    /// Its steps, in the order of the crop.
    pub steps: Vec<Step>,
    /// What is to be known of the temperatures that its color forecast goes by; `None` where all is written, or all color was seen.
    pub forecast: Option<String>,
}

impl LotCalendar {
    /// Of a lot of which nothing is worked out yet.
    pub fn without_steps(lot: &Lot) -> Self {
        let title = format!("{}, {}", lot.cultivar, lot.container);
        Self { lot: lot.lot.clone(), title, steps: Vec::new(), forecast: None }
    }
}

/// The first planting and the last sale or order of the season; `None` without lots.
pub fn season_days(season: &Season) -> Option<(NaiveDate, NaiveDate)> {
    let lots = season.lots();
    let first = lots.iter().map(|l| l.planted).min()?;
    let orders = lots.iter().flat_map(|l| season.orders(&l.lot)).filter(|o| o.pots > 0).map(|o| o.date);
    let last = lots.iter().map(|l| l.ready_by).chain(orders).max()?;
    // A slip of the year must not make a chart of a century.
    let most = first.checked_add_days(Days::new(400)).unwrap_or(first);
    Some((first, last.clamp(first, most)))
}

/// The calendars of all lots as of a day, by lot.
pub fn calendar(season: &Season, on: NaiveDate, limits: &Limits) -> Vec<LotCalendar> {
    season.lots().into_iter().map(|lot| calendar_of(season, lot, on, limits)).collect()
}

/// The calendar of one lot as of a day.
pub fn calendar_of(season: &Season, lot: &Lot, on: NaiveDate, limits: &Limits) -> LotCalendar {
    let system = season.site().map_or(System::Metric, |site| site.units);
    let benches = stood(season, &lot.lot, on, limits);
    LotCalendar {
        steps: steps::of(season, lot, &benches, on, limits),
        forecast: forecast(&benches, on, system),
        ..LotCalendar::without_steps(lot)
    }
}

/// Of the bench with the fewest temperatures, while pollen is still to come.
fn forecast(benches: &[BenchView<'_>], on: NaiveDate, system: System) -> Option<String> {
    let open = benches.iter().filter_map(|bench| bench.color.as_ref()).filter(|color| color.first_pollen.high > on);
    words::temperatures(&open.min_by_key(|color| color.temperatures.written)?.temperatures, system)
}

/// What the rules see of the lot's benches on the day; of a lot that is gone, on its last day within four months.
fn stood<'a>(season: &'a Season, lot: &str, on: NaiveDate, limits: &Limits) -> Vec<BenchView<'a>> {
    let back = (0..120_u64).filter_map(|n| on.checked_sub_days(Days::new(n)));
    let last = back.map(|d| (d, season.benches_of_lot(lot, d))).find(|(_, benches)| !benches.is_empty());
    let (day, benches) = last.unwrap_or((on, Vec::new()));
    bench_views(season, benches, day, limits)
}
