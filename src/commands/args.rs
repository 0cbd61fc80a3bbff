//! What can be typed after `benchwalk`: the commands. Each keeps its own options in its own file.

use super::settings::Global;
use clap::{Parser, Subcommand};

/// Walk a poinsettia crop, bench by bench, and catch trouble early.
///
/// Without a command the screens open on the season file.
#[derive(Debug, Parser)]
#[command(
    name = "benchwalk",
    version = super::version::line(),
    long_version = super::version::full(),
    propagate_version = true,
    disable_help_subcommand = true,
    after_help = super::help::list_of_topics()
)]
pub struct Cli {
    /// Options that every command accepts.
    #[command(flatten)]
    pub global: Global,
    /// The command.
    #[command(subcommand)]
    pub action: Option<Action>,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub enum Action {
    /// Create a demo season in a new file and open it on the demo day.
    Demo(super::demo::DemoArgs),
    /// Import a journal into the season file (nothing is imported if any line is wrong).
    Import(super::import::ImportArgs),
    /// Write the season as a journal.
    Export(super::export::ExportArgs),
    /// Write a checked copy of the season file.
    Backup(super::backup::BackupArgs),
    /// List the dated copies of the season, or put one back next to it.
    Restore(super::restore::RestoreArgs),
    /// Print the evening review.
    Review(super::review::ReviewArgs),
    /// Print the season: calendars, nights, pots, charts of every bench.
    Season(super::season::SeasonArgs),
    /// Print what the season came to; write the next season's plan and limits.
    Close(super::close::CloseArgs),
    /// Print the application record: growth regulators and sprays, a line each.
    ///
    /// Each line has what the federal Worker Protection Standard (40 CFR part 170) and the federal recordkeeping rule for
    /// restricted-use pesticides (7 CFR part 110) ask for; what was not logged is marked MISSING. Your state may ask for more.
    /// For an inspector or a file: benchwalk applications --from 9/1 --format html > applications.html
    Applications(super::applications::ApplicationsArgs),
    /// Print labels to scan for benches and plots, or care cards for pots sold.
    ///
    /// A label has the code large, as QR code and as Code 128; scanned in the screens it opens that bench. All benches, or one
    /// again: benchwalk labels > labels.html, benchwalk labels E3 > e3.html. How a scanner is set and how cards get your words is
    /// explained by `benchwalk help scanning`.
    Labels(super::labels::LabelsArgs),
    /// Print last year's season beside this one: lot by lot, and what to do differently.
    Compare(super::compare::CompareArgs),
    /// Exchange a season that several laptops keep, over a folder, a stick or a hub; begin that, or join it.
    Share(super::share::ShareArgs),
    /// Print a day's round on paper, with check boxes.
    Sheet(super::sheet::SheetArgs),
    /// Calculate how much to measure out for a growth regulator, an extra nutrient or a feed.
    Mix(super::mix::MixArgs),
    /// Print the limits the rules use, with unit and basis, as a file to edit.
    Limits,
    /// Calculate night length and the start of short days.
    Night(super::night::NightArgs),
    /// Print the trials on the benches, or one of them; calculate how many plots it needs.
    Trial(super::trial::TrialArgs),
    /// Calculate dates back from a ready date and forward from planting; write a calendar.
    Calendar(super::calendar::CalendarArgs),
    /// Calculate vapor pressure deficit (VPD), dew point, average temperature, DIF, light.
    Climate(super::climate::ClimateArgs),
    /// Print shell completions.
    Completions(super::manual::CompletionsArgs),
    /// Print the manual page (troff, for `man`).
    Man,
    /// Explain a command or a topic; without a name, list both.
    Help(super::help::HelpArgs),
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::CommandFactory;

    #[test]
    fn the_command_line_is_sound() {
        Cli::command().debug_assert();
    }
}
