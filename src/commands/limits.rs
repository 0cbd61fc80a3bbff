//! `benchwalk limits`: the numbers the rules use, as a file to edit.

use super::{CommandError, Context};

/// Prints the commented defaults.
pub(super) fn run(context: &mut Context<'_>) -> Result<(), CommandError> {
    context.out.write_all(crate::limits::commented().as_bytes())?;
    Ok(())
}
