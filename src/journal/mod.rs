//! The journal: records as text, in and out. One JSON object a line, so that a season can be read by any tool, edited,
//! compared and sent from one laptop to another.
//!
//! Text in, records out: files are the store's and the commands' business. What a line means is `record::codec`'s; here
//! are only the rules of a journal as a whole. Rules across records (is there such a bench?) are `season::check`'s.

pub mod csv;
mod end;
mod faults;
pub mod logger;
mod read;
mod stream;
mod write;

pub use crate::record::codec::Header;
pub use end::end_line;
pub use faults::{FAULTS_SHOWN, Fault, Faults};
pub use read::{LINE_MOST, Numbered, Reading, read, read_all, read_numbered};
pub use stream::{Next, Streamed};
pub use write::{write, write_judged, write_lines};
