//! `benchwalk import`.

use super::args::ImportArgs;
use super::{CommandError, Context};

/// See the module.
pub(super) fn run(_args: &ImportArgs, _context: &mut Context<'_>) -> Result<(), CommandError> {
    Err(CommandError::NotYet("import"))
}
