//! A season and its file: opened, begun, filled from a journal or with the demo. Used by the screens and by the command line.
//!
//! Nothing here prints or asks: what was done comes back as a value, what cannot be done as a [`SessionError`].

pub mod atomic_write;
mod config_file;
pub mod daily_backup;
mod demo;
mod import;
pub mod last_year;
pub mod logger;
pub mod new_files;
mod path_mark;
mod readable;
pub mod rescue;
mod season_file;
pub mod share;
pub mod sites;

pub use config_file::{keep_setting, who};
pub use demo::{Demo, DemoFile, make_demo};
pub use import::{Source, Writer, import, import_plan};
pub use last_year::WantedLastYear;
pub use season_file::{Beside, SeasonFile};

use crate::files::{must_be_fit, shown};
use crate::progress::in_thousands;
use crate::season::Origins;
use crate::store::{Heard, Store, StoreError};
use std::io;
use std::path::{Path, PathBuf};
use thiserror::Error;

/// Why nothing was opened, made, imported or kept: one variant for each thing the user can do about it.
#[derive(Debug, Error)]
pub enum SessionError {
    /// What the season file says.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// Mend the path or its permissions.
    #[error("{error}: {}", shown(path))]
    File {
        /// The file.
        path: PathBuf,
        /// What the system said.
        #[source]
        error: io::Error,
    },
    /// Choose another name.
    #[error("already exists, with other content; choose another name: {}", shown(path))]
    Exists {
        /// The file.
        path: PathBuf,
    },
    /// Mend the journal.
    #[error("nothing was written, {} in {name}:\n  {}{}", counted(faults.len().saturating_add(*more)), faults.join("\n  "), and_more(*more))]
    Journal {
        /// The journal.
        name: String,
        /// The first faults, with line and field.
        faults: Vec<String>,
        /// How many there are beside them.
        more: usize,
    },
    /// Mend the name of the writer.
    #[error("{text}: {}", shown(path))]
    Writer {
        /// The config file it was to be kept in.
        path: PathBuf,
        /// What is wrong with it.
        text: String,
    },
}

/// `1 error`, `3,000 errors`.
fn counted(faults: usize) -> String {
    if faults == 1 { "1 error".to_owned() } else { format!("{} errors", in_thousands(faults)) }
}

/// The last line of a list that does not show all; nothing where it does.
pub fn and_more(more: usize) -> String {
    if more == 0 { String::new() } else { format!("\n  … and {} more", in_thousands(more)) }
}

/// The lines of a season that came from other laptops, and whether it is shared.
///
/// # Errors
/// As [`Store::load`].
pub fn origins_of(store: &Store) -> Result<Origins, StoreError> {
    /// Lines read at once.
    const MOST: usize = 5_000;
    let (mut origins, mut heard) = (Origins::default(), Heard::default());
    if store.is_shared()? || !store.laptops()?.is_empty() {
        origins.set_held(store.held()?);
    }
    hear(store, &mut heard, &mut origins, MOST)?;
    Ok(origins)
}

/// Adds the lines of other laptops that were not heard of yet, so many at once. What was added before a failure stays, and was heard.
fn hear(store: &Store, heard: &mut Heard, origins: &mut Origins, most: usize) -> Result<(), StoreError> {
    loop {
        let came = store.origins(heard, most)?;
        if came.is_empty() {
            return Ok(());
        }
        for came in &came {
            origins.add(came.line, &came.laptop);
        }
    }
}

/// True where something has that name, false where the folder has none such. A folder that cannot be looked into is an error: its
/// season is not gone.
fn is_there(path: &Path) -> Result<bool, SessionError> {
    match must_be_fit(path).and_then(|()| path.symlink_metadata()) {
        Ok(_) => Ok(true),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(false),
        Err(error) => Err(SessionError::File { path: path.to_owned(), error }),
    }
}
