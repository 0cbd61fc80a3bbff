//! The program under `strace`, which records its system calls and makes them fail, return short or kill.

use super::campaign::have;
use super::command::{Done, Run};
use crate::terminal::{DEADLINE, Pty, STARTING};
use std::ffi::{OsStr, OsString};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::sync::{OnceLock, PoisonError};

/// True where `strace` runs and may trace.
pub(crate) fn have_strace() -> bool {
    static THERE: OnceLock<bool> = OnceLock::new();
    let there = THERE.get_or_init(|| {
        let tried =
            Command::new("strace").args(["-f", "-qq", "-o", "/dev/null", "-e", "trace=openat", "true"]).output();
        tried.is_ok_and(|done| done.status.success())
    });
    have("strace", *there)
}

/// The words that start a program under strace with these options, its trace in a file.
pub(crate) fn strace_words(trace: &Path, options: &[&str]) -> Vec<OsString> {
    let mut words: Vec<OsString> = ["strace", "-f", "-qq", "-o"].map(OsString::from).to_vec();
    words.push(trace.as_os_str().to_owned());
    words.extend(options.iter().map(OsString::from));
    words
}

/// Runs `benchwalk` under strace; gives how it ended and the trace.
pub(crate) fn traced(folder: &Path, options: &[&str], arguments: &[impl AsRef<OsStr>]) -> (Done, String) {
    let trace = tempfile::NamedTempFile::new().unwrap();
    let words = strace_words(trace.path(), options);
    let prefix: Vec<&OsStr> = words.iter().map(OsString::as_os_str).collect();
    let done = Run { prefix: &prefix, ..Run::at(folder) }.go(arguments);
    (done, String::from_utf8_lossy(&std::fs::read(trace.path()).unwrap()).into_owned())
}

/// The name of the call of a line of a trace, and who called: `1234  openat(AT_FDCWD, …) = 3`.
pub(crate) fn call(line: &str) -> Option<(&str, &str)> {
    let (pid, rest) = line.split_once(' ')?;
    let (name, _) = rest.trim_start().split_once('(')?;
    let plain = name.bytes().all(|byte| byte.is_ascii_alphanumeric() || byte == b'_');
    plain.then_some((pid, name))
}

/// strace holding on to a program that runs in a pseudo-terminal.
pub(crate) struct Attached {
    strace: Child,
    trace: tempfile::NamedTempFile,
}

impl Attached {
    /// Takes hold of the program, and lets the calls of `inject` (`fsync:error=EIO:when=1+`) go wrong from now on. Several
    /// calls of the same kind stand before the colon; which of them a program makes is its own affair.
    pub(crate) fn to(pty: &mut Pty, inject: &str) -> Self {
        let trace = tempfile::NamedTempFile::new().unwrap();
        let said = tempfile::NamedTempFile::new().unwrap();
        let pid = pty.child.process_id().unwrap().to_string();
        let calls = inject.split(':').next().unwrap();
        let mut command = Command::new("strace");
        command.args(["-f", "-p", &pid, "-e", &format!("trace={calls}"), "-e", &format!("inject={inject}"), "-o"]);
        command.arg(trace.path()).stdin(Stdio::null()).stdout(Stdio::null()).stderr(said.reopen().unwrap());
        let starting = STARTING.lock().unwrap_or_else(PoisonError::into_inner);
        let strace = command.spawn().unwrap();
        drop(starting);
        let attached = Self { strace, trace };
        let there = || std::fs::read_to_string(said.path()).unwrap_or_default().contains("attached");
        assert!(pty.until(DEADLINE, there), "strace: {}", std::fs::read_to_string(said.path()).unwrap_or_default());
        attached
    }

    /// What was traced so far.
    pub(crate) fn trace(&self) -> String {
        String::from_utf8_lossy(&std::fs::read(self.trace.path()).unwrap()).into_owned()
    }

    /// A call went wrong.
    pub(crate) fn struck(&self) -> bool {
        let trace = self.trace();
        ["(INJECTED)", "(DELAYED)"].iter().any(|mark| trace.contains(mark))
    }

    /// Lets the program go; its calls go well from now on.
    pub(crate) fn end(self) {
        drop(self);
    }
}

impl Drop for Attached {
    fn drop(&mut self) {
        if self.strace.try_wait().ok().flatten().is_none() {
            let pid = self.strace.id().to_string();
            Command::new("kill").args(["-TERM", &pid]).status().ok();
            self.strace.wait().ok();
        }
    }
}
