//! `benchwalk import`: a journal, or a list of benches (`.csv`), into the season file, all or nothing.

use super::{CommandError, Context};
use crate::session::{self, Source, Writer};
use crate::store::Saved;
use clap::Args;
use std::path::{Path, PathBuf};

/// Options of `import`.
#[derive(Debug, Args)]
pub struct ImportArgs {
    /// The journal, or a list of benches (`.csv` with bench, house, lot, pots, area); `-` is a journal on standard input.
    #[arg(value_name = "FILE")]
    file: PathBuf,
}

/// Imports it and says what was new.
pub(super) fn run(args: &ImportArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let stdin = args.file == Path::new("-");
    let source = if stdin { Source::stream("standard input", context.input)? } else { Source::file(&args.file)? };
    let path = &context.settings.season;
    let writer = Writer { at: context.written_at(), by: context.settings.by.as_deref().unwrap_or_default() };
    let saved = session::import(path, &source, &writer)?;
    writeln!(context.out, "{}", said(saved, path))?;
    Ok(())
}

/// What was done, in words.
fn said(saved: Saved, path: &Path) -> String {
    let path = path.display();
    let records = |n: usize| if n == 1 { "1 record".to_owned() } else { format!("{n} records") };
    match saved {
        Saved { new: 0, known } => format!("{path}: nothing new, {} already there", records(known)),
        Saved { new, known: 0 } => format!("{path}: {} written", records(new)),
        Saved { new, known } => format!("{path}: {} written, {known} already there", records(new)),
    }
}
