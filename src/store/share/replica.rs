//! The season file as one side of an exchange.

use super::log::{chain_at, count, head, number, read};
use super::take::{Read, take, write_again};
use super::{again, begin_branch, begin_own, is_shared, own_of, own_or_new};
use crate::exchange::{Branch, BranchId, Chain, Linked, Replica, Stream, Taken};
use crate::store::connection::next_row;
use crate::store::error::Fault;
use crate::store::{Store, StoreError};
use rusqlite::Connection;

impl Replica for Store {
    type Error = StoreError;

    fn own(&mut self) -> Result<(), StoreError> {
        if self.has_own()? {
            self.tidy();
            return Ok(());
        }
        let seat = self.seat.clone();
        self.save(|transaction| {
            if !is_shared(transaction)? {
                return Err(Fault::Refused("the season is not shared".to_owned()));
            }
            own_or_new(transaction, seat.as_ref()).map(drop)
        })
    }

    fn branches(&mut self) -> Result<Vec<Branch>, StoreError> {
        let own = own_of(&self.connection, self.seat.as_ref()).map_err(|fault| self.said(fault))?;
        branches(&self.connection, own).map_err(|fault| self.said(fault))
    }

    fn chain_at(&mut self, branch: BranchId, n: u64) -> Result<Option<Chain>, StoreError> {
        chain_at(&self.connection, branch.0, number(n)).map_err(|fault| self.said(fault))
    }

    fn begin(&mut self, stream: Stream, laptop: Option<&str>) -> Result<BranchId, StoreError> {
        self.save(|transaction| begin_branch(transaction, stream, laptop).map(BranchId))
    }

    fn take(&mut self, branch: BranchId, after: u64, lines: &[Linked]) -> Result<Taken, StoreError> {
        // Read before the file is locked: a save of the screens waits for what comes after.
        let lines: Vec<_> = lines.iter().map(|line| (line, Read::of(&line.text))).collect();
        self.save(|transaction| take(transaction, branch.0, after, &lines))
    }

    fn read(&mut self, branch: BranchId, after: u64, most: usize) -> Result<Vec<Linked>, StoreError> {
        let lines = read(&self.connection, branch.0, number(after), most).map_err(|fault| self.said(fault))?;
        Ok(lines.into_iter().map(|line| line.linked).collect())
    }

    fn write_again(&mut self, branch: BranchId) -> Result<usize, StoreError> {
        let seat = self.seat.clone();
        let found = |connection: &Connection| -> Result<(Vec<String>, bool), Fault> {
            let of_stream = again::branches_of_its_stream(connection, branch.0)?;
            if of_stream.len() < 2 {
                return Ok((Vec::new(), false));
            }
            let own = own_of(connection, seat.as_ref())?;
            let given_up = own.is_some_and(|own| of_stream.contains(&own));
            Ok((again::lacking(connection, branch.0, &of_stream)?, given_up))
        };
        // Nearly always there is nothing to write: then nothing is locked.
        match found(&self.connection).map_err(|fault| self.said(fault))? {
            (texts, false) if texts.is_empty() => return Ok(0),
            _ => {}
        }
        self.save(|transaction| {
            let (texts, given_up) = found(transaction)?;
            if given_up {
                begin_own(transaction, seat.as_ref())?;
            }
            write_again(transaction, seat.as_ref(), &texts)?;
            Ok(texts.len())
        })
    }
}

impl Store {
    fn has_own(&self) -> Result<bool, StoreError> {
        let own = own_of(&self.connection, self.seat.as_ref()).map_err(|fault| self.said(fault))?;
        Ok(own.is_some())
    }
}

/// Every branch that is held here.
pub(super) fn branches(connection: &Connection, own: Option<i64>) -> Result<Vec<Branch>, Fault> {
    let rows: Vec<(i64, Vec<u8>, Option<String>)> = {
        next_row();
        let mut statement = connection.prepare_cached("SELECT number, id, laptop FROM stream ORDER BY number")?;
        let rows = statement.query_map([], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)))?;
        rows.collect::<Result<_, _>>()?
    };
    let branch = |(stream, id, laptop): (i64, Vec<u8>, Option<String>)| {
        let (last, chain) = head(connection, stream)?;
        let id = Stream(super::uuid(&id)?);
        let laptop = laptop.map(crate::store::row::text);
        Ok(Branch { id: BranchId(stream), stream: id, last: count(last), chain, laptop, own: own == Some(stream) })
    };
    rows.into_iter().map(branch).collect()
}
