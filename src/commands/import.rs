//! `benchwalk import`: a journal, or a list of benches (`.csv`), into the season file, all or nothing.

use super::args::ImportArgs;
use super::{CommandError, Context};
use crate::journal::{self, Reading};
use crate::record::{Entry, Line, Plan};
use crate::season::Season;
use crate::store::{Saved, Store, StoreError};
use crate::units::System;
use std::path::Path;

/// Reads the journal, judges it against what is there, and writes it in one transaction.
pub(super) fn run(args: &ImportArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let name = if args.file == Path::new("-") { "standard input".to_owned() } else { args.file.display().to_string() };
    let refuse = |faults: Vec<String>| CommandError::Journal { name: name.clone(), faults };
    let text = text(&args.file, context)?.map_err(|fault| refuse(vec![fault]))?;
    let list = args.file.extension().is_some_and(|e| e.eq_ignore_ascii_case("csv"));
    // A list of benches is read against the plan that is there, a journal by itself.
    let mut reading = if list { Reading::default() } else { journal::read_all(&text) };
    let path = context.settings.season.clone();
    let there = |path: &Path| -> Result<(Option<Store>, Plan, Vec<Entry>), StoreError> {
        let store = if path.symlink_metadata().is_ok() { Some(Store::open(path)?) } else { None };
        let (plan, entries) = store.as_ref().map(Store::load).transpose()?.unwrap_or_default();
        Ok((store, plan, entries))
    };
    let (store, plan, entries) = match there(&path) {
        Ok(found) => found,
        // A bad journal is told even where the season file cannot be looked into.
        Err(_) if !reading.faults.is_empty() => (None, Plan::default(), Vec::new()),
        Err(error) => return Err(error.into()),
    };
    if list {
        reading = journal::csv::read_benches(&text, &plan).map_or_else(
            |faults| Reading { faults, ..Reading::default() },
            |lines| Reading { lines, faults: Vec::new(), plan_sound: true },
        );
    }
    let faults = judge(plan, entries, &reading);
    if !faults.is_empty() {
        return Err(refuse(faults));
    }
    let mut store = store.map_or_else(|| Store::create(&path), Ok)?;
    let lines: Vec<Line> = reading.lines.into_iter().map(|numbered| numbered.line).collect();
    let saved = store.append(&lines)?;
    store.close()?;
    writeln!(context.out, "{}", said(saved, &path))?;
    Ok(())
}

/// The journal's text, or the fault that it is none.
fn text(file: &Path, context: &mut Context<'_>) -> Result<Result<String, String>, CommandError> {
    let mut bytes = Vec::new();
    let read = if file == Path::new("-") {
        context.input.read_to_end(&mut bytes).map(drop)
    } else {
        std::fs::read(file).map(|all| bytes = all)
    };
    read.map_err(|error| CommandError::File { path: file.to_owned(), error })?;
    Ok(String::from_utf8(bytes).map_err(|error| {
        let good = error.as_bytes().get(..error.utf8_error().valid_up_to()).unwrap_or_default();
        let line = good.split(|byte| *byte == b'\n').count();
        format!("line {line}: is not UTF-8 text; save the file as UTF-8")
    }))
}

/// Every fault, of lines and across them, by line. Where entries are no good in themselves the others are judged only by
/// what they name; where a plan line is no good, not even by that.
fn judge(plan: Plan, entries: Vec<Entry>, reading: &Reading) -> Vec<String> {
    let new: Vec<Line> = reading.lines.iter().map(|numbered| numbered.line.clone()).collect();
    let siteless = plan.sites.is_empty() && !new.iter().any(|line| matches!(line, Line::Site(_)));
    let season = Season::new(plan, entries);
    let across = match (reading.faults.is_empty(), reading.plan_sound) {
        (true, _) => season.admit(&new, System::Metric).err().unwrap_or_default(),
        (false, true) => season.check_names(&new),
        (false, false) => Vec::new(),
    };
    let mut faults: Vec<(usize, String)> = reading.faults.iter().map(|f| (f.line, f.to_string())).collect();
    faults.extend(across.into_iter().map(|fault| {
        let number = reading.lines.get(fault.index).map_or(0, |numbered| numbered.number);
        let field = fault.field.map(|field| format!(", {field}")).unwrap_or_default();
        (number, format!("line {number}{field}: {}", fault.text))
    }));
    if siteless && faults.is_empty() {
        faults.push((0, "there is no site line; a season begins with one".to_owned()));
    }
    // Stable: of one line in the order they were found.
    faults.sort_by_key(|(number, _)| *number);
    faults.into_iter().map(|(_, text)| text).collect()
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
