//! `benchwalk close`: what the season came to, and where the next one starts. Nothing is written into the season.

use super::arg_values::{day, refused};
use super::{CommandError, Context};
use crate::files::shown;
use crate::journal;
use crate::progress::Work;
use crate::record::typed::Facing;
use crate::report::totals::{self, SeasonEnd};
use crate::season::Season;
use crate::session::new_files;
use crate::totals::{Next, Shift};
use chrono::NaiveDate;
use clap::{Args, ValueEnum};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// The plan of the next season, as a journal.
const PLAN: &str = "plan.jsonl";
/// The limits of the next season.
const LIMITS: &str = "limits.toml";

/// Options of `close`.
#[derive(Debug, Args)]
#[command(
    after_help = "It prints the season's end: pots sold by day against the orders, losses by cause, the time of the round, growth \
                  regulators and feed in all. It counts up to --on, and changes nothing: the season goes on as before.\n\n\
                  With --next it writes two new files into a folder. plan.jsonl is a journal of the plan: the same site, benches, \
                  lots and placements, each lot moved with its sale by whole weeks, so that every day keeps its weekday. Entries, \
                  trials, histories and (without --orders) orders stay behind. limits.toml has the limits that you changed, and \
                  what the trials found.\n\n\
                  Examples:\n  benchwalk close --format html > season-end.html\n  benchwalk close --next next-year\n  \
                  benchwalk import next-year/plan.jsonl --season next-year/season.db"
)]
pub struct CloseArgs {
    /// How to print it.
    #[arg(long, value_enum, default_value_t = CloseFormat::Text)]
    format: CloseFormat,
    /// Write the next season's plan and limits into this folder, instead of printing.
    #[arg(long, value_name = "FOLDER", conflicts_with = "format")]
    next: Option<PathBuf>,
    /// Weeks by which the lots move; in a year in which the sale comes a week later, 53.
    #[arg(long, requires = "next", value_name = "WEEKS", default_value_t = 52, value_parser = clap::value_parser!(i64).range(1..=260))]
    weeks: i64,
    /// The new sale date of one lot, which then moves by days; may be given several times.
    #[arg(long, requires = "next", value_name = "LOT=DATE")]
    ready: Vec<String>,
    /// Take the orders along, on their new days.
    #[arg(long, requires = "next")]
    orders: bool,
}

/// Forms of the season's end.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum CloseFormat {
    /// Plain text.
    Text,
    /// For other programs; figures are metric, as their names say.
    Json,
    /// One HTML file, to print or send.
    Html,
}

/// Prints the season's end, or writes the next season's start.
pub(super) fn run(args: &CloseArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let whole = Work::whole();
    let season = context.season()?;
    let on = context.day(&season);
    let limits = context.settings.limits()?;
    let end = SeasonEnd::of(&season, on, &limits)
        .ok_or_else(|| CommandError::NoSite { path: context.settings.season.clone() })?;
    let text = match &args.next {
        Some(folder) => {
            let next = plan(args, &season, context)?;
            let files = [(PLAN, journal::write_lines(None, &next.lines)), (LIMITS, totals::limits_file(&end, &limits))];
            Context::go_on()?;
            new_files::write_new(folder, &files)?;
            said(&next, folder)
        }
        None => match args.format {
            CloseFormat::Text => totals::text(&end),
            CloseFormat::Html => totals::html(&end),
            CloseFormat::Json => totals::json(&end).map_err(std::io::Error::from)?,
        },
    };
    context.print(whole, &text)
}

fn plan(args: &CloseArgs, season: &Season, context: &Context<'_>) -> Result<Next, CommandError> {
    let ready = args.ready.iter().map(|typed| new_sale(typed, context)).collect::<Result<BTreeMap<_, _>, _>>()?;
    let by = context.settings.by.as_deref().unwrap_or_default();
    let shift = Shift { weeks: args.weeks, ready, orders: args.orders, at: context.written_at(), by };
    let limits = context.settings.limits()?;
    Next::of(season, &limits, &shift).map_err(refused("--next"))
}

/// `R6=2027-11-23`.
fn new_sale(typed: &str, context: &Context<'_>) -> Result<(String, NaiveDate), CommandError> {
    let wrong = || refused("--ready")(format!("'{typed}' is not a lot and its new sale date, such as R6=2027-11-23"));
    let (lot, date) = typed.split_once('=').ok_or_else(wrong)?;
    Ok((lot.trim().to_owned(), day("--ready", (date.trim(), Facing::Ahead), None, context)?))
}

/// What was written, and what to do with it.
fn said(next: &Next, folder: &Path) -> String {
    let plan = shown(&folder.join(PLAN));
    let mut out = format!("{plan}: {} lines\n{}: the limits\n", next.lines.len(), shown(&folder.join(LIMITS)));
    for line in totals::next_words(next) {
        out.push_str(&format!("{line}\n"));
    }
    out.push_str(&format!("To start from it: benchwalk import {plan} --season NEW.db\n"));
    out
}
