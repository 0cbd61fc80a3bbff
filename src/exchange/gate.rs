//! Saves of the screens go before the steps of an exchange.

use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::Duration;

/// How often a step of an exchange looks whether it may go.
const LOOK: Duration = Duration::from_millis(1);

/// Between the main thread, which saves what was typed, and the thread that exchanges: both write to one season file, and only one
/// can at a time. A step of an exchange begins only while no save waits, so a save waits for at most one step.
#[derive(Debug, Clone, Default)]
pub struct Gate(Arc<AtomicUsize>);

/// While it is there no step of an exchange begins.
#[derive(Debug)]
pub struct Save(Arc<AtomicUsize>);

impl Gate {
    /// Before a save; the gate opens again when what is given is dropped.
    pub fn save(&self) -> Save {
        self.0.fetch_add(1, Ordering::SeqCst);
        Save(Arc::clone(&self.0))
    }

    /// Before a step of an exchange: returns once no save waits.
    pub fn pass(&self) {
        while self.0.load(Ordering::SeqCst) > 0 {
            std::thread::sleep(LOOK);
        }
    }
}

impl Drop for Save {
    fn drop(&mut self) {
        self.0.fetch_sub(1, Ordering::SeqCst);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::sync::atomic::AtomicBool;

    #[test]
    fn a_step_begins_once_the_save_is_done() {
        let (gate, done) = (Gate::default(), Arc::new(AtomicBool::new(false)));
        let save = gate.save();
        let thread = {
            let (gate, done) = (gate.clone(), Arc::clone(&done));
            std::thread::spawn(move || {
                gate.pass();
                done.load(Ordering::SeqCst)
            })
        };
        done.store(true, Ordering::SeqCst);
        drop(save);
        assert!(thread.join().unwrap());
        gate.pass();
    }
}
