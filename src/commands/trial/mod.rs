//! `benchwalk trial`: the trials of the season, one of them, how many plots a new one needs.

mod layout;
mod paper;
mod plan;
mod show;

use super::{CommandError, Context};
use clap::{Args, Subcommand};

/// Options of `trial`.
#[derive(Debug, Args)]
#[command(
    args_conflicts_with_subcommands = true,
    after_help = "Without a code it lists the trials of the season. With --on it is as of that day.\n\n\
                  Examples:\n  benchwalk trial T1\n  benchwalk trial T1 --reading greenness --format html > t1.html"
)]
pub struct TrialArgs {
    /// What is known of one trial.
    #[command(flatten)]
    pub show: show::ShowArgs,
    /// What else is wanted.
    #[command(subcommand)]
    pub what: Option<TrialAction>,
}

/// What else can be asked of trials.
#[derive(Debug, Subcommand)]
pub enum TrialAction {
    /// Calculate how many blocks show a difference that matters; needs no season.
    Plan(plan::PlanArgs),
    /// Draw the layout of a trial and print its lines for import.
    Layout(Box<layout::LayoutArgs>),
}

/// Answers.
pub(super) fn run(args: &TrialArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    match &args.what {
        None => show::run(&args.show, context),
        Some(TrialAction::Plan(args)) => plan::run(args, context),
        Some(TrialAction::Layout(args)) => layout::run(args, context),
    }
}
