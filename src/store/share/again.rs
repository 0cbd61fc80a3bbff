//! What only a branch has that a carrier cannot take goes once more into the own stream.

use super::log::{Logged, chain_at, head, read};
use crate::store::connection::next_row;
use crate::store::error::Fault;
use rusqlite::Connection;
use std::collections::HashSet;

/// Rows looked at in one go.
const AT_ONCE: usize = 1_000;

/// The branches of the stream that a branch is of.
pub(super) fn branches_of_its_stream(connection: &Connection, branch: i64) -> Result<Vec<i64>, Fault> {
    next_row();
    let sql = "SELECT number FROM stream WHERE id = (SELECT id FROM stream WHERE number = ?1) ORDER BY number";
    let mut statement = connection.prepare_cached(sql)?;
    let numbers = statement.query_map([branch], |row| row.get(0))?;
    Ok(numbers.collect::<Result<_, _>>()?)
}

/// The number of the last line that two branches of a stream share.
fn fork(connection: &Connection, one: i64, other: i64) -> Result<i64, Fault> {
    let (mut same, mut beyond) = (0, head(connection, one)?.0.min(head(connection, other)?.0).saturating_add(1));
    while beyond - same > 1 {
        let middle = same + (beyond - same) / 2;
        if chain_at(connection, one, middle)? == chain_at(connection, other, middle)? {
            same = middle;
        } else {
            beyond = middle;
        }
    }
    Ok(same)
}

/// Lines of the other branches of a stream that neither this branch nor any other stream has: their texts.
pub(super) fn lacking(connection: &Connection, branch: i64, of_stream: &[i64]) -> Result<Vec<String>, Fault> {
    let mut texts: Vec<String> = Vec::new();
    let mut found = HashSet::new();
    for other in of_stream.iter().copied().filter(|other| *other != branch) {
        let mut after = fork(connection, branch, other)?;
        loop {
            let rows = read(connection, other, after, AT_ONCE)?;
            let Some(last) = rows.last() else { break };
            after = last.n;
            for row in rows {
                if !is_elsewhere(connection, branch, &row)? && found.insert(row.linked.text.clone()) {
                    texts.push(row.linked.text);
                }
            }
        }
    }
    Ok(texts)
}

/// True where the branch, or a stream other than its own, has the line.
fn is_elsewhere(connection: &Connection, branch: i64, row: &Logged) -> Result<bool, Fault> {
    next_row();
    let by_text = "SELECT EXISTS (SELECT 1 FROM log AS l JOIN stream AS s ON s.number = l.stream WHERE l.line = ?2
        AND (l.stream = ?1 OR s.id <> (SELECT id FROM stream WHERE number = ?1)))";
    if connection.prepare_cached(by_text)?.query_row((branch, &row.linked.text), |row| row.get(0))? {
        return Ok(true);
    }
    // The same line may have been held as text in one stream and be an entry in another.
    let entry = match row.entry {
        Some(seq) => Some(seq),
        None => super::held::entry_of(connection, &row.linked.text)?,
    };
    let Some(seq) = entry else { return Ok(false) };
    let by_entry = "SELECT EXISTS (SELECT 1 FROM log AS l JOIN stream AS s ON s.number = l.stream WHERE l.entry = ?2
        AND (l.stream = ?1 OR s.id <> (SELECT id FROM stream WHERE number = ?1)))";
    Ok(connection.prepare_cached(by_entry)?.query_row((branch, seq), |row| row.get(0))?)
}
