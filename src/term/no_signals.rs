//! Systems without signals: no signal ever arrives.

use std::io;

/// What a signal asks of the main thread.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[expect(dead_code, reason = "the same words as where there are signals")]
pub(super) enum Told {
    /// End.
    Quit,
    /// Restore the terminal and stop.
    Stop,
    /// Continued.
    Continued,
}

/// Nothing.
#[derive(Debug)]
pub(super) struct Signals;

impl Signals {
    /// Nothing to watch.
    #[expect(clippy::unnecessary_wraps, reason = "the same shape as where there are signals")]
    pub(super) fn watch() -> io::Result<Self> {
        Ok(Self)
    }

    /// No signal arrived.
    #[expect(clippy::unused_self, reason = "the same shape as where there are signals")]
    pub(super) fn take(&self) -> Option<Told> {
        None
    }

    /// No signal.
    #[expect(clippy::unused_self, reason = "the same shape as where there are signals")]
    pub(super) fn ended_by(&self) -> Option<i32> {
        None
    }
}

/// Nothing to stop.
pub(super) fn stop() {}

/// Nothing waits unreported.
pub(super) const fn has_unread() -> bool {
    false
}

/// Nothing to report again.
pub(super) fn nudge() {}
