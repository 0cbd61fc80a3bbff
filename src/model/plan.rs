//! A request to open a form of the plan: which lines it writes, or which stored line it changes.

use chrono::NaiveDate;

/// A form of the plan.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum PlanAsk {
    /// The site, new or changed.
    Site,
    /// A new lot.
    NewLot,
    /// A change of a lot, by its code.
    Lot(String),
    /// What was done to a lot before its record began, by its code.
    History(String),
    /// New benches in a row.
    Benches,
    /// A change of a bench, by its code.
    Bench(String),
    /// A lot placed on benches.
    SetDown,
    /// A change of a placement, by bench and day.
    Placement(String, NaiveDate),
    /// Pots committed.
    NewOrder,
    /// A change of an order, by lot and day.
    Order(String, NaiveDate),
}

/// A form for pots of several benches.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PotsAsk {
    /// This bench changes places with another.
    Swap(String),
    /// This lot is sold from several benches.
    Sold(String),
}
