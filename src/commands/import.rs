//! `benchwalk import`: a journal, tables of the plan (`.csv`) or files of a climate logger into the season file, all or nothing.

mod logger;
mod table;

use super::edge::say;
use super::{CommandError, Context};
use crate::clock;
use crate::files::{FILE, FILE_OR_STDIN, shown};
use crate::journal::csv::template;
use crate::progress::Work;
use crate::record::schema::{self, RecordSchema};
use crate::session::daily_backup::{NotKept, keep};
use crate::session::{self, Source, Writer, rescue};
use crate::store::{Saved, StoreError};
use clap::Args;
use clap::builder::{PossibleValuesParser, TypedValueParser};
use std::path::{Path, PathBuf};

/// Options of `import`.
#[derive(Debug, Args)]
pub struct ImportArgs {
    /// The journal, or a table of the plan (`.csv`, such as a list of benches with bench, house, lot, pots, area); `-` is a journal
    /// on standard input. With --logger one or more files of a climate logger.
    #[arg(value_name = "FILE", required_unless_present_any = ["plan", "template"])]
    files: Vec<PathBuf>,
    /// Tables of the plan that belong together (`.csv`): each is recognized by its columns, all are taken or none.
    #[arg(long, value_name = "FILE", num_args = 1.., conflicts_with = "files")]
    plan: Vec<PathBuf>,
    /// Take tables with more pots of a lot than it has.
    #[arg(long)]
    confirm: bool,
    /// Print an empty table to fill in: site, lot, bench, placement, order (see `benchwalk help spreadsheets`).
    #[arg(long, value_name = "TABLE", value_parser = tables(), conflicts_with_all = ["files", "plan", "confirm"])]
    template: Option<&'static RecordSchema>,
    /// Files of a climate logger.
    #[command(flatten)]
    logger: logger::LoggerArgs,
}

/// The tables a template can be printed of.
fn tables() -> impl TypedValueParser<Value = &'static RecordSchema> {
    let names = schema::plan_tables().iter().map(|table| table.name);
    PossibleValuesParser::new(names).try_map(|name| schema::plan_table(&name).ok_or("not a table of the plan"))
}

/// Imports it and says what was new; or prints a template.
pub(super) fn run(args: &ImportArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    if let Some(table) = args.template {
        let text = template(table, context.day_reader().system);
        context.out.write_all(text.as_bytes())?;
        return Ok(());
    }
    if args.logger.logger.is_some() {
        return logger::run(&args.logger, &args.files, context);
    }
    let file = match args.files.as_slice() {
        [] => return plan(args, context),
        [file] => file,
        _ => {
            let reason = "one journal or table is imported at a time; tables that belong together go with --plan, files of a \
                          climate logger with --logger";
            return Err(CommandError::Typed { option: "import", reason: reason.to_owned() });
        }
    };
    let stdin = file == Path::new("-");
    let source =
        if stdin { Source::stream("standard input", context.input)? } else { Source::for_import(file, FILE_OR_STDIN)? };
    let whole = Work::whole();
    keep_copy(context)?;
    let path = &context.settings.season;
    let saved = session::import(path, &source, &writer(args, context))?;
    drop(whole);
    writeln!(context.out, "{}", said(saved, path))?;
    let failed = |error| CommandError::File { path: file.clone(), error };
    if !stdin && rescue::taken(&context.folders.state, file).map_err(failed)? {
        writeln!(context.out, "{}: removed; its entries are in the season file", shown(file))?;
    }
    Ok(())
}

/// Imports tables of the plan together.
fn plan(args: &ImportArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let tables = args.plan.iter().map(|file| Source::table(file, FILE)).collect::<Result<Vec<_>, _>>()?;
    let whole = Work::whole();
    keep_copy(context)?;
    let path = &context.settings.season;
    let saved = session::import_plan(path, &tables, &writer(args, context))?;
    drop(whole);
    writeln!(context.out, "{}", said(saved, path))?;
    Ok(())
}

/// Who writes the lines that tables make.
fn writer<'c>(args: &ImportArgs, context: &'c Context<'_>) -> Writer<'c> {
    let by = context.settings.by.as_deref().unwrap_or_default();
    let laptop = &context.settings.sharer.laptop;
    Writer { confirmed: args.confirm, at: context.written_at(), by, laptop }
}

/// Keeps the copy of the day before a season that is there is changed. Without one the import goes on, and says so.
///
/// # Errors
/// A damaged season file: nothing is written to it.
fn keep_copy(context: &mut Context<'_>) -> Result<(), CommandError> {
    let path = &context.settings.season;
    if path.symlink_metadata().is_err() {
        return Ok(());
    }
    // A replayed day is not the day of a copy.
    let today = clock::day(context.clock, context.zone(), None);
    match keep(&context.settings.backups, path, today) {
        Ok(_) => Ok(()),
        Err(NotKept::Store(error @ (StoreError::Damaged { .. } | StoreError::Stopped))) => Err(error.into()),
        // The import itself meets the same file and says it.
        Err(NotKept::Store(StoreError::NotASeason { .. } | StoreError::Empty { .. })) => Ok(()),
        Err(error) => {
            // Where standard error is gone the import goes on all the same.
            say(&format!("benchwalk: no backup copy of today was kept: {error}\n"), context.err).ok();
            Ok(())
        }
    }
}

/// What was done, in words.
fn said(saved: Saved, path: &Path) -> String {
    let path = shown(path);
    let records = |n: usize| if n == 1 { "1 record".to_owned() } else { format!("{n} records") };
    match saved {
        Saved { new: 0, known } => format!("{path}: nothing new, {} already there", records(known)),
        Saved { new, known: 0 } => format!("{path}: {} imported", records(new)),
        Saved { new, known } => format!("{path}: {} imported, {known} already there", records(new)),
    }
}
