//! Copies of a day on real season files.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on stops there")]

use super::*;
use crate::session::{DemoFile, Source, Writer, import, make_demo};
use std::os::unix::fs::PermissionsExt;

/// A season in a folder of its own, with its backups next to it.
struct Laptop {
    root: tempfile::TempDir,
    backups: Backups,
}

impl Laptop {
    fn new() -> Self {
        let root = tempfile::tempdir().unwrap();
        let backups = Backups::new(root.path(), None, None);
        Self { root, backups }
    }

    fn season(&self) -> PathBuf {
        let path = self.root.path().join("season.db");
        make_demo(DemoFile::At(&path)).unwrap();
        path
    }

    fn days(&self) -> Vec<String> {
        copies(&self.backups, &self.root.path().join("season.db")).iter().map(|copy| copy.day.to_string()).collect()
    }
}

fn day(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

fn names(folder: &Path) -> Vec<String> {
    let mut all: Vec<String> =
        fs::read_dir(folder).unwrap().map(|e| e.unwrap().file_name().to_string_lossy().into_owned()).collect();
    all.sort();
    all
}

#[test]
fn the_first_start_of_a_day_keeps_one_private_copy() {
    let laptop = Laptop::new();
    let season = laptop.season();
    let made = keep(&laptop.backups, &season, day("2026-11-20")).unwrap().unwrap();
    assert_eq!(made.entries, Store::open_read_only(&season).unwrap().count().unwrap());
    let mode = |path: &Path| fs::metadata(path).unwrap().permissions().mode() & 0o777;
    assert_eq!((mode(&made.path), mode(made.path.parent().unwrap())), (0o600, 0o700));
    assert_eq!(mode(laptop.backups.folder()), 0o700);
    let before = fs::read(&made.path).unwrap();
    assert_eq!(keep(&laptop.backups, &season, day("2026-11-20")).unwrap(), None);
    assert!(fs::read(&made.path).unwrap() == before, "the second start of a day changes nothing");
    keep(&laptop.backups, &season, day("2026-11-21")).unwrap().unwrap();
    assert_eq!(laptop.days(), ["2026-11-21", "2026-11-20"]);
    assert_eq!(newest(&laptop.backups, &season).unwrap().day, day("2026-11-21"));
    assert_eq!(names(made.path.parent().unwrap()), ["2026-11-20.db", "2026-11-21.db"], "nothing else is left there");
}

#[test]
fn seven_days_and_each_months_first_are_kept_and_nothing_that_is_not_ours_goes() {
    let laptop = Laptop::new();
    let season = laptop.season();
    let folder = keep(&laptop.backups, &season, day("2026-09-28")).unwrap().unwrap().path.parent().unwrap().to_owned();
    for name in ["notes.txt", "2026-09-29.db.bak", "2026-9-29.db", "before.db"] {
        fs::write(folder.join(name), "mine").unwrap();
    }
    for today in day("2026-09-29").iter_days().take_while(|d| *d <= day("2026-10-12")) {
        keep(&laptop.backups, &season, today).unwrap().unwrap();
    }
    let wanted = [
        "2026-09-28.db",
        "2026-09-29.db.bak",
        "2026-10-01.db",
        "2026-10-06.db",
        "2026-10-07.db",
        "2026-10-08.db",
        "2026-10-09.db",
        "2026-10-10.db",
        "2026-10-11.db",
        "2026-10-12.db",
        "2026-9-29.db",
        "before.db",
        "notes.txt",
    ];
    assert_eq!(names(&folder), wanted);
    // A clock of 1970 makes its copy and removes none.
    keep(&laptop.backups, &season, day("1970-01-01")).unwrap().unwrap();
    assert_eq!(names(&folder).len(), wanted.len() + 1);
}

#[test]
fn of_a_season_without_a_site_of_the_demo_and_with_the_setting_off_none_is_made() {
    let laptop = Laptop::new();
    let today = day("2026-11-20");
    let demo = make_demo(DemoFile::NextIn(laptop.root.path())).unwrap().path;
    assert_eq!(keep(&laptop.backups, &demo, today).unwrap(), None);
    let empty = laptop.root.path().join("empty.db");
    Store::create(&empty).unwrap().close().unwrap();
    assert_eq!(keep(&laptop.backups, &empty, today).unwrap(), None);
    let off = Backups::new(laptop.root.path(), Some(false), None);
    assert_eq!(keep(&off, &laptop.season(), today).unwrap(), None);
    assert!(!laptop.backups.folder().exists());
}

#[test]
fn a_damaged_season_is_not_copied_and_its_older_copies_stay() {
    let laptop = Laptop::new();
    let season = laptop.season();
    for today in day("2026-11-02").iter_days().take(8) {
        keep(&laptop.backups, &season, today).unwrap().unwrap();
    }
    let before = laptop.days();
    assert_eq!(before.len(), 8);
    let mut bytes = fs::read(&season).unwrap();
    let middle = bytes.len() / 2;
    bytes[middle..middle + 8192].fill(0xA5);
    fs::write(&season, bytes).unwrap();
    let error = keep(&laptop.backups, &season, day("2026-11-10")).unwrap_err();
    assert!(error.to_string().contains("damaged"), "{error}");
    assert_eq!(laptop.days(), before);
    // The newest that reads back whole, where a copy is damaged too.
    let copy = &copies(&laptop.backups, &season)[0];
    assert_eq!(newest(&laptop.backups, &season).as_ref(), Some(copy));
    fs::write(&copy.path, "no database").unwrap();
    assert_eq!(newest(&laptop.backups, &season).unwrap().day, day("2026-11-08"));
}

#[test]
fn a_chosen_folder_must_be_there() {
    let laptop = Laptop::new();
    let season = laptop.season();
    let stick = laptop.root.path().join("stick");
    let backups = Backups::new(laptop.root.path(), None, Some(stick.clone()));
    let error = keep(&backups, &season, day("2026-11-20")).unwrap_err();
    assert!(error.to_string().starts_with("the backup folder is missing: "), "{error}");
    assert!(!stick.exists(), "it is not made: the stick is not put in");
    fs::create_dir(&stick).unwrap();
    keep(&backups, &season, day("2026-11-20")).unwrap().unwrap();
    assert!(!laptop.backups.folder().exists());
}

#[test]
fn programs_that_start_at_once_make_one_copy_and_no_error() {
    let laptop = Laptop::new();
    let season = laptop.season();
    for (round, today) in day("2026-11-02").iter_days().take(5).enumerate() {
        let made: Vec<_> = std::thread::scope(|scope| {
            let starts: Vec<_> =
                (0..4).map(|_| scope.spawn(|| keep(&laptop.backups, &season, today).unwrap())).collect();
            starts.into_iter().filter_map(|start| start.join().unwrap()).collect()
        });
        assert_eq!((made.len(), laptop.days().len()), (1, round + 1));
    }
}

#[test]
fn what_a_killed_program_left_is_removed_but_not_while_another_writes() {
    let laptop = Laptop::new();
    let season = laptop.season();
    let first = keep(&laptop.backups, &season, day("2026-11-20")).unwrap().unwrap().path;
    let folder = first.parent().unwrap();
    for left in ["", "-journal", ".lock"] {
        let content = if left == ".lock" { "" } else { "half" };
        fs::write(folder.join(format!(".benchwalk-backup-7-aB3dE5gH{left}")), content).unwrap();
    }
    let other = lock(folder);
    assert!(matches!(other, Lock::Ours(_)));
    assert_eq!(keep(&laptop.backups, &season, day("2026-11-21")).unwrap(), None);
    assert_eq!(names(folder).len(), 4);
    drop(other);
    keep(&laptop.backups, &season, day("2026-11-21")).unwrap().unwrap();
    assert_eq!(names(folder), ["2026-11-20.db", "2026-11-21.db"]);
}

#[test]
fn a_season_that_begins_under_the_name_of_an_older_one_leaves_its_copies_alone() {
    let laptop = Laptop::new();
    let season = laptop.season();
    for today in day("2026-11-02").iter_days().take(7) {
        keep(&laptop.backups, &season, today).unwrap().unwrap();
    }
    fs::rename(&season, laptop.root.path().join("last-year.db")).unwrap();
    let site = "{\"type\":\"journal\",\"version\":2}\n{\"type\":\"site\",\"name\":\"Other\",\"latitude\":44.1,\
                \"longitude\":-70.2,\"time_zone\":\"America/New_York\",\"units\":\"us\"}\n";
    let journal = laptop.root.path().join("other.jsonl");
    fs::write(&journal, site).unwrap();
    let at = "2027-08-01T07:00:00-04:00".parse().unwrap();
    import(
        &season,
        &Source::file(&journal, crate::files::FILE).unwrap(),
        &Writer { confirmed: false, at, by: "kt", laptop: &crate::session::share::Laptop::default() },
    )
    .unwrap();
    for today in day("2027-08-01").iter_days().take(9) {
        keep(&laptop.backups, &season, today).unwrap().unwrap();
    }
    assert_eq!(laptop.days().len(), 7 + 8, "{:?}", laptop.days());
}
