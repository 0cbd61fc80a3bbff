//! A command run to its end, with a deadline.

use crate::terminal::{FOLDERS, STARTING, program};
use std::ffi::{OsStr, OsString};
use std::io::{Read, Write};
use std::os::unix::process::{CommandExt, ExitStatusExt};
use std::path::Path;
use std::process::{Child, Command, ExitStatus, Stdio};
use std::sync::{PoisonError, mpsc};
use std::time::Duration;

/// How a command is run. `Run { prefix: &["strace"], ..Run::at(folder) }`.
pub(crate) struct Run<'a> {
    /// Home and working folder.
    pub(crate) folder: &'a Path,
    /// A command that starts the program.
    pub(crate) prefix: &'a [&'a OsStr],
    /// Variables to set, or with `None` to take away.
    pub(crate) env: &'a [(&'a str, Option<&'a OsStr>)],
    /// What it reads.
    pub(crate) stdin: &'a [u8],
    /// When it is ended; it is then `late`.
    pub(crate) deadline: Duration,
}

/// How a command ended.
#[derive(Debug)]
pub(crate) struct Done {
    /// Its exit code; `None` where a signal ended it.
    pub(crate) code: Option<i32>,
    /// The signal that ended it.
    pub(crate) signal: Option<i32>,
    pub(crate) stdout: Vec<u8>,
    pub(crate) stderr: Vec<u8>,
    /// It had not ended at its deadline.
    pub(crate) late: bool,
}

impl Done {
    pub(crate) fn out(&self) -> String {
        String::from_utf8_lossy(&self.stdout).into_owned()
    }

    pub(crate) fn err(&self) -> String {
        String::from_utf8_lossy(&self.stderr).into_owned()
    }

    /// What no run may do: hang, panic, or end by a signal or with a code other than 0, 1 and 2.
    pub(crate) fn unsound(&self) -> Vec<String> {
        let mut why = Vec::new();
        if self.late {
            why.push("had not ended at the deadline".to_owned());
        } else if !matches!(self.code, Some(0..=2)) {
            why.push(format!("ended with code {:?}, signal {:?}", self.code, self.signal));
        }
        if self.err().contains("panicked") {
            why.push(self.err().chars().take(300).collect());
        }
        why
    }
}

/// Runs `benchwalk` with these arguments, at home in `folder`, for at most a minute.
pub(crate) fn run(folder: &Path, arguments: &[impl AsRef<OsStr>]) -> Done {
    Run::at(folder).go(arguments)
}

impl<'a> Run<'a> {
    pub(crate) fn at(folder: &'a Path) -> Self {
        Self { folder, prefix: &[], env: &[], stdin: b"", deadline: Duration::from_mins(1) }
    }

    /// Runs `benchwalk` with these arguments.
    pub(crate) fn go(&self, arguments: &[impl AsRef<OsStr>]) -> Done {
        let mut words: Vec<OsString> = self.prefix.iter().map(|&word| word.to_owned()).collect();
        words.push(program().into_os_string());
        words.extend(arguments.iter().map(|word| word.as_ref().to_owned()));
        self.go_words(&words)
    }

    /// Runs another command in the same way.
    pub(crate) fn go_words(&self, words: &[OsString]) -> Done {
        let mut command = Command::new(&words[0]);
        command.args(&words[1..]).current_dir(self.folder).process_group(0);
        command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
        for (name, sub) in FOLDERS {
            command.env(name, self.folder.join(sub));
        }
        for name in ["NO_COLOR", "TERM_PROGRAM", "RUST_BACKTRACE"] {
            command.env_remove(name);
        }
        for (name, value) in self.env {
            match value {
                Some(value) => command.env(name, value),
                None => command.env_remove(name),
            };
        }
        let starting = STARTING.lock().unwrap_or_else(PoisonError::into_inner);
        let mut child = command.spawn().unwrap_or_else(|error| panic!("{}: {error}", words[0].display()));
        drop(starting);
        let mut stdin = child.stdin.take().unwrap();
        let text = self.stdin.to_vec();
        std::thread::spawn(move || stdin.write_all(&text));
        let (told, tells) = mpsc::channel();
        let (out, err) = (reader(child.stdout.take().unwrap(), &told), reader(child.stderr.take().unwrap(), &told));
        drop(told);
        let (status, late) = waited(child, &tells, self.deadline);
        let (stdout, stderr) = (out.join().unwrap(), err.join().unwrap());
        Done { code: status.code(), signal: status.signal(), stdout, stderr, late }
    }
}

/// Reads all of a stream, and tells its end by letting `told` go.
fn reader(mut from: impl Read + Send + 'static, told: &mpsc::Sender<()>) -> std::thread::JoinHandle<Vec<u8>> {
    let told = told.clone();
    std::thread::spawn(move || {
        let mut all = Vec::new();
        from.read_to_end(&mut all).ok();
        drop(told);
        all
    })
}

/// Waits until both streams have ended, or ends the whole group at the deadline.
fn waited(mut child: Child, tells: &mpsc::Receiver<()>, deadline: Duration) -> (ExitStatus, bool) {
    let late = tells.recv_timeout(deadline) == Err(mpsc::RecvTimeoutError::Timeout);
    if late {
        let group = format!("-{}", child.id());
        Command::new("kill").args(["-KILL", "--", &group]).status().ok();
    }
    (child.wait().unwrap(), late)
}
