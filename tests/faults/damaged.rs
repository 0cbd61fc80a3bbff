//! Damaged season files: a clear line, no panic, no hang, the file as it was; and no altered value goes out, or into a backup
//! that is said to be read back, without a word where SQLite's own check can see the damage.

use crate::harness::{Campaign, DEMO_DAY, Done, beside, count, demo, demo_journal, judge};
use crate::mutants::{BOUNDED, ask, byte, message_faults, patience};
use crate::rng::Rng;
use crate::screens::{Screens, given_back};
use crate::terminal::is_round;
use sha2::{Digest, Sha256};
use std::ffi::OsStr;
use std::fs;
use std::path::Path;
use std::sync::Mutex;

const SHORT: usize = 12;
const FULL: usize = 700;

const PAGE: usize = 4_096;

/// A way to the file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Way {
    Export,
    Review,
    Screens,
    Backup,
    Import,
}

const ALL_WAYS: [Way; 5] = [Way::Export, Way::Review, Way::Screens, Way::Backup, Way::Import];

/// A damaged file, and the ways it is looked at by.
struct Damaged {
    name: String,
    bytes: Vec<u8>,
    ways: Vec<Way>,
}

/// Files that SQLite's check finds sound and that give something else than the whole season all the same.
#[derive(Default)]
struct Unseen {
    exports: Mutex<Vec<String>>,
    backups: Mutex<Vec<String>>,
}

/// Looks at a damaged file by all its ways.
fn look(damaged: &Damaged, unseen: &Unseen) -> Vec<String> {
    let folder = tempfile::tempdir().unwrap();
    let season = folder.path().join("s.db");
    fs::write(&season, &damaged.bytes).unwrap();
    // The first two lines: a good journal of the same season.
    let journal: String = demo_journal().split_inclusive('\n').take(2).collect();
    fs::write(folder.path().join("first.jsonl"), journal.replace(",\"ends\":true", "")).unwrap();
    let seen = !judge(&season).bad.is_empty();
    let mut why = Vec::new();
    for way in &damaged.ways {
        let before = hash(&season);
        let mut found = match way {
            Way::Screens => screens(folder.path(), &season),
            _ => command(&damaged.name, *way, folder.path(), seen, unseen),
        };
        if matches!(way, Way::Export | Way::Review | Way::Backup) && hash(&season) != before {
            found.push("the file was changed".to_owned());
        }
        why.extend(found.into_iter().map(|what| format!("{way:?}: {what}")));
    }
    why
}

/// A command on the file; `seen` says that SQLite's check finds it damaged.
fn command(name: &str, way: Way, folder: &Path, seen: bool, unseen: &Unseen) -> Vec<String> {
    let (season, copy, journal) = (folder.join("s.db"), folder.join("copy.db"), folder.join("first.jsonl"));
    let arguments: &[&OsStr] = match way {
        Way::Review => &["review".as_ref(), "--on".as_ref(), DEMO_DAY.as_ref()],
        Way::Backup => &["backup".as_ref(), copy.as_os_str()],
        Way::Import => &["import".as_ref(), journal.as_os_str()],
        Way::Export | Way::Screens => &["export".as_ref()],
    };
    let done = ask(folder, &season, arguments, b"");
    let mut why = message_faults(&done);
    if way == Way::Export && is_silent(&done) && done.out() != demo_journal() {
        if seen {
            why.push("altered without a word, and SQLite's check sees the damage".to_owned());
        } else {
            unseen.exports.lock().unwrap().push(name.to_owned());
        }
    }
    if way == Way::Backup && done.code == Some(0) {
        let read = ask(folder, &copy, &["export".as_ref()], b"");
        if read.code != Some(0) {
            why.push(format!("said to be read back, and its copy does not read: {:.200}", read.err()));
        } else if seen {
            why.push("said to be read back, and SQLite's check sees the damage".to_owned());
        } else if read.out() != demo_journal() {
            unseen.backups.lock().unwrap().push(name.to_owned());
        }
    }
    why
}

/// It ended well and said nothing.
fn is_silent(done: &Done) -> bool {
    done.code == Some(0) && done.err().trim().is_empty()
}

fn hash(path: &Path) -> Vec<u8> {
    Sha256::digest(fs::read(path).unwrap()).to_vec()
}

/// The screens on the file: some pages, and out.
fn screens(folder: &Path, season: &Path) -> Vec<String> {
    let mut screens = Screens::open(folder, season, "kt", &BOUNDED);
    screens.pty.comes(patience() / 3, is_round);
    for key in ["e", "r"] {
        screens.press(key);
    }
    let shown = screens.pty.text();
    screens.press("q");
    let mut why = Vec::new();
    match screens.code(patience()) {
        None => why.push(format!("hangs; screen: {shown}")),
        Some(0 | 1) => {}
        Some(code) => why.push(format!("exit {code}")),
    }
    let raw = screens.pty.raw();
    if raw.contains("panicked") {
        why.push(format!("panics: {}", screens.pty.text()));
    }
    why.extend(given_back(&raw));
    why
}

/// The bytes of the season with something done to them, and what.
fn damage(whole: &[u8], rng: &mut Rng) -> (String, Vec<u8>) {
    let mut data = whole.to_vec();
    let pages = whole.len() / PAGE;
    let what = match rng.below(6) {
        0 => {
            for _ in 0..*rng.pick(&[1, 1, 3, 50]) {
                let at = rng.below(data.len());
                data[at] ^= 1 << rng.below(8);
            }
            "bits flipped".to_owned()
        }
        1 => {
            let length = match rng.below(3) {
                0 => 1 + rng.below(199),
                1 => rng.below(data.len()),
                _ => PAGE * (1 + rng.below(pages - 1)),
            };
            data.truncate(length);
            format!("cut at {length}")
        }
        2 => {
            let page = rng.below(pages);
            data[page * PAGE..(page + 1) * PAGE].fill(0);
            format!("page {page} zeroed")
        }
        3 => {
            for _ in 0..*rng.pick(&[1, 4]) {
                data[rng.below(100)] = byte(rng);
            }
            "bytes of the head".to_owned()
        }
        4 => {
            let (a, b) = (rng.below(pages), rng.below(pages));
            let (one, other) = (data[a * PAGE..(a + 1) * PAGE].to_vec(), data[b * PAGE..(b + 1) * PAGE].to_vec());
            data[a * PAGE..(a + 1) * PAGE].copy_from_slice(&other);
            data[b * PAGE..(b + 1) * PAGE].copy_from_slice(&one);
            format!("pages {a} and {b} swapped")
        }
        _ => {
            let at = rng.below(data.len() - 200);
            for place in &mut data[at..at + 100] {
                *place = byte(rng);
            }
            format!("noise at {at}")
        }
    };
    (what, data)
}

#[test]
fn of_a_damaged_file_nothing_altered_goes_out_without_a_word() {
    let whole = {
        let folder = tempfile::tempdir().unwrap();
        let season = folder.path().join("s.db");
        demo(&season);
        fs::read(season).unwrap()
    };
    let mut campaign = Campaign::new("damaged files");
    let mut files = made(&whole);
    files.extend((0..count(SHORT, FULL)).map(|number| {
        let (name, bytes) = damage(&whole, &mut campaign.rng(number));
        let second = if number % 4 == 0 { Way::Screens } else { Way::Review };
        let third = if number % 2 == 1 { Way::Backup } else { Way::Import };
        Damaged { name, bytes, ways: vec![Way::Export, second, third] }
    }));
    let unseen = Unseen::default();
    campaign.each(&files, |file| file.name.clone(), |_, file| look(file, &unseen));
    let (exports, backups) = (unseen.exports.into_inner().unwrap(), unseen.backups.into_inner().unwrap());
    println!("damaged files: {} openings", files.iter().map(|file| file.ways.len()).sum::<usize>());
    println!(
        "altered and not seen by SQLite's check: {} exports {exports:?}, {} backups {backups:?}",
        exports.len(),
        backups.len()
    );
    campaign.end();
}

/// The fifteen that are made on purpose.
fn made(whole: &[u8]) -> Vec<Damaged> {
    let alone = [b"SQLite format 3\0".to_vec(), vec![0; 52], b"BWLK".to_vec(), vec![0; 28]].concat();
    let no_id = [&whole[..68], &[0; 4], &whole[72..]].concat();
    let mut rng = Rng::new(15);
    let bytes = [
        ("junk", (0..5_000).map(|_| byte(&mut rng)).collect()),
        ("text", b"hello\n".repeat(100)),
        ("empty", Vec::new()),
        ("magic only", whole[..16].to_vec()),
        ("99 bytes", whole[..99].to_vec()),
        ("zeros", vec![0; 8_192]),
        ("no application id", no_id),
        ("application id alone", alone),
    ];
    let by_sql = [
        ("version 99", "PRAGMA user_version = 99", "SELECT user_version = 99 FROM pragma_user_version"),
        ("version -1", "PRAGMA user_version = -1", "SELECT user_version = -1 FROM pragma_user_version"),
        ("version 0 with tables", "PRAGMA user_version = 0", "SELECT user_version = 0 FROM pragma_user_version"),
        (
            "entry gone",
            "PRAGMA writable_schema = 1; DELETE FROM sqlite_schema WHERE name = 'entry'",
            "SELECT count(*) = 0 FROM sqlite_schema WHERE name = 'entry'",
        ),
        (
            "kind gone",
            "PRAGMA foreign_keys = 0; DROP TABLE kind",
            "SELECT count(*) = 0 FROM sqlite_schema WHERE name = 'kind'",
        ),
        ("index gone", "DROP INDEX entry_day", "SELECT count(*) = 0 FROM sqlite_schema WHERE name = 'entry_day'"),
        (
            "text in Latin-1",
            "DROP TRIGGER site_line_no_update; UPDATE site_line SET name = CAST(x'4DFC686C65' AS TEXT)",
            "SELECT count(*) FROM site_line WHERE hex(name) = '4DFC686C65'",
        ),
    ];
    let all = bytes.into_iter().chain(by_sql.map(|(name, sql, made)| (name, changed(sql, made))));
    all.map(|(name, bytes)| Damaged { name: name.to_owned(), bytes, ways: ALL_WAYS.to_vec() }).collect()
}

/// The demo season changed by SQL; fails where the change was not made.
fn changed(sql: &str, made: &str) -> Vec<u8> {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("s.db");
    demo(&path);
    change(&path, sql, made);
    fs::read(path).unwrap()
}

/// Changes a closed season file by SQL, with its own checks off, and closes it; fails where a query then gives no number over 0.
pub(crate) fn change(path: &Path, sql: &str, made: &str) {
    let file = rusqlite::Connection::open(path).unwrap();
    let off = "PRAGMA foreign_keys = 0; PRAGMA ignore_check_constraints = 1; PRAGMA synchronous = 0";
    file.execute_batch(off).unwrap();
    let all = format!("BEGIN; {sql}; COMMIT");
    file.execute_batch(&all).unwrap_or_else(|error| panic!("not made: {sql}: {error}"));
    file.close().unwrap();
    // Opened again: of a schema written by hand the old reading is kept.
    let file = rusqlite::Connection::open(path).unwrap();
    let tables = "PRAGMA writable_schema = 1";
    file.execute_batch(tables).unwrap();
    let found: rusqlite::Result<i64> = file.query_row(made, [], |row| row.get(0));
    assert!(found.as_ref().is_ok_and(|n| *n > 0), "not made: {sql}: {found:?}");
    file.close().unwrap();
    assert!(!beside(path, "-wal").exists(), "not closed: {sql}");
}
