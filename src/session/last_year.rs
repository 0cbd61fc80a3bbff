//! Last year's season beside this one: which file it is, and what is read of it. The file is opened for reading only.

use crate::compare::{Chosen, Courses, Judge, LastYear, Match, is_year_before, last_day};
use crate::files::shown;
use crate::limits::Limits;
use crate::progress::{Step, Work, go_on};
use crate::season::Season;
use crate::store::{Store, StoreError};
use chrono::NaiveDate;
use std::path::{Path, PathBuf};

/// Files of a folder that are looked at, in search of last year's season.
const MOST: usize = 64;

/// What is wanted beside the season.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct WantedLastYear {
    /// The file named, and where; `None`: one is looked for.
    pub file: Option<(PathBuf, Chosen)>,
    /// Nothing is wanted, nor looked for.
    pub off: bool,
    /// Lots set beside each other by hand.
    pub by_hand: Vec<Match>,
}

/// Why last year's season is not there.
#[derive(Debug)]
pub enum NotBeside {
    /// What is to be said of the file that was named.
    Said(String),
    /// The work was asked to stop.
    Stopped,
}

impl From<crate::progress::Stopped> for NotBeside {
    fn from(_: crate::progress::Stopped) -> Self {
        Self::Stopped
    }
}

/// Why a file is not used, in one line.
fn not_used(path: &Path, why: &str) -> NotBeside {
    NotBeside::Said(format!("Last year's season is not shown: {why}: {}", shown(path)))
}

/// Reads the season beside this one: the file that was named, or one that is found in the folder of the season or in the data folder.
/// `None` where nothing was named and nothing fits. What stood in it is not assessed here ([`assess`]).
///
/// # Errors
/// [`NotBeside`]; of files that were only found there is no error, they are passed over.
pub fn read(
    wanted: &WantedLastYear,
    (this, own): (&Season, &Path),
    data: &Path,
    limits: &Limits,
) -> Result<Option<LastYear>, NotBeside> {
    if wanted.off {
        return Ok(None);
    }
    let found = || find(this, own, data).map(|path| (path, Chosen::Found));
    let Some((path, chosen)) = wanted.file.clone().or_else(found) else { return Ok(None) };
    if is_same(&path, own) {
        return Err(not_used(&path, "this is the season itself; name the file of the year before"));
    }
    go_on()?;
    let season = load(&path)?;
    let courses = courses(&season, last_day(&season).unwrap_or(NaiveDate::MIN), limits)?;
    let by_hand = wanted.by_hand.clone();
    Ok(Some(LastYear { file: shown(&path), chosen, season, courses, judged: None, by_hand }))
}

/// Reads a season file.
///
/// # Errors
/// [`NotBeside::Said`]: what is wrong with it.
pub fn load(path: &Path) -> Result<Season, NotBeside> {
    if save_was_cut(path) {
        return Err(not_used(path, "a save was cut short in it; open it once by itself with --season"));
    }
    let read = Store::open_read_only(path).and_then(|store| {
        let read = store.load()?;
        store.close()?;
        Ok(read)
    });
    match read {
        Ok((plan, entries)) => Ok(Season::new(plan, entries)),
        Err(StoreError::Stopped) => Err(NotBeside::Stopped),
        Err(error) => Err(NotBeside::Said(format!("Last year's season is not shown: {error}"))),
    }
}

/// How the lots of a season went up to a day.
///
/// # Errors
/// [`NotBeside::Stopped`].
pub fn courses(season: &Season, until: NaiveDate, limits: &Limits) -> Result<Vec<crate::compare::Course>, NotBeside> {
    let mut courses = Courses::new(season, until, limits);
    while courses.step() {
        go_on()?;
    }
    Ok(courses.read())
}

/// What stood in a season up to a day, assessed day by day.
///
/// # Errors
/// [`NotBeside::Stopped`].
pub fn assess(season: &Season, until: NaiveDate, limits: &Limits) -> Result<crate::compare::Judged, NotBeside> {
    let mut judge = Judge::new(season, until, limits);
    let benches = season.benches().len().max(1);
    let mut work = Work::begin(Step::AssessSeason, judge.far().1.saturating_mul(benches));
    loop {
        let more = judge.step_day();
        for _ in 0..benches {
            work.one()?;
        }
        if !more {
            return Ok(judge.into_judged());
        }
        go_on()?;
    }
}

/// True where both names are of one file.
fn is_same(a: &Path, b: &Path) -> bool {
    let real = |path: &Path| std::fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
    real(a) == real(b)
}

/// True where the journal of a save lies beside a file: reading it would first have to mend it. An empty one is what a save that
/// came to its end leaves.
pub(super) fn save_was_cut(path: &Path) -> bool {
    let mut journal = path.as_os_str().to_owned();
    journal.push("-journal");
    std::fs::metadata(Path::new(&journal)).is_ok_and(|about| about.len() > 0)
}

/// The season of the same place whose first planting lies nearest to a year before this one's; of equal ones the last by name.
fn find(this: &Season, own: &Path, data: &Path) -> Option<PathBuf> {
    let folder = own.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut folders = vec![folder];
    if !is_same(folder, data) {
        folders.push(data);
    }
    let mut best: Option<(u64, PathBuf)> = None;
    for path in folders.into_iter().flat_map(season_files) {
        if is_same(&path, own) || save_was_cut(&path) || go_on().is_err() {
            continue;
        }
        let plan = Store::open_read_only(&path).and_then(|store| store.load_plan());
        let days = plan.ok().and_then(|plan| is_year_before(&Season::new(plan, Vec::new()), this));
        let Some(off) = days.map(|days| days.abs_diff(365)) else { continue };
        if best.as_ref().is_none_or(|(least, _)| off <= *least) {
            best = Some((off, path));
        }
    }
    best.map(|(_, path)| path)
}

/// The files of a folder that may be seasons, by name.
fn season_files(folder: &Path) -> Vec<PathBuf> {
    let all = std::fs::read_dir(folder).into_iter().flatten().filter_map(Result::ok).map(|entry| entry.path());
    let mut files: Vec<PathBuf> = all.filter(|path| path.extension().is_some_and(|end| end == "db")).collect();
    files.sort();
    files.truncate(MOST);
    files
}
