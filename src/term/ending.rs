//! What asks the program to end, and what is done where its main thread does not answer.
//!
//! A thread waits for it, be it a signal or an event of the console. It only sets flags, which the main thread polls while it waits
//! for keys, so that the terminal is used by one thread alone. If the main thread does not respond (its terminal is gone and the
//! wait for keys never returns, or a save is held up by its disk), that thread has what is not saved kept in its journal, restores
//! the terminal and ends the program. It never prints: nothing may be reading.

use super::guard;
use std::sync::atomic::{AtomicBool, AtomicI32, Ordering};
use std::sync::{Condvar, Mutex, PoisonError};
use std::time::Duration;

/// Time the main thread has to end by itself before what is not saved is kept without it.
const PATIENCE: Duration = Duration::from_millis(600);
/// Time it has after that: a save that waits for another program may just be over. With this and the last act all is over within
/// four seconds; Windows ends a program whose console was closed after five.
const MORE_PATIENCE: Duration = Duration::from_millis(900);

/// What is asked of the main thread.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Told {
    /// End.
    Quit,
    /// Restore the terminal and stop.
    #[cfg_attr(not(unix), expect(dead_code, reason = "there is no such signal there"))]
    Stop,
    /// Continued: the shell may have changed the terminal.
    #[cfg_attr(not(unix), expect(dead_code, reason = "there is no such signal there"))]
    Continued,
}

/// The wish that the program ends.
#[derive(Debug, Default)]
pub(super) struct Ending {
    ended_by: AtomicI32,
    told: AtomicBool,
    left: Mutex<bool>,
    leaving: Condvar,
}

impl Ending {
    /// Asks the main thread to end, for the signal of this number; where it does not, ends the program.
    pub(super) fn end(&self, signal: i32) {
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

    /// The main thread has left the terminal, or is about to.
    pub(super) fn leaves(&self) {
        *self.left.lock().unwrap_or_else(PoisonError::into_inner) = true;
        self.leaving.notify_all();
    }

    /// True where the program was asked to end.
    pub(super) fn is_asked(&self) -> bool {
        self.told.load(Ordering::SeqCst)
    }

    /// The signal that asked it to end.
    pub(super) fn ended_by(&self) -> Option<i32> {
        self.is_asked().then(|| self.ended_by.load(Ordering::SeqCst))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_main_thread_that_leaves_is_not_ended() {
        let ending = Ending::default();
        assert_eq!((ending.is_asked(), ending.ended_by()), (false, None));
        std::thread::scope(|threads| {
            let asks = threads.spawn(|| ending.end(15));
            while !ending.is_asked() {
                std::thread::yield_now();
            }
            assert_eq!(ending.ended_by(), Some(15));
            ending.leaves();
            asks.join().unwrap();
        });
    }
}
