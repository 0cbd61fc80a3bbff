//! Files, carefully: only ordinary ones are opened, none is read without end, and a file that is written gets its name only when
//! it is whole.

mod names;
mod ordinary;
mod private;
mod unfinished;

pub use names::must_be_fit;
pub use ordinary::{
    FILE, FILE_OR_STDIN, FILE_OR_STDOUT, RECORDS_MOST, SETTINGS_MOST, look, must_fit, open, other_kind, read,
    read_stream, text,
};
pub use private::{private_file, private_folder};
pub use unfinished::{Purpose, Unfinished};

use std::io;
use std::path::Path;

/// A path for a message: in one line, with everything written out that may not be printed.
pub fn shown(path: &Path) -> String {
    crate::characters::in_one_line(&path.display().to_string())
}

/// Syncs the names in a folder: a new one, or that one was removed, is on the disk as well as the file. Windows syncs no folders:
/// its file systems log changes of names themselves.
///
/// # Errors
/// What the system says.
pub fn sync_folder(folder: &Path) -> io::Result<()> {
    #[cfg(unix)]
    std::fs::File::open(folder)?.sync_all()?;
    #[cfg(not(unix))]
    let _folder = folder;
    Ok(())
}
