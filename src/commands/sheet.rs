//! `benchwalk sheet`: the round of a day for paper.

use super::{CommandError, Context};
use crate::report::sheet;
use clap::{Args, ValueEnum};

/// Options of `sheet`.
#[derive(Debug, Args)]
pub struct SheetArgs {
    /// How to print it.
    #[arg(long, value_enum, default_value_t = PaperFormat::Text)]
    format: PaperFormat,
}

/// Forms of what is meant for a printer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum PaperFormat {
    /// Plain text, 80 columns.
    Text,
    /// A page for the printer or a phone.
    Html,
}

/// Prints the sheet.
pub(super) fn run(args: &SheetArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let season = context.season()?;
    let sheet = sheet::build(&season, context.day(&season), &context.settings.limits()?)
        .ok_or_else(|| CommandError::NoSite { path: context.settings.season.clone() })?
        .as_of(context.clock.now());
    let text = match args.format {
        PaperFormat::Text => sheet::text(&sheet),
        PaperFormat::Html => sheet::html(&sheet),
    };
    context.out.write_all(text.as_bytes())?;
    context.out.flush()?;
    Ok(())
}
