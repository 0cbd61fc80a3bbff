//! `benchwalk backup`: a checked copy of the season file, also while the screens are open on it.

use super::{CommandError, Context};
use crate::files::shown;
use crate::store::Store;
use clap::Args;
use std::path::PathBuf;

/// Options of `backup`.
#[derive(Debug, Args)]
pub struct BackupArgs {
    /// Output file; must not exist yet.
    #[arg(value_name = "FILE")]
    file: PathBuf,
}

/// Writes the copy; never over another file.
pub(super) fn run(args: &BackupArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let store = Store::open_read_only(&context.settings.season)?;
    let backup = store.backup(&args.file)?;
    store.close()?;
    writeln!(context.out, "{}: {} entries, verified", shown(&backup.path), backup.entries)?;
    Ok(())
}
