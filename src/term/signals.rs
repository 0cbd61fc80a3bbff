//! Signals: terminate, stop, continue.
//!
//! A thread waits for them. It only sets flags, which the main thread polls while it waits for keys, so that the terminal
//! is used by one thread alone. If the main thread does not respond (its terminal is gone and the wait for keys never
//! returns, or a save is held up by its disk), the signal thread has what is not saved kept in its journal, restores the terminal
//! and ends the program. It never prints: nothing may be reading.

use super::guard;
use signal_hook::consts::{SIGALRM, SIGCONT, SIGHUP, SIGINT, SIGQUIT, SIGSTOP, SIGTERM, SIGTSTP, SIGUSR1, SIGUSR2};
use std::io;
use std::sync::atomic::{AtomicBool, AtomicI32, Ordering};
use std::sync::{Arc, Condvar, Mutex, PoisonError};
use std::time::Duration;

/// The signals that end the program: those that are meant to, and those that would end it with the terminal left raw.
const ENDING: [i32; 7] = [SIGHUP, SIGTERM, SIGINT, SIGQUIT, SIGUSR1, SIGUSR2, SIGALRM];

/// Time the main thread has to end by itself before what is not saved is kept without it.
const PATIENCE: Duration = Duration::from_millis(600);
/// Time it has after that: a save that waits for another program may just be over.
const MORE_PATIENCE: Duration = Duration::from_millis(900);

/// What a signal asks of the main thread.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Told {
    /// End.
    Quit,
    /// Restore the terminal and stop.
    Stop,
    /// Continued: the shell may have changed the terminal.
    Continued,
}

#[derive(Debug, Default)]
struct Marks {
    ended_by: AtomicI32,
    told: AtomicBool,
    stop: AtomicBool,
    continued: AtomicBool,
    left: Mutex<bool>,
    leaving: Condvar,
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
                    ending => theirs.end(ending),
                }
            }
        })?;
        Ok(Self { marks })
    }

    /// The signals that arrived since the last poll.
    pub(super) fn take(&self) -> Option<Told> {
        if self.marks.told.load(Ordering::SeqCst) {
            return Some(Told::Quit);
        }
        if self.marks.stop.swap(false, Ordering::SeqCst) {
            return Some(Told::Stop);
        }
        self.marks.continued.swap(false, Ordering::SeqCst).then_some(Told::Continued)
    }

    /// The signal that asked the program to end.
    pub(super) fn ended_by(&self) -> Option<i32> {
        self.marks.told.load(Ordering::SeqCst).then(|| self.marks.ended_by.load(Ordering::SeqCst))
    }
}

impl Drop for Signals {
    fn drop(&mut self) {
        *self.marks.left.lock().unwrap_or_else(PoisonError::into_inner) = true;
        self.marks.leaving.notify_all();
    }
}

impl Marks {
    fn end(&self, signal: i32) {
        self.ended_by.store(signal, Ordering::SeqCst);
        self.told.store(true, Ordering::SeqCst);
        if self.left_within(PATIENCE) {
            return;
        }
        guard::last_act();
        if !self.left_within(MORE_PATIENCE) {
            guard::leave();
            guard::end(signal.saturating_add(128));
        }
    }

    /// Waits for the main thread to leave the terminal; true when it did.
    fn left_within(&self, most: Duration) -> bool {
        let left = self.left.lock().unwrap_or_else(PoisonError::into_inner);
        self.leaving.wait_timeout_while(left, most, |left| !*left).is_ok_and(|(left, _)| *left)
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
