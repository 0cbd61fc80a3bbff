//! `benchwalk season`: calendars, nights, pots and charts of the season.

use super::{CommandError, Context, compare};
use crate::progress::Work;
use crate::report::{html, season};
use clap::{Args, ValueEnum};

/// Options of `season`.
#[derive(Debug, Args)]
pub struct SeasonArgs {
    /// How to print it.
    #[arg(long, value_enum, default_value_t = SeasonFormat::Text)]
    format: SeasonFormat,
}

/// Forms of the season's report.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum SeasonFormat {
    /// Plain text.
    Text,
    /// One HTML file with charts, to view, print or send.
    Html,
}

/// Prints the season.
pub(super) fn run(args: &SeasonArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let whole = Work::whole();
    let kept = context.season()?;
    let (day, limits) = (context.day(&kept), context.settings.limits()?);
    let report = season::build(&kept, day, &limits, context.settings.limits_name())
        .ok_or_else(|| CommandError::NoSite { path: context.settings.season.clone() })?;
    let report = match compare::last_year(&kept, &limits, context)? {
        Some(last) => report.with_last_year(&kept, &last),
        None => report,
    };
    let text = match args.format {
        SeasonFormat::Text => season::text(&report),
        SeasonFormat::Html => html::season(&report),
    };
    context.print(whole, &text)
}
