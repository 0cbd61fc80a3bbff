//! The exchange: take what the carrier has, then give what it has not.

use super::{Branch, BranchId, Carrier, CarrierError, Chain, Head, Linked, Piece, Remark, Replica, Stream, Taken};
use std::collections::BTreeMap;
use uuid::Uuid;

/// How many lines go in one step: each is a transaction, and a save of the screens waits for at most one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Batches {
    /// Lines taken at once.
    pub take: usize,
    /// Lines given at once.
    pub give: usize,
}

impl Default for Batches {
    fn default() -> Self {
        Self { take: 100, give: 500 }
    }
}

/// Lines that do not fit the chain of their stream.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Damaged {
    /// The stream.
    pub stream: Stream,
    /// The laptop that writes it.
    pub laptop: Option<String>,
    /// The last good line; nothing after it was taken.
    pub after: u64,
}

/// What an exchange did, up to its end or to where it stopped.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Exchanged {
    /// Lines that came and were not here before.
    pub taken: usize,
    /// Lines of a newer program among them, kept as they are.
    pub held: usize,
    /// Lines that the carrier did not have.
    pub given: usize,
    /// Lines of this laptop's own stream that came back: its file was put back from a copy.
    pub came_back: usize,
    /// Lines written again into the own stream, because their stream went on in another way.
    pub written_again: usize,
    /// Streams that are damaged at the carrier.
    pub damaged: Vec<Damaged>,
    /// The heads of the carrier as they were found.
    pub heads: Vec<Head>,
    /// What else is to be said of the carrier.
    pub remarks: Vec<Remark>,
}

/// Why an exchange stopped before its end. What was done before that stays, on both sides.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Stopped<E> {
    /// The carrier.
    Carrier(CarrierError),
    /// The season file.
    Replica(E),
}

impl<E> From<CarrierError> for Stopped<E> {
    fn from(error: CarrierError) -> Self {
        Self::Carrier(error)
    }
}

/// What the protocol depends on: tests replace one of these and see that it is missed.
#[derive(Debug, Clone, Copy)]
pub(super) struct Protocol {
    /// True where two chains at one number mean the same lines.
    pub(super) agree: fn(Chain, Chain) -> bool,
    /// From which line on lines are given: the head that the carrier has; the other is what was given to it before.
    pub(super) from: fn(head: u64, given_before: u64) -> u64,
}

impl Protocol {
    pub(super) const TRUE: Self = Self { agree: |ours, theirs| ours == theirs, from: |head, _| head };
}

/// Brings a season file and a carrier to the same lines. `did` tells what was done, also where it stops early.
///
/// # Errors
/// [`Stopped`]. The next exchange goes on from where this one stopped.
pub fn exchange<R: Replica>(
    replica: &mut R,
    carrier: &mut dyn Carrier,
    season: Uuid,
    batches: Batches,
    did: &mut Exchanged,
) -> Result<(), Stopped<R::Error>> {
    With { protocol: Protocol::TRUE, replica, carrier, season, batches, did }.run(&mut BTreeMap::new())
}

/// Brings a season file up to what a carrier has, and gives nothing: for a file that is only read. `did` as in [`exchange`].
///
/// # Errors
/// [`Stopped`]. The next time goes on from where this one stopped.
pub fn take_only<R: Replica>(
    replica: &mut R,
    carrier: &mut dyn Carrier,
    season: Uuid,
    batches: Batches,
    did: &mut Exchanged,
) -> Result<(), Stopped<R::Error>> {
    let mut with = With { protocol: Protocol::TRUE, replica, carrier, season, batches, did };
    for head in &with.heads()? {
        with.fetch(head)?;
    }
    with.did.remarks.extend(with.carrier.remarks());
    Ok(())
}

/// An exchange under way.
pub(super) struct With<'a, R: Replica> {
    pub(super) protocol: Protocol,
    pub(super) replica: &'a mut R,
    pub(super) carrier: &'a mut dyn Carrier,
    pub(super) season: Uuid,
    pub(super) batches: Batches,
    pub(super) did: &'a mut Exchanged,
}

impl<R: Replica> With<'_, R> {
    /// All of it; `given` is how far each stream was given to this carrier, which the true protocol does not look at.
    pub(super) fn run(mut self, given: &mut BTreeMap<Stream, u64>) -> Result<(), Stopped<R::Error>> {
        self.replica.own().map_err(Stopped::Replica)?;
        let heads = self.heads()?;
        let mut at = BTreeMap::new();
        for head in &heads {
            at.insert(head.stream, self.take(head)?);
        }
        let found: BTreeMap<Stream, &Head> = heads.iter().map(|head| (head.stream, head)).collect();
        for branch in self.branches()? {
            // Of a stream that the carrier does not have, the first branch.
            if *at.entry(branch.stream).or_insert(branch.id) == branch.id {
                let before = given.entry(branch.stream).or_default();
                match self.give(&branch, found.get(&branch.stream).copied(), *before) {
                    Ok(last) => *before = last,
                    // All was taken, and asking again gives the same answer: no failure, but to be said.
                    Err(Stopped::Carrier(CarrierError::MayNot { role, what: "write" })) => {
                        self.did.remarks.push(Remark::MayOnlyRead { role });
                        break;
                    }
                    Err(stopped) => return Err(stopped),
                }
            }
        }
        self.did.remarks.extend(self.carrier.remarks());
        Ok(())
    }

    /// What the carrier has of the season, in one order for all.
    fn heads(&mut self) -> Result<Vec<Head>, Stopped<R::Error>> {
        let mut heads = self.carrier.heads(self.season)?;
        heads.sort_by_key(|head| head.stream);
        self.did.heads.clone_from(&heads);
        Ok(heads)
    }

    fn branches(&mut self) -> Result<Vec<Branch>, Stopped<R::Error>> {
        self.replica.branches().map_err(Stopped::Replica)
    }

    /// Takes what a stream has at the carrier, and writes again what only other branches of it have; gives the branch that goes with
    /// it.
    fn take(&mut self, head: &Head) -> Result<BranchId, Stopped<R::Error>> {
        let id = self.fetch(head)?;
        self.did.written_again += self.replica.write_again(id).map_err(Stopped::Replica)?;
        Ok(id)
    }

    /// Takes what a stream has at the carrier; gives the branch that goes with it.
    fn fetch(&mut self, head: &Head) -> Result<BranchId, Stopped<R::Error>> {
        let (id, mut last, own) = self.branch_of(head)?;
        let mut chain = self.replica.chain_at(id, last).map_err(Stopped::Replica)?.unwrap_or(Chain::START);
        while last < head.last {
            let mut lines = self.carrier.read(head.stream, last, self.batches.take)?;
            let came = lines.len();
            let good = sound(chain, &lines);
            lines.truncate(good);
            if let Some(end) = lines.last() {
                chain = end.chain;
                let taken = self.replica.take(id, last, &lines).map_err(Stopped::Replica)?;
                self.count(taken, lines.len(), own);
                last = last.saturating_add(u64::try_from(lines.len()).unwrap_or(0));
            }
            if good < came {
                self.did.damaged.push(Damaged { stream: head.stream, laptop: head.laptop.clone(), after: last });
                break;
            }
            if came == 0 {
                // Less than its head said: it is still being written, and comes with the next exchange.
                break;
            }
        }
        Ok(id)
    }

    fn count(&mut self, taken: Taken, lines: usize, own: bool) {
        self.did.taken += taken.new;
        self.did.held += taken.held;
        if own {
            self.did.came_back += lines;
        }
    }

    /// The branch here that agrees with the carrier's lines of a stream as far as both go, how far it goes, and whether it is the own
    /// stream; a new branch where none agrees.
    fn branch_of(&mut self, head: &Head) -> Result<(BranchId, u64, bool), Stopped<R::Error>> {
        let mut own = false;
        for branch in self.branches()?.into_iter().filter(|branch| branch.stream == head.stream) {
            own |= branch.own;
            let both = branch.last.min(head.last);
            if both == 0 {
                return Ok((branch.id, branch.last, branch.own));
            }
            let theirs = if both == head.last { Some(head.chain) } else { self.carrier.chain_at(head.stream, both)? };
            let ours = self.replica.chain_at(branch.id, both).map_err(Stopped::Replica)?;
            if ours.zip(theirs).is_some_and(|(ours, theirs)| (self.protocol.agree)(ours, theirs)) {
                return Ok((branch.id, branch.last, branch.own));
            }
        }
        let id = self.replica.begin(head.stream, head.laptop.as_deref()).map_err(Stopped::Replica)?;
        Ok((id, 0, own))
    }

    /// Gives what the carrier does not have of a branch; gives how far it has it now.
    fn give(&mut self, branch: &Branch, head: Option<&Head>, before: u64) -> Result<u64, Stopped<R::Error>> {
        let mut from = (self.protocol.from)(head.map_or(0, |head| head.last), before);
        while from < branch.last {
            let Some(chain) = self.replica.chain_at(branch.id, from).map_err(Stopped::Replica)? else { break };
            let lines = self.replica.read(branch.id, from, self.batches.give).map_err(Stopped::Replica)?;
            if lines.is_empty() {
                break;
            }
            let laptop = branch.laptop.as_deref();
            let piece = Piece { stream: branch.stream, laptop, after: from, before: chain, lines: &lines };
            let now = self.carrier.give(self.season, &piece)?;
            let end = from.saturating_add(u64::try_from(lines.len()).unwrap_or(0));
            if now.last == end && lines.last().is_some_and(|line| line.chain == now.chain) {
                self.did.given += lines.len();
            } else if now.last <= from || self.chain_here(branch.id, now.last)? != Some(now.chain) {
                // Another laptop gave this stream meanwhile, and in another way, or the carrier was put back: the next exchange sees it.
                break;
            }
            from = now.last;
        }
        Ok(from)
    }

    fn chain_here(&mut self, branch: BranchId, n: u64) -> Result<Option<Chain>, Stopped<R::Error>> {
        self.replica.chain_at(branch, n).map_err(Stopped::Replica)
    }
}

/// How many of these lines, from the first on, carry the chain they should.
pub(super) fn sound(before: Chain, lines: &[Linked]) -> usize {
    let mut chain = before;
    let good = |line: &&Linked| {
        chain = chain.link(&line.text);
        chain == line.chain
    };
    lines.iter().take_while(good).count()
}
