//! `benchwalk export`: the season as a journal, or its entries for a spreadsheet.

use super::edge::say;
use super::{CommandError, Context};
use crate::journal;
use crate::progress::Work;
use crate::record::Entry;
use crate::session::atomic_write;
use crate::store::Store;
use clap::{Args, ValueEnum};
use std::path::{Path, PathBuf};

/// Options of `export`.
#[derive(Debug, Args)]
pub struct ExportArgs {
    /// Output file; default, or with `-`: standard output.
    #[arg(value_name = "FILE")]
    file: Option<PathBuf>,
    /// Output format.
    #[arg(long, value_enum, default_value_t = ExportFormat::Journal)]
    format: ExportFormat,
    /// What can still be read of a damaged season file.
    #[arg(long)]
    salvage: bool,
}

/// Forms of an export.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum ExportFormat {
    /// Everything, for re-import.
    Journal,
    /// Entries only, for a spreadsheet.
    Csv,
}

/// Writes it to the file named, whole or not at all, or to standard output.
pub(super) fn run(args: &ExportArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let whole = Work::whole();
    let store = Store::open_read_only(&context.settings.season)?;
    let mut said = None;
    let ((plan, mut entries), id) = if args.salvage {
        let salvaged = store.salvage()?;
        said = Some(salvaged.counted());
        ((salvaged.plan, salvaged.entries.into_iter().map(|(_, entry)| entry).collect()), salvaged.season)
    } else {
        // An altered value is found here, where what is written leaves the file.
        store.check()?;
        (store.load()?, store.season_id()?)
    };
    let left_out = store.left_out();
    store.close()?;
    entries.sort_by_key(Entry::order);
    let text = match args.format {
        ExportFormat::Journal => journal::write(id, &plan, &entries),
        ExportFormat::Csv => journal::csv::write_entries(&entries),
    };
    Context::go_on()?;
    drop(whole);
    match args.file.as_deref().filter(|file| *file != Path::new("-")) {
        Some(file) => atomic_write::write_new(file, text.as_bytes())?,
        None => context.out.write_all(text.as_bytes())?,
    }
    context.out.flush()?;
    if let Some(said) = said {
        say(&format!("benchwalk: {said}\n"), context.err).ok();
    }
    if left_out > 0 {
        let records = match left_out {
            1 => "1 record of a newer Benchwalk is not understood here and was left out".to_owned(),
            n => format!("{n} records of a newer Benchwalk are not understood here and were left out"),
        };
        // Where standard error is gone the export is still whole.
        say(&format!("benchwalk: {records}; the newer program exports all of it\n"), context.err).ok();
    }
    Ok(())
}
