//! Signals: terminate, stop, continue. A thread waits for them and sets flags; see [`Ending`].

use super::ending::{Ending, Told};
use signal_hook::consts::{SIGALRM, SIGCONT, SIGHUP, SIGINT, SIGQUIT, SIGSTOP, SIGTERM, SIGTSTP, SIGUSR1, SIGUSR2};
use std::io;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

/// The signals that end the program: those that are meant to, and those that would end it with the terminal left raw.
const ENDING: [i32; 7] = [SIGHUP, SIGTERM, SIGINT, SIGQUIT, SIGUSR1, SIGUSR2, SIGALRM];

#[derive(Debug, Default)]
struct Marks {
    ending: Ending,
    stop: AtomicBool,
    continued: AtomicBool,
}

/// The flags, and the thread that sets them.
#[derive(Debug)]
pub(super) struct Signals {
    marks: Arc<Marks>,
}

impl Signals {
    /// Starts watching. An inherited "ignore" of any of these is overridden.
    pub(super) fn watch() -> io::Result<Self> {
        let marks = Arc::new(Marks::default());
        let watched = ENDING.into_iter().chain([SIGTSTP, SIGCONT]);
        let mut signals = signal_hook::iterator::Signals::new(watched)?;
        let theirs = Arc::clone(&marks);
        std::thread::Builder::new().name("signals".to_owned()).spawn(move || {
            for signal in signals.forever() {
                match signal {
                    SIGTSTP => theirs.stop.store(true, Ordering::SeqCst),
                    SIGCONT => theirs.continued.store(true, Ordering::SeqCst),
                    signal => theirs.ending.end(signal),
                }
            }
        })?;
        Ok(Self { marks })
    }

    /// The signals that arrived since the last poll.
    pub(super) fn take(&self) -> Option<Told> {
        if self.marks.ending.is_asked() {
            return Some(Told::Quit);
        }
        if self.marks.stop.swap(false, Ordering::SeqCst) {
            return Some(Told::Stop);
        }
        self.marks.continued.swap(false, Ordering::SeqCst).then_some(Told::Continued)
    }

    /// The signal that asked the program to end.
    pub(super) fn ended_by(&self) -> Option<i32> {
        self.marks.ending.ended_by()
    }
}

impl Drop for Signals {
    fn drop(&mut self) {
        self.marks.ending.leaves();
    }
}

/// Stops the program until it is continued. `SIGSTOP`, because a self-raised `SIGTSTP` is dropped where the parent is no
/// shell with job control.
pub(super) fn stop() {
    signal_hook::low_level::raise(SIGSTOP).ok();
}

/// True where the terminal holds keys that were not read.
pub(super) fn has_unread() -> bool {
    let stdin = rustix::stdio::stdin();
    rustix::termios::isatty(stdin) && rustix::io::ioctl_fionread(stdin).is_ok_and(|bytes| bytes > 0)
}

/// Makes the terminal report keys that wait to be read again.
///
/// The terminal library polls edge-triggered, and leaves keys unread until the next one comes: when a key and a resize become
/// ready at once, and when more is typed or pasted at once than it reads at a time. Setting the terminal to its present
/// attributes makes the system signal readiness once more.
pub(super) fn nudge() {
    use rustix::termios::{OptionalActions, tcgetattr, tcsetattr};
    let stdin = rustix::stdio::stdin();
    // Where standard input is no terminal there is nothing to report.
    tcgetattr(stdin).and_then(|now| tcsetattr(stdin, OptionalActions::Now, &now)).ok();
}
