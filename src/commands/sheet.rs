//! `benchwalk sheet`: the round of a day for paper.

use super::args::{PaperFormat, SheetArgs};
use super::{CommandError, Context};
use crate::report::sheet;

/// Prints the sheet.
pub(super) fn run(args: &SheetArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let season = context.season()?;
    let sheet = sheet::build(&season, context.day(&season), &context.settings.limits()?)
        .ok_or_else(|| CommandError::NoSite { path: context.settings.season.clone() })?;
    let text = match args.format {
        PaperFormat::Text => sheet::text(&sheet),
        PaperFormat::Html => sheet::html(&sheet),
    };
    context.out.write_all(text.as_bytes())?;
    context.out.flush()?;
    Ok(())
}
