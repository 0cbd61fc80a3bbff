//! The season file behind the screens.

use super::args::{DemoArgs, ImportArgs};
use super::{CommandError, Context, Folders, Settings, demo, import, settings};
use crate::clock::Clock;
use crate::model::NotOpened;
use crate::record::{Entry, Line};
use crate::run::{Keep, Opened, Refused};
use crate::store::{Store, StoreError, quick_check};
use std::path::PathBuf;
use std::thread::JoinHandle;

/// Entries read in one slice.
const SLICE: usize = 500;

/// The season file behind the screens.
pub(super) struct SeasonFile<'a> {
    settings: Settings,
    folders: Folders,
    clock: &'a dyn Clock,
    store: Option<Store>,
    next: i64,
    all_read: bool,
    notice: Option<String>,
    check: Option<JoinHandle<Result<(), StoreError>>>,
}

impl<'a> SeasonFile<'a> {
    /// Nothing open yet.
    pub(super) fn new(settings: Settings, folders: Folders, clock: &'a dyn Clock) -> Self {
        Self { settings, folders, clock, store: None, next: 0, all_read: false, notice: None, check: None }
    }

    /// Opens the file of the settings; `None` where there is none yet. One that can only be read is opened so, and said.
    pub(super) fn open(&mut self) -> Result<Option<Opened>, CommandError> {
        let path = self.settings.season.clone();
        if path.symlink_metadata().is_err() {
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
    pub(super) fn notice(&self) -> Option<String> {
        self.notice.clone()
    }

    /// Closes it.
    pub(super) fn close(self) -> Result<(), CommandError> {
        Ok(self.store.map_or(Ok(()), Store::close)?)
    }

    /// Runs a command of the command line for the screens, its output unseen, then opens what it made.
    fn by_command(
        &mut self,
        command: impl FnOnce(&mut Context<'_>) -> Result<(), CommandError>,
    ) -> Result<Opened, CommandError> {
        let (mut out, mut err, mut input) = (Vec::new(), Vec::new(), std::io::empty());
        let mut context = Context::new((&mut out, &mut err, &mut input), self.clock, self.folders.clone());
        context.settings = self.settings.clone();
        command(&mut context)?;
        let settings = context.settings;
        if let Some(store) = self.store.take() {
            store.close()?;
        }
        self.settings = settings;
        let on = self.settings.on;
        let path = self.settings.season.clone();
        let opened = self.open()?.ok_or(StoreError::NotThere { path })?;
        Ok(Opened { on, ..opened })
    }
}

impl Keep for SeasonFile<'_> {
    fn append(&mut self, lines: &[Line]) -> Result<(), Refused> {
        if self.store.is_none() && lines.iter().any(|line| matches!(line, Line::Site(_))) {
            let begun = Store::create(&self.settings.season);
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

    fn slice(&mut self) -> Result<Option<Vec<Entry>>, String> {
        let Some(store) = &self.store else { return Ok(None) };
        if self.next == 0 && self.check.is_none() {
            let path = store.path().to_owned();
            self.check = Some(std::thread::spawn(move || quick_check(&path)));
        }
        if self.all_read {
            return Ok(None);
        }
        let slice = store.load_entries(self.next, SLICE).map_err(|error| error.to_string())?;
        self.all_read = slice.done;
        self.next = slice.last;
        Ok(Some(slice.entries))
    }

    fn unsound(&mut self) -> Option<String> {
        let check = self.check.take_if(|check| check.is_finished())?;
        match check.join() {
            Ok(Err(error)) => Some(error.to_string()),
            Ok(Ok(())) | Err(_) => None,
        }
    }

    fn demo(&mut self) -> Result<Opened, NotOpened> {
        let args = DemoArgs { no_open: true };
        self.by_command(|context| {
            context.settings.season_named = false;
            demo::run(&args, context)
        })
        .map_err(not_opened)
    }

    fn import(&mut self, path: &str) -> Result<Opened, NotOpened> {
        let args = ImportArgs { file: home(path) };
        self.by_command(|context| import::run(&args, context)).map_err(not_opened)
    }

    fn keep_by(&mut self, by: &str) -> Result<(), String> {
        settings::keep_by(&self.settings.config_file, by).map_err(|error| error.to_string())
    }
}

/// A journal's faults are a page to read, any other reason is a line.
fn not_opened(error: CommandError) -> NotOpened {
    match error {
        CommandError::Journal { .. } => NotOpened::Faults(error.to_string()),
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
