//! `benchwalk export`.

use super::args::ExportArgs;
use super::{CommandError, Context};

/// See the module.
pub(super) fn run(_args: &ExportArgs, _context: &mut Context<'_>) -> Result<(), CommandError> {
    Err(CommandError::NotYet("export"))
}
