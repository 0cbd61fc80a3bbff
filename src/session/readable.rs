//! What can be read of a damaged season, kept as a journal beside the file.

use super::{SessionError, atomic_write};
use crate::journal;
use crate::record::Entry;
use crate::store::Salvaged;
use chrono::NaiveDate;
use std::path::{Path, PathBuf};

/// Files of one day: more than one only where more was damaged meanwhile.
const MOST: u32 = 20;

/// Writes what could be read beside the file, as `season.readable-2026-10-14.jsonl`, never over another file. Gives its name.
///
/// # Errors
/// [`SessionError::File`] where the folder cannot be written.
pub(super) fn keep(season: &Path, salvaged: &Salvaged, today: NaiveDate) -> Result<PathBuf, SessionError> {
    let mut entries: Vec<Entry> = salvaged.entries.iter().map(|(_, entry)| entry.clone()).collect();
    entries.sort_by_key(Entry::order);
    let text = journal::write(salvaged.season, &salvaged.plan, &entries);
    let stem = season.file_stem().unwrap_or_default().to_string_lossy().into_owned();
    let mut number = 1;
    loop {
        let again = if number > 1 { format!("-{number}") } else { String::new() };
        let path = season.with_file_name(format!("{stem}.readable-{today}{again}.jsonl"));
        match atomic_write::write_new(&path, text.as_bytes()) {
            Err(SessionError::Exists { .. }) if number < MOST => number += 1,
            done => return done.map(|()| path),
        }
    }
}
