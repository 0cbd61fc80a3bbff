//! `benchwalk import`: a journal, or a list of benches (`.csv`), into the season file, all or nothing.

use super::edge::say;
use super::{CommandError, Context};
use crate::clock;
use crate::files::{FILE_OR_STDIN, shown};
use crate::progress::Work;
use crate::session::daily_backup::{NotKept, keep};
use crate::session::{self, Source, Writer, rescue};
use crate::store::{Saved, StoreError};
use clap::Args;
use std::path::{Path, PathBuf};

/// Options of `import`.
#[derive(Debug, Args)]
pub struct ImportArgs {
    /// The journal, or a list of benches (`.csv` with bench, house, lot, pots, area); `-` is a journal on standard input.
    #[arg(value_name = "FILE")]
    file: PathBuf,
    /// Take a list of benches with more pots of a lot than it has.
    #[arg(long)]
    confirm: bool,
}

/// Imports it and says what was new.
pub(super) fn run(args: &ImportArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let stdin = args.file == Path::new("-");
    let source =
        if stdin { Source::stream("standard input", context.input)? } else { Source::file(&args.file, FILE_OR_STDIN)? };
    let whole = Work::whole();
    keep_copy(context)?;
    let path = &context.settings.season;
    let by = context.settings.by.as_deref().unwrap_or_default();
    let writer = Writer { confirmed: args.confirm, at: context.written_at(), by };
    let saved = session::import(path, &source, &writer)?;
    drop(whole);
    writeln!(context.out, "{}", said(saved, path))?;
    let failed = |error| CommandError::File { path: args.file.clone(), error };
    if !stdin && rescue::taken(&context.folders.state, &args.file).map_err(failed)? {
        writeln!(context.out, "{}: removed; its entries are in the season file", shown(&args.file))?;
    }
    Ok(())
}

/// Keeps the copy of the day before a season that is there is changed. Without one the import goes on, and says so.
///
/// # Errors
/// A damaged season file: nothing is written to it.
fn keep_copy(context: &mut Context<'_>) -> Result<(), CommandError> {
    let path = &context.settings.season;
    if path.symlink_metadata().is_err() {
        return Ok(());
    }
    // A replayed day is not the day of a copy.
    let today = clock::day(context.clock, context.zone(), None);
    match keep(&context.settings.backups, path, today) {
        Ok(_) => Ok(()),
        Err(NotKept::Store(error @ (StoreError::Damaged { .. } | StoreError::Stopped))) => Err(error.into()),
        // The import itself meets the same file and says it.
        Err(NotKept::Store(StoreError::NotASeason { .. } | StoreError::Empty { .. })) => Ok(()),
        Err(error) => {
            // Where standard error is gone the import goes on all the same.
            say(&format!("benchwalk: no backup copy of today was kept: {error}\n"), context.err).ok();
            Ok(())
        }
    }
}

/// What was done, in words.
fn said(saved: Saved, path: &Path) -> String {
    let path = shown(path);
    let records = |n: usize| if n == 1 { "1 record".to_owned() } else { format!("{n} records") };
    match saved {
        Saved { new: 0, known } => format!("{path}: nothing new, {} already there", records(known)),
        Saved { new, known: 0 } => format!("{path}: {} imported", records(new)),
        Saved { new, known } => format!("{path}: {} imported, {known} already there", records(new)),
    }
}
