//! `benchwalk export`: the season as a journal, or its entries for a spreadsheet.

use super::args::{ExportArgs, ExportFormat};
use super::{CommandError, Context, files};
use crate::journal;

/// Writes it to the file named, whole or not at all, or to standard output.
pub(super) fn run(args: &ExportArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let season = context.season()?;
    let text = match args.format {
        ExportFormat::Journal => journal::write(season.plan(), season.entries()),
        ExportFormat::Csv => journal::csv::write_entries(season.entries()),
    };
    match &args.file {
        Some(file) => files::write_new(file, text.as_bytes())?,
        None => context.out.write_all(text.as_bytes())?,
    }
    context.out.flush()?;
    Ok(())
}
