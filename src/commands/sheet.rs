//! `benchwalk sheet`: the round of a day for paper, or the jobs of the day after.

use super::{CommandError, Context};
use crate::progress::Work;
use crate::report::{jobs_sheet, sheet};
use clap::{Args, ValueEnum};

/// Options of `sheet`.
#[derive(Debug, Args)]
pub struct SheetArgs {
    /// How to print it.
    #[arg(long, value_enum, default_value_t = PaperFormat::Text)]
    format: PaperFormat,
    /// Print the jobs of the day after instead, for the crew.
    #[arg(long)]
    tomorrow: bool,
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
    let whole = Work::whole();
    let text = if args.tomorrow { jobs(args.format, context)? } else { round(args.format, context)? };
    context.print(whole, &text)
}

fn jobs(format: PaperFormat, context: &mut Context<'_>) -> Result<String, CommandError> {
    let review = super::review::of_day(context)?;
    Ok(match format {
        PaperFormat::Text => jobs_sheet::text(&review),
        PaperFormat::Html => jobs_sheet::html(&review),
    })
}

fn round(format: PaperFormat, context: &mut Context<'_>) -> Result<String, CommandError> {
    let season = context.season()?;
    let sheet = sheet::build(&season, context.day(&season), &context.settings.limits()?)
        .ok_or_else(|| CommandError::NoSite { path: context.settings.season.clone() })?
        .as_of(context.clock.now());
    Ok(match format {
        PaperFormat::Text => sheet::text(&sheet),
        PaperFormat::Html => sheet::html(&sheet),
    })
}
