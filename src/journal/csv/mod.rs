//! Tables for a spreadsheet: the plan in and out, the entries out. The journal is the record; these are for convenience.

mod benches;
mod entries;
mod guard;
mod plan;
mod sheet;
mod tables;

pub use benches::read_benches;
pub use entries::{write_entries, write_rows};
pub use plan::{ReadSheet, read_plan};
pub use tables::{template, write_tables};
