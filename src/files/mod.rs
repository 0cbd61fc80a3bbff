//! Files, carefully: only ordinary ones are opened, none is read without end, and a file that is written gets its name only when
//! it is whole.

mod ordinary;
mod unfinished;

pub use ordinary::{
    FILE, FILE_OR_STDIN, FILE_OR_STDOUT, RECORDS_MOST, SETTINGS_MOST, look, open, other_kind, read, read_stream, text,
};
pub use unfinished::{Purpose, Unfinished};

use std::fs;
use std::io;
use std::path::Path;

/// A path for a message: in one line, with everything written out that may not be printed.
pub fn shown(path: &Path) -> String {
    crate::characters::in_one_line(&path.display().to_string())
}

/// Makes a folder, and those above it, where they are missing; only the user may read what is made.
///
/// # Errors
/// What the system says.
pub fn private_folder(path: &Path) -> io::Result<()> {
    let mut how = fs::DirBuilder::new();
    how.recursive(true);
    #[cfg(unix)]
    std::os::unix::fs::DirBuilderExt::mode(&mut how, 0o700);
    how.create(path)
}

/// Syncs the names in a folder: a new one, or that one was removed, is on the disk as well as the file.
///
/// # Errors
/// What the system says.
pub fn sync_folder(folder: &Path) -> io::Result<()> {
    #[cfg(unix)]
    fs::File::open(folder)?.sync_all()?;
    #[cfg(not(unix))]
    let _folder = folder;
    Ok(())
}
