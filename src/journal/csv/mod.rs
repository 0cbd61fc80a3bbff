//! Tables for a spreadsheet: a list of benches in, the entries out. The journal is the record; these are for convenience.

mod benches;
mod entries;

pub use benches::read_benches;
pub use entries::{write_entries, write_rows};
