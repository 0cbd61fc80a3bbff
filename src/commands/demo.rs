//! `benchwalk demo`: a season to try, in a file of its own.

use super::args::DemoArgs;
use super::{CommandError, Context};
use crate::journal;
use crate::record::Line;
use crate::store::{Store, StoreError};
use chrono::NaiveDate;
use std::path::{Path, PathBuf};

/// The demo season, made by the tests' own generator.
const JOURNAL: &str = include_str!("../../demo-data/demo.jsonl");

/// Who writes in the demo when nobody said.
const BY: &str = "demo";

/// Makes the file, opens the screens on the demo's own day, and says at the end where the file is.
pub(super) fn run(args: &DemoArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let lines = journal::read(JOURNAL).map_err(|faults| CommandError::Journal {
        name: "the demo season".to_owned(),
        faults: faults.iter().map(ToString::to_string).collect(),
    })?;
    let (path, mut store) = begin(context)?;
    store.append(&lines)?;
    store.close()?;
    context.settings.season.clone_from(&path);
    context.settings.season_named = true;
    context.settings.on = context.settings.on.or_else(|| last_day(&lines));
    context.settings.by.get_or_insert_with(|| BY.to_owned());
    let shown = if args.no_open { Ok(()) } else { (context.screens)(context) };
    // Also when the screens could not be opened: the file is there.
    let on = context.settings.on.map(|day| format!(" --on {day}")).unwrap_or_default();
    writeln!(context.out, "The demo season is in {}", path.display())?;
    writeln!(context.out, "Open it again: benchwalk --season {}{on}", quoted(&path))?;
    shown
}

/// The file of `--season`, which must not exist, or the next free one in the data folder.
fn begin(context: &Context<'_>) -> Result<(PathBuf, Store), CommandError> {
    if context.settings.season_named {
        let path = context.settings.season.clone();
        let store = Store::create(&path)?;
        return Ok((path, store));
    }
    let mut number = 1_u32;
    loop {
        let path = context.folders.data.join(format!("demo-{number}.db"));
        match Store::create(&path) {
            Ok(store) => return Ok((path, store)),
            Err(StoreError::Exists { .. }) if number < u32::MAX => number += 1,
            Err(error) => return Err(error.into()),
        }
    }
}

/// The demo's own day: that of its last entry.
fn last_day(lines: &[Line]) -> Option<NaiveDate> {
    let days = lines.iter().filter_map(|line| match line {
        Line::Entry(entry) => Some(entry.day()),
        _ => None,
    });
    days.max()
}

/// A path as it can be typed in a shell.
fn quoted(path: &Path) -> String {
    let text = path.display().to_string();
    let plain = |c: char| c.is_ascii_alphanumeric() || "/\\.-_:~".contains(c);
    if text.chars().all(plain) { text } else { format!("\"{text}\"") }
}
