//! Folders in which loggers put their files: looked into while the screens are idle, on a thread of its own.
//!
//! A file is read once it has not changed from one look to the next, so that one that is still being copied is left alone. The
//! readings of all files of a folder are kept together: a day may stand in two of them.

use super::days::{Found, Site, days_of};
use crate::files::{self, FILE, RECORDS_MOST};
use crate::journal::logger::{self, Log, Mapping};
use chrono::{DateTime, Utc};
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::time::SystemTime;

/// Files of a folder that are looked at; of more the last by name.
const MOST_FILES: usize = 1_000;

/// How a file looked: what it is as long as that does not change.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Stamp {
    bytes: u64,
    changed: Option<SystemTime>,
}

/// A file of a folder.
#[derive(Debug)]
struct File {
    stamp: Stamp,
    /// It was the same at two looks, and is read.
    read: bool,
    /// What it holds, where it is a good one.
    log: Option<Log>,
}

/// A folder of a logger.
#[derive(Debug)]
struct Folder {
    mapping: Mapping,
    path: PathBuf,
    files: BTreeMap<PathBuf, File>,
    /// The site that the days were worked out for.
    site: Option<Site>,
    /// What was said of it last, so that it is said once.
    said: Option<String>,
}

/// The folders that are watched, with what is known of them from look to look.
#[derive(Debug, Default)]
pub struct Folders(Vec<Folder>);

/// What a look at one folder gave.
#[derive(Debug)]
pub struct Looked {
    /// The logger.
    pub mapping: Mapping,
    /// Its days.
    pub(crate) days: Vec<Found>,
    /// What is wrong with a file or the folder, in words.
    pub fault: Option<String>,
}

impl Folders {
    /// The folders of the loggers that have one.
    pub fn of(loggers: &[Mapping]) -> Self {
        let folder = |mapping: &Mapping| {
            let path = mapping.folder.clone()?;
            Some(Folder { mapping: mapping.clone(), path, files: BTreeMap::new(), site: None, said: None })
        };
        Self(loggers.iter().filter_map(folder).collect())
    }

    /// True where none is watched.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// The loggers, in their order.
    pub fn mappings(&self) -> impl Iterator<Item = &Mapping> {
        self.0.iter().map(|folder| &folder.mapping)
    }

    /// True where a file waits for a second look.
    pub fn waits(&self) -> bool {
        self.0.iter().any(|folder| folder.files.values().any(|file| !file.read))
    }

    /// Looks into each folder; `sites` are of the loggers in their order. Nothing is given of a folder in which nothing is new.
    pub fn look(&mut self, sites: &[Result<Site, String>], now: DateTime<Utc>) -> Vec<Looked> {
        self.0.iter_mut().zip(sites).filter_map(|(folder, site)| folder.look(site.as_ref(), now)).collect()
    }
}

impl Folder {
    fn look(&mut self, site: Result<&Site, &String>, now: DateTime<Utc>) -> Option<Looked> {
        let site = match site {
            Ok(site) => site,
            Err(why) => return self.say_once(why.clone()),
        };
        let found = match list(&self.path) {
            Ok(found) => found,
            Err(error) => return self.say_once(format!("{error}: {}", files::shown(&self.path))),
        };
        self.files.retain(|path, _| found.iter().any(|(there, _)| there == path));
        let mut new = self.site.as_ref() != Some(site) && self.files.values().any(|file| file.log.is_some());
        let mut fault = None;
        for (path, stamp) in found {
            let Some(file) = self.files.get_mut(&path).filter(|file| file.stamp == stamp) else {
                self.files.insert(path, File { stamp, read: false, log: None });
                continue;
            };
            if file.read {
                continue;
            }
            file.read = true;
            match read(&path, &self.mapping, site, now) {
                Ok(log) => (file.log, new) = (Some(log), true),
                Err(why) => fault = fault.or(Some(why)),
            }
        }
        let days = if new { self.days(site) } else { Ok(Vec::new()) };
        self.site = Some(site.clone());
        match (days, fault) {
            (Ok(days), None) if days.is_empty() => None,
            (Ok(days), fault) => Some(Looked { mapping: self.mapping.clone(), days, fault }),
            (Err(why), _) => self.say_once(why),
        }
    }

    /// The days of all files together.
    fn days(&self, site: &Site) -> Result<Vec<Found>, String> {
        let logs: Vec<(String, &Log)> =
            self.files.iter().filter_map(|(path, file)| Some((name(path), file.log.as_ref()?))).collect();
        let joined = logger::join(&logs).map_err(|faults| faults.into_iter().next().unwrap_or_default())?;
        days_of(&joined, &self.mapping, site)
    }

    /// Something that stays as it is until somebody sees to it.
    fn say_once(&mut self, text: String) -> Option<Looked> {
        if self.said.as_ref() == Some(&text) {
            return None;
        }
        self.said = Some(text.clone());
        Some(Looked { mapping: self.mapping.clone(), days: Vec::new(), fault: Some(text) })
    }
}

/// The files of a folder, by name.
fn list(folder: &Path) -> std::io::Result<Vec<(PathBuf, Stamp)>> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        let is_table = path.extension().is_some_and(|e| e.eq_ignore_ascii_case("csv") || e.eq_ignore_ascii_case("txt"));
        if !is_table {
            continue;
        }
        // One that went away meanwhile, or is no ordinary file, is passed over.
        let Ok(about) = files::look(&path, FILE) else { continue };
        found.push((path, Stamp { bytes: about.len(), changed: about.modified().ok() }));
    }
    found.sort_by(|(a, _), (b, _)| a.cmp(b));
    let extra = found.len().saturating_sub(MOST_FILES);
    found.drain(..extra);
    Ok(found)
}

fn name(path: &Path) -> String {
    files::shown(Path::new(path.file_name().unwrap_or_default()))
}

fn read(path: &Path, mapping: &Mapping, site: &Site, now: DateTime<Utc>) -> Result<Log, String> {
    let own = |text: String| format!("{}: {text}", name(path));
    let bytes = files::read(path, RECORDS_MOST, FILE).map_err(|error| own(error.to_string()))?;
    let text =
        String::from_utf8(bytes).ok().ok_or_else(|| own("is not UTF-8 text; save the file as UTF-8".to_owned()))?;
    logger::read(&text, mapping, site.zone, now).map_err(|faults| {
        let first = faults.first().map(ToString::to_string).unwrap_or_default();
        let more = faults.len().saturating_add(faults.more()).saturating_sub(1);
        own(if more == 0 { first } else { format!("{first} (and {more} more)") })
    })
}
