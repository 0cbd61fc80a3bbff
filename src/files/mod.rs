//! Files, carefully: only ordinary ones are opened, none is read without end, and a file that is written gets its name only when
//! it is whole.

mod ordinary;
mod unfinished;

pub use ordinary::{
    FILE, FILE_OR_STDIN, FILE_OR_STDOUT, RECORDS_MOST, SETTINGS_MOST, look, open, other_kind, read, read_stream, text,
};
pub use unfinished::{Purpose, Unfinished};

use std::path::Path;

/// A path for a message: in one line, with everything written out that may not be printed.
pub fn shown(path: &Path) -> String {
    crate::characters::in_one_line(&path.display().to_string())
}
