//! A program in a pseudo-terminal, its screen as a grid, and waits with a deadline.
//!
//! Taken in by `#[path = "../common/terminal/mod.rs"] mod terminal;`.
#![allow(dead_code, reason = "each test takes what it needs")]

mod out;

pub(crate) use out::Out;

use portable_pty::{Child, CommandBuilder, ExitStatus, MasterPty, PtySize, native_pty_system};
use std::ffi::OsStr;
use std::io::{Read, Write};
use std::num::NonZero;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};

/// Long enough for a debug build on a busy machine.
pub(crate) const DEADLINE: Duration = Duration::from_secs(30);

/// Held while a program is started: one that starts at the same moment would keep the other's terminal open.
pub(crate) static STARTING: Mutex<()> = Mutex::new(());

/// The folders of a program that lives in `folder`: variable and path below it.
pub(crate) const FOLDERS: [(&str, &str); 4] =
    [("HOME", ""), ("XDG_DATA_HOME", "data"), ("XDG_CONFIG_HOME", "config"), ("XDG_STATE_HOME", "state")];

/// How a program is started. `Start { size: (100, 30), ..Start::default() }`.
#[derive(Clone, Copy)]
pub(crate) struct Start<'a> {
    /// Where it lives: home and working folder. Without it a temporary folder of its own.
    pub folder: Option<&'a Path>,
    /// Columns and rows.
    pub size: (u16, u16),
    /// A command that starts the program: `strace -o trace --`.
    pub prefix: &'a [&'a str],
    /// Variables to set, or with `None` to take away.
    pub env: &'a [(&'a str, Option<&'a str>)],
    /// Another program than [`program`].
    pub program: Option<&'a Path>,
}

impl Default for Start<'_> {
    fn default() -> Self {
        Self { folder: None, size: (80, 24), prefix: &[], env: &[], program: None }
    }
}

/// A program in a pseudo-terminal.
pub(crate) struct Pty {
    master: Option<Box<dyn MasterPty + Send>>,
    writer: Option<Box<dyn Write + Send>>,
    pub child: Box<dyn Child + Send + Sync>,
    out: Arc<(Mutex<Out>, Condvar)>,
    hang_up: Arc<AtomicBool>,
    /// Where the program lives.
    pub folder: PathBuf,
    /// The folder, where it goes with the program.
    _own: Option<tempfile::TempDir>,
}

pub(crate) fn program() -> PathBuf {
    std::env::var_os("BENCHWALK_BIN").map_or_else(|| PathBuf::from(env!("CARGO_BIN_EXE_benchwalk")), PathBuf::from)
}

/// True when the Round stands, the season is read and all benches are worked out: "walked" stands there before that.
pub(crate) fn is_round(text: &str) -> bool {
    text.contains("walked ") && !["Reading the season", "loading"].iter().any(|word| text.contains(word))
}

impl Pty {
    /// Starts `benchwalk` with these arguments in a folder of its own.
    pub(crate) fn start(arguments: &[&str]) -> Self {
        let mut command = CommandBuilder::new(program());
        command.args(arguments);
        Self::run(command, (80, 24))
    }

    /// Starts `benchwalk demo` on `season.db` in its folder and waits for the Round.
    pub(crate) fn demo() -> Self {
        let mut pty = Self::start(&["demo", "--season", "season.db"]);
        pty.wait("the Round", is_round);
        pty
    }

    pub(crate) fn run(command: CommandBuilder, size: (u16, u16)) -> Self {
        Self::run_in(command, Start { size, ..Start::default() })
    }

    /// Starts `benchwalk` with these arguments as told.
    pub(crate) fn start_as(start: Start<'_>, arguments: &[impl AsRef<OsStr>]) -> Self {
        let mut words: Vec<&OsStr> = start.prefix.iter().map(|word| OsStr::new(*word)).collect();
        let program = start.program.map_or_else(program, Path::to_owned);
        words.push(program.as_os_str());
        words.extend(arguments.iter().map(AsRef::as_ref));
        let mut command = CommandBuilder::new(words[0]);
        command.args(&words[1..]);
        Self::run_in(command, start)
    }

    fn run_in(mut command: CommandBuilder, start: Start<'_>) -> Self {
        let own = start.folder.is_none().then(|| tempfile::tempdir().unwrap());
        let folder = start.folder.map_or_else(|| own.as_ref().unwrap().path().to_owned(), Path::to_owned);
        let size = start.size;
        command.cwd(&folder);
        for (name, sub) in FOLDERS {
            command.env(name, folder.join(sub));
        }
        for name in ["NO_COLOR", "TERM_PROGRAM", "RUST_BACKTRACE"] {
            if command.get_env(name).is_none_or(|value| std::env::var_os(name).as_deref() == Some(value)) {
                command.env_remove(name);
            }
        }
        // The signs on the screens depend on the character set.
        command.env("LC_ALL", "C.UTF-8");
        command.env("TERM", "xterm-256color");
        for (name, value) in start.env {
            match value {
                Some(value) => command.env(name, value),
                None => command.env_remove(name),
            }
        }
        let starting = unpoisoned(&STARTING);
        let pair = native_pty_system().openpty(size_of(size)).unwrap();
        let child = pair.slave.spawn_command(command).unwrap();
        drop(pair.slave);
        drop(starting);
        let mut reader = pair.master.try_clone_reader().unwrap();
        let writer = pair.master.take_writer().unwrap();
        let (columns, rows) = (cells(size.0), cells(size.1));
        let out = Arc::new((Mutex::new(Out::new(rows, columns)), Condvar::new()));
        let hang_up = Arc::new(AtomicBool::new(false));
        let (theirs, hang) = (Arc::clone(&out), Arc::clone(&hang_up));
        std::thread::spawn(move || {
            let mut bytes = [0_u8; 8192];
            while let Ok(n) = reader.read(&mut bytes) {
                if n == 0 || hang.load(Ordering::SeqCst) {
                    break;
                }
                let mut out = unpoisoned(&theirs.0);
                out.feed(&bytes[..n]);
                theirs.1.notify_all();
            }
            unpoisoned(&theirs.0).ended = true;
            theirs.1.notify_all();
        });
        Self { master: Some(pair.master), writer: Some(writer), child, out, hang_up, folder, _own: own }
    }

    pub(crate) fn path(&self, name: &str) -> PathBuf {
        self.folder.join(name)
    }

    fn lock(&self) -> MutexGuard<'_, Out> {
        unpoisoned(&self.out.0)
    }

    /// Types bytes.
    pub(crate) fn send(&mut self, bytes: &str) -> &mut Self {
        let writer = self.writer.as_mut().unwrap();
        writer.write_all(bytes.as_bytes()).unwrap();
        writer.flush().unwrap();
        self
    }

    /// Types any bytes; false where the program does not take them within this time, and can then be typed to no more.
    pub(crate) fn types(&mut self, bytes: &[u8], most: Duration) -> bool {
        let Some(mut writer) = self.writer.take() else { return false };
        let (told, tells) = std::sync::mpsc::channel();
        let bytes = bytes.to_vec();
        std::thread::spawn(move || {
            // A program that has ended takes nothing; how it ended is for others to judge.
            writer.write_all(&bytes).and_then(|()| writer.flush()).ok();
            told.send(writer).ok();
        });
        self.writer = tells.recv_timeout(most).ok();
        self.writer.is_some()
    }

    pub(crate) fn resize(&mut self, columns: u16, rows: u16) {
        self.lock().screen.screen_mut().set_size(cells(rows), cells(columns));
        self.master.as_ref().unwrap().resize(size_of((columns, rows))).unwrap();
    }

    /// The screen now.
    pub(crate) fn text(&self) -> String {
        self.lock().screen.screen().contents()
    }

    /// Waits until the screen is as wanted, and gives it.
    pub(crate) fn wait(&mut self, what: &str, wanted: impl Fn(&str) -> bool) -> String {
        self.wait_out(what, |out| wanted(&out.screen.screen().contents()));
        self.text()
    }

    /// Waits until what came out is as wanted.
    pub(crate) fn wait_out(&mut self, what: &str, wanted: impl Fn(&Out) -> bool) {
        let until = Instant::now() + DEADLINE;
        let mut out = self.lock();
        while !wanted(&out) {
            let left = until.saturating_duration_since(Instant::now());
            assert!(!left.is_zero(), "waited for {what} in vain:\n{}", out.screen.screen().contents());
            out = self.out.1.wait_timeout(out, left).unwrap().0;
        }
    }

    /// Waits until the season is read and the Round stands.
    pub(crate) fn wait_round(&mut self) {
        self.wait("the Round", is_round);
    }

    /// Waits at most this long for the screen to be as wanted; true if it is.
    pub(crate) fn comes(&mut self, most: Duration, wanted: impl Fn(&str) -> bool) -> bool {
        let until = Instant::now() + most;
        let mut out = self.lock();
        loop {
            if wanted(&out.screen.screen().contents()) {
                return true;
            }
            let left = until.saturating_duration_since(Instant::now());
            if left.is_zero() || out.ended {
                return false;
            }
            out = self.out.1.wait_timeout(out, left).unwrap().0;
        }
    }

    /// Waits until nothing has come out for this long, at most two seconds: a pace for typing, not a proof of anything.
    pub(crate) fn settle(&mut self, idle: Duration) {
        let until = Instant::now() + Duration::from_secs(2);
        let mut out = self.lock();
        loop {
            let before = out.raw.len();
            out = self.out.1.wait_timeout(out, idle).unwrap().0;
            if out.raw.len() == before || Instant::now() > until {
                return;
            }
        }
    }

    /// Lets this much time pass while what comes out is taken.
    pub(crate) fn pause(&mut self, time: Duration) {
        let until = Instant::now() + time;
        let mut out = self.lock();
        loop {
            let left = until.saturating_duration_since(Instant::now());
            if left.is_zero() {
                return;
            }
            out = self.out.1.wait_timeout(out, left).unwrap().0;
        }
    }

    /// Waits at most this long for something outside the terminal to be so; true if it is.
    pub(crate) fn until(&mut self, most: Duration, wanted: impl Fn() -> bool) -> bool {
        let until = Instant::now() + most;
        loop {
            if wanted() {
                return true;
            }
            if Instant::now() > until {
                return false;
            }
            self.pause(Duration::from_millis(20));
        }
    }

    /// Gives every frame from now on to `look`, in its order, while the program may already draw the next.
    pub(crate) fn observe(&self, look: impl FnMut(&vt100::Screen) + Send + 'static) {
        self.lock().observe(look);
    }

    /// How many frames came out so far.
    pub(crate) fn frames(&self) -> usize {
        self.lock().frames
    }

    /// Ends the program at once (SIGKILL), waits for it, and takes the last that came out.
    pub(crate) fn kill(&mut self) {
        // The crate's own way to kill sends SIGHUP first.
        let child: &mut dyn Child = &mut *self.child;
        match child.downcast_mut::<std::process::Child>() {
            Some(child) => child.kill().ok(),
            None => child.kill().ok(),
        };
        self.child.wait().ok();
        self.drain();
    }

    /// Waits until nothing more can come out of it: every program in the terminal has ended. At most five seconds.
    pub(crate) fn drain(&mut self) {
        let until = Instant::now() + Duration::from_secs(5);
        let mut out = self.lock();
        while !out.ended {
            let left = until.saturating_duration_since(Instant::now());
            if left.is_zero() {
                return;
            }
            out = self.out.1.wait_timeout(out, left).unwrap().0;
        }
    }

    /// Everything that came out so far.
    pub(crate) fn raw(&self) -> String {
        String::from_utf8_lossy(&self.lock().raw).into_owned()
    }

    pub(crate) fn with_screen<T>(&self, look: impl FnOnce(&vt100::Screen) -> T) -> T {
        look(self.lock().screen.screen())
    }

    /// Sends a signal by name.
    pub(crate) fn signal(&self, name: &str) {
        let pid = self.child.process_id().unwrap().to_string();
        let sent = std::process::Command::new("kill").args([&format!("-{name}"), &pid]).status().unwrap();
        assert!(sent.success(), "kill -{name} {pid}");
    }

    /// Waits for the end; gives how it ended and how long that took.
    pub(crate) fn ended(&mut self) -> (ExitStatus, Duration) {
        let start = Instant::now();
        loop {
            if let Some(status) = self.child.try_wait().unwrap() {
                return (status, start.elapsed());
            }
            assert!(start.elapsed() < DEADLINE, "still running:\n{}", self.text());
            std::thread::yield_now();
        }
    }

    /// How it ended, if it does within this time.
    pub(crate) fn ended_within(&mut self, most: Duration) -> Option<ExitStatus> {
        let until = Instant::now() + most;
        loop {
            if let Some(status) = self.child.try_wait().unwrap() {
                return Some(status);
            }
            if Instant::now() > until {
                return None;
            }
            self.pause(Duration::from_millis(2));
        }
    }

    /// The state letter of the process as the system tells it (`T`: stopped).
    pub(crate) fn wait_state(&self, wanted: char) {
        let stat = PathBuf::from(format!("/proc/{}/stat", self.child.process_id().unwrap()));
        let start = Instant::now();
        loop {
            let text = std::fs::read_to_string(&stat).unwrap();
            let state = text.rsplit(") ").next().and_then(|rest| rest.chars().next());
            if state == Some(wanted) {
                return;
            }
            assert!(start.elapsed() < DEADLINE, "state {state:?}, not {wanted}");
            std::thread::yield_now();
        }
    }

    /// Takes the terminal away: both ends of it, the reader's too. `nudge` makes the program write once more.
    pub(crate) fn hang_up(&mut self, nudge: &str) {
        self.hang_up.store(true, Ordering::SeqCst);
        self.send(nudge);
        self.writer = None;
        self.master = None;
    }
}

impl Drop for Pty {
    fn drop(&mut self) {
        // Ours alone; without it a failed test leaves a program behind.
        if self.child.try_wait().ok().flatten().is_none() {
            self.child.kill().ok();
        }
    }
}

/// A wait in vain stops a test while it holds what came out; the reader goes on.
fn unpoisoned<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

/// The grid takes no size of nothing.
fn cells(n: u16) -> NonZero<u16> {
    NonZero::new(n.max(2)).unwrap()
}

fn size_of((cols, rows): (u16, u16)) -> PtySize {
    PtySize { rows, cols, pixel_width: 0, pixel_height: 0 }
}

/// Rows of a query on a season file, columns joined by a blank.
pub(crate) fn query(file: &Path, sql: &str) -> Vec<String> {
    let connection = rusqlite::Connection::open(file).unwrap();
    let mut statement = connection.prepare(sql).unwrap();
    let columns = statement.column_count();
    let rows = statement.query_map([], |row| {
        let cells: Vec<String> = (0..columns)
            .map(|i| match row.get_ref(i).unwrap() {
                rusqlite::types::ValueRef::Null => "-".to_owned(),
                rusqlite::types::ValueRef::Integer(n) => n.to_string(),
                rusqlite::types::ValueRef::Real(n) => n.to_string(),
                rusqlite::types::ValueRef::Text(t) => String::from_utf8_lossy(t).into_owned(),
                rusqlite::types::ValueRef::Blob(_) => "blob".to_owned(),
            })
            .collect();
        Ok(cells.join(" "))
    });
    rows.unwrap().map(Result::unwrap).collect()
}
