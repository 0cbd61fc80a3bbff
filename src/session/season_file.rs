//! The season file behind the screens.

use super::daily_backup::{self, Backups, Found};
use super::last_year::{self, NotBeside, WantedLastYear};
use super::logger::Watch;
use super::readable;
use super::rescue::{self, RescueJournals};
use super::share::{SharedSeason, Sharer};
use super::{DemoFile, SessionError, Source, Writer, atomic_write, import, is_there, keep_setting, make_demo};
use crate::compare::{Chosen, LastYear};
use crate::files::{self, FILE};
use crate::journal::logger::Mapping;
use crate::model::{NotOpened, Rescued, Setting};
use crate::record::{Entry, Line, Plan};
use crate::run::{Asked, Exchanger, Logged, Opened, ReadLastYear, Refused, Rescue, Storage};
use crate::season::Origins;
use crate::store::{Heard, Journaling, Salvaged, Store, StoreError};
use chrono::{DateTime, FixedOffset, NaiveDate, Utc};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::thread::JoinHandle;
use uuid::Uuid;

/// Entries read in one slice.
const SLICE: usize = 500;

/// The folders and files beside the season file.
#[derive(Debug, Clone)]
pub struct Beside {
    /// Demo seasons go here.
    pub data: PathBuf,
    /// What could not be saved goes below this folder.
    pub state: PathBuf,
    /// Who writes and the palette are kept in this file.
    pub config_file: PathBuf,
    /// What is wanted of last year.
    pub last_year: WantedLastYear,
    /// This laptop, and the folders and hubs that seasons are shared over.
    pub sharer: Sharer,
}

/// The season file behind the screens.
#[derive(Debug)]
pub struct SeasonFile {
    season: PathBuf,
    beside: Beside,
    on: Option<NaiveDate>,
    store: Option<Store>,
    next: i64,
    all_read: bool,
    /// The number of the file's content when it was last looked at.
    seen: Option<i64>,
    notice: Option<String>,
    check: Option<JoinHandle<Option<Found>>>,
    /// The open file was checked, or is just now.
    checked: bool,
    /// Entries of a damaged file, read already.
    salvaged: Option<Vec<Entry>>,
    /// What is to be said of the damage.
    damage: Option<String>,
    /// Why nothing more is saved into a damaged file.
    closed_by: Option<String>,
    started: NaiveDate,
    copies: Option<(Backups, NaiveDate)>,
    rescue: Arc<RescueJournals>,
    loggers: Watch,
    /// How far the lines of other laptops were asked for.
    heard: Heard,
}

impl SeasonFile {
    /// Nothing open yet. `on` is the day asked for, `started` the time the program was.
    pub fn new(season: PathBuf, beside: Beside, on: Option<NaiveDate>, started: DateTime<Utc>) -> Self {
        let rescue = Arc::new(RescueJournals::new(&beside.state, started));
        rescue.set_season(&season, None);
        Self {
            season,
            beside,
            on,
            store: None,
            next: 0,
            all_read: false,
            seen: None,
            notice: None,
            check: None,
            checked: false,
            salvaged: None,
            damage: None,
            closed_by: None,
            started: started.date_naive(),
            copies: None,
            rescue,
            loggers: Watch::default(),
            heard: Heard::default(),
        }
    }

    /// Keeps a copy of today once the file was looked over in the background.
    pub fn keep_copies(&mut self, backups: Backups, today: NaiveDate) {
        self.copies = Some((backups, today));
    }

    /// Watches the folders of climate loggers.
    pub fn watch_loggers(&mut self, loggers: &[Mapping]) {
        self.loggers = Watch::of(loggers);
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
            Ok(mut store) => {
                self.beside.sharer.laptop.sit(&mut store)?;
                store
            }
            Err(error) if error.can_be_read() => {
                self.notice = Some(format!("READ ONLY: {}.", reason(&error, &path)));
                let store = Store::open_read_only(&path)?;
                match error {
                    StoreError::Damaged { .. } => return self.open_damaged(store, &error).map(Some),
                    _ => store,
                }
            }
            Err(error) => return Err(error.into()),
        };
        if self.notice.is_none() {
            self.notice = store.journaling().notice();
        }
        // Before anything is read: what is written meanwhile is then read again.
        self.seen = store.data_version().ok();
        (self.salvaged, self.damage, self.closed_by) = (None, None, None);
        let plan = match store.load_plan() {
            Err(error @ StoreError::Damaged { .. }) => return self.open_damaged(store, &error).map(Some),
            loaded => loaded?,
        };
        self.store = Some(store);
        (self.next, self.all_read, self.checked) = (0, false, false);
        self.heard = Heard::default();
        self.know_the_season();
        let rescued = self.left_behind();
        Ok(Some(Opened { plan, path: files::shown(&path), on: None, rescued }))
    }

    /// Opens a damaged file with what can be read of it.
    fn open_damaged(&mut self, store: Store, error: &StoreError) -> Result<Opened, SessionError> {
        self.store = Some(store);
        let salvaged = self.salvage(error, "")?;
        self.notice = self.damage.take();
        self.salvaged = Some(salvaged.entries.into_iter().map(|(_, entry)| entry).collect());
        (self.next, self.all_read, self.checked) = (0, false, false);
        self.know_the_season();
        let rescued = self.left_behind();
        Ok(Opened { plan: salvaged.plan, path: files::shown(&self.season), on: None, rescued })
    }

    /// Reads what can be read of a file that was found damaged, keeps it beside the file, and opens the file for reading only from
    /// here on. What is said of it is in `damage`.
    ///
    /// # Errors
    /// When nothing can be read; the file is then left closed to saves all the same.
    fn salvage(&mut self, error: &StoreError, newest: &str) -> Result<Salvaged, SessionError> {
        let why = match error {
            StoreError::Damaged { detail, .. } => detail.clone(),
            error => reason(error, &self.season),
        };
        self.closed_by = Some(format!("the season file is damaged ({why})."));
        self.damage = Some(format!("READ ONLY: the season file is damaged ({why}){newest}."));
        if let Some(store) = self.store.take() {
            store.leave()?;
        }
        let store = Store::open_read_only(&self.season)?;
        let salvaged = store.salvage();
        self.store = Some(store);
        let salvaged = salvaged?;
        if salvaged.plan.sites.is_empty() {
            let (path, detail) = (self.season.clone(), "its plan cannot be read".to_owned());
            return Err(StoreError::Damaged { path, detail }.into());
        }
        let today = self.copies.as_ref().map_or(self.started, |(_, today)| *today);
        let beside = match readable::keep(&self.season, &salvaged, today) {
            Ok(path) => {
                let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
                format!("and are in {name} next to it")
            }
            Err(error) => format!("but could not be kept next to it ({error})"),
        };
        let counted = salvaged.counted();
        self.damage = Some(format!("READ ONLY: the season file is damaged. {counted} {beside}{newest}. Found: {why}."));
        Ok(salvaged)
    }

    /// Names the open season to the journals of what is not saved.
    fn know_the_season(&self) {
        self.rescue.set_season(&self.season, self.season_id());
    }

    /// The id of the open season, where it has one.
    pub fn season_id(&self) -> Option<Uuid> {
        self.store.as_ref().and_then(|store| store.season_id().ok()).flatten()
    }

    /// What earlier runs could not save of this season. A journal of which everything is in the file is removed.
    pub fn left_behind(&self) -> Vec<Rescued> {
        let state = &self.beside.state;
        let mut left = rescue::left_behind(state, &self.season, self.store.as_ref());
        left.retain(|left| !(left.done && rescue::taken(state, Path::new(&left.rescued.path)).is_ok()));
        left.into_iter().map(|left| left.rescued).collect()
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
        // Where the program is left before there was rest, the copy of the day is made now; one that is being written is finished.
        self.at_rest();
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
        let demo = make_demo(DemoFile::NextIn(&self.beside.data))?;
        self.season = demo.path;
        self.beside.last_year.file = Some((demo.last_year, Chosen::Demo));
        self.on = self.on.or(demo.on);
        self.reopen()
    }
}

impl Storage for SeasonFile {
    fn append(&mut self, lines: &[Line]) -> Result<(), Refused> {
        if self.store.is_none() && lines.iter().any(|line| matches!(line, Line::Site(_))) {
            let begun = Store::create_with(&self.season, lines, None);
            let (store, _saved) = begun.map_err(|error| refused(&error, &self.season))?;
            self.seen = store.data_version().ok();
            self.store = Some(store);
            (self.all_read, self.checked) = (true, true);
            self.know_the_season();
            return Ok(());
        }
        let Some(store) = &mut self.store else {
            return Err(Refused { why: "no season file is open.".to_owned(), again: false });
        };
        if let Some(why) = &self.closed_by {
            return Err(Refused { why: why.clone(), again: true });
        }
        store.append(lines).map_err(|error| refused(&error, &self.season))?;
        if lines.iter().any(|line| matches!(line, Line::Site(_))) {
            self.know_the_season();
        }
        Ok(())
    }

    fn gone(&mut self) -> Vec<Line> {
        self.store.as_ref().map(Store::lost).unwrap_or_default()
    }

    fn rescue(&self) -> Arc<dyn Rescue> {
        Arc::<RescueJournals>::clone(&self.rescue)
    }

    fn take_rescued(&mut self, journal: &str, at: DateTime<FixedOffset>, by: &str) -> Result<Opened, NotOpened> {
        let laptop = &self.beside.sharer.laptop;
        let (path, writer) = (Path::new(journal), Writer { confirmed: false, at, by, laptop });
        let done = Source::for_import(path, FILE).and_then(|source| import(&self.season, &source, &writer));
        let removed = done.and_then(|_saved| {
            let failed = |error| SessionError::File { path: path.to_owned(), error };
            rescue::taken(&self.beside.state, path).map_err(failed)?;
            Ok(())
        });
        removed.and_then(|()| self.reopen()).map_err(|error| not_opened(&error))
    }

    fn next_entries(&mut self) -> Result<Option<Vec<Entry>>, String> {
        if let Some(entries) = self.salvaged.take() {
            self.all_read = true;
            return Ok(Some(entries));
        }
        let Some(store) = &self.store else { return Ok(None) };
        if self.all_read {
            return Ok(None);
        }
        let slice = match store.load_entries(self.next, SLICE) {
            Ok(slice) => slice,
            // Another program keeps the file to itself for now.
            Err(StoreError::Busy { .. }) => return Ok(Some(Vec::new())),
            Err(error @ StoreError::Damaged { .. }) => {
                let salvaged = self.salvage(&error, "").map_err(|error| error.to_string())?;
                self.all_read = true;
                let rest = salvaged.entries.into_iter().filter(|(seq, _)| *seq > self.next).map(|(_, entry)| entry);
                return Ok(Some(rest.collect()));
            }
            // Read again only once another program has written: the same read would fail the same way, without end.
            Err(error) => return Err(error.to_string()),
        };
        self.all_read = slice.done;
        self.next = slice.last;
        Ok(Some(slice.entries))
    }

    fn count(&mut self) -> usize {
        let count = self.store.as_ref().and_then(|store| store.count().ok());
        count.and_then(|count| usize::try_from(count).ok()).unwrap_or(0)
    }

    fn changed(&mut self) -> bool {
        if self.closed_by.is_some() {
            return false;
        }
        let Some(version) = self.store.as_ref().and_then(|store| store.data_version().ok()) else { return false };
        let changed = self.seen.replace(version) != Some(version);
        if changed {
            self.all_read = false;
        }
        changed
    }

    fn plan(&mut self) -> Result<Plan, String> {
        let Some(store) = &self.store else { return Ok(Plan::default()) };
        store.load_plan().map_err(|error| {
            // Another program keeps the file to itself for now: the next look reads it again.
            if matches!(error, StoreError::Busy { .. }) {
                self.seen = None;
            }
            error.to_string()
        })
    }

    fn at_rest(&mut self) -> bool {
        if let (false, None, Some(store)) = (self.checked, &self.check, &self.store) {
            self.checked = true;
            let path = store.path().to_owned();
            let copies = self.copies.clone().filter(|_| *store.journaling() != Journaling::ReadOnly);
            self.check = Some(std::thread::spawn(move || daily_backup::check_and_keep(&path, copies)));
        }
        self.check.is_some()
    }

    fn damage(&mut self) -> Option<String> {
        if let Some(damage) = self.damage.take() {
            return Some(damage);
        }
        let check = self.check.take_if(|check| check.is_finished())?;
        match check.join().ok().flatten()? {
            Found::NoCopy(text) => Some(text),
            // Found already, by reading.
            Found::Damaged { .. } if self.closed_by.is_some() => None,
            Found::Damaged { error, newest } => {
                if !matches!(error, StoreError::Damaged { .. }) {
                    return Some(format!("{error}{newest}"));
                }
                if let Err(error) = self.salvage(&error, &newest) {
                    tracing::error!(%error, "nothing read of a damaged file");
                }
                self.damage.take()
            }
        }
    }

    fn loggers(&mut self, asked: &Asked<'_>) -> Option<Logged> {
        if self.store.is_none() || self.closed_by.is_some() {
            return None;
        }
        let mut watch = std::mem::take(&mut self.loggers);
        let logged = watch.step(asked, |lines| self.append(lines).map_err(|refused| refused.why));
        self.loggers = watch;
        logged
    }

    fn demo(&mut self) -> Result<Opened, NotOpened> {
        self.open_demo().map_err(|error| not_opened(&error))
    }

    fn last_year(&mut self) -> Option<ReadLastYear> {
        let (wanted, own, data) = (self.beside.last_year.clone(), self.season.clone(), self.beside.data.clone());
        Some(Box::new(move |this, limits, give| {
            let last = match last_year::read(&wanted, (this, &own), &data, limits) {
                Ok(Some(last)) => last,
                Err(NotBeside::Said(why)) => return give(Err(why)),
                Ok(None) | Err(NotBeside::Stopped) => return,
            };
            give(Ok(last.clone()));
            if let Ok(judged) = last_year::assess(&last.season, last.last_day(), limits) {
                give(Ok(LastYear { judged: Some(judged), ..last }));
            }
        }))
    }

    fn import(&mut self, path: &str, at: DateTime<FixedOffset>, by: &str) -> Result<Opened, NotOpened> {
        let laptop = &self.beside.sharer.laptop;
        let writer = Writer { confirmed: false, at, by, laptop };
        let done = Source::for_import(&home(path), FILE).and_then(|source| import(&self.season, &source, &writer));
        done.and_then(|_saved| self.reopen()).map_err(|error| not_opened(&error))
    }

    fn exchanger(&mut self) -> Option<Box<dyn Exchanger>> {
        if self.closed_by.is_some() || !self.store.as_ref()?.is_shared().unwrap_or(false) {
            return None;
        }
        match SharedSeason::beside(&self.season, &self.beside.sharer) {
            Ok(season) => Some(Box::new(season?)),
            Err(error) => {
                self.notice.get_or_insert_with(|| error.to_string());
                tracing::error!(%error, "not shared");
                None
            }
        }
    }

    fn origins(&mut self) -> Result<Origins, String> {
        let mut origins = Origins::default();
        let Some(store) = &self.store else { return Ok(origins) };
        match add_origins(store, &mut self.heard, &mut origins) {
            // Another program keeps the file to itself for now: the rest is asked for the next time.
            Ok(()) | Err(StoreError::Busy { .. }) => Ok(origins),
            Err(error) => Err(error.to_string()),
        }
    }

    fn keep_setting(&mut self, setting: &Setting) -> Result<(), String> {
        keep_setting(&self.beside.config_file, setting).map_err(|error| error.to_string())
    }

    fn write_file(&mut self, path: &str, text: &str) -> Result<(), String> {
        atomic_write::write_new(Path::new(path), text.as_bytes()).map_err(|error| error.to_string())
    }
}

/// Adds what was not heard yet.
fn add_origins(store: &Store, heard: &mut Heard, origins: &mut Origins) -> Result<(), StoreError> {
    if !store.is_shared()? {
        return Ok(());
    }
    origins.set_held(store.held()?);
    super::hear(store, heard, origins, SLICE)
}

/// Why lines were not saved. The log keeps nothing of it that may quote a line.
fn refused(error: &StoreError, path: &Path) -> Refused {
    let again = error.may_pass();
    match error {
        StoreError::Damaged { path, .. } => tracing::error!(path = %path.display(), "not saved: damaged"),
        error if again => tracing::error!(%error, "not saved"),
        _ => tracing::error!("not saved: a line was refused"),
    }
    Refused { why: format!("{}.", reason(error, path)), again }
}

/// An error without the path: the screens show one season, have 80 columns, and say themselves that nothing is saved yet.
fn reason(error: &StoreError, path: &Path) -> String {
    match error {
        StoreError::Busy { .. } => "another program is writing to the file, or its disk supports no locks".to_owned(),
        StoreError::Full { .. } => "the disk is full: make room (what was saved before is safe)".to_owned(),
        StoreError::Database { detail, .. } => format!("the disk or the file fails ({detail}): check the disk"),
        error => {
            let text = error.to_string();
            text.strip_prefix(&format!("{}: ", path.display())).map_or(text.clone(), ToOwned::to_owned)
        }
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

#[cfg(test)]
mod tests {
    use super::*;

    const SITE: &str = "{\"type\":\"journal\",\"version\":1}\n{\"type\":\"site\",\"name\":\"Home\",\"latitude\":44.1,\"longitude\":-70.2,\
                        \"time_zone\":\"America/New_York\",\"units\":\"us\"}\n";

    #[test]
    fn the_file_is_checked_when_all_is_read_and_nothing_else_is_done() {
        let folder = tempfile::tempdir().unwrap();
        let path = |name: &str| folder.path().join(name);
        let lines: Vec<Line> = crate::journal::read(SITE).unwrap();
        Store::create_with(&path("season.db"), &lines, None).unwrap().0.close().unwrap();
        let (last_year, sharer) = (WantedLastYear::default(), Sharer::default());
        let beside =
            Beside { data: path("data"), state: path("state"), config_file: path("config"), last_year, sharer };
        let mut season = SeasonFile::new(path("season.db"), beside, None, DateTime::UNIX_EPOCH);
        let mut opened = || {
            season.open().unwrap().unwrap();
            while season.next_entries().unwrap().is_some() {}
            assert!(season.check.is_none(), "it would take the disk from what is waited for");
            assert!(season.at_rest());
            while season.at_rest() {
                assert_eq!(season.damage(), None);
            }
            assert!(!season.at_rest() && season.check.is_none(), "once for each opening");
        };
        opened();
        opened();
        season.close().unwrap();
    }
}
