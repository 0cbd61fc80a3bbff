//! `benchwalk applications`: the record of growth regulators and sprays.

use super::{CommandError, Context, arg_values};
use crate::journal;
use crate::progress::Work;
use crate::record::typed::Facing;
use crate::report::applications;
use clap::{Args, ValueEnum};

/// Options of `applications`.
#[derive(Debug, Args)]
pub struct ApplicationsArgs {
    /// The first day; default: the first of the record.
    #[arg(long, value_name = "DAY")]
    from: Option<String>,
    /// The last day; default: today, or the day of --on.
    #[arg(long, value_name = "DAY")]
    to: Option<String>,
    /// How to print it.
    #[arg(long, value_enum, default_value_t = ApplicationsFormat::Text)]
    format: ApplicationsFormat,
}

/// Forms of the record.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum ApplicationsFormat {
    /// Plain text.
    Text,
    /// For a spreadsheet.
    Csv,
    /// One HTML file, to print or send.
    Html,
}

/// Prints the record.
pub(super) fn run(args: &ApplicationsArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let whole = Work::whole();
    let season = context.season()?;
    let day = context.day(&season);
    let typed = |name, text: &Option<String>| {
        let text = text.as_ref();
        text.map(|text| arg_values::day(name, (text, Facing::Back), None, context)).transpose()
    };
    let first = season.entries().iter().map(crate::record::Entry::day).min().unwrap_or(day);
    let to = typed("--to", &args.to)?.unwrap_or(day);
    let from = typed("--from", &args.from)?.unwrap_or(first.min(to));
    if from > to {
        return Err(arg_values::refused("--from")(format!("{from} is after {to}, the last day asked for")));
    }
    let record = applications::build(&season, (from, to), day)
        .ok_or_else(|| CommandError::NoSite { path: context.settings.season.clone() })?;
    let text = match args.format {
        ApplicationsFormat::Text => applications::text(&record),
        ApplicationsFormat::Csv => journal::csv::write_rows(&applications::rows(&record)),
        ApplicationsFormat::Html => applications::html(&record),
    };
    context.print(whole, &text)
}
