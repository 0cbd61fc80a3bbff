//! The readings of climate loggers into the season: one climate entry a house and day.
//!
//! The entry is made of its content and written by the logger's name, so that the same file twice, files that overlap and two
//! laptops that import one file write one entry. What was written stands: a day that comes out otherwise is reported, and replaced
//! only where that is asked for.

mod days;
mod folder;
mod watch;

pub use days::{Day, DayState, Site, days_of};
pub use folder::{Folders, Looked};
pub use watch::Watch;

use super::share::Laptop;
use super::{SessionError, Source};
use crate::journal::logger::{self, Log, Mapping};
use crate::limits::Limits;
use crate::progress::{self, Work};
use crate::record::Line;
use crate::season::Season;
use crate::store::{Saved, Store, StoreError};
use chrono::{DateTime, FixedOffset, Utc};
use std::path::Path;

/// How files of a logger are imported.
#[derive(Debug, Clone, Copy)]
pub struct How<'a> {
    /// What their columns are.
    pub mapping: &'a Mapping,
    /// The limits that humid and warm hours are counted over.
    pub limits: &'a Limits,
    /// Days that come out otherwise than they were written are replaced.
    pub replace: bool,
    /// Nothing is written.
    pub dry: bool,
    /// When the voiding of a replaced day is written: now, in the site's zone.
    pub at: DateTime<FixedOffset>,
    /// The present: no reading is later.
    pub now: DateTime<Utc>,
    /// The laptop it is written on; `None` where another writes what comes of it.
    pub laptop: Option<&'a Laptop>,
}

/// What files of a logger came to.
#[derive(Debug, Clone, PartialEq)]
pub struct Imported {
    /// Readings in all files, each once.
    pub readings: usize,
    /// The instants of the first and the last, in the site's zone.
    pub span: Option<(DateTime<FixedOffset>, DateTime<FixedOffset>)>,
    /// What is worth a second look, with the file it is about.
    pub told: Vec<String>,
    /// The days.
    pub days: Vec<Day>,
    /// What was written.
    pub saved: Saved,
}

/// Reads files of one logger and writes the days that are whole, all or nothing.
///
/// # Errors
/// [`SessionError::Journal`] with the faults of the files; [`SessionError::Store`] for the season file. Nothing was written.
pub fn import_logger(season: &Path, sources: &[Source], how: &How<'_>) -> Result<Imported, SessionError> {
    let _whole = Work::whole();
    let mut store = if how.dry { Store::open_read_only(season)? } else { Store::open(season)? };
    if let Some(laptop) = how.laptop.filter(|_| !how.dry) {
        laptop.sit(&mut store)?;
    }
    let (plan, entries) = store.load()?;
    let kept = Season::new(plan, entries);
    let name = one_name(sources);
    let refuse = |faults: Vec<String>, more| SessionError::Journal { name: name.clone(), faults, more };
    let site = Site::of(&kept, how.mapping, how.limits).map_err(|fault| refuse(vec![fault], 0))?;
    let logs = read_all(sources, how, &site);
    // Before any fault is shown: half a file has one of its own.
    progress::go_on().map_err(StoreError::from)?;
    let logs = logs.map_err(|(faults, more)| refuse(faults, more))?;
    let named: Vec<(String, &Log)> = sources.iter().map(|s| s.name.clone()).zip(&logs).collect();
    let readings = logger::join(&named).map_err(|mut faults| {
        let more = faults.len().saturating_sub(crate::journal::FAULTS_SHOWN);
        faults.truncate(crate::journal::FAULTS_SHOWN);
        refuse(faults, more)
    })?;
    let days = days_of(&readings, how.mapping, &site).map_err(|fault| refuse(vec![fault], 0))?;
    let (days, lines) = days::against(days, &kept, how);
    if let Some(fault) = days::refused(&kept, &lines) {
        return Err(refuse(vec![fault], 0));
    }
    let saved = if how.dry || lines.is_empty() { Saved::default() } else { written(&mut store, &lines)? };
    store.close()?;
    let several = sources.len() > 1;
    let told = named.iter().flat_map(|(name, log)| {
        log.told.iter().map(move |text| if several { format!("{name}: {text}") } else { text.clone() })
    });
    let local = |reading: &crate::crop::climate::day::Reading| reading.at.with_timezone(&site.zone).fixed_offset();
    Ok(Imported {
        readings: readings.len(),
        span: readings.first().map(local).zip(readings.last().map(local)),
        told: told.collect(),
        days,
        saved,
    })
}

fn written(store: &mut Store, lines: &[Line]) -> Result<Saved, SessionError> {
    store.append_of(lines, None).map_err(|error| SessionError::Store(error.of_a_command()))
}

/// What several files are called in messages.
fn one_name(sources: &[Source]) -> String {
    match sources {
        [one] => one.name.clone(),
        many => format!("{} files", many.len()),
    }
}

/// Reads each file; the faults of all of them where one is no good.
fn read_all(sources: &[Source], how: &How<'_>, site: &Site) -> Result<Vec<Log>, (Vec<String>, usize)> {
    let mut logs = Vec::new();
    let (mut faults, mut more) = (Vec::new(), 0_usize);
    for source in sources {
        let own = |text: String| if sources.len() > 1 { format!("{}, {text}", source.name) } else { text };
        match source.text() {
            Err(fault) => faults.push(own(fault)),
            Ok(text) => match logger::read(text, how.mapping, site.zone, how.now) {
                Ok(log) => logs.push(log),
                Err(found) => {
                    more = more.saturating_add(found.more());
                    faults.extend(found.iter().map(|fault| own(fault.to_string())));
                }
            },
        }
    }
    more = more.saturating_add(faults.len().saturating_sub(crate::journal::FAULTS_SHOWN));
    faults.truncate(crate::journal::FAULTS_SHOWN);
    if faults.is_empty() { Ok(logs) } else { Err((faults, more)) }
}
