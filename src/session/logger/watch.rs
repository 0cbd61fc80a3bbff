//! The watched folders behind the screens: a thread looks, and what it found is saved when it is done.

use super::How;
use super::days::{self, Day, DayState, Site};
use super::folder::{Folders, Looked};
use crate::dates;
use crate::journal::logger::Mapping;
use crate::record::Line;
use crate::run::{Asked, Logged};
use std::thread::JoinHandle;

/// Looks in quick succession after the start; later every so many calls.
const FIRST_LOOKS: u32 = 2;
/// Calls from one look to the next, once the first are done.
const PACE: u32 = 3;

/// The watched folders.
#[derive(Debug, Default)]
pub struct Watch {
    /// At rest between two looks.
    folders: Option<Folders>,
    /// The thread that looks.
    looking: Option<JoinHandle<(Folders, Vec<Looked>)>>,
    /// What was found and is not saved yet.
    found: Vec<Looked>,
    calls: u32,
    /// What was said last, so that it is not said again.
    said: Option<String>,
}

impl Watch {
    /// Of the loggers that have a folder.
    pub fn of(loggers: &[Mapping]) -> Self {
        let folders = Folders::of(loggers);
        Self { folders: (!folders.is_empty()).then_some(folders), ..Self::default() }
    }

    /// What is new; begins a look where one is due. `save` writes lines into the season file.
    pub fn step(&mut self, asked: &Asked<'_>, save: impl FnMut(&[Line]) -> Result<(), String>) -> Option<Logged> {
        if let Some(done) = self.looking.take_if(|looking| looking.is_finished()) {
            // A thread that died took its folders with it: they are not looked into any more.
            let (folders, found) = done.join().ok()?;
            self.folders = Some(folders);
            self.found.extend(found);
        }
        if !self.found.is_empty() {
            return self.save(asked, save);
        }
        self.begin(asked);
        None
    }

    fn begin(&mut self, asked: &Asked<'_>) {
        self.calls = self.calls.saturating_add(1);
        let Some(folders) = self.folders.as_ref() else { return };
        if self.calls > FIRST_LOOKS && !folders.waits() && !self.calls.is_multiple_of(PACE) {
            return;
        }
        let sites: Vec<Result<Site, String>> =
            folders.mappings().map(|mapping| Site::of(asked.season, mapping, asked.limits)).collect();
        let (Some(mut folders), now) = (self.folders.take(), asked.now) else { return };
        self.looking = Some(std::thread::spawn(move || {
            let found = folders.look(&sites, now);
            (folders, found)
        }));
    }

    /// Saves what was found, and says so.
    fn save(&mut self, asked: &Asked<'_>, mut save: impl FnMut(&[Line]) -> Result<(), String>) -> Option<Logged> {
        let mut logged = Logged { entries: Vec::new(), said: String::new() };
        let mut words = Vec::new();
        for looked in std::mem::take(&mut self.found) {
            let Looked { mapping, days, fault } = looked;
            let name = mapping.name.clone();
            let how = How {
                mapping: &mapping,
                limits: asked.limits,
                replace: false,
                dry: false,
                at: asked.at,
                now: asked.now,
                laptop: None,
            };
            let (days, lines) = days::against(days, asked.season, &how);
            let kept = match days::refused(asked.season, &lines) {
                Some(why) => Err(why),
                None if lines.is_empty() => Ok(()),
                None => save(&lines),
            };
            match kept {
                Ok(()) => {
                    logged.entries.extend(lines.into_iter().filter_map(|line| match line {
                        Line::Entry(entry) => Some(entry),
                        _ => None,
                    }));
                    words.extend(told(&days).map(|text| format!("{name}: {text}")));
                }
                Err(why) => words.push(format!("{name}: not saved: {why}")),
            }
            words.extend(fault.map(|fault| format!("{name}: {fault}")));
        }
        logged.said = words.join("; ");
        let again = self.said.as_ref() == Some(&logged.said) && logged.entries.is_empty();
        self.said = Some(logged.said.clone());
        (!again && !logged.said.is_empty()).then_some(logged)
    }
}

/// What a look gave, in a few words; nothing where nothing is new.
fn told(days: &[Day]) -> Option<String> {
    let of = |pick: fn(&DayState) -> bool| -> Vec<&Day> { days.iter().filter(|day| pick(&day.state)).collect() };
    let new = of(|state| matches!(state, DayState::Written));
    let other = of(|state| matches!(state, DayState::Differs(_)));
    let read = match new.as_slice() {
        [] => None,
        [one] => Some(format!("{} read", dates::short(one.day))),
        [first, .., last] => {
            let run =
                dates::days_between(first.day, last.day).unsigned_abs() + 1 == u64::try_from(new.len()).unwrap_or(0);
            let days = dates::range(first.day, last.day);
            Some(format!("{} days read, {days}{}", new.len(), if run { "" } else { " (not all)" }))
        }
    };
    let differs = match other.as_slice() {
        [] => None,
        [one] => Some(format!("{} differs from what was written, see benchwalk help loggers", dates::short(one.day))),
        many => Some(format!("{} days differ from what was written, see benchwalk help loggers", many.len())),
    };
    match (read, differs) {
        (Some(read), Some(differs)) => Some(format!("{read}; {differs}")),
        (read, differs) => read.or(differs),
    }
}
