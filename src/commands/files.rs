//! Files written whole or not at all.

use super::CommandError;
use std::fs::{self, File};
use std::io::Write;
use std::path::Path;

/// Writes a new file: under a temporary name beside it, synced, then renamed. A file that is already there is left alone: with the
/// same content that is as good as written, with other content it is an error.
pub(super) fn write_new(path: &Path, content: &[u8]) -> Result<(), CommandError> {
    let failed = |error| CommandError::File { path: path.to_owned(), error };
    match fs::read(path) {
        Ok(there) if there == content => return Ok(()),
        Ok(_) => return Err(CommandError::Exists { path: path.to_owned() }),
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => {}
        Err(error) => return Err(failed(error)),
    }
    write_over(path, content)
}

/// Writes a file of ours, new or over the one that is there: under a temporary name beside it, synced, then renamed.
pub(super) fn write_over(path: &Path, content: &[u8]) -> Result<(), CommandError> {
    let failed = |error| CommandError::File { path: path.to_owned(), error };
    let mut name = path.file_name().unwrap_or_default().to_owned();
    name.push(format!(".part-{}", std::process::id()));
    let part = path.with_file_name(name);
    let written = File::create_new(&part).and_then(|mut file| {
        file.write_all(content)?;
        file.sync_all()?;
        fs::rename(&part, path)
    });
    if written.is_err() {
        // Ours alone, and of no use half written.
        fs::remove_file(&part).ok();
    }
    written.map_err(failed)
}
