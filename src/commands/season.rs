//! `benchwalk season`: calendars, nights, pots and charts of the season.

use super::{CommandError, Context, arg_values, compare};
use crate::progress::Work;
use crate::report::season::Charted;
use crate::report::{html, season};
use crate::season::places::{self, Meant};
use clap::{Args, ValueEnum};

/// Options of `season`.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  benchwalk season --format html > season.html\n  \
                  benchwalk season --format html --benches > charts.html\n  \
                  benchwalk season --format html --benches \"E1-E6, Mill\" > mill.html")]
pub struct SeasonArgs {
    /// How to print it.
    #[arg(long, value_enum, default_value_t = SeasonFormat::Text)]
    format: SeasonFormat,
    /// Draw the charts of every bench too, or of these: codes, rows such as E1-E6, houses, lots. The text always has every bench.
    #[arg(long, value_name = "BENCHES", num_args = 0..=1, default_missing_value = "")]
    benches: Option<String>,
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
    let named = match args.benches.as_deref().filter(|typed| !typed.trim().is_empty()) {
        Some(typed) => Some(
            places::read(&kept, typed, Meant::WithPots(day))
                .map_err(|error| arg_values::refused("--benches")(error.to_string()))?,
        ),
        None => None,
    };
    let charted = match (&named, args.format, &args.benches) {
        (Some(named), SeasonFormat::Html, _) => Charted::Of(named),
        (None, SeasonFormat::Html, None) => Charted::None,
        _ => Charted::All,
    };
    let report = season::build(&kept, day, (&limits, context.settings.limits_name()), charted)
        .ok_or_else(|| CommandError::NoSite { path: context.settings.season.clone() })?;
    // Last year's line stands in the charts of benches.
    let last = match charted {
        Charted::None => None,
        _ => compare::last_year(&kept, &limits, context)?,
    };
    let report = match last {
        Some(last) => report.with_last_year(&kept, &last),
        None => report,
    };
    let text = match args.format {
        SeasonFormat::Text => season::text(&report),
        SeasonFormat::Html => html::season(&report),
    };
    context.print(whole, &text)
}
