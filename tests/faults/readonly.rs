//! A season file, its folder or its disk that cannot be written or read, tried as a user without rights: reading works where
//! it can, what cannot be done is said with its reason, nothing changes and nothing is shown as saved that is not.

use crate::harness::{
    Campaign, DEMO_DAY, Done, Mounted, Run, Saves, Scores, demo, demo_journal, entries, have, in_own_mounts, judge,
    judge_in_place, leave, lines, mount_read_only, rescued,
};
use crate::terminal::{Pty, Start, is_round, program};
use std::ffi::OsString;
use std::fs::{self, Permissions};
use std::os::unix::fs::{MetadataExt, PermissionsExt, chown};
use std::path::{Path, PathBuf};
use std::time::Duration;

/// The user without rights.
const NOBODY: u32 = 65534;

/// How the program is started as that user.
const AS_NOBODY: [&str; 5] = ["setpriv", "--reuid=65534", "--regid=65534", "--clear-groups", "--"];

/// What is in the way.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Barred {
    ReadOnlyFile,
    ReadOnlyFolder,
    ReadOnlyDisk,
    UnreadableFile,
    UnreadableFolder,
}

const BARRED: [Barred; 5] = [
    Barred::ReadOnlyFile,
    Barred::ReadOnlyFolder,
    Barred::ReadOnlyDisk,
    Barred::UnreadableFile,
    Barred::UnreadableFolder,
];

/// A season in a folder, a home of nobody, and a copy of the program that nobody may run.
struct Place {
    _own: tempfile::TempDir,
    home: PathBuf,
    folder: PathBuf,
    file: PathBuf,
    program: PathBuf,
}

fn mode(path: &Path, mode: u32) {
    fs::set_permissions(path, Permissions::from_mode(mode)).unwrap();
}

fn owned_by(path: &Path, user: u32) {
    chown(path, Some(user), Some(user)).unwrap();
}

impl Place {
    fn new() -> Self {
        let own = tempfile::tempdir().unwrap();
        mode(own.path(), 0o755);
        let [home, folder] = ["home", "season"].map(|name| own.path().join(name));
        for path in [&home, &folder] {
            fs::create_dir(path).unwrap();
            owned_by(path, NOBODY);
        }
        let file = folder.join("s.db");
        demo(&file);
        owned_by(&file, NOBODY);
        mode(&file, 0o644);
        let copy = own.path().join("benchwalk");
        fs::copy(program(), &copy).unwrap();
        mode(&copy, 0o755);
        fs::write(home.join("new.jsonl"), new_entry()).unwrap();
        Self { _own: own, home, folder, file, program: copy }
    }

    /// Puts it in the way. A mount is taken away with what this gives.
    fn bar(&self, how: Barred) -> Option<Mounted> {
        match how {
            Barred::ReadOnlyFile => {
                owned_by(&self.file, 0);
                mode(&self.file, 0o444);
            }
            Barred::ReadOnlyFolder => {
                owned_by(&self.folder, 0);
                mode(&self.folder, 0o555);
            }
            Barred::ReadOnlyDisk => return Some(mount_read_only(&self.folder)),
            Barred::UnreadableFile => {
                owned_by(&self.file, 0);
                mode(&self.file, 0o600);
            }
            Barred::UnreadableFolder => {
                owned_by(&self.folder, 0);
                mode(&self.folder, 0o700);
            }
        }
        None
    }

    fn run(&self, arguments: &[&str]) -> Done {
        let mut words: Vec<OsString> = AS_NOBODY.map(OsString::from).to_vec();
        words.extend([self.program.clone().into(), "--season".into(), self.file.clone().into()]);
        words.extend(arguments.iter().map(OsString::from));
        Run::at(&self.home).go_words(&words)
    }

    fn screens(&self) -> Pty {
        let start =
            Start { folder: Some(&self.home), prefix: &AS_NOBODY, program: Some(&self.program), ..Start::default() };
        let file = self.file.to_str().unwrap();
        Pty::start_as(start, &["--season", file, "--on", DEMO_DAY, "--by", "zz"])
    }
}

/// The demo's header and one more entry.
fn new_entry() -> String {
    let header = demo_journal().lines().next().unwrap().replacen(",\"ends\":true", "", 1);
    format!(
        "{header}\n{{\"type\":\"entry\",\"at\":\"2026-10-14T09:00:00-04:00\",\"by\":\"new\",\"bench\":\"M5\",\"kind\":\"water\",\"level\":3}}\n"
    )
}

/// Reads, writes and copies what is barred.
fn commands(how: Barred) -> Vec<(String, Vec<String>)> {
    let readable = !matches!(how, Barred::UnreadableFile | Barred::UnreadableFolder);
    let tries: [(&str, &[&str]); 4] = [
        ("review", &["--on", DEMO_DAY, "review"]),
        ("export", &["export"]),
        ("import", &["import", "new.jsonl"]),
        ("backup", &["backup", "b.db"]),
    ];
    let one = |(name, arguments): (&str, &[&str])| {
        let place = Place::new();
        let _mounted = place.bar(how);
        let before = fs::read(&place.file).unwrap();
        let done = place.run(arguments);
        let mut why = done.unsound();
        let said = done.err();
        if done.code != Some(0) && !reason(&said) {
            why.push(format!("no reason is told: {said}"));
        }
        if !readable && done.code == Some(0) {
            why.push("a success on what cannot be read".to_owned());
        }
        match name {
            _ if done.code != Some(0) && readable && name != "import" => why.push(format!("not read: {said}")),
            "export" if done.code == Some(0) && done.out() != demo_journal() => why.push("another export".to_owned()),
            "import" if done.code == Some(0) && judge(&place.file).rows.iter().all(|row| row.author != "new") => {
                why.push("imported, and the entry is not there".to_owned());
            }
            "backup" if done.code == Some(0) => why.extend(judge_in_place(&place.home.join("b.db")).bad),
            _ => {}
        }
        if done.code != Some(0) && fs::read(&place.file).unwrap() != before {
            why.push("the file has changed".to_owned());
        }
        (format!("{how:?}, {name}"), why)
    };
    tries.into_iter().map(one).collect()
}

/// The text tells what is in the way.
fn reason(text: &str) -> bool {
    let text = text.to_lowercase();
    ["permission", "read-only", "cannot be read", "not allowed", "may not"].iter().any(|word| text.contains(word))
}

/// Opens the screens on it and types a score.
fn opened(how: Barred) -> Vec<String> {
    let place = Place::new();
    let _mounted = place.bar(how);
    let mut pty = place.screens();
    let saves = Saves::watch(&pty);
    let mut why = Vec::new();
    pty.wait("the Round or a reason", |text| is_round(text) || reason(text) || text.contains("no season file"));
    if pty.text().contains("There is no season file yet") {
        why.push("the first-run page instead of the reason".to_owned());
    }
    if pty.text().starts_with("Round") {
        pty.send("w3");
        pty.settle(Duration::from_millis(300));
    }
    if pty.ended_within(Duration::ZERO).is_none() {
        leave(&mut pty);
    }
    pty.drain();
    if pty.raw().contains("panicked") {
        why.push(pty.raw());
    }
    why.extend(saves.missing(&judge(&place.file).rows, "zz"));
    why
}

/// Becomes read-only while the screens are open.
fn turned(how: Barred) -> Vec<String> {
    let place = Place::new();
    let mut pty = place.screens();
    pty.wait_round();
    let saves = Saves::watch(&pty);
    let mut scores = Scores::default();
    pty.send("w");
    scores.score(&mut pty);
    pty.wait("a save", |text| text.contains("saved: ") && !text.contains("NOT YET"));
    let _mounted = place.bar(how);
    for _ in 0..3 {
        scores.score(&mut pty);
    }
    let code = leave(&mut pty);
    let judged = judge(&place.file);
    let mut why = [judged.bad, saves.missing(&judged.rows, "zz")].concat();
    let kept = lines(&judged.rows, "zz");
    if code == 0 {
        why.extend(scores.nowhere(&kept));
    }
    let rescued = rescued(&place.home.join("state"), "zz");
    why.extend(scores.nowhere(&[kept, rescued, entries(&pty.raw(), "zz")].concat()));
    why
}

#[test]
fn what_cannot_be_written_or_read_is_said_and_left_as_it_is() {
    let root = fs::metadata("/proc/self").is_ok_and(|own| own.uid() == 0);
    if !have("another user (root)", root) {
        return;
    }
    if !in_own_mounts("readonly::what_cannot_be_written_or_read_is_said_and_left_as_it_is", true) {
        return;
    }
    let mut campaign = Campaign::new("read-only files");
    for (what, why) in BARRED.into_iter().flat_map(commands) {
        campaign.case(&what, &why);
    }
    campaign.each(&BARRED, |how| format!("{how:?}, screens"), |_, how| opened(*how));
    let turns = [Barred::ReadOnlyFile, Barred::ReadOnlyFolder];
    campaign.each(&turns, |how| format!("{how:?} while open"), |_, how| turned(*how));
    campaign.end();
}
