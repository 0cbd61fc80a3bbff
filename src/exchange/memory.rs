//! A season file and a hub in memory, for tests of the exchange and of carriers.

#[path = "../../tests/common/hub.rs"]
#[allow(dead_code, reason = "each test takes what it needs")]
mod hub;

pub(crate) use hub::Hub;

use super::{Branch, BranchId, Carrier, CarrierError, Chain, Head, Linked, Offered, Piece, Replica, Stream, Taken};
use std::collections::BTreeSet;
use uuid::Uuid;

/// What outlives a crash: a season file.
#[derive(Debug, Clone, Default)]
pub(crate) struct Disk {
    /// Stream and lines of each branch.
    pub(crate) branches: Vec<(Stream, Vec<Linked>)>,
    /// The branch that is written, and the seat it belongs to.
    own: Option<(usize, u64)>,
    /// All lines.
    pub(crate) set: BTreeSet<String>,
}

/// A laptop: its season file, and the number that says which laptop it is.
#[derive(Debug, Clone)]
pub(crate) struct Laptop {
    pub(crate) disk: Disk,
    seat: u64,
    /// For the ids of streams.
    next: u64,
}

impl Laptop {
    pub(crate) fn new(seat: u64, disk: Disk) -> Self {
        Self { disk, seat, next: 0 }
    }

    fn own_branch(&mut self) -> usize {
        match self.disk.own {
            Some((branch, seat)) if seat == self.seat => branch,
            _ => {
                self.next += 1;
                let id = Uuid::from_u64_pair(self.seat, self.next);
                self.disk.branches.push((Stream(id), Vec::new()));
                let branch = self.disk.branches.len() - 1;
                self.disk.own = Some((branch, self.seat));
                branch
            }
        }
    }

    fn write_into(&mut self, branch: usize, text: &str) {
        let lines = &mut self.disk.branches[branch].1;
        let chain = lines.last().map_or(Chain::START, |line| line.chain).link(text);
        lines.push(Linked { text: text.to_owned(), chain });
    }

    /// As the screens do: a line is in the file, and in the own stream.
    pub(crate) fn write(&mut self, text: &str) {
        let own = self.own_branch();
        self.write_into(own, text);
        self.disk.set.insert(text.to_owned());
    }

    fn lines(&self, branch: BranchId) -> &[Linked] {
        &self.disk.branches[usize::try_from(branch.0).unwrap()].1
    }
}

fn chain_of(lines: &[Linked], n: u64) -> Option<Chain> {
    if n == 0 {
        return Some(Chain::START);
    }
    lines.get(usize::try_from(n).unwrap() - 1).map(|line| line.chain)
}

fn after(lines: &[Linked], n: u64, most: usize) -> Vec<Linked> {
    lines.iter().skip(usize::try_from(n).unwrap()).take(most).cloned().collect()
}

impl Replica for Laptop {
    type Error = String;

    fn own(&mut self) -> Result<(), String> {
        self.own_branch();
        Ok(())
    }

    fn branches(&mut self) -> Result<Vec<Branch>, String> {
        let own = self.disk.own.map(|(branch, _)| branch);
        let branch = |(n, (stream, lines)): (usize, &(Stream, Vec<Linked>))| Branch {
            id: BranchId(i64::try_from(n).unwrap()),
            stream: *stream,
            last: lines.len() as u64,
            chain: lines.last().map_or(Chain::START, |line| line.chain),
            laptop: None,
            own: own == Some(n),
        };
        Ok(self.disk.branches.iter().enumerate().map(branch).collect())
    }

    fn chain_at(&mut self, branch: BranchId, n: u64) -> Result<Option<Chain>, String> {
        Ok(chain_of(self.lines(branch), n))
    }

    fn begin(&mut self, stream: Stream, _laptop: Option<&str>) -> Result<BranchId, String> {
        self.disk.branches.push((stream, Vec::new()));
        Ok(BranchId(i64::try_from(self.disk.branches.len() - 1).unwrap()))
    }

    fn take(&mut self, branch: BranchId, after: u64, lines: &[Linked]) -> Result<Taken, String> {
        let log = &mut self.disk.branches[usize::try_from(branch.0).unwrap()].1;
        if log.len() as u64 != after {
            return Ok(Taken::default());
        }
        log.extend(lines.iter().cloned());
        let new = lines.iter().filter(|line| self.disk.set.insert(line.text.clone())).count();
        Ok(Taken { new, known: lines.len() - new, held: 0 })
    }

    fn read(&mut self, branch: BranchId, n: u64, most: usize) -> Result<Vec<Linked>, String> {
        Ok(after(self.lines(branch), n, most))
    }

    fn write_again(&mut self, branch: BranchId) -> Result<usize, String> {
        let chosen = usize::try_from(branch.0).unwrap();
        let stream = self.disk.branches[chosen].0;
        let here = |(n, (s, _)): (usize, &(Stream, Vec<Linked>))| (*s == stream).then_some(n);
        let of_stream: Vec<usize> = self.disk.branches.iter().enumerate().filter_map(here).collect();
        if of_stream.len() < 2 {
            return Ok(0);
        }
        if self.disk.own.is_some_and(|(own, _)| of_stream.contains(&own)) {
            self.disk.own = None;
        }
        let own = self.own_branch();
        let mut have = BTreeSet::new();
        for (n, (s, lines)) in self.disk.branches.iter().enumerate() {
            if n == chosen || *s != stream {
                have.extend(lines.iter().map(|line| line.text.clone()));
            }
        }
        let others = of_stream.iter().filter(|n| **n != chosen);
        let all: Vec<String> =
            others.flat_map(|n| self.disk.branches[*n].1.iter().map(|line| line.text.clone())).collect();
        let lacking: Vec<String> = all.into_iter().filter(|text| have.insert(text.clone())).collect();
        for text in &lacking {
            self.write_into(own, text);
        }
        Ok(lacking.len())
    }
}
