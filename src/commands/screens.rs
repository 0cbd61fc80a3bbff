//! `benchwalk` alone: the screens.

use super::{CommandError, Context};

/// Opens the screens on the season file of the settings, which may not exist yet.
pub(super) fn open(context: &mut Context<'_>) -> Result<(), CommandError> {
    context.settings.limits()?;
    Err(CommandError::NotYet("the walk on the screen"))
}
