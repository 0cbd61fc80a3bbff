//! The events of a Windows console, in the place of signals: a thread waits for them and sets flags; see [`Ending`].
//!
//! When its window is closed, and when the user logs off or the machine is shut down, Windows ends the program as soon as the
//! event is answered, or after five seconds. It is not answered, so that the main thread has this time to save and to leave.

use super::console::{EVENTS, Events};
use super::ending::{Ending, Told};
use std::io;
use std::sync::Arc;

/// The flags, and the thread that sets them.
#[derive(Debug)]
pub(super) struct Signals {
    ending: Arc<Ending>,
}

impl Signals {
    /// Starts watching.
    pub(super) fn watch() -> io::Result<Self> {
        let ending = Arc::new(Ending::default());
        let theirs = Arc::clone(&ending);
        let mut events = Events::watch(&EVENTS)?;
        std::thread::Builder::new().name("signals".to_owned()).spawn(move || {
            while let Some(signal) = events.next(|| true) {
                theirs.end(signal);
            }
        })?;
        Ok(Self { ending })
    }

    /// What was asked since the last poll.
    pub(super) fn take(&self) -> Option<Told> {
        self.ending.is_asked().then_some(Told::Quit)
    }

    /// The signal whose place the event takes that asked the program to end.
    pub(super) fn ended_by(&self) -> Option<i32> {
        self.ending.ended_by()
    }
}

impl Drop for Signals {
    fn drop(&mut self) {
        self.ending.leaves();
    }
}

/// A program is not stopped by a key there.
pub(super) fn stop() {}

/// Nothing waits unreported.
pub(super) const fn has_unread() -> bool {
    false
}

/// Nothing to report again.
pub(super) fn nudge() {}
