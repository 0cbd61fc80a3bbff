//! What can be typed after `benchwalk`.

use crate::record::{Value, parse, rules, schema};
use chrono::NaiveDate;
use clap::{Args, Parser, Subcommand, ValueEnum};
use std::path::PathBuf;

/// Walk a poinsettia crop, bench by bench, and see early where it goes wrong.
///
/// Without a command the screens open on the season file.
#[derive(Debug, Parser)]
#[command(
    name = "benchwalk",
    version,
    propagate_version = true,
    disable_help_subcommand = true,
    after_help = super::help::list_of_topics()
)]
pub struct Cli {
    /// Options every command takes.
    #[command(flatten)]
    pub global: Global,
    /// The command.
    #[command(subcommand)]
    pub action: Option<Action>,
}

/// Options every command takes.
#[derive(Debug, Default, Args)]
pub struct Global {
    /// The season file; without it `season.db` in the platform's data folder.
    #[arg(long, global = true, value_name = "FILE")]
    pub season: Option<PathBuf>,
    /// The day to work on, YYYY-MM-DD; without it today at the site.
    #[arg(long, global = true, value_name = "DAY", value_parser = day)]
    pub on: Option<NaiveDate>,
    /// The limits file; without it `limits.toml` in the config folder, then the defaults.
    #[arg(long, global = true, value_name = "FILE")]
    pub limits: Option<PathBuf>,
    /// Who writes, 1 to 8 characters; without it `by` of `config.toml`, then asked once.
    #[arg(long, global = true, value_name = "WHO", value_parser = who)]
    pub by: Option<String>,
    /// Draw the screens with ASCII signs only.
    #[arg(long, global = true)]
    pub ascii: bool,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub enum Action {
    /// Make a demo season in a new file and open it on its own day.
    Demo(DemoArgs),
    /// Read a journal into the season file, all or nothing.
    Import(ImportArgs),
    /// Write the season as a journal.
    Export(ExportArgs),
    /// Write a checked copy of the season file.
    Backup(BackupArgs),
    /// Print the evening review.
    Review(ReviewArgs),
    /// Print the season: calendars, nights, pots, charts of every bench.
    Season(super::season::SeasonArgs),
    /// Print the round of a day for paper, with boxes to tick.
    Sheet(SheetArgs),
    /// Reckon what to measure out for a growth regulator, an extra nutrient or a feed.
    Mix(super::mix::MixArgs),
    /// Print the limits the rules go by, with unit and basis, as a file to edit.
    Limits,
    /// Reckon the length of a night and the start of short days.
    Night(super::night::NightArgs),
    /// Reckon dates back from a sale and forward from planting, cuttings and bench room.
    Calendar(super::calendar::CalendarArgs),
    /// Reckon vapor pressure deficit, dew point, mean temperature, DIF and daily light.
    Climate(super::climate::ClimateArgs),
    /// Print the completions of a shell.
    Completions(CompletionsArgs),
    /// Print the manual page (troff, for `man`).
    Man,
    /// Explain a command or a topic; without a name, list both.
    Help(super::help::HelpArgs),
}

/// Options of `demo`.
#[derive(Debug, Args)]
pub struct DemoArgs {
    /// Only make the file.
    #[arg(long)]
    pub no_open: bool,
}

/// Options of `import`.
#[derive(Debug, Args)]
pub struct ImportArgs {
    /// The journal, or a list of benches (`.csv` with bench, house, lot, pots, area); `-` is a journal on standard input.
    #[arg(value_name = "FILE")]
    pub file: PathBuf,
}

/// Options of `export`.
#[derive(Debug, Args)]
pub struct ExportArgs {
    /// Where to; without it standard output.
    #[arg(value_name = "FILE")]
    pub file: Option<PathBuf>,
    /// As what.
    #[arg(long, value_enum, default_value_t = ExportFormat::Journal)]
    pub format: ExportFormat,
}

/// Forms of an export.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum ExportFormat {
    /// Everything, to be read in again.
    Journal,
    /// The entries alone, for a spreadsheet.
    Csv,
}

/// Options of `review`.
#[derive(Debug, Args)]
pub struct ReviewArgs {
    /// How to print it.
    #[arg(long, value_enum, default_value_t = ReviewFormat::Text)]
    pub format: ReviewFormat,
}

/// Forms of the evening review.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum ReviewFormat {
    /// To read.
    Text,
    /// For other programs.
    Json,
    /// To print or to send.
    Html,
}

/// Options of `sheet`.
#[derive(Debug, Args)]
pub struct SheetArgs {
    /// How to print it.
    #[arg(long, value_enum, default_value_t = PaperFormat::Text)]
    pub format: PaperFormat,
}

/// Forms of what is meant for a printer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum PaperFormat {
    /// Plain text, 80 columns.
    Text,
    /// A page for the printer or a phone.
    Html,
}

/// Options of `completions`.
#[derive(Debug, Args)]
pub struct CompletionsArgs {
    /// The shell.
    #[arg(value_enum)]
    pub shell: clap_complete::Shell,
}

/// Options of `backup`.
#[derive(Debug, Args)]
pub struct BackupArgs {
    /// Where to; a file that is not there yet.
    #[arg(value_name = "FILE")]
    pub file: PathBuf,
}

/// Forms of an answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Format {
    /// To read.
    Text,
    /// For other programs.
    Json,
}

/// Units of a number typed without one, and of what is printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum UnitsArg {
    /// Inches, ounces, gallons, °F.
    Us,
    /// Centimeters, grams, liters, °C.
    Metric,
}

/// A day, as journals have it.
pub(super) fn day(text: &str) -> Result<NaiveDate, String> {
    parse::day(text).ok_or_else(|| "a day is written YYYY-MM-DD, from 2000 to 2100, like 2026-10-12".to_owned())
}

/// Who writes, by the rule of the journal's field.
pub(super) fn who(text: &str) -> Result<String, String> {
    let value = Value::Text(text.trim().to_owned());
    match schema::ENTRY.field("by").and_then(|field| rules::check_value(field, &value)) {
        None => Ok(text.trim().to_owned()),
        Some(fault) => Err(fault.text),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::CommandFactory;

    #[test]
    fn the_command_line_is_sound() {
        Cli::command().debug_assert();
    }

    #[test]
    fn days_are_taken_only_as_they_read_back() {
        assert_eq!(day("2026-10-12").unwrap().to_string(), "2026-10-12");
        for wrong in ["26-10-12", "2026-1-5", "+12024-01-05", "2023-02-29", "1999-12-31", "2101-01-01", "today", ""] {
            assert!(day(wrong).is_err(), "{wrong}");
        }
    }

    #[test]
    fn who_is_short() {
        assert_eq!(who(" ml ").unwrap(), "ml");
        for wrong in ["", "   ", "ninechars", "a\u{1b}b", "m l"] {
            assert!(who(wrong).is_err(), "{wrong:?}");
        }
    }
}
