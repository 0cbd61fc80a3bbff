//! What goes wrong on a day.

use super::day::Walking;
use super::{BY, day_of, evening};
use crate::preload::Faults;
use crate::rng::Rng;
use crate::season::instant;
use crate::terminal::program;
use crate::walker::{pending, read};
use chrono::TimeDelta;
use std::io::Write;
use std::process::{Command, Stdio};
use std::time::Duration;

/// Why saving fails for a while.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Cause {
    /// The disk is full.
    Full,
    /// The disk answers EIO.
    Broken,
    /// Another program holds the file.
    Locked,
    /// The file was moved away; it is put back in the end.
    Moved,
}

/// How a program ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Ending {
    /// It does not.
    None,
    /// SIGKILL, as when the power goes.
    Killed,
    /// SIGTERM.
    Terminated,
    /// Its terminal is closed.
    HungUp,
}

/// Something that goes wrong.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Trouble {
    /// The program ends at a random moment after a key.
    Ends(Ending),
    /// Saving fails for some answers, and the program ends meanwhile or goes on.
    Fails(Cause, Ending),
    /// SIGTERM while the disk takes its time over a save.
    SlowThenTerminated,
    /// The clock jumps by so many hours, and is put right.
    Clock(i64),
    /// The laptop dies while a backup is made.
    BackupDies,
    /// The laptop dies while a reading is imported.
    ImportDies,
    /// Another program imports while the round is walked.
    SecondProgram,
}

/// All kinds, so that a month meets each several times.
const ALL: [Trouble; 22] = [
    Trouble::Ends(Ending::Killed),
    Trouble::Fails(Cause::Full, Ending::None),
    Trouble::Fails(Cause::Locked, Ending::Killed),
    Trouble::Clock(-48),
    Trouble::Fails(Cause::Moved, Ending::None),
    Trouble::BackupDies,
    Trouble::Ends(Ending::HungUp),
    Trouble::Fails(Cause::Broken, Ending::None),
    Trouble::Fails(Cause::Full, Ending::HungUp),
    Trouble::SecondProgram,
    Trouble::ImportDies,
    Trouble::Fails(Cause::Locked, Ending::Terminated),
    Trouble::Ends(Ending::Terminated),
    Trouble::Fails(Cause::Full, Ending::Killed),
    Trouble::Clock(24 * 400),
    Trouble::SlowThenTerminated,
    Trouble::Fails(Cause::Broken, Ending::Killed),
    Trouble::Fails(Cause::Moved, Ending::Killed),
    Trouble::Fails(Cause::Locked, Ending::None),
    Trouble::Fails(Cause::Broken, Ending::Terminated),
    Trouble::Fails(Cause::Moved, Ending::HungUp),
    Trouble::Clock(-1),
];

impl Trouble {
    /// The troubles of a day, each with the number of answers it comes after. The kinds come in turn, the moments by chance.
    pub(super) fn of_day(rng: &mut Rng, day: u64) -> Vec<(usize, Self)> {
        let first = usize::try_from(day).unwrap() * 3;
        (0..3).map(|n| (1 + rng.below(8), ALL[(first + n) % ALL.len()])).collect()
    }

    /// What it is called in the count.
    pub(super) const fn name(self) -> &'static str {
        match self {
            Self::Ends(Ending::Killed) => "killed",
            Self::Ends(Ending::HungUp) => "terminal gone",
            Self::Ends(Ending::Terminated | Ending::None) => "terminated",
            Self::Fails(Cause::Full, _) => "disk full",
            Self::Fails(Cause::Broken, _) => "disk broken",
            Self::Fails(Cause::Locked, _) => "file locked",
            Self::Fails(Cause::Moved, _) => "file moved away",
            Self::SlowThenTerminated => "terminated in a slow save",
            Self::Clock(_) => "clock jumped",
            Self::BackupDies => "died in a backup",
            Self::ImportDies => "died in an import",
            Self::SecondProgram => "a second program imported",
        }
    }

    /// It strikes; the day goes on after it.
    pub(super) fn strike(self, walking: &mut Walking<'_>, rng: &mut Rng) {
        match self {
            Self::Ends(ending) => ends(walking, ending, rng),
            Self::Fails(cause, ending) => fails(walking, cause, ending, rng),
            Self::SlowThenTerminated => {
                walking.life.preload.change(|faults| faults.write = Some("slow"));
                ends(walking, Ending::Terminated, rng);
            }
            Self::Clock(hours) => clock(walking, hours),
            Self::BackupDies => {
                let copy = walking.life.home.path().join(format!("copy-{}.db", walking.day));
                dies(walking, &["backup", copy.to_str().unwrap()], "", rng);
            }
            Self::ImportDies => {
                let text = evening(walking.day, walking.life.seed);
                dies(walking, &["import", "-"], &text, rng);
            }
            Self::SecondProgram => walking.import(),
        }
    }
}

/// The program ends up to 30 ms after the next answer is typed, whether that is saved by then or not.
fn ends(walking: &mut Walking<'_>, ending: Ending, rng: &mut Rng) {
    walking.type_blindly();
    walking.pty.pause(Duration::from_micros(rng.below(30_000) as u64));
    end(walking, ending);
    walking.open_again();
}

fn end(walking: &mut Walking<'_>, ending: Ending) {
    match ending {
        Ending::None => return,
        Ending::Killed => walking.pty.kill(),
        Ending::Terminated => {
            walking.pty.signal("TERM");
            walking.pty.ended();
        }
        Ending::HungUp => {
            walking.pty.hang_up("\u{c}");
            walking.pty.ended();
        }
    }
    walking.pty.drain();
}

/// Some answers cannot be saved; then the cause goes away, after the program ended or before.
fn fails(walking: &mut Walking<'_>, cause: Cause, ending: Ending, rng: &mut Rng) {
    let file = walking.life.file();
    let away = file.with_file_name("elsewhere.db");
    let before = read(&file);
    let mut other = None;
    match cause {
        Cause::Full => walking.life.preload.change(|faults| faults.write = Some("full")),
        Cause::Broken => walking.life.preload.change(|faults| faults.write = Some("broken")),
        Cause::Locked => {
            let connection = rusqlite::Connection::open(&file).unwrap();
            connection.busy_timeout(Duration::from_secs(10)).unwrap();
            connection.execute_batch("BEGIN IMMEDIATE").unwrap();
            other = Some(connection);
        }
        Cause::Moved => std::fs::rename(&file, &away).unwrap(),
    }
    for _ in 0..=rng.below(3) {
        walking.go_on(false);
    }
    let unsaved = pending(&walking.pty.text());
    // Killed, what its last key wrote may be in no journal yet; nothing said that it was.
    let kept = if ending == Ending::Killed { unsaved.min(walking.journaled(&before)) } else { unsaved };
    end(walking, ending);
    match cause {
        Cause::Full | Cause::Broken => walking.life.preload.change(|faults| faults.write = None),
        Cause::Locked => drop(other),
        Cause::Moved => std::fs::rename(&away, &file).unwrap(),
    }
    if ending == Ending::None {
        walking.pty.wait("saved in the end", |text| pending(text) == 0);
    } else {
        walking.open_again();
        // Offered and taken, or in the file already: a save that failed in its last step may be in it all the same.
        let there = read(&file).len();
        assert!(
            there >= before.len() + kept,
            "day {}: {} entries, {kept} of {unsaved} not yet saved kept, then {cause:?}, {ending:?}: {there}:\n{}",
            walking.day,
            before.len(),
            walking.pty.text()
        );
    }
}

/// The clock jumps and is put right before anything is written; a jump before the last entry, or of a year, is said meanwhile.
fn clock(walking: &mut Walking<'_>, hours: i64) {
    const SAID: &str = "This laptop's clock says";
    let right = instant(day_of(walking.day), (12, 0));
    for (at, wrong) in [(right + TimeDelta::hours(hours), hours != -1), (right, false)] {
        walking.life.preload.set(&Faults { clock: Some(format!("={}", at.timestamp())), ..Faults::default() });
        let before = walking.pty.frames();
        walking.pty.send("\u{c}");
        // A whole frame: part of one may show the card of the other day without its line.
        walking.pty.wait_out(if wrong { "the wrong clock said" } else { "the right clock" }, |out| {
            out.frames > before && out.screen.screen().contents().contains(SAID) == wrong
        });
        walking.pty.settle(Duration::from_millis(50));
    }
}

/// A command is killed up to 60 ms after its start, and run again to its end.
fn dies(walking: &mut Walking<'_>, arguments: &[&str], text: &str, rng: &mut Rng) {
    let home = walking.life.home.path().to_owned();
    let mut command = Command::new(program());
    command.arg("--season").arg(walking.life.file()).args(["--by", BY]).args(arguments).current_dir(&home);
    for (name, sub) in crate::terminal::FOLDERS {
        command.env(name, home.join(sub));
    }
    for (name, value) in walking.life.preload.command_env() {
        command.env(name, value.unwrap());
    }
    command.stdin(Stdio::piped()).stdout(Stdio::null()).stderr(Stdio::null());
    let mut child = command.spawn().unwrap();
    // It may have read nothing when it is killed.
    child.stdin.take().unwrap().write_all(text.as_bytes()).ok();
    walking.pty.pause(Duration::from_micros(rng.below(60_000) as u64));
    child.kill().ok();
    child.wait().unwrap();
    if arguments[0] == "import" {
        walking.import();
    } else if !std::path::Path::new(arguments[1]).exists() {
        let done = walking.life.command(arguments, "");
        assert_eq!(done.code, Some(0), "{arguments:?}: {}", done.err());
    }
}
