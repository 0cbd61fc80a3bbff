//! Saves of the screens go before the steps of an exchange.

use std::sync::{Arc, Condvar, Mutex, PoisonError};

/// Between the main thread, which saves what was typed, and the thread that exchanges: both write to one season file, and only one
/// can at a time. A step of an exchange begins only while no save waits, so a save waits for at most one step.
#[derive(Debug, Clone, Default)]
pub struct Gate(Arc<Saves>);

/// How many saves wait or are under way.
#[derive(Debug, Default)]
struct Saves {
    many: Mutex<usize>,
    over: Condvar,
}

/// While it is there no step of an exchange begins.
#[derive(Debug)]
pub struct Save(Arc<Saves>);

impl Gate {
    /// Before a save; the gate opens again when what is given is dropped.
    pub fn save(&self) -> Save {
        let mut many = self.0.many.lock().unwrap_or_else(PoisonError::into_inner);
        *many = many.saturating_add(1);
        Save(Arc::clone(&self.0))
    }

    /// Before a step of an exchange: returns once no save waits.
    pub fn pass(&self) {
        let many = self.0.many.lock().unwrap_or_else(PoisonError::into_inner);
        drop(self.0.over.wait_while(many, |many| *many > 0).unwrap_or_else(PoisonError::into_inner));
    }
}

impl Drop for Save {
    fn drop(&mut self) {
        let mut many = self.0.many.lock().unwrap_or_else(PoisonError::into_inner);
        *many = many.saturating_sub(1);
        self.0.over.notify_all();
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::sync::atomic::{AtomicBool, Ordering};

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
