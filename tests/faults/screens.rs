//! The screens on a file that is not as it should be: opened, used and left with a deadline for each.

use crate::harness::{DEMO_DAY, Saves, judge};
use crate::terminal::{Pty, Start};
use std::path::Path;
use std::time::{Duration, Instant};

/// What is done to a terminal on the way in, and what undoes it.
const MODES: [(&str, &str, &str); 3] = [
    ("\u{1b}[?1049h", "\u{1b}[?1049l", "the alternate screen is left on"),
    ("\u{1b}[?2004h", "\u{1b}[?2004l", "bracketed paste is left on"),
    ("\u{1b}[?25l", "\u{1b}[?25h", "the cursor is left hidden"),
];

/// The screens, open or refused.
pub(crate) struct Screens {
    pub(crate) pty: Pty,
    pub(crate) saves: Saves,
}

impl Screens {
    /// Opens the screens on a file, at home in `folder`, as `by`.
    pub(crate) fn open(folder: &Path, season: &Path, by: &str, prefix: &[&str]) -> Self {
        Self::open_as(Start { folder: Some(folder), size: (100, 30), prefix, ..Start::default() }, season, by)
    }

    /// The same in a terminal as told.
    pub(crate) fn open_as(start: Start<'_>, season: &Path, by: &str) -> Self {
        let arguments =
            ["--season".as_ref(), season.as_os_str(), "--on".as_ref(), DEMO_DAY.as_ref(), "--by".as_ref(), by.as_ref()];
        let pty = Pty::start_as(start, &arguments);
        let saves = Saves::watch(&pty);
        Self { pty, saves }
    }

    /// Still running.
    pub(crate) fn is_running(&mut self) -> bool {
        self.pty.child.try_wait().unwrap().is_none()
    }

    /// Presses keys and lets the screen follow.
    pub(crate) fn press(&mut self, keys: &str) {
        if self.is_running() {
            self.pty.types(keys.as_bytes(), Duration::from_secs(5));
            self.pty.settle(Duration::from_millis(30));
        }
    }

    /// Sends a signal, if it still runs.
    pub(crate) fn signal(&mut self, name: &str) {
        if self.is_running() {
            self.pty.signal(name);
        }
    }

    /// What was shown as saved and is not in the file. How often is not compared: a line that a popup or a small window hides is
    /// shown again afterwards.
    pub(crate) fn gone(&self, season: &Path, by: &str) -> Vec<String> {
        let missing = self.saves.missing(&judge(season).rows, by);
        missing.into_iter().filter(|gone| !gone.contains("saves were shown")).collect()
    }

    /// Waits, at most this long, until more than so many frames came out; true if they did.
    pub(crate) fn more_frames(&mut self, than: usize, most: Duration) -> bool {
        let until = Instant::now() + most;
        while self.pty.frames() <= than && Instant::now() < until && self.is_running() {
            self.pty.pause(Duration::from_millis(2));
        }
        self.pty.frames() > than
    }

    /// Waits for the end, at most this long; gives the exit code, or -1 where a signal killed it.
    pub(crate) fn code(&mut self, most: Duration) -> Option<i32> {
        let until = Instant::now() + most;
        loop {
            if let Some(status) = self.pty.child.try_wait().unwrap() {
                self.pty.drain();
                return Some(if status.signal().is_some() { -1 } else { i32::try_from(status.exit_code()).unwrap() });
            }
            if Instant::now() > until {
                return None;
            }
            self.pty.pause(Duration::from_millis(2));
        }
    }
}

/// What came out between entering and leaving the alternate screen and is neither text nor a sequence that begins with `ESC [`.
pub(crate) fn raw_controls(raw: &str) -> Vec<String> {
    let mut odd = Vec::new();
    for inside in raw.split(MODES[0].0).skip(1).map(|part| part.split(MODES[0].1).next().unwrap()) {
        let mut rest = inside.chars();
        while let Some(c) = rest.next() {
            if c == '\u{1b}' {
                let next = rest.next();
                if next == Some('[') {
                    rest.find(|c| ('@'..='~').contains(c));
                } else if next.is_some() {
                    odd.push(format!("the sequence ESC {next:?}"));
                }
            } else if c.is_control() && !"\r\n\u{8}".contains(c) {
                odd.push(format!("the control character {c:?}"));
            }
        }
    }
    odd.truncate(3);
    odd
}

/// What a program that has ended left switched on in its terminal.
pub(crate) fn given_back(raw: &str) -> Vec<String> {
    let left = MODES.iter().filter(|(on, off, _)| raw.rfind(on) > raw.rfind(off));
    left.map(|(_, _, what)| (*what).to_owned()).collect()
}
