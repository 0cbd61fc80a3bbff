//! Why a command failed: one variant for each thing the user can do about it.

use crate::characters::in_one_line;
use crate::files::shown;
use crate::session::{SessionError, and_more};
use crate::store::StoreError;
use std::io;
use std::path::PathBuf;
use thiserror::Error;

/// Why a command failed.
#[derive(Debug, Error)]
pub enum CommandError {
    /// Import a site line.
    #[error("the season has no site yet; import a journal with a site line: {}", shown(path))]
    NoSite {
        /// The season file.
        path: PathBuf,
    },
    /// Set HOME.
    #[error("no home folder is known: {0}; set HOME to your home folder")]
    NoHome(String),
    /// What the season file says.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// What opening, making or importing a season says.
    #[error(transparent)]
    Session(#[from] SessionError),
    /// Fix the path or its permissions.
    #[error("{error}: {}", shown(path))]
    File {
        /// The file.
        path: PathBuf,
        /// What the system said.
        #[source]
        error: io::Error,
    },
    /// Fix the config file.
    #[error("{text}: {}", shown(path))]
    Config {
        /// The config file.
        path: PathBuf,
        /// What is wrong, with its line.
        text: String,
    },
    /// Fix the limits file.
    #[error("the limits cannot be used: {}\n  {}{}", shown(path), faults.join("\n  "), and_more(*more))]
    Limits {
        /// The limits file.
        path: PathBuf,
        /// The first faults, with their lines.
        faults: Vec<String>,
        /// How many more there are.
        more: usize,
    },
    /// Name another file of last year.
    #[error("{0}")]
    LastYear(String),
    /// Look at what is said of these files.
    #[error("{}; the review says why", not_all(*files))]
    NotAllReviewed {
        /// How many.
        files: usize,
    },
    /// Do what the text says.
    #[error("{0}")]
    Share(String),
    /// Nothing to do but look where the output goes.
    #[error("standard output: {0}")]
    Output(#[from] io::Error),
    /// Type another value.
    #[error("{option}: {reason}")]
    Typed {
        /// The option it was typed for.
        option: &'static str,
        /// What is wrong, and what would be right.
        reason: String,
    },
    /// Ask for a name that is known.
    #[error("{path}: {reason}")]
    NoHelp {
        /// What was asked for, up to the name that is not known.
        path: String,
        /// The name, and what is known in its place.
        reason: String,
    },
    /// Run it in a terminal.
    #[error("the screens need a terminal: {0}")]
    Terminal(#[source] io::Error),
    /// Nothing: it was asked for.
    #[error("ended by signal {0}; everything shown as saved is saved")]
    Signal(i32),
    /// Nothing: it was asked for.
    #[error("stopped{}; no record was changed, no file is half written", by(*.0))]
    Stopped(Option<i32>),
    /// Save them at the next start, or import the lines.
    #[error("{}", unsaved(*count, season, journals, journal))]
    Unsaved {
        /// How many.
        count: usize,
        /// The season file.
        season: String,
        /// The journals they lie in, where those could be written.
        journals: Vec<String>,
        /// The signal that ended the screens.
        signal: Option<i32>,
        /// They, as a journal.
        journal: String,
    },
}

impl CommandError {
    /// The exit code: 1 the command failed, 2 usage error.
    pub fn exit_code(&self) -> u8 {
        match self {
            Self::Signal(signal) | Self::Unsaved { signal: Some(signal), .. } => {
                u8::try_from(signal.saturating_add(128)).unwrap_or(1)
            }
            Self::Stopped(Some(signal)) => u8::try_from(signal.saturating_add(128)).unwrap_or(1),
            Self::Typed { .. } | Self::NoHelp { .. } => 2,
            _ => 1,
        }
    }

    /// True where the work was asked to stop, and did.
    pub const fn is_stop(&self) -> bool {
        matches!(self, Self::Store(StoreError::Stopped) | Self::Session(SessionError::Store(StoreError::Stopped)))
    }

    /// As the log keeps it: without anything that was typed into the season.
    pub fn for_log(&self) -> String {
        match self {
            Self::Unsaved { count, season, .. } => format!("{season}: {count} records left unsaved"),
            Self::Session(SessionError::Journal { name, faults, more }) => {
                format!("{name}: {} errors", faults.len().saturating_add(*more))
            }
            Self::Store(StoreError::Refused { .. })
            | Self::Session(SessionError::Store(StoreError::Refused { .. })) => {
                "the season file rejected a record".to_owned()
            }
            Self::Config { path, .. } => format!("{}: cannot be used", path.display()),
            Self::Limits { path, faults, more } => {
                format!("{}: {} errors", path.display(), faults.len().saturating_add(*more))
            }
            Self::Typed { option, .. } => format!("{option}: not valid"),
            other => other.to_string(),
        }
    }

    /// What to do about it, where its text does not say so already.
    pub const fn help(&self) -> Option<&'static str> {
        match self {
            Self::File { .. } | Self::Session(SessionError::File { .. }) => {
                Some("check the path, and the permissions there")
            }
            Self::Config { .. } => Some("fix that line of the file, or take it out"),
            Self::Limits { .. } => Some("'benchwalk limits' prints a correct file to copy from"),
            Self::Store(StoreError::File { .. }) | Self::Session(SessionError::Store(StoreError::File { .. })) => {
                Some("check the disk, the path and the permissions there; the season file was left as it is")
            }
            Self::Store(StoreError::Database { .. })
            | Self::Session(SessionError::Store(StoreError::Database { .. })) => {
                Some("the season file was left as it is; take a copy of it, and report this text")
            }
            _ => None,
        }
    }
}

fn not_all(files: usize) -> String {
    if files == 1 { "1 file was not reviewed".to_owned() } else { format!("{files} files were not reviewed") }
}

/// What asked a command to stop.
fn by(signal: Option<i32>) -> String {
    match signal {
        None => String::new(),
        // The terminal sends 2 for Ctrl-C.
        Some(2) => " by Ctrl-C".to_owned(),
        Some(signal) => format!(" by signal {signal}"),
    }
}

/// What could not be saved, where it lies, and the lines themselves.
fn unsaved(count: usize, season: &str, journals: &[String], journal: &str) -> String {
    let records = if count == 1 { "1 record is".to_owned() } else { format!("{count} records are") };
    let where_to = if journals.is_empty() {
        "keep the lines below in a file and import it later".to_owned()
    } else {
        format!("the next start offers to save the entries in {}; or import the lines below", journals.join(" and "))
    };
    format!("{records} not in the season file {}: {where_to}\n{journal}", in_one_line(season))
}
