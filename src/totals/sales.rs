//! Pots sold by day against what was committed, the grades of the gradings, and what is not accounted for.

use crate::record::{Entry, Kind, KindName, Order};
use crate::season::Season;
use chrono::NaiveDate;
use serde::Serialize;
use std::collections::BTreeMap;

/// Pots of a lot sold on one day.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct DaySales {
    /// The day.
    pub day: NaiveDate,
    /// Pots sold.
    pub pots: u64,
}

/// What was graded of a lot on one day. A sale names no grade, so the grades are those of the gradings.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct DayGrades {
    /// The day.
    pub day: NaiveDate,
    /// Fit to sell.
    pub salable: u64,
    /// Seconds.
    pub seconds: u64,
    /// Dumped.
    pub dumped: u64,
}

/// An order and the pots sold that fill it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct OrderMet {
    /// The day committed.
    pub date: NaiveDate,
    /// Pots committed.
    pub pots: u64,
    /// Of these, sold up to that day.
    pub on_time: u64,
    /// Of these, sold later.
    pub late: u64,
    /// The last day on which pots of it were sold.
    pub last: Option<NaiveDate>,
}

impl OrderMet {
    /// Pots that were never sold.
    pub const fn open(&self) -> u64 {
        self.pots.saturating_sub(self.on_time.saturating_add(self.late))
    }
}

/// The pots of one lot, from placing to sale.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct LotSales {
    /// The lot.
    pub lot: String,
    /// Its cultivar.
    pub cultivar: String,
    /// Its container.
    pub container: String,
    /// Placed on benches.
    pub placed: u64,
    /// Sold in all.
    pub sold: u64,
    /// Committed in all.
    pub committed: u64,
    /// Lost, as logged.
    pub lost: u64,
    /// Dumped at grading.
    pub dumped: u64,
    /// Still standing.
    pub standing: u64,
    /// Placed and neither sold, lost, dumped nor standing; negative where there are more than were placed. Counts that
    /// differ from what was logged make it.
    pub not_accounted: i64,
    /// Sales by day.
    pub days: Vec<DaySales>,
    /// Gradings by day.
    pub grades: Vec<DayGrades>,
    /// Orders by date, filled by the sales in their order (house rule: the earliest order first).
    pub orders: Vec<OrderMet>,
    /// Pots sold beyond all orders.
    pub beyond: u64,
}

/// The pots of every lot up to the end of a day, by lot.
pub fn sales(season: &Season, on: NaiveDate) -> Vec<LotSales> {
    let mut tallies: BTreeMap<String, Tally> = BTreeMap::new();
    let kinds = [KindName::Losses, KindName::Grade, KindName::Sold].into_iter();
    for entry in kinds.flat_map(|kind| season.counting_of(kind, on)) {
        if let Some(lot) = season.lot_of(entry) {
            tallies.entry(lot).or_default().add(entry);
        }
    }
    let of = |lot: &&crate::record::Lot| {
        let tally = tallies.remove(&lot.lot).unwrap_or_default();
        of_lot(season, on, (lot, tally))
    };
    season.lots().iter().map(of).collect()
}

/// What was logged of one lot.
#[derive(Debug, Default)]
struct Tally {
    sold: BTreeMap<NaiveDate, u64>,
    graded: BTreeMap<NaiveDate, (u64, u64, u64)>,
    lost: u64,
}

impl Tally {
    fn add(&mut self, entry: &Entry) {
        match *entry.kind {
            Kind::Sold { pots } => *self.sold.entry(entry.day()).or_default() += u64::from(pots),
            Kind::Losses { pots, .. } => self.lost += u64::from(pots),
            Kind::Grade { sell, second, dump } => {
                let day = self.graded.entry(entry.day()).or_default();
                day.0 += u64::from(sell);
                day.1 += u64::from(second);
                day.2 += u64::from(dump);
            }
            _ => {}
        }
    }
}

fn of_lot(season: &Season, on: NaiveDate, (lot, tally): (&crate::record::Lot, Tally)) -> LotSales {
    let code = lot.lot.as_str();
    let standing: u64 = season
        .benches_of_lot(code, on)
        .into_iter()
        .filter_map(|bench| season.standing(bench, on))
        .map(|standing| u64::from(standing.pots))
        .sum();
    let placed: u64 = season.placements(code).iter().filter(|p| p.from <= on).map(|p| u64::from(p.pots)).sum();
    let days: Vec<DaySales> = tally.sold.iter().map(|(day, pots)| DaySales { day: *day, pots: *pots }).collect();
    let sold: u64 = days.iter().map(|day| day.pots).sum();
    let grades: Vec<DayGrades> = tally
        .graded
        .iter()
        .map(|(day, (salable, seconds, dumped))| DayGrades {
            day: *day,
            salable: *salable,
            seconds: *seconds,
            dumped: *dumped,
        })
        .collect();
    let dumped: u64 = grades.iter().map(|day| day.dumped).sum();
    let (orders, beyond) = filled(&season.orders(code), &days);
    let gone = [sold, tally.lost, dumped, standing].into_iter().fold(0_u64, u64::saturating_add);
    let whole = |n: u64| i64::try_from(n).unwrap_or(i64::MAX);
    LotSales {
        lot: lot.lot.clone(),
        cultivar: lot.cultivar.clone(),
        container: lot.container.clone(),
        placed,
        sold,
        committed: orders.iter().map(|order| order.pots).sum(),
        lost: tally.lost,
        dumped,
        standing,
        not_accounted: whole(placed).saturating_sub(whole(gone)),
        days,
        grades,
        orders,
        beyond,
    }
}

/// The orders as the sales fill them, the earliest first, and the pots sold beyond them.
fn filled(orders: &[&Order], sales: &[DaySales]) -> (Vec<OrderMet>, u64) {
    let mut met: Vec<OrderMet> = orders
        .iter()
        .filter(|order| order.pots > 0)
        .map(|o| OrderMet { date: o.date, pots: u64::from(o.pots), on_time: 0, late: 0, last: None })
        .collect();
    met.sort_by_key(|order| order.date);
    let mut beyond: u64 = 0;
    for sale in sales {
        let mut left = sale.pots;
        for order in &mut met {
            let taken = left.min(order.open());
            if taken == 0 {
                continue;
            }
            let side = if sale.day <= order.date { &mut order.on_time } else { &mut order.late };
            *side = side.saturating_add(taken);
            order.last = Some(sale.day);
            left = left.saturating_sub(taken);
        }
        beyond = beyond.saturating_add(left);
    }
    (met, beyond)
}
