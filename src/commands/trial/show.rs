//! `benchwalk trial [CODE]`: the trials of the season in a list, or what is found of one.

use super::super::arg_values::{refused, term};
use super::super::{CommandError, Context};
use crate::dates;
use crate::journal;
use crate::progress::Work;
use crate::record::{Trial, TrialReading};
use crate::report::trial;
use crate::season::Season;
use crate::terms::Term;
use crate::trials::{Readings, Rules};
use chrono::NaiveDate;
use clap::{Args, ValueEnum};
use serde::Serialize;

/// Options of `trial` without a subcommand.
#[derive(Debug, Args)]
pub struct ShowArgs {
    /// The code of a trial, such as T1.
    #[arg(value_name = "TRIAL")]
    code: Option<String>,
    /// Which reading; default: the trial's main one.
    #[arg(long, requires = "code", value_name = "READING", value_parser = term::<TrialReading>())]
    reading: Option<TrialReading>,
    /// Take into account what was read of every plot before the treatment was given.
    #[arg(long, requires = "code")]
    before: bool,
    /// Print the readings for a spreadsheet, one line a plot and day.
    #[arg(long, requires = "code", conflicts_with_all = ["format", "before"])]
    csv: bool,
    #[command(flatten)]
    paper: super::paper::PaperArgs,
    /// How to print it.
    #[arg(long, value_enum, default_value_t = TrialFormat::Text)]
    format: TrialFormat,
}

/// Forms of what is known of a trial.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum TrialFormat {
    /// Plain text.
    Text,
    /// For other programs.
    Json,
    /// One HTML file with charts, to view, print or send.
    Html,
}

/// Prints the list, or the trial.
pub(super) fn run(args: &ShowArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let whole = Work::whole();
    let season = context.season()?;
    let day = context.day(&season);
    let text = match &args.code {
        None => list(&season, day, args.format)?,
        Some(code) => one(args, (&season, code, day), context)?,
    };
    context.print(whole, &text)
}

fn one(
    args: &ShowArgs,
    (season, code, day): (&Season, &str, NaiveDate),
    context: &Context<'_>,
) -> Result<String, CommandError> {
    if args.paper.is_asked() {
        let laid = trial::Laid::of(season, code, day).ok_or_else(|| unknown(season, code))?;
        return match args.format {
            TrialFormat::Json => Err(refused("--format")("maps and labels are printed as text or html")),
            format => Ok(args.paper.print(&laid, matches!(format, TrialFormat::Html))),
        };
    }
    let readings = Readings::of(season, code, day).ok_or_else(|| unknown(season, code))?;
    let reads = &readings.trial.reads;
    if let Some(reading) = args.reading.filter(|reading| !reads.contains(reading)) {
        let known = reads.iter().map(|reading| reading.code()).collect::<Vec<_>>().join(", ");
        return Err(refused("--reading")(format!("'{}' is not read in {code}; it reads {known}", reading.code())));
    }
    if args.csv {
        return Ok(journal::csv::write_rows(&trial::by_day(&readings, args.reading)));
    }
    let site = season.site().ok_or_else(|| CommandError::NoSite { path: context.settings.season.clone() })?;
    let rules = Rules::of(&context.settings.limits()?);
    let report = trial::Report::of(&readings, (args.reading, args.before), rules, (&site.name, site.units));
    Ok(match args.format {
        TrialFormat::Text => trial::text(&report),
        TrialFormat::Html => trial::html(&report),
        TrialFormat::Json => trial::json(&report).map_err(std::io::Error::from)?,
    })
}

/// That there is no such trial, and which there are.
fn unknown(season: &Season, code: &str) -> CommandError {
    let known: Vec<&str> = season.trials().iter().map(|trial| trial.trial.as_str()).collect();
    let known = match known.as_slice() {
        [] => "the season has no trial".to_owned(),
        [only] => format!("the season has {only}"),
        all => format!("the season has {}", all.join(", ")),
    };
    refused("trial")(format!("there is no trial '{code}'; {known}"))
}

#[derive(Serialize)]
struct Row<'a> {
    trial: &'a str,
    lot: &'a str,
    question: &'a str,
    design: &'static str,
    treatments: usize,
    plots: usize,
    days_read: usize,
    #[serde(skip_serializing_if = "Option::is_none")]
    last_read: Option<NaiveDate>,
}

/// The trials of the season, a line each.
fn list(season: &Season, day: NaiveDate, format: TrialFormat) -> Result<String, CommandError> {
    let rows: Vec<Row<'_>> = season.trials().into_iter().map(|trial| row(season, trial, day)).collect();
    match format {
        TrialFormat::Json => Ok(serde_json::to_string_pretty(&rows).map_err(std::io::Error::from)? + "\n"),
        TrialFormat::Html => Err(refused("--format")("html is of one trial; give its code")),
        TrialFormat::Text if rows.is_empty() => Ok("The season has no trial.\n".to_owned()),
        TrialFormat::Text => Ok(rows.iter().fold(String::new(), |out, row| out + &line(row))),
    }
}

fn row<'a>(season: &Season, trial: &'a Trial, day: NaiveDate) -> Row<'a> {
    let readings = Readings::of(season, &trial.trial, day);
    let days: std::collections::BTreeSet<NaiveDate> = readings
        .iter()
        .flat_map(|readings| trial.reads.iter().flat_map(|reading| readings.days(*reading)))
        .map(|day| day.day)
        .collect();
    Row {
        trial: &trial.trial,
        lot: &trial.lot,
        question: &trial.question,
        design: trial.design.code(),
        treatments: trial.treatments.len(),
        plots: readings.map_or(0, |readings| readings.plots.len()),
        days_read: days.len(),
        last_read: days.last().copied(),
    }
}

/// `T1  R6  slow-release rate; randomized blocks, 24 plots, 4 treatments; read on 6 days, last Oct 12`.
fn line(row: &Row<'_>) -> String {
    let design = crate::terms::Design::from_code(row.design).map_or(row.design, Term::text);
    let read = match (row.days_read, row.last_read) {
        (1, Some(last)) => format!("read on {}", dates::short(last)),
        (days, Some(last)) => format!("read on {days} days, last {}", dates::short(last)),
        (_, None) => "not read yet".to_owned(),
    };
    format!(
        "{:<10} {:<6} {}; {design}, {} plots, {} treatments; {read}\n",
        row.trial, row.lot, row.question, row.plots, row.treatments
    )
}
