//! Signals: asked to end, to stop, to go on.
//!
//! A thread waits for them. It only sets marks that the main thread sees within a slice of its waiting, so that the terminal
//! is touched by one thread alone. Where the main thread does not answer (its terminal is gone and the wait for keys never
//! returns), the thread gives the terminal back and ends the program. It never prints: there may be nobody left to read it.

use super::guard;
use signal_hook::consts::{SIGCONT, SIGHUP, SIGINT, SIGSTOP, SIGTERM, SIGTSTP};
use std::io;
use std::sync::atomic::{AtomicBool, AtomicI32, Ordering};
use std::sync::{Arc, Condvar, Mutex, PoisonError};
use std::time::Duration;

/// The main thread has this long to end by itself.
const PATIENCE: Duration = Duration::from_millis(600);

/// What a signal tells the main thread.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Told {
    /// End.
    Quit,
    /// Give the shell back and stop.
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

/// The marks, and the thread that sets them.
#[derive(Debug)]
pub(super) struct Signals {
    marks: Arc<Marks>,
}

impl Signals {
    /// Starts watching. An inherited "ignore" of any of these is overridden.
    pub(super) fn watch() -> io::Result<Self> {
        let marks = Arc::new(Marks::default());
        let mut signals = signal_hook::iterator::Signals::new([SIGHUP, SIGTERM, SIGINT, SIGTSTP, SIGCONT])?;
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

    /// What was told since the last look.
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
        let left = self.left.lock().unwrap_or_else(PoisonError::into_inner);
        let waited = self.leaving.wait_timeout_while(left, PATIENCE, |left| !*left);
        let gone = waited.is_ok_and(|(left, _)| *left);
        if !gone {
            guard::leave();
            guard::end(signal.saturating_add(128));
        }
    }
}

/// Stops the program until it is continued. `SIGSTOP`, for a stop that one raises oneself by `SIGTSTP` is dropped where no
/// shell with job control stands behind.
pub(super) fn stop() {
    signal_hook::low_level::raise(SIGSTOP).ok();
}

/// Has keys that came together with a resize told again.
///
/// The terminal library waits for edges of its input; of a key and a resize that become ready at once it drops the key's, and
/// the key lies unread until the next one comes. Setting the terminal to what it is set to makes the system tell its
/// readers once more that there is something to read.
pub(super) fn nudge() {
    use rustix::termios::{OptionalActions, tcgetattr, tcsetattr};
    let stdin = rustix::stdio::stdin();
    // Where standard input is no terminal there is nothing to tell.
    tcgetattr(stdin).and_then(|now| tcsetattr(stdin, OptionalActions::Now, &now)).ok();
}
