//! `benchwalk export`: the season as a journal, or as tables for a spreadsheet.

use super::edge::say;
use super::{CommandError, Context};
use crate::files::shown;
use crate::journal::{self, Faults};
use crate::progress::Work;
use crate::record::{Entry, Line, Plan};
use crate::season::Season;
use crate::session::{and_more, atomic_write, new_files};
use crate::store::Store;
use chrono::NaiveDate;
use clap::{Args, ValueEnum};
use std::path::{Path, PathBuf};

/// Options of `export`.
#[derive(Debug, Args)]
pub struct ExportArgs {
    /// Output file; default, or with `-`: standard output. With `--format csv` a folder, which gets one file a kind.
    #[arg(value_name = "FILE")]
    file: Option<PathBuf>,
    /// Output format.
    #[arg(long, value_enum, default_value_t = ExportFormat::Journal)]
    format: ExportFormat,
    /// What can still be read of a damaged season file.
    #[arg(long)]
    salvage: bool,
}

/// Forms of an export.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum ExportFormat {
    /// Everything, for re-import.
    Journal,
    /// For a spreadsheet: into a folder one file a kind; to standard output, or to a file that ends in .csv, the entries in one
    /// table.
    Csv,
}

/// Writes it to the file named, whole or not at all, or to standard output.
pub(super) fn run(args: &ExportArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let whole = Work::whole();
    let store = Store::open_read_only(&context.settings.season)?;
    let mut said = None;
    let ((plan, mut entries), id) = if args.salvage {
        let salvaged = store.salvage()?;
        said = Some(salvaged.counted());
        ((salvaged.plan, salvaged.entries.into_iter().map(|(_, entry)| entry).collect()), salvaged.season)
    } else {
        // An altered value is found here, where what is written leaves the file.
        store.check()?;
        (store.load()?, store.season_id()?)
    };
    let left_out = store.left_out();
    store.close()?;
    entries.sort_by_key(Entry::order);
    let mut refused = None;
    let to = args.file.as_deref().filter(|file| *file != Path::new("-"));
    let folder = to.filter(|path| args.format == ExportFormat::Csv && !is_table(path));
    if let Some(folder) = folder {
        let files = tables(plan, entries);
        Context::go_on()?;
        new_files::write_new(folder, &files)?;
        drop(whole);
        let many = files.len();
        let written = if many == 1 { "1 file".to_owned() } else { format!("{many} files") };
        writeln!(context.out, "{}: {written}", shown(folder))?;
    } else {
        let text = match args.format {
            ExportFormat::Journal => {
                let (text, faults) = journal::write_judged(id, &plan, &entries);
                refused = Some(faults).filter(|faults| !faults.is_empty());
                text
            }
            ExportFormat::Csv => journal::csv::write_entries(&entries),
        };
        Context::go_on()?;
        drop(whole);
        match to {
            Some(file) => atomic_write::write_new(file, text.as_bytes())?,
            None => context.out.write_all(text.as_bytes())?,
        }
    }
    context.out.flush()?;
    if let Some(said) = said {
        say(&format!("benchwalk: {said}\n"), context.err).ok();
    }
    if let Some(faults) = refused {
        say(&format!("benchwalk: {}\n", not_again(&faults)), context.err).ok();
    }
    if left_out > 0 {
        let records = match left_out {
            1 => "1 record of a newer Benchwalk is not understood here and was left out".to_owned(),
            n => format!("{n} records of a newer Benchwalk are not understood here and were left out"),
        };
        // Where standard error is gone the export is still whole.
        say(&format!("benchwalk: {records}; the newer program exports all of it\n"), context.err).ok();
    }
    Ok(())
}

/// What an import refuses of an export, and what to do about it.
fn not_again(faults: &Faults) -> String {
    let listed: Vec<String> = faults.iter().map(ToString::to_string).collect();
    format!(
        "the season file holds values that Benchwalk never saves; they were exported as they are, but 'import' refuses them. Before an \
         import fix them in the export or take out their lines, and its end (see 'benchwalk help journal'):\n  {}{}",
        listed.join("\n  "),
        and_more(faults.more())
    )
}

/// True of a name that is one table, not a folder.
fn is_table(path: &Path) -> bool {
    path.extension().is_some_and(|end| end.eq_ignore_ascii_case("csv"))
}

/// The season as files: the plan as it stands, and the entries by kind.
fn tables(plan: Plan, entries: Vec<Entry>) -> Vec<(String, String)> {
    let season = Season::new(plan, entries);
    let voided = |entry: &Entry| season.is_struck(entry, NaiveDate::MAX);
    journal::csv::write_tables(&standing(&season), season.entries(), &voided)
}

/// The lines of the plan as they stand, without placements and orders that were removed.
fn standing(season: &Season) -> Vec<Line> {
    let lots = season.lots();
    let mut lines: Vec<Line> = season.site().cloned().map(Line::Site).into_iter().collect();
    lines.extend(lots.iter().map(|lot| Line::Lot((*lot).clone())));
    lines.extend(lots.iter().filter_map(|lot| season.lot_history(&lot.lot)).cloned().map(Line::LotHistory));
    lines.extend(season.benches().iter().cloned().map(Line::Bench));
    lines.extend(season.all_placements().into_iter().filter(|p| p.pots > 0).cloned().map(Line::Placement));
    let orders = lots.iter().flat_map(|lot| season.orders(&lot.lot));
    lines.extend(orders.filter(|order| order.pots > 0).cloned().map(Line::Order));
    let trials = season.trials();
    lines.extend(trials.iter().map(|trial| Line::Trial((*trial).clone())));
    lines.extend(trials.iter().flat_map(|trial| season.plots(&trial.trial)).cloned().map(Line::Plot));
    lines
}
