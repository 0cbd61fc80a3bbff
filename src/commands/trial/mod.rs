//! `benchwalk trial`: how many plots a trial on the benches needs.

mod plan;

use super::{CommandError, Context};
use clap::{Args, Subcommand};

/// Options of `trial`.
#[derive(Debug, Args)]
pub struct TrialArgs {
    /// What is wanted.
    #[command(subcommand)]
    pub what: TrialAction,
}

/// What can be asked of trials.
#[derive(Debug, Subcommand)]
pub enum TrialAction {
    /// Calculate how many blocks show a difference that matters; needs no season.
    Plan(plan::PlanArgs),
}

/// Answers.
pub(super) fn run(args: &TrialArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    match &args.what {
        TrialAction::Plan(args) => plan::run(args, context),
    }
}
