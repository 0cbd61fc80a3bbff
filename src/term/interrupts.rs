//! Ctrl-C while a command works: a wish to stop, which the work looks at.
//!
//! Between two pieces of work a signal ends the program as it always does, and so does a second one that comes while the first
//! is being heeded. Nothing is registered before work begins, so that a read from a terminal ends at once.

#[cfg(unix)]
use signal_hook::SigId;
#[cfg(unix)]
use signal_hook::consts::{SIGINT, SIGTERM};
use std::cell::RefCell;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};

/// The signals that ask work to stop. Not the hang-up, which a program started with `nohup` is to survive.
#[cfg(unix)]
const STOPPING: [i32; 2] = [SIGINT, SIGTERM];

/// The signals of a command.
#[derive(Debug, Default)]
pub struct Interrupts {
    /// The number of the signal that came; 0 before one did.
    asked: Arc<AtomicUsize>,
    /// A signal ends the program as usual.
    usual: Arc<AtomicBool>,
    #[cfg(unix)]
    registered: RefCell<Vec<SigId>>,
    #[cfg(not(unix))]
    registered: RefCell<Vec<()>>,
}

impl Interrupts {
    /// From now on a first signal asks the work to stop.
    pub fn hold(&self) {
        self.usual.store(false, Ordering::SeqCst);
        self.register();
    }

    #[cfg(unix)]
    fn register(&self) {
        use signal_hook::flag;
        let mut registered = self.registered.borrow_mut();
        if !registered.is_empty() {
            return;
        }
        for signal in STOPPING {
            let number = usize::try_from(signal).unwrap_or(1);
            // In this order: the flag that the first signal sets is for the second one.
            let all = [
                flag::register_conditional_default(signal, Arc::clone(&self.usual)),
                flag::register_usize(signal, Arc::clone(&self.asked), number),
                flag::register(signal, Arc::clone(&self.usual)),
            ];
            registered.extend(all.into_iter().flatten());
        }
    }

    #[cfg(not(unix))]
    fn register(&self) {}

    /// From now on a signal ends the program.
    pub fn release(&self) {
        self.usual.store(true, Ordering::SeqCst);
    }

    /// Leaves the signals to others: the screens watch them in their own way.
    pub fn leave(&self) {
        #[cfg(unix)]
        for id in self.registered.take() {
            signal_hook::low_level::unregister(id);
        }
    }

    /// The signal that asked the work to stop.
    pub fn asked(&self) -> Option<i32> {
        i32::try_from(self.asked.load(Ordering::SeqCst)).ok().filter(|signal| *signal > 0)
    }
}
