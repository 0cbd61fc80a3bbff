//! `benchwalk export`: the season as a journal.

use super::args::ExportArgs;
use super::{CommandError, Context, files};
use crate::journal;

/// Writes the journal to the file named, whole or not at all, or to standard output.
pub(super) fn run(args: &ExportArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let season = context.season()?;
    let text = journal::write(season.plan(), season.entries());
    match &args.file {
        Some(file) => files::write_new(file, text.as_bytes())?,
        None => context.out.write_all(text.as_bytes())?,
    }
    context.out.flush()?;
    Ok(())
}
