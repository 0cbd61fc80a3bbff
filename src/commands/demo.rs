//! `benchwalk demo`: a season to try, in a file of its own.

use super::shell::word;
use super::{CommandError, Context};
use crate::compare::Chosen;
use crate::files::shown;
use crate::session::{DemoFile, make_demo};
use clap::Args;

/// Who writes in the demo when nobody said.
const BY: &str = "demo";

/// Options of `demo`.
#[derive(Debug, Args)]
pub struct DemoArgs {
    /// Only make the file.
    #[arg(long)]
    no_open: bool,
}

/// Makes the file, opens the screens on the demo's own day, and says at the end where the file is.
pub(super) fn run(args: &DemoArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let settings = &mut context.settings;
    let named = settings.season_named;
    let demo = make_demo(if named { DemoFile::At(&settings.season) } else { DemoFile::NextIn(&context.folders.data) })?;
    settings.season.clone_from(&demo.path);
    settings.season_named = true;
    if settings.last_year.file.is_none() {
        settings.last_year.file = Some((demo.last_year, Chosen::Demo));
    }
    settings.on = settings.on.or(demo.on);
    settings.by.get_or_insert_with(|| BY.to_owned());
    let opened = if args.no_open { Ok(()) } else { (context.screens)(context) };
    // Also when the screens could not be opened: the file is there.
    let on = context.settings.on.map(|day| format!(" --on {day}")).unwrap_or_default();
    let path = shown(&demo.path);
    writeln!(context.out, "The demo season is in {path}")?;
    writeln!(context.out, "Open it again: benchwalk --season {}{on}", word(&path))?;
    opened
}
