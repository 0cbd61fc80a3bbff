//! The demo season, in a file of its own.

use super::SessionError;
use crate::files::must_be_fit;
use crate::journal;
use crate::record::Line;
use crate::season::Season;
use crate::store::{Store, StoreError};
use crate::units::System;
use chrono::NaiveDate;
use miniz_oxide::inflate::decompress_to_vec_with_limit;
use std::path::{Path, PathBuf};

/// The demo season, made by the tests' own generator.
const JOURNAL: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/demo.jsonl.deflate"));
/// The season of the year before.
const LAST_YEAR: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/last-year.jsonl.deflate"));
/// Bytes of a journal of the demo at most.
const LONGEST: usize = 1 << 22;

/// Where the demo is to go.
#[derive(Debug, Clone, Copy)]
pub enum DemoFile<'a> {
    /// Into this file, which must not exist.
    At(&'a Path),
    /// Into the next free `demo-N.db` of this folder.
    NextIn(&'a Path),
}

/// The demo, made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Demo {
    /// Its file.
    pub path: PathBuf,
    /// Its own day: that of its last entry.
    pub on: Option<NaiveDate>,
    /// The file of the season of the year before.
    pub last_year: PathBuf,
}

/// Makes the demo season, and the season of the year before in a file beside it.
///
/// # Errors
/// [`SessionError::Store`] where its file is there already or cannot be written; [`SessionError::File`] where no file can have its
/// name.
pub fn make_demo(file: DemoFile<'_>) -> Result<Demo, SessionError> {
    if let DemoFile::At(path) = file {
        must_be_fit(path).map_err(|error| SessionError::File { path: path.to_owned(), error })?;
    }
    let (this, last) = (lines(JOURNAL)?, lines(LAST_YEAR)?);
    let (path, store, last_year) = begin(file, (&this, &last))?;
    store.close()?;
    Ok(Demo { path, on: last_day(&this), last_year })
}

/// The lines of a journal as the build script packed it.
fn lines(packed: &[u8]) -> Result<Vec<Line>, SessionError> {
    let refuse = |faults: Vec<String>| SessionError::Journal { name: "the demo season".to_owned(), faults, more: 0 };
    let text = decompress_to_vec_with_limit(packed, LONGEST).map_err(|error| refuse(vec![error.to_string()]))?;
    let text = String::from_utf8(text).map_err(|error| refuse(vec![error.to_string()]))?;
    let lines =
        journal::read(&text).map_err(|faults| refuse(faults.iter().map(ToString::to_string).collect::<Vec<_>>()))?;
    let admitted = Season::of([]).admit(&lines, System::Metric);
    admitted.map_err(|faults| refuse(faults.into_iter().map(|fault| fault.text).collect()))?;
    Ok(lines)
}

/// The name of the season of the year before: `demo-1-last-year.db`.
fn last_year_of(demo: &Path) -> PathBuf {
    let mut name = demo.file_stem().unwrap_or_default().to_owned();
    name.push("-last-year.db");
    demo.with_file_name(name)
}

/// Makes both files, that of the year before first: a demo that is there is whole. One of the year before that is there already is
/// left as it is.
fn both(path: &Path, (this, last): (&[Line], &[Line])) -> Result<(PathBuf, Store, PathBuf), StoreError> {
    let before = last_year_of(path);
    if path.symlink_metadata().is_err() {
        match Store::create_with(&before, last, None) {
            Ok((store, _saved)) => store.close()?,
            Err(StoreError::Exists { .. }) => {}
            Err(error) => return Err(error),
        }
    }
    let (store, _saved) = Store::create_with(path, this, None)?;
    Ok((path.to_owned(), store, before))
}

fn begin(file: DemoFile<'_>, lines: (&[Line], &[Line])) -> Result<(PathBuf, Store, PathBuf), StoreError> {
    let folder = match file {
        DemoFile::At(path) => return both(path, lines),
        DemoFile::NextIn(folder) => folder,
    };
    let mut number = 1_u32;
    loop {
        match both(&folder.join(format!("demo-{number}.db")), lines) {
            Err(StoreError::Exists { .. }) if number < u32::MAX => number += 1,
            made => return made,
        }
    }
}

fn last_day(lines: &[Line]) -> Option<NaiveDate> {
    let days = lines.iter().filter_map(|line| match line {
        Line::Entry(entry) => Some(entry.day()),
        _ => None,
    });
    days.max()
}
