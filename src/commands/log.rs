//! The log: a file in the state folder, for debugging. Nothing of what was typed goes into it: counts, reasons and paths.

use super::Folders;
use crate::files;
use std::fs::{self, OpenOptions};
use std::sync::Mutex;
use tracing_subscriber::filter::LevelFilter;

/// The log is truncated when it is larger than this many bytes.
const GREATEST_BYTES: u64 = 1_000_000;

/// Sends what is logged to `benchwalk.log` in the state folder. Without a log the program works as well, so an error here is
/// ignored.
pub(super) fn start(folders: &Folders) {
    let path = folders.state.join("benchwalk.log");
    if files::private_folder(&folders.state).is_err() {
        return;
    }
    let full = fs::metadata(&path).is_ok_and(|m| m.len() > GREATEST_BYTES);
    let mut how = OpenOptions::new();
    how.create(true).write(true).append(!full).truncate(full);
    let Ok(file) = files::private_file(&mut how, &path) else { return };
    let subscriber = tracing_subscriber::fmt()
        .with_writer(Mutex::new(file))
        .with_ansi(false)
        // Its own errors would be printed across the screens.
        .log_internal_errors(false)
        .with_max_level(LevelFilter::INFO)
        .finish();
    // Set once a process; in tests several commands run in one.
    tracing::subscriber::set_global_default(subscriber).ok();
}
