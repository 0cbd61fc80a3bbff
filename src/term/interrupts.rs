//! Ctrl-C while a command works: a wish to stop, which the work looks at.
//!
//! Between two pieces of work a signal ends the program as it always does, and so does a second one that comes while the first
//! is being heeded. Nothing is registered before work begins, so that a read from a terminal ends at once.

use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};

/// The signals of a command.
#[derive(Debug, Default)]
pub struct Interrupts {
    /// The number of the signal that came; 0 before one did.
    asked: Arc<AtomicUsize>,
    watch: system::Watch,
}

impl Interrupts {
    /// From now on a first signal asks the work to stop.
    pub fn hold(&self) {
        self.watch.hold(&self.asked);
    }

    /// From now on a signal ends the program.
    pub fn release(&self) {
        self.watch.release();
    }

    /// Leaves the signals to others: the screens watch them in their own way.
    pub fn leave(&self) {
        self.watch.leave();
    }

    /// The signal that asked the work to stop.
    pub fn asked(&self) -> Option<i32> {
        i32::try_from(self.asked.load(Ordering::SeqCst)).ok().filter(|signal| *signal > 0)
    }
}

#[cfg(unix)]
mod system {
    use signal_hook::consts::{SIGINT, SIGTERM};
    use signal_hook::{SigId, flag};
    use std::cell::RefCell;
    use std::sync::Arc;
    use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};

    /// The signals that ask work to stop. Not the hang-up, which a program started with `nohup` is to survive.
    const STOPPING: [i32; 2] = [SIGINT, SIGTERM];

    #[derive(Debug, Default)]
    pub(super) struct Watch {
        /// A signal ends the program as usual.
        usual: Arc<AtomicBool>,
        registered: RefCell<Vec<SigId>>,
    }

    impl Watch {
        pub(super) fn hold(&self, asked: &Arc<AtomicUsize>) {
            self.usual.store(false, Ordering::SeqCst);
            let mut registered = self.registered.borrow_mut();
            if !registered.is_empty() {
                return;
            }
            for signal in STOPPING {
                let number = usize::try_from(signal).unwrap_or(1);
                // In this order: the flag that the first signal sets is for the second one.
                let all = [
                    flag::register_conditional_default(signal, Arc::clone(&self.usual)),
                    flag::register_usize(signal, Arc::clone(asked), number),
                    flag::register(signal, Arc::clone(&self.usual)),
                ];
                registered.extend(all.into_iter().flatten());
            }
        }

        pub(super) fn release(&self) {
            self.usual.store(true, Ordering::SeqCst);
        }

        pub(super) fn leave(&self) {
            for id in self.registered.take() {
                signal_hook::low_level::unregister(id);
            }
        }
    }
}

#[cfg(windows)]
mod system {
    use super::super::console::{Events, Kind};
    use std::cell::RefCell;
    use std::sync::Arc;
    use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
    use std::thread::{Builder, JoinHandle};

    /// The events that ask work to stop. The others end the program as they end every other; nothing is left half done.
    const STOPPING: [Kind; 2] = [Kind::Interrupt, Kind::Break];

    #[derive(Debug, Default)]
    pub(super) struct Watch(RefCell<Option<Watcher>>);

    /// The thread that waits for the first event. When it has come they are no longer watched, and the next ends the program.
    #[derive(Debug)]
    struct Watcher {
        over: Arc<AtomicBool>,
        thread: JoinHandle<()>,
    }

    impl Watch {
        pub(super) fn hold(&self, asked: &Arc<AtomicUsize>) {
            let mut watcher = self.0.borrow_mut();
            if watcher.as_ref().is_some_and(|watcher| !watcher.thread.is_finished()) {
                return;
            }
            let over = Arc::new(AtomicBool::new(false));
            let (theirs, asked) = (Arc::clone(&over), Arc::clone(asked));
            // Without them work is not stopped but ended, which does no harm.
            let Ok(mut events) = Events::watch(&STOPPING) else { return };
            let started = Builder::new().name("interrupts".to_owned()).spawn(move || {
                if let Some(signal) = events.next(|| !theirs.load(Ordering::SeqCst)) {
                    asked.store(usize::try_from(signal).unwrap_or(1), Ordering::SeqCst);
                }
            });
            *watcher = started.ok().map(|thread| Watcher { over, thread });
        }

        pub(super) fn release(&self) {
            let Some(Watcher { over, thread }) = self.0.take() else { return };
            over.store(true, Ordering::SeqCst);
            thread.thread().unpark();
            thread.join().ok();
        }

        pub(super) fn leave(&self) {
            self.release();
        }
    }
}
