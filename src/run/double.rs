//! Storage and journals in memory that fail as a test wants.

use super::{Exchanger, Opened, Part, Refused, Rescue, Storage};
use crate::model::{NotOpened, Setting};
use crate::record::{Entry, Kind, Line, Place, Plan};
use crate::season::Origins;
use chrono::{DateTime, FixedOffset};
use std::collections::VecDeque;
use std::sync::{Arc, Mutex};
use uuid::Uuid;

/// Journals in memory, which may have no room.
#[derive(Default)]
pub(super) struct Journals {
    pub(super) full: Mutex<bool>,
    pub(super) parts: Mutex<[Vec<Line>; 2]>,
}

impl Journals {
    pub(super) fn held(&self) -> [Vec<Line>; 2] {
        self.parts.lock().unwrap().clone()
    }
}

impl Rescue for Journals {
    fn keep(&self, part: Part, lines: &[Line]) -> Result<(), String> {
        if *self.full.lock().unwrap() && !lines.is_empty() {
            return Err("no room".into());
        }
        self.parts.lock().unwrap()[usize::from(part == Part::Refused)] = lines.to_vec();
        Ok(())
    }
    fn paths(&self) -> Vec<String> {
        Vec::new()
    }
}

/// Refuses as scripted; stores the rest.
#[derive(Default)]
pub(super) struct Shaky {
    pub(super) kept: Vec<Line>,
    pub(super) busy: u32,
    pub(super) hates: Option<Uuid>,
    pub(super) gone: Vec<Line>,
    pub(super) journals: Arc<Journals>,
    /// What happens while it stores.
    pub(super) meanwhile: Option<Arc<dyn Fn() + Send + Sync>>,
    /// What the journal of what waits held after that.
    pub(super) held_meanwhile: Vec<Line>,
    /// What the next readings of entries give; then there is no more.
    pub(super) reads: VecDeque<Result<Vec<Entry>, String>>,
    /// What exchanges it with carriers; given once.
    pub(super) exchanger: Option<Box<dyn Exchanger>>,
    /// Entries that another thread wrote and that were not read yet, all of the laptop `bob`.
    pub(super) arrived: Arc<Mutex<Vec<Entry>>>,
    /// Their ids, once read.
    pub(super) of_bob: Vec<Uuid>,
}

impl Storage for Shaky {
    fn append(&mut self, lines: &[Line]) -> Result<(), Refused> {
        if let Some(act) = &self.meanwhile {
            act();
            self.held_meanwhile = self.journals.held()[0].clone();
        }
        if self.busy > 0 {
            self.busy -= 1;
            return Err(Refused { why: "busy".into(), again: true });
        }
        if lines.iter().any(|line| Some(line.id()) == self.hates) {
            return Err(Refused { why: "no".into(), again: false });
        }
        self.kept.extend(lines.iter().cloned());
        Ok(())
    }
    fn gone(&mut self) -> Vec<Line> {
        self.gone.clone()
    }
    fn rescue(&self) -> Arc<dyn Rescue> {
        Arc::<Journals>::clone(&self.journals)
    }
    fn take_rescued(&mut self, _: &str, _: DateTime<FixedOffset>, _: &str) -> Result<Opened, NotOpened> {
        Err(NotOpened::Trouble("no".into()))
    }
    fn next_entries(&mut self) -> Result<Option<Vec<Entry>>, String> {
        if let Some(read) = self.reads.pop_front() {
            return read.map(Some);
        }
        let arrived = std::mem::take(&mut *self.arrived.lock().unwrap());
        self.of_bob.extend(arrived.iter().map(|entry| entry.id));
        Ok(Some(arrived).filter(|arrived| !arrived.is_empty()))
    }
    fn count(&mut self) -> usize {
        0
    }
    fn changed(&mut self) -> bool {
        !self.arrived.lock().unwrap().is_empty()
    }
    fn exchanger(&mut self) -> Option<Box<dyn Exchanger>> {
        self.exchanger.take()
    }
    fn origins(&mut self) -> Result<Origins, String> {
        let mut origins = Origins::default();
        self.of_bob.drain(..).for_each(|id| origins.add(id, "bob"));
        Ok(origins)
    }
    fn plan(&mut self) -> Result<Plan, String> {
        Ok(Plan::default())
    }
    fn damage(&mut self) -> Option<String> {
        None
    }
    fn demo(&mut self) -> Result<Opened, NotOpened> {
        Err(NotOpened::Trouble("no".into()))
    }
    fn import(&mut self, _: &str, _: DateTime<FixedOffset>, _: &str) -> Result<Opened, NotOpened> {
        Err(NotOpened::Trouble("no".into()))
    }
    fn keep_setting(&mut self, _: &Setting) -> Result<(), String> {
        Ok(())
    }
    fn write_file(&mut self, _: &str, _: &str) -> Result<(), String> {
        Ok(())
    }
}

/// A note on bench E1 with this id.
pub(super) fn line(n: u128) -> Line {
    let at = chrono::DateTime::parse_from_rfc3339("2026-10-12T07:00:00-04:00").unwrap();
    let place = Place::Bench("E1".into());
    Line::Entry(Entry {
        id: Uuid::from_u128(n),
        at,
        by: "kt".into(),
        place,
        plot: None,
        kind: Kind::Note {}.into(),
        note: None,
    })
}
