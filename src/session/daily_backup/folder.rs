//! The folder of a season's dated copies: its name, and what lies in it.

use super::Backups;
use crate::session::path_mark::{hash, mark, resolved};
use chrono::NaiveDate;
use std::collections::BTreeSet;
use std::ffi::OsStr;
use std::fs;
use std::path::{Path, PathBuf};
use uuid::Uuid;

/// The longest part of a season file's name that goes into a folder's name, in characters.
const LONGEST_NAME: usize = 40;

/// A dated copy of a season.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct DatedCopy {
    /// The day it was made on, in the zone of the site.
    pub day: NaiveDate,
    /// Its file.
    pub path: PathBuf,
}

/// The name of the copy of a day.
pub(super) fn name_of(day: NaiveDate) -> String {
    format!("{}.db", day.format("%Y-%m-%d"))
}

/// The day of a copy by its name; `None` for every name that is not exactly one of ours.
fn day_of(name: &OsStr) -> Option<NaiveDate> {
    let day = name.to_str()?.strip_suffix(".db")?.parse().ok()?;
    (name_of(day).as_str() == name).then_some(day)
}

/// The folder for the copies of one season at one path. It is named by both: another season that begins under the same name
/// later has a folder of its own, and so has the same season in another place.
pub(super) fn of_season(backups: &Backups, season: &Path, id: Uuid) -> PathBuf {
    backups.folder.join(format!("{}-{}", of_path(season), hash(id.as_bytes())))
}

/// Every dated copy of the seasons that were at this path, newest first. The file itself need not be there, or be readable.
pub fn copies(backups: &Backups, season: &Path) -> Vec<DatedCopy> {
    let prefix = format!("{}-", of_path(season));
    let ours = |name: &OsStr| {
        let hash = name.to_str().and_then(|name| name.strip_prefix(&prefix));
        hash.is_some_and(|hash| hash.len() == 8 && hash.bytes().all(|b| b.is_ascii_hexdigit()))
    };
    let folders = fs::read_dir(&backups.folder).into_iter().flatten().flatten();
    let folders = folders.filter(|entry| ours(&entry.file_name()));
    let mut all: Vec<DatedCopy> = folders.flat_map(|folder| inside(&folder.path())).collect();
    all.sort_by(|a, b| b.cmp(a));
    all
}

/// The days that have a copy in a folder.
pub(super) fn days(folder: &Path) -> BTreeSet<NaiveDate> {
    inside(folder).into_iter().map(|copy| copy.day).collect()
}

/// The dated copies in a folder: ordinary files with exactly such a name.
fn inside(folder: &Path) -> Vec<DatedCopy> {
    let files = fs::read_dir(folder).into_iter().flatten().flatten();
    let ordinary = files.filter(|entry| entry.file_type().is_ok_and(|kind| kind.is_file()));
    ordinary.filter_map(|entry| Some(DatedCopy { day: day_of(&entry.file_name())?, path: entry.path() })).collect()
}

/// What stands for a path: the file's name without what a folder's name should not hold, and a hash of the whole path.
fn of_path(season: &Path) -> String {
    let path = resolved(season);
    let stem = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
    let plain = |c: char| if c.is_ascii_alphanumeric() || "-_.".contains(c) { c } else { '_' };
    let name: String = stem.chars().take(LONGEST_NAME).map(plain).collect();
    format!("{name}-{}", mark(season))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_names_that_are_exactly_ours_are_copies() {
        assert_eq!(day_of("2026-11-20.db".as_ref()), NaiveDate::from_ymd_opt(2026, 11, 20));
        let others = [
            "2026-11-20",
            "2026-11-20.db-wal",
            "2026-11-31.db",
            "2026-1-20.db",
            "+2026-11-20.db",
            "26-11-20.db",
            " 2026-11-20.db",
            "2026-11-20 .db",
            "season.db",
            "2026-11-20.DB",
            "2026-11-20.v1.db",
            ".db",
            "",
        ];
        for other in others {
            assert_eq!(day_of(other.as_ref()), None, "{other}");
        }
    }

    #[test]
    fn a_folder_is_of_one_season_at_one_path() {
        let folder = tempfile::tempdir().unwrap();
        let backups = Backups::new(folder.path(), None, None);
        let at = |name: &str, id: u128| of_season(&backups, &folder.path().join(name), Uuid::from_u128(id));
        assert_eq!(at("season.db", 1), at("./season.db", 1));
        let others = [at("season.db", 2), at("other.db", 1), at("no such folder/season.db", 1), at("señ/o:r.db", 1)];
        for other in &others {
            assert_ne!(at("season.db", 1), *other);
            assert_eq!(other.parent(), Some(backups.folder.as_path()));
        }
        let name = at("season.db", 1).file_name().unwrap().to_string_lossy().into_owned();
        assert!(name.starts_with("season-") && name.len() == "season-".len() + 8 + 1 + 8, "{name}");
    }

    #[cfg(unix)]
    #[test]
    fn copies_are_found_by_the_path_also_when_the_file_is_gone_and_through_a_link() {
        let folder = tempfile::tempdir().unwrap();
        let backups = Backups::new(folder.path(), None, None);
        let season = folder.path().join("season.db");
        fs::write(&season, "x").unwrap();
        for (id, day) in [(1, "2026-11-20.db"), (1, "2026-11-21.db"), (2, "2026-11-19.db"), (2, "notes.txt")] {
            let to = of_season(&backups, &season, Uuid::from_u128(id));
            fs::create_dir_all(&to).unwrap();
            fs::write(to.join(day), "x").unwrap();
        }
        fs::create_dir_all(of_season(&backups, &season, Uuid::from_u128(1)).join("2026-11-22.db")).unwrap();
        let link = folder.path().join("link.db");
        std::os::unix::fs::symlink(&season, &link).unwrap();
        let days =
            |path: &Path| copies(&backups, path).into_iter().map(|copy| copy.day.to_string()).collect::<Vec<_>>();
        let wanted = ["2026-11-21", "2026-11-20", "2026-11-19"];
        assert_eq!(days(&season), wanted);
        assert_eq!(days(&link), wanted);
        fs::remove_file(&season).unwrap();
        assert_eq!(days(&season), wanted);
        assert_eq!(days(&folder.path().join("other.db")), [""; 0]);
    }
}
