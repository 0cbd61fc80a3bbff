//! `benchwalk demo`.

use super::args::DemoArgs;
use super::{CommandError, Context};

/// See the module.
pub(super) fn run(_args: &DemoArgs, _context: &mut Context<'_>) -> Result<(), CommandError> {
    Err(CommandError::NotYet("demo"))
}
