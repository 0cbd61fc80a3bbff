//! `benchwalk review`: the flagged benches of a day and the next day's work.

use super::args::ReviewArgs;
use super::{CommandError, Context};

/// Prints the evening review.
pub(super) fn run(_args: &ReviewArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let season = context.season()?;
    let (_day, _limits) = (context.day(&season), context.settings.limits()?);
    Err(CommandError::NotYet("the evening review"))
}
