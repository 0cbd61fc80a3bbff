//! Storage as the loop needs it; implemented by the season file and by test doubles.

use super::ReadLastYear;
use crate::exchange::{CarrierState, Gate, Sharing};
use crate::limits::Limits;
use crate::model::{NotOpened, Rescued, Setting};
use crate::record::{Entry, Line, Plan};
use crate::season::{Origins, Season};
use chrono::{DateTime, FixedOffset, NaiveDate, Utc};
use std::sync::Arc;

/// Why records were not stored.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Refused {
    /// In words.
    pub why: String,
    /// True when trying again may help.
    pub again: bool,
}

/// A season that was opened; its entries follow by [`Storage::next_entries`].
#[derive(Debug, Clone, PartialEq)]
pub struct Opened {
    /// The plan.
    pub plan: Plan,
    /// Where the file lies.
    pub path: String,
    /// The day to open it on, where it is not today.
    pub on: Option<NaiveDate>,
    /// What earlier runs could not save of it.
    pub rescued: Vec<Rescued>,
}

/// What the days of a climate logger are held against.
#[derive(Debug, Clone, Copy)]
pub struct Asked<'a> {
    /// The season as it is known.
    pub season: &'a Season,
    /// The limits that hours are counted over.
    pub limits: &'a Limits,
    /// Now, in the site's zone.
    pub at: DateTime<FixedOffset>,
    /// The present instant.
    pub now: DateTime<Utc>,
}

/// What was read from the folders of climate loggers.
#[derive(Debug, Clone, PartialEq)]
pub struct Logged {
    /// The entries; they are in the season file.
    pub entries: Vec<Entry>,
    /// What is said of it, in one line.
    pub said: String,
}

/// Which of the lines that are not in the season file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// Those that wait to be saved.
    Waiting,
    /// Those that the file refused for good after they were shown.
    Refused,
}

/// The journals that hold what is not in the season file, so that a later start finds it. They can be written from any thread,
/// also while the season file is being written.
pub trait Rescue: Send + Sync {
    /// Makes the journal of this part hold these lines; with no lines it is removed.
    ///
    /// # Errors
    /// Why it could not be written, in words.
    fn keep(&self, part: Part, lines: &[Line]) -> Result<(), String>;

    /// The journals there are.
    fn paths(&self) -> Vec<String>;
}

/// Which carriers an exchange is with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Wanted {
    /// Those whose time has come.
    Due,
    /// Those too that go by themselves and did not fail last: something was saved.
    Saved,
    /// All of them: a person asked for it.
    Asked,
}

impl Wanted {
    /// True where an exchange with this carrier is wanted now.
    pub fn takes(self, carrier: &CarrierState, now: DateTime<Utc>) -> bool {
        let due = carrier.next.is_some_and(|next| next <= now);
        match self {
            Self::Due => due,
            Self::Saved => due || (carrier.next.is_some() && carrier.failed.is_none()),
            Self::Asked => true,
        }
    }
}

/// Exchanges a shared season with its carriers, through a connection of its own to the season file. Runs on a thread of its own.
pub trait Exchanger: Send {
    /// What is known without asking any carrier. Cheap: it is asked after saves, to count what is to be sent.
    fn state(&mut self) -> Sharing;

    /// One exchange with every carrier that is wanted ([`Wanted::takes`]). `tell` is called with how things stand after each carrier but the last;
    /// before every step that writes to the season file `gate` is passed. What is given has the next time of each carrier, later than
    /// `now`.
    fn exchange(&mut self, wanted: Wanted, now: DateTime<Utc>, gate: &Gate, tell: &dyn Fn(Sharing)) -> Sharing;
}

/// Storage of records.
pub trait Storage: Send {
    /// Stores lines, all or none; when it returns they are durable. Where there is no season file yet, lines that hold a site
    /// begin one.
    ///
    /// # Errors
    /// [`Refused`]: nothing was stored.
    fn append(&mut self, lines: &[Line]) -> Result<(), Refused>;

    /// Lines saved in this run that no file by the name of the season holds any longer: it was removed or replaced.
    fn gone(&mut self) -> Vec<Line>;

    /// The journals of what is not in the season file.
    fn rescue(&self) -> Arc<dyn Rescue>;

    /// Imports what an earlier run could not save, and removes its journal when it is in. Then the season is opened again.
    ///
    /// # Errors
    /// Every fault of the journal, a line each; the journal stays.
    fn take_rescued(&mut self, journal: &str, at: DateTime<FixedOffset>, by: &str) -> Result<Opened, NotOpened>;

    /// The next entries of the open season; `None` when all were given.
    ///
    /// # Errors
    /// In words.
    fn next_entries(&mut self) -> Result<Option<Vec<Entry>>, String>;

    /// How many entries the open file holds, to say how far the reading got; 0 where it is not known.
    fn count(&mut self) -> usize;

    /// True where another program wrote into the open file since this was asked last, or since the file was opened.
    /// [`Storage::next_entries`] then gives what was written since, and own entries again.
    fn changed(&mut self) -> bool;

    /// The plan as the file has it now.
    ///
    /// # Errors
    /// In words.
    fn plan(&mut self) -> Result<Plan, String>;

    /// All is read and worked out, and no key waits: what takes the disk and a core may begin, such as the check of the file. True
    /// while that is on; what comes of it is asked for by [`Storage::damage`].
    fn at_rest(&mut self) -> bool {
        false
    }

    /// What the background check of the open file found wrong; reported once.
    fn damage(&mut self) -> Option<String>;

    /// What is new in the folders of climate loggers, saved already. Asked while no key is pressed; the folders are looked into
    /// on a thread of its own, so that the answer comes at a later call.
    fn loggers(&mut self, _asked: &Asked<'_>) -> Option<Logged> {
        None
    }

    /// Makes the demo season and opens it.
    ///
    /// # Errors
    /// In words.
    fn demo(&mut self) -> Result<Opened, NotOpened>;

    /// Imports a journal into the season file, which may be new, and opens it.
    ///
    /// # Errors
    /// Every fault of the journal, a line each.
    fn import(&mut self, path: &str, at: DateTime<FixedOffset>, by: &str) -> Result<Opened, NotOpened>;

    /// What reads last year's season beside the one that is open; `None` where there is nothing of the kind.
    fn last_year(&mut self) -> Option<ReadLastYear> {
        None
    }

    /// What exchanges the open season with its carriers; `None` where it is not shared. Given once for each opening.
    fn exchanger(&mut self) -> Option<Box<dyn Exchanger>> {
        None
    }

    /// Which laptops wrote the lines read since this was asked last. Of a shared season it also says how many lines of a newer
    /// program are held, none of them too: by that the season is known to be shared.
    ///
    /// # Errors
    /// In words.
    fn origins(&mut self) -> Result<Origins, String> {
        Ok(Origins::default())
    }

    /// Keeps a setting for the next start.
    ///
    /// # Errors
    /// In words.
    fn keep_setting(&mut self, setting: &Setting) -> Result<(), String>;

    /// Writes a new file; one that is there already is left alone.
    ///
    /// # Errors
    /// In words.
    fn write_file(&mut self, path: &str, text: &str) -> Result<(), String>;
}
