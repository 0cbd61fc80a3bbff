//! A request to open a form of the plan: which lines it writes, or which stored line it changes.

use chrono::NaiveDate;

/// A form of the plan.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum PlanAsk {
    /// The site, new or to be changed.
    Site,
    /// A new lot.
    NewLot,
    /// A lot to be changed, by its code.
    Lot(String),
    /// New benches in a row.
    Benches,
    /// A bench to be changed, by its code.
    Bench(String),
    /// A lot set down on benches.
    SetDown,
    /// What was set down on a bench on a day, to be changed.
    Placement(String, NaiveDate),
    /// Pots promised.
    NewOrder,
    /// What was promised of a lot for a day, to be changed.
    Order(String, NaiveDate),
}
