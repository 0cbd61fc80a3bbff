//! `benchwalk export`: the season as a journal, or its entries for a spreadsheet.

use super::{CommandError, Context};
use crate::journal;
use crate::session::atomic_write;
use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// Options of `export`.
#[derive(Debug, Args)]
pub struct ExportArgs {
    /// Where to; without it standard output.
    #[arg(value_name = "FILE")]
    file: Option<PathBuf>,
    /// As what.
    #[arg(long, value_enum, default_value_t = ExportFormat::Journal)]
    format: ExportFormat,
}

/// Forms of an export.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum ExportFormat {
    /// Everything, to be read in again.
    Journal,
    /// The entries alone, for a spreadsheet.
    Csv,
}

/// Writes it to the file named, whole or not at all, or to standard output.
pub(super) fn run(args: &ExportArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let season = context.season()?;
    let text = match args.format {
        ExportFormat::Journal => journal::write(None, season.plan(), season.entries()),
        ExportFormat::Csv => journal::csv::write_entries(season.entries()),
    };
    match &args.file {
        Some(file) => atomic_write::write_new(file, text.as_bytes())?,
        None => context.out.write_all(text.as_bytes())?,
    }
    context.out.flush()?;
    Ok(())
}
