//! `benchwalk compare`: last year's season beside this one.

use super::{CommandError, Context};
use crate::compare::{Chosen, LastYear};
use crate::files::shown;
use crate::limits::Limits;
use crate::progress::{Stopped, Work};
use crate::report::compare::{Comparison, html, json, text};
use crate::season::Season;
use crate::session::last_year::{self, NotBeside};
use crate::store::StoreError;
use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// Options of `compare`.
#[derive(Debug, Args)]
#[command(
    after_help = "Example: benchwalk compare season-2025.db season.db --match R6=R8 --format html > compare.html"
)]
pub struct CompareArgs {
    /// Last year's season file; default: that of --beside, or the one that is found.
    #[arg(value_name = "LAST")]
    last: Option<PathBuf>,
    /// This year's season file; default: that of --season.
    #[arg(value_name = "THIS")]
    this: Option<PathBuf>,
    /// How to print it.
    #[arg(long, value_enum, default_value_t = CompareFormat::Text)]
    format: CompareFormat,
}

/// Forms of the comparison.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum CompareFormat {
    /// Plain text.
    Text,
    /// For other programs.
    Json,
    /// One HTML file with charts, to view, print or send.
    Html,
}

/// Prints the comparison.
pub(super) fn run(args: &CompareArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let whole = Work::whole();
    if let Some(this) = &args.this {
        context.settings.season.clone_from(this);
    }
    if let Some(last) = &args.last {
        context.settings.last_year.file = Some((last.clone(), Chosen::Named));
        context.settings.last_year.off = false;
    }
    let season = context.season()?;
    let (day, limits) = (context.day(&season), context.settings.limits()?);
    let last = read(&season, &limits, context).map_err(|why| match why {
        NotBeside::Said(text) => CommandError::LastYear(text),
        NotBeside::Stopped => stopped(),
    })?;
    let none = "no season of last year is found; name its file: benchwalk compare LAST THIS".to_owned();
    let mut last = last.ok_or(CommandError::LastYear(none))?;
    let halt = |_| stopped();
    last.judged = Some(last_year::assess(&last.season, last.last_day(), &limits).map_err(halt)?);
    let now = last_year::assess(&season, day, &limits).map_err(halt)?;
    let courses = last_year::courses(&season, day, &limits).map_err(halt)?;
    let this = shown(&context.settings.season);
    let comparison = Comparison::of(&last, (&season, &this), day, (&courses, Some(&now)))
        .ok_or_else(|| CommandError::NoSite { path: context.settings.season.clone() })?;
    let out = match args.format {
        CompareFormat::Text => text(&comparison),
        CompareFormat::Json => json(&comparison),
        CompareFormat::Html => html(&comparison),
    };
    context.print(whole, &out)
}

fn stopped() -> CommandError {
    StoreError::from(Stopped).into()
}

fn read(season: &Season, limits: &Limits, context: &Context<'_>) -> Result<Option<LastYear>, NotBeside> {
    let own = (season, context.settings.season.as_path());
    last_year::read(&context.settings.last_year, own, &context.folders.data, limits)
}

/// Last year's season for a command that can do without it: one that cannot be read is said on standard error, and left out.
///
/// # Errors
/// When the command was asked to stop.
pub(super) fn last_year(
    season: &Season,
    limits: &Limits,
    context: &mut Context<'_>,
) -> Result<Option<LastYear>, CommandError> {
    match read(season, limits, context) {
        Ok(last) => Ok(last),
        Err(NotBeside::Stopped) => Err(stopped()),
        Err(NotBeside::Said(why)) => {
            context.line.leave();
            // Where even standard error is gone nobody reads it.
            writeln!(context.err, "{why}").ok();
            Ok(None)
        }
    }
}
