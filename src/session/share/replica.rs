//! A season file that lets saves of the screens go first.

use crate::exchange::{Branch, BranchId, Chain, Gate, Linked, Replica, Stream, Taken};
use crate::store::{Store, StoreError};

/// A season file in an exchange: no step that writes begins while a save waits.
pub(super) struct Gated<'a> {
    pub(super) store: &'a mut Store,
    pub(super) gate: &'a Gate,
}

impl Replica for Gated<'_> {
    type Error = StoreError;

    fn own(&mut self) -> Result<(), StoreError> {
        self.gate.pass();
        self.store.own()
    }

    fn branches(&mut self) -> Result<Vec<Branch>, StoreError> {
        self.store.branches()
    }

    fn chain_at(&mut self, branch: BranchId, n: u64) -> Result<Option<Chain>, StoreError> {
        self.store.chain_at(branch, n)
    }

    fn begin(&mut self, stream: Stream, laptop: Option<&str>) -> Result<BranchId, StoreError> {
        self.gate.pass();
        self.store.begin(stream, laptop)
    }

    fn take(&mut self, branch: BranchId, after: u64, lines: &[Linked]) -> Result<Taken, StoreError> {
        self.gate.pass();
        self.store.take(branch, after, lines)
    }

    fn read(&mut self, branch: BranchId, after: u64, most: usize) -> Result<Vec<Linked>, StoreError> {
        Replica::read(self.store, branch, after, most)
    }

    fn write_again(&mut self, branch: BranchId) -> Result<usize, StoreError> {
        self.gate.pass();
        self.store.write_again(branch)
    }
}
