//! The season file behind the screens.

use super::daily_backup::{self, Backups};
use super::{DemoFile, SessionError, Source, Writer, import, is_there, keep_by, make_demo};
use crate::files::FILE;
use crate::model::NotOpened;
use crate::record::{Entry, Line};
use crate::run::{Opened, Refused, Storage};
use crate::store::{Journaling, Store, StoreError};
use chrono::{DateTime, FixedOffset, NaiveDate};
use std::path::PathBuf;
use std::thread::JoinHandle;

/// Entries read in one slice.
const SLICE: usize = 500;

/// The season file behind the screens.
#[derive(Debug)]
pub struct SeasonFile {
    season: PathBuf,
    data: PathBuf,
    config_file: PathBuf,
    on: Option<NaiveDate>,
    store: Option<Store>,
    next: i64,
    all_read: bool,
    notice: Option<String>,
    check: Option<JoinHandle<Option<String>>>,
    copies: Option<(Backups, NaiveDate)>,
}

impl SeasonFile {
    /// Nothing open yet. Demo seasons go into the `data` folder, who writes into the config file; `on` is the day asked for.
    pub const fn new(season: PathBuf, data: PathBuf, config_file: PathBuf, on: Option<NaiveDate>) -> Self {
        Self {
            season,
            data,
            config_file,
            on,
            store: None,
            next: 0,
            all_read: false,
            notice: None,
            check: None,
            copies: None,
        }
    }

    /// Keeps a copy of today once the file was looked over in the background.
    pub fn keep_copies(&mut self, backups: Backups, today: NaiveDate) {
        self.copies = Some((backups, today));
    }

    /// Opens the file; `None` where there is none yet. One that can only be read is opened so, and said.
    ///
    /// # Errors
    /// [`SessionError::Store`] where it cannot be opened.
    pub fn open(&mut self) -> Result<Option<Opened>, SessionError> {
        let path = self.season.clone();
        if !is_there(&path)? {
            return Ok(None);
        }
        let store = match Store::open(&path) {
            Ok(store) => store,
            Err(error) if error.can_be_read() => {
                self.notice = Some(format!("READ ONLY, nothing can be written: {error}"));
                Store::open_read_only(&path)?
            }
            Err(error) => return Err(error.into()),
        };
        if self.notice.is_none() {
            self.notice = store.journaling().notice();
        }
        let plan = store.load_plan()?;
        self.store = Some(store);
        (self.next, self.all_read) = (0, false);
        Ok(Some(Opened { plan, path: path.display().to_string(), on: None }))
    }

    /// What the user should know of the file.
    pub fn notice(&self) -> Option<String> {
        self.notice.clone()
    }

    /// Closes it.
    ///
    /// # Errors
    /// [`SessionError::Store`] where the last of it cannot be written.
    pub fn close(mut self) -> Result<(), SessionError> {
        // A copy that is being written is finished.
        if let Some(check) = self.check.take() {
            check.join().ok();
        }
        Ok(self.store.map_or(Ok(()), Store::close)?)
    }

    /// Opens what was just made in the place of what was open.
    fn reopen(&mut self) -> Result<Opened, SessionError> {
        if let Some(store) = self.store.take() {
            store.close()?;
        }
        let path = self.season.clone();
        let opened = self.open()?.ok_or(StoreError::NotThere { path })?;
        Ok(Opened { on: self.on, ..opened })
    }

    /// Makes the demo season in the data folder, and opens it on its own day.
    fn open_demo(&mut self) -> Result<Opened, SessionError> {
        let demo = make_demo(DemoFile::NextIn(&self.data))?;
        self.season = demo.path;
        self.on = self.on.or(demo.on);
        self.reopen()
    }
}

impl Storage for SeasonFile {
    fn append(&mut self, lines: &[Line]) -> Result<(), Refused> {
        if self.store.is_none() && lines.iter().any(|line| matches!(line, Line::Site(_))) {
            let begun = Store::create(&self.season);
            let refused = |error: StoreError| Refused { why: error.to_string(), again: error.may_pass() };
            self.store = Some(begun.map_err(refused)?);
            self.all_read = true;
        }
        let Some(store) = &mut self.store else {
            return Err(Refused { why: "no season file is open.".to_owned(), again: false });
        };
        store.append(lines).map(drop).map_err(|error| {
            tracing::error!(%error, "not saved");
            Refused { why: error.to_string(), again: error.may_pass() }
        })
    }

    fn next_entries(&mut self) -> Result<Option<Vec<Entry>>, String> {
        let Some(store) = &self.store else { return Ok(None) };
        if self.next == 0 && self.check.is_none() {
            let path = store.path().to_owned();
            let copies = self.copies.clone().filter(|_| *store.journaling() != Journaling::ReadOnly);
            self.check = Some(std::thread::spawn(move || daily_backup::check_and_keep(&path, copies)));
        }
        if self.all_read {
            return Ok(None);
        }
        let slice = store.load_entries(self.next, SLICE).map_err(|error| error.to_string())?;
        self.all_read = slice.done;
        self.next = slice.last;
        Ok(Some(slice.entries))
    }

    fn damage(&mut self) -> Option<String> {
        let check = self.check.take_if(|check| check.is_finished())?;
        check.join().ok().flatten()
    }

    fn demo(&mut self) -> Result<Opened, NotOpened> {
        self.open_demo().map_err(|error| not_opened(&error))
    }

    fn import(&mut self, path: &str, at: DateTime<FixedOffset>, by: &str) -> Result<Opened, NotOpened> {
        let writer = Writer { at, by };
        let done = Source::file(&home(path), FILE).and_then(|source| import(&self.season, &source, &writer));
        done.and_then(|_saved| self.reopen()).map_err(|error| not_opened(&error))
    }

    fn save_author(&mut self, by: &str) -> Result<(), String> {
        keep_by(&self.config_file, by).map_err(|error| error.to_string())
    }
}

/// A journal's faults are a page to read, any other reason is a line.
fn not_opened(error: &SessionError) -> NotOpened {
    match error {
        SessionError::Journal { .. } => NotOpened::Faults(error.to_string()),
        _ => NotOpened::Trouble(error.to_string()),
    }
}

/// A path as typed in a shell: `~/` is the home folder.
fn home(path: &str) -> PathBuf {
    match (path.strip_prefix("~/"), etcetera::home_dir()) {
        (Some(rest), Ok(home)) => home.join(rest),
        _ => PathBuf::from(path),
    }
}
