//! Saves of the screens go before the steps of an exchange.

use super::{Branch, BranchId, Chain, Linked, Replica, Stream, Taken};
use std::sync::{Arc, Condvar, Mutex, PoisonError};

/// Between the main thread, which saves what was typed, and the thread that exchanges: both write to one season file, and only one
/// can at a time. A step of an exchange begins only while no save waits, so a save waits for at most one step.
#[derive(Debug, Clone, Default)]
pub struct Gate(Arc<Saves>);

/// How many saves are under way, and who is to hear of the end of the last one.
#[derive(Debug, Default)]
struct Saves {
    count: Mutex<usize>,
    none: Condvar,
}

/// While it is there no step of an exchange begins.
#[derive(Debug)]
pub struct Save(Arc<Saves>);

impl Gate {
    /// Before a save; the gate opens again when what is given is dropped.
    pub fn save(&self) -> Save {
        let mut count = self.0.count.lock().unwrap_or_else(PoisonError::into_inner);
        *count = count.saturating_add(1);
        Save(Arc::clone(&self.0))
    }

    /// Before a step of an exchange: returns once no save waits.
    pub fn pass(&self) {
        let count = self.0.count.lock().unwrap_or_else(PoisonError::into_inner);
        drop(self.0.none.wait_while(count, |count| *count > 0));
    }
}

impl Drop for Save {
    fn drop(&mut self) {
        let mut count = self.0.count.lock().unwrap_or_else(PoisonError::into_inner);
        *count = count.saturating_sub(1);
        if *count == 0 {
            self.0.none.notify_all();
        }
    }
}

/// A season file in an exchange: no step that writes begins while a save waits.
#[derive(Debug)]
pub struct Gated<'a, R> {
    /// The season file.
    pub replica: &'a mut R,
    /// Where saves go first.
    pub gate: &'a Gate,
}

impl<R: Replica> Replica for Gated<'_, R> {
    type Error = R::Error;

    fn own(&mut self) -> Result<(), R::Error> {
        self.gate.pass();
        self.replica.own()
    }

    fn branches(&mut self) -> Result<Vec<Branch>, R::Error> {
        self.replica.branches()
    }

    fn chain_at(&mut self, branch: BranchId, n: u64) -> Result<Option<Chain>, R::Error> {
        self.replica.chain_at(branch, n)
    }

    fn begin(&mut self, stream: Stream, laptop: Option<&str>) -> Result<BranchId, R::Error> {
        self.gate.pass();
        self.replica.begin(stream, laptop)
    }

    fn take(&mut self, branch: BranchId, after: u64, lines: &[Linked]) -> Result<Taken, R::Error> {
        self.gate.pass();
        self.replica.take(branch, after, lines)
    }

    fn read(&mut self, branch: BranchId, after: u64, most: usize) -> Result<Vec<Linked>, R::Error> {
        self.replica.read(branch, after, most)
    }

    fn write_again(&mut self, branch: BranchId) -> Result<usize, R::Error> {
        self.gate.pass();
        self.replica.write_again(branch)
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
