//! `benchwalk restore`: the dated copies of the season, and one of them put back next to it.

use super::shell::word;
use super::{CommandError, Context};
use crate::files::shown;
use crate::record::parse as record;
use crate::record::typed::Facing;
use crate::session::daily_backup::{DatedCopy, copies};
use crate::store::{Store, StoreError, integrity_check};
use chrono::NaiveDate;
use clap::Args;
use std::path::{Path, PathBuf};

/// Options of `restore`.
#[derive(Debug, Args)]
pub struct RestoreArgs {
    /// The day of a copy, such as 11/20 or 2026-11-20, or the file of any backup; default: list the copies.
    #[arg(value_name = "DAY|FILE", allow_negative_numbers = true)]
    which: Option<PathBuf>,
}

/// Lists the copies, or puts one back beside the present file; that one is left as it is.
pub(super) fn run(args: &RestoreArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    match &args.which {
        None => list(context),
        Some(which) => put_back(which, context),
    }
}

/// The copies, newest first, each opened and checked.
fn list(context: &mut Context<'_>) -> Result<(), CommandError> {
    let season = &context.settings.season;
    let found = copies(&context.settings.backups, season);
    if found.is_empty() {
        writeln!(context.out, "There is no dated copy of {} yet.", shown(season))?;
        writeln!(context.out, "{}", when_made(context))?;
        return Ok(());
    }
    writeln!(context.out, "Copies of {}", shown(season))?;
    let mut folder = None;
    for copy in &found {
        if folder != copy.path.parent() {
            folder = copy.path.parent();
            writeln!(context.out, "\nin {}", shown(folder.unwrap_or(Path::new(""))))?;
            writeln!(context.out, "  day         entries  last entry        size")?;
        }
        let look = looked_at(&copy.path);
        Context::go_on()?;
        writeln!(context.out, "  {}  {look}", copy.day)?;
    }
    writeln!(context.out, "\n'benchwalk restore DAY' puts one back next to the season file, never over it.")?;
    Ok(())
}

/// When copies are made, by the settings.
fn when_made(context: &Context<'_>) -> String {
    let backups = &context.settings.backups;
    if backups.daily() {
        format!("The first start of a day keeps one in {}.", shown(backups.folder()))
    } else {
        "The settings say daily_backups = false; 'benchwalk backup FILE' writes a copy.".to_owned()
    }
}

/// What is in a copy, or why it is no good.
fn looked_at(path: &Path) -> String {
    let look = || -> Result<String, StoreError> {
        integrity_check(path)?;
        let store = Store::open_read_only(path)?;
        let (entries, last) = (store.count()?, store.last_day()?);
        store.close()?;
        let last = last.map_or_else(|| "none".to_owned(), |day| day.to_string());
        let size = std::fs::metadata(path).map_or(0, |about| about.len());
        Ok(format!("{entries:>7}  {last:<10}  {:>10}", size_of(size)))
    };
    look().unwrap_or_else(|error| match error {
        StoreError::Damaged { detail, .. } => format!("damaged: {detail}"),
        StoreError::NotASeason { why, .. } => format!("damaged: {why}"),
        StoreError::Empty { .. } => "damaged: holds no data (0 bytes)".to_owned(),
        other => other.to_string(),
    })
}

/// `412 kB`, `1.8 MB`.
fn size_of(bytes: u64) -> String {
    match bytes {
        ..1_000_000 => format!("{} kB", bytes.div_ceil(1000)),
        _ => format!("{}.{} MB", bytes / 1_000_000, bytes % 1_000_000 / 100_000),
    }
}

/// Writes the copy beside the season under a free name, and says how to go on.
fn put_back(which: &Path, context: &mut Context<'_>) -> Result<(), CommandError> {
    let season = context.settings.season.clone();
    let day = match which.to_str() {
        Some(text) => record::day(text).or_else(|| {
            let reader = (!which.exists()).then(|| context.day_reader())?;
            reader.day(text, Facing::Back).ok()
        }),
        None => None,
    };
    let (from, name) = match day {
        Some(day) => (of_day(day, context)?, day.to_string()),
        None => (which.to_owned(), which.file_stem().unwrap_or_default().to_string_lossy().into_owned()),
    };
    let store = Store::open_read_only(&from)?;
    let made = beside(&store, &season, &name)?;
    store.close()?;
    writeln!(context.out, "{}: {} entries, verified", shown(&made.path), made.entries)?;
    writeln!(context.out, "The present file is unchanged: {}", shown(&season))?;
    let (there, put) = (word(&shown(&season)), word(&shown(&made.path)));
    write!(
        context.out,
        "
Check it:
  benchwalk --season {put} review
Bring over what was logged since, if the present file can still be read:
  benchwalk --season {there} export since.jsonl
  benchwalk --season {put} import since.jsonl
Go on with it: quit the screens, give the present file another name, and its
-wal and -shm files too if there are any, then give {}
the name {}.
",
        shown(Path::new(made.path.file_name().unwrap_or_default())),
        shown(Path::new(season.file_name().unwrap_or_default())),
    )?;
    Ok(())
}

/// The copy of a day.
fn of_day(day: NaiveDate, context: &Context<'_>) -> Result<PathBuf, CommandError> {
    let refused = |reason: String| CommandError::Typed { option: "restore", reason };
    let found = copies(&context.settings.backups, &context.settings.season);
    let mut those: Vec<DatedCopy> = found.iter().filter(|copy| copy.day == day).cloned().collect();
    match (those.pop(), those.is_empty()) {
        (Some(copy), true) => Ok(copy.path),
        // Two seasons had this name one after the other.
        (Some(copy), false) => {
            let paths = those.iter().chain([&copy]).map(|copy| format!("\n  {}", shown(&copy.path)));
            Err(refused(format!("two seasons have a copy of {day}; name the file:{}", paths.collect::<String>())))
        }
        (None, _) if found.is_empty() => {
            Err(refused(format!("there is no copy of {}. {}", shown(&context.settings.season), when_made(context))))
        }
        (None, _) => Err(refused(format!("there is no copy of {day}; 'benchwalk restore' lists those there are"))),
    }
}

/// A copy of the store beside the season file: `season.restored-2026-11-20.db`, or with a number where that name, or that of a
/// log which would be read with it, is taken.
fn beside(store: &Store, season: &Path, name: &str) -> Result<crate::store::Backup, StoreError> {
    let stem = season.file_stem().unwrap_or_default().to_string_lossy().into_owned();
    let mut number = 1_u32;
    loop {
        let again = if number > 1 { format!("-{number}") } else { String::new() };
        let to = season.with_file_name(format!("{stem}.restored-{name}{again}.db"));
        match store.backup(&to) {
            Err(StoreError::Exists { .. }) if number < 1000 => number += 1,
            made => return made,
        }
    }
}
