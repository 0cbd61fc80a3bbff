//! A season and its file: opened, begun, filled from a journal or with the demo. Used by the screens and by the command line.
//!
//! Nothing here prints or asks: what was done comes back as a value, what cannot be done as a [`SessionError`].

pub mod atomic_write;
pub mod daily_backup;
mod demo;
mod import;
mod season_file;
mod writer;

pub use demo::{Demo, DemoFile, make_demo};
pub use import::{Source, Writer, import};
pub use season_file::SeasonFile;
pub use writer::{keep_by, who};

use crate::store::StoreError;
use std::io;
use std::path::PathBuf;
use thiserror::Error;

/// Why nothing was opened, made, imported or kept: one variant for each thing the user can do about it.
#[derive(Debug, Error)]
pub enum SessionError {
    /// What the season file says.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// Mend the path or its permissions.
    #[error("{}: {error}", path.display())]
    File {
        /// The file.
        path: PathBuf,
        /// What the system said.
        #[source]
        error: io::Error,
    },
    /// Choose another name.
    #[error("{}: already there; choose another name", path.display())]
    Exists {
        /// The file.
        path: PathBuf,
    },
    /// Mend the journal.
    #[error("{name}: nothing was written, {}:\n  {}", counted(faults.len()), faults.join("\n  "))]
    Journal {
        /// The journal.
        name: String,
        /// Every fault, with line and field.
        faults: Vec<String>,
    },
    /// Mend the name of the writer.
    #[error("{}: {text}", path.display())]
    Writer {
        /// The config file it was to be kept in.
        path: PathBuf,
        /// What is wrong with it.
        text: String,
    },
}

/// `1 fault`, `3 faults`.
fn counted(faults: usize) -> String {
    if faults == 1 { "1 fault".to_owned() } else { format!("{faults} faults") }
}
