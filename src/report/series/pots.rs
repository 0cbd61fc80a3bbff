//! Pots by lot: placed, lost, graded, sold, committed, uncommitted.

use crate::record::{Kind, KindName};
use crate::season::Season;
use chrono::NaiveDate;

/// The pots of one lot up to a day.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct LotPots {
    /// The lot.
    pub lot: String,
    /// Planned.
    pub planned: u64,
    /// Placed on benches up to the day.
    pub placed: u64,
    /// Lost, as logged.
    pub lost: u64,
    /// Graded as good to sell.
    pub graded_sell: u64,
    /// Graded as seconds.
    pub graded_second: u64,
    /// Dumped at grading.
    pub dumped: u64,
    /// Sold.
    pub sold: u64,
    /// Committed, all orders together.
    pub committed: u64,
    /// Still standing, as calculated or last counted.
    pub standing: u64,
}

impl LotPots {
    /// Committed and not yet sold.
    pub const fn open(&self) -> u64 {
        self.committed.saturating_sub(self.sold)
    }

    /// Pots uncommitted (positive) or short (negative) after all orders.
    pub fn left(&self) -> i64 {
        i64::try_from(self.standing).unwrap_or(i64::MAX).saturating_sub(i64::try_from(self.open()).unwrap_or(i64::MAX))
    }

    /// In words: `12 uncommitted`, `8 SHORT`.
    pub fn left_text(&self) -> String {
        match self.left() {
            n if n < 0 => format!("{} SHORT", n.unsigned_abs()),
            n => format!("{n} uncommitted"),
        }
    }
}

/// The pots of every lot up to the end of a day, by lot.
pub fn pots(season: &Season, on: NaiveDate) -> Vec<LotPots> {
    let mut all: Vec<LotPots> = season
        .lots()
        .into_iter()
        .map(|lot| LotPots {
            lot: lot.lot.clone(),
            planned: u64::from(lot.pots),
            committed: season.orders(&lot.lot).iter().map(|o| u64::from(o.pots)).sum(),
            placed: season.placements(&lot.lot).iter().filter(|p| p.from <= on).map(|p| u64::from(p.pots)).sum(),
            ..LotPots::default()
        })
        .collect();
    for standing in season.benches().iter().filter_map(|bench| season.standing(&bench.bench, on)) {
        if let Some(pots) = all.iter_mut().find(|p| p.lot == standing.lot) {
            pots.standing += u64::from(standing.pots);
        }
    }
    let kinds = [KindName::Losses, KindName::Grade, KindName::Sold].into_iter();
    for entry in kinds.flat_map(|kind| season.counting_of(kind, on)) {
        let Some(lot) = season.lot_of(entry) else { continue };
        let Some(pots) = all.iter_mut().find(|p| p.lot == lot) else { continue };
        match *entry.kind {
            Kind::Losses { pots: n, .. } => pots.lost += u64::from(n),
            Kind::Sold { pots: n } => pots.sold += u64::from(n),
            Kind::Grade { sell, second, dump } => {
                pots.graded_sell += u64::from(sell);
                pots.graded_second += u64::from(second);
                pots.dumped += u64::from(dump);
            }
            _ => {}
        }
    }
    all
}
