//! Every lot's calendar: from planting to the sale, what is done, due, late or to be expected.

use super::{Step, steps};
use crate::limits::Limits;
use crate::season::Season;
use crate::warnings::{BenchView, bench_view};
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
    let one = |lot: &crate::record::Lot| {
        let benches = stood(season, &lot.lot, on, limits);
        LotCalendar {
            lot: lot.lot.clone(),
            title: format!("{}, {}", lot.cultivar, lot.container),
            steps: steps::of(season, lot, &benches, on, limits),
        }
    };
    season.lots().into_iter().map(one).collect()
}

/// What the rules see of the lot's benches on the day; of a lot that is gone, on its last day within four months.
fn stood<'a>(season: &'a Season, lot: &str, on: NaiveDate, limits: &Limits) -> Vec<BenchView<'a>> {
    let back = (0..120_u64).filter_map(|n| on.checked_sub_days(Days::new(n)));
    let last = back.map(|d| (d, season.benches_of_lot(lot, d))).find(|(_, benches)| !benches.is_empty());
    let (day, benches) = last.unwrap_or((on, Vec::new()));
    benches.into_iter().filter_map(|b| bench_view(season, b, day, limits)).collect()
}
