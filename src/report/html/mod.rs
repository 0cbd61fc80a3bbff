//! Reports as one self-contained HTML file: readable on a phone, printable, nothing fetched from anywhere.

mod page;
mod review;
mod season;
mod sheet;

pub(in crate::report) use page::table_of;
pub use page::{escape, page, table};
pub use review::review;
pub(in crate::report) use review::review_below;
pub(in crate::report) use season::figure;
pub use season::season;
pub use sheet::sheet;
