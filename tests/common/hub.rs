//! A carrier in memory that can be cut after any call.
//!
//! Taken in by `#[path]`, by the library's own tests too: what it is made of are the names of the module that takes it in.

use super::{Carrier, CarrierError, Chain, Head, Linked, Offered, Piece, Stream};
use std::collections::{BTreeMap, BTreeSet};
use uuid::Uuid;

/// Lines of streams, as they were given.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(crate) struct Hub {
    pub(crate) log: BTreeMap<Stream, (Option<String>, Vec<Linked>)>,
    /// Calls that are still answered; `None` for all.
    pub(crate) left: Option<u32>,
    /// True where nothing is taken from anybody.
    pub(crate) read_only: bool,
}

impl Hub {
    fn call(&mut self) -> Result<(), CarrierError> {
        match &mut self.left {
            Some(0) => Err(CarrierError::Cut("cut by the test".to_owned())),
            Some(left) => {
                *left -= 1;
                Ok(())
            }
            None => Ok(()),
        }
    }

    fn lines(&self, stream: Stream) -> &[Linked] {
        self.log.get(&stream).map_or(&[], |(_, lines)| lines.as_slice())
    }

    fn head(&self, stream: Stream) -> Head {
        let lines = self.lines(stream);
        let chain = lines.last().map_or(Chain::START, |line| line.chain);
        let laptop = self.log.get(&stream).and_then(|(laptop, _)| laptop.clone());
        Head { stream, last: lines.len() as u64, chain, laptop, seen: None }
    }

    pub(crate) fn all_heads(&self) -> Vec<Head> {
        self.log.keys().map(|stream| self.head(*stream)).filter(|head| head.last > 0).collect()
    }

    /// All lines, whatever stream they are in.
    pub(crate) fn texts(&self) -> BTreeSet<String> {
        self.log.values().flat_map(|(_, lines)| lines).map(|line| line.text.clone()).collect()
    }
}

impl Carrier for Hub {
    fn seasons(&mut self) -> Result<Vec<Offered>, CarrierError> {
        Ok(Vec::new())
    }

    fn begin(&mut self, _season: Uuid, _name: &str) -> Result<(), CarrierError> {
        Ok(())
    }

    fn heads(&mut self, _season: Uuid) -> Result<Vec<Head>, CarrierError> {
        self.call()?;
        Ok(self.all_heads())
    }

    fn read(&mut self, stream: Stream, after: u64, most: usize) -> Result<Vec<Linked>, CarrierError> {
        self.call()?;
        Ok(self.lines(stream).iter().skip(usize::try_from(after).unwrap()).take(most).cloned().collect())
    }

    fn chain_at(&mut self, stream: Stream, n: u64) -> Result<Option<Chain>, CarrierError> {
        self.call()?;
        let Some(before) = usize::try_from(n).unwrap().checked_sub(1) else { return Ok(Some(Chain::START)) };
        Ok(self.lines(stream).get(before).map(|line| line.chain))
    }

    fn give(&mut self, _season: Uuid, piece: &Piece<'_>) -> Result<Head, CarrierError> {
        self.call()?;
        if self.read_only {
            return Err(CarrierError::MayNot { role: "cyd".to_owned(), what: "write" });
        }
        let head = self.head(piece.stream);
        if head.last == piece.after && head.chain == piece.before {
            let (laptop, lines) = self.log.entry(piece.stream).or_default();
            *laptop = piece.laptop.map(str::to_owned);
            lines.extend(piece.lines.iter().cloned());
        }
        // The lines may be there although the answer is lost.
        self.call()?;
        Ok(self.head(piece.stream))
    }
}
