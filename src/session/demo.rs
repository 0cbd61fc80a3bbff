//! The demo season, in a file of its own.

use super::SessionError;
use crate::journal;
use crate::record::Line;
use crate::season::Season;
use crate::store::{Store, StoreError};
use crate::units::System;
use chrono::NaiveDate;
use std::path::{Path, PathBuf};

/// The demo season, made by the tests' own generator.
const JOURNAL: &str = include_str!("../../demo-data/demo.jsonl");

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
}

/// Makes the demo season.
///
/// # Errors
/// [`SessionError::Store`] where its file is there already or cannot be written.
pub fn make_demo(file: DemoFile<'_>) -> Result<Demo, SessionError> {
    let refuse = |faults: Vec<String>| SessionError::Journal { name: "the demo season".to_owned(), faults, more: 0 };
    let lines =
        journal::read(JOURNAL).map_err(|faults| refuse(faults.iter().map(ToString::to_string).collect::<Vec<_>>()))?;
    let admitted = Season::of([]).admit(&lines, System::Metric);
    admitted.map_err(|faults| refuse(faults.into_iter().map(|fault| fault.text).collect()))?;
    let (path, store) = begin(file, &lines)?;
    store.close()?;
    Ok(Demo { path, on: last_day(&lines) })
}

fn begin(file: DemoFile<'_>, lines: &[Line]) -> Result<(PathBuf, Store), StoreError> {
    let folder = match file {
        DemoFile::At(path) => return Ok((path.to_owned(), Store::create_with(path, lines, None)?.0)),
        DemoFile::NextIn(folder) => folder,
    };
    let mut number = 1_u32;
    loop {
        let path = folder.join(format!("demo-{number}.db"));
        match Store::create_with(&path, lines, None) {
            Ok((store, _saved)) => return Ok((path, store)),
            Err(StoreError::Exists { .. }) if number < u32::MAX => number += 1,
            Err(error) => return Err(error),
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
