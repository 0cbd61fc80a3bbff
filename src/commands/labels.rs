//! `benchwalk labels`: labels to scan for benches and plots, and care cards for the pots that are sold.

use super::arg_values::refused;
use super::{CommandError, Context};
use crate::files::{self, FILE, SETTINGS_MOST};
use crate::progress::Work;
use crate::report::labels::{self, Label, Paper, care};
use crate::season::{Season, places};
use clap::{Args, ValueEnum};
use std::io::ErrorKind;
use std::path::PathBuf;

/// The file in the config folder with the words of the care card.
const CARE_FILE: &str = "care-card.txt";
/// The most care cards of one run: two hundred and fifty sheets.
const MOST_CARDS: u32 = 2_000;

/// Options of `labels`.
#[derive(Debug, Args)]
pub struct LabelsArgs {
    /// Benches, rows of benches, houses, lots, plots or trials, such as E3, E1-E6, East, T1.7 or T1; default: every bench.
    #[arg(value_name = "CODE", conflicts_with_all = ["care", "care_words"])]
    codes: Vec<String>,
    /// The paper in the printer; default: letter for a site in US units, A4 for a metric one.
    #[arg(long, value_enum)]
    paper: Option<PaperSize>,
    /// Print care cards for the pots that are sold, in the words of `care-card.txt` in the config folder.
    #[arg(long, conflicts_with = "care_words")]
    care: bool,
    /// How many care cards; eight fill a page.
    #[arg(long, value_name = "N", default_value_t = 8, requires = "care",
          value_parser = clap::value_parser!(u32).range(1..=i64::from(MOST_CARDS)))]
    count: u32,
    /// Print the words of the care card, to be saved as `care-card.txt` and changed.
    #[arg(long)]
    care_words: bool,
}

/// Papers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum PaperSize {
    /// 8.5 by 11 inches.
    Letter,
    /// 210 by 297 mm.
    A4,
}

/// Prints the labels, or the cards.
pub(super) fn run(args: &LabelsArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let whole = Work::whole();
    let text = if args.care_words { words(context)?.1 } else { pages(args, context)? };
    context.print(whole, &text)
}

fn pages(args: &LabelsArgs, context: &mut Context<'_>) -> Result<String, CommandError> {
    let season = context.season()?;
    let site = season.site().ok_or_else(|| CommandError::NoSite { path: context.settings.season.clone() })?;
    let paper = args.paper.map_or(Paper::of(site.units), |size| match size {
        PaperSize::Letter => Paper::Letter,
        PaperSize::A4 => Paper::A4,
    });
    if args.care {
        let (path, text) = words(context)?;
        let file = path.as_ref().map_or_else(|| CARE_FILE.to_owned(), |path| files::shown(path));
        let card = care::Card::read(&text).map_err(|fault| refused("--care")(format!("{file}: {fault}")))?;
        let count = usize::try_from(args.count).unwrap_or(1);
        return Ok(care::html(&card, (count, &site.name), paper));
    }
    let labels = chosen(&season, &args.codes, context)?;
    Ok(labels::html(&labels, &site.name, paper))
}

/// The labels asked for, in the order they were named; without a name those of every bench in walking order.
fn chosen(season: &Season, codes: &[String], context: &Context<'_>) -> Result<Vec<Label>, CommandError> {
    let of_benches = |benches: Vec<String>| -> Vec<Label> {
        benches.iter().filter_map(|bench| Label::of_bench(season, bench)).collect()
    };
    if codes.is_empty() {
        let all = season.benches().iter().map(|bench| bench.bench.clone()).collect();
        return Ok(of_benches(all));
    }
    let day = context.day(season);
    let mut labels = Vec::new();
    for code in codes {
        match places::read(season, code, places::Meant::EveryBench) {
            Ok(benches) => labels.extend(of_benches(benches)),
            Err(error) => {
                let plots = plots(season, code);
                let standing = || places::read(season, code, places::Meant::WithPots(day)).ok();
                match (plots.is_empty(), standing()) {
                    (false, _) => labels.extend(plots),
                    (true, Some(benches)) => labels.extend(of_benches(benches)),
                    (true, None) => return Err(refused("CODE")(format!("{error}, or a plot or trial"))),
                }
            }
        }
    }
    Ok(labels)
}

/// The labels of a plot, or of every plot of a trial.
fn plots(season: &Season, code: &str) -> Vec<Label> {
    let trials = season.trials();
    let all = trials.iter().flat_map(|trial| season.plots(&trial.trial));
    let named = all.filter(|plot| plot.plot.eq_ignore_ascii_case(code) || plot.trial.eq_ignore_ascii_case(code));
    named.map(Label::of_plot).collect()
}

/// The words of the care card and the file they are in: those of the program itself where there is none.
fn words(context: &Context<'_>) -> Result<(Option<PathBuf>, String), CommandError> {
    let path = context.folders.config.join(CARE_FILE);
    match files::text(&path, SETTINGS_MOST, FILE) {
        Ok(text) => Ok((Some(path), text)),
        Err(error) if error.kind() == ErrorKind::NotFound => Ok((None, care::WORDS.to_owned())),
        Err(error) => Err(CommandError::File { path, error }),
    }
}
