//! Taking lines of other laptops: nothing is judged but a line's own shape, and nothing is refused.

use super::log::{State, Writer, head, number};
use super::{Seat, content};
use crate::exchange::{Linked, Taken};
use crate::record::{Entry, Line, codec, rules};
use crate::store::connection::next_row;
use crate::store::error::Fault;
use crate::store::{entries, plan, season};
use rusqlite::Connection;
use std::collections::BTreeSet;

/// A line of a stream with what it says; nothing where that is not understood here.
pub(super) struct Read<'a> {
    pub(super) text: &'a str,
    pub(super) line: Option<Line>,
}

impl<'a> Read<'a> {
    /// A line is understood where it is spelled as this program spells what it read in it, and its own fields are right: then nothing
    /// of it is lost in the tables.
    pub(super) fn of(text: &'a str) -> Self {
        let line = codec::decode(text, codec::VERSION).ok();
        let whole = |line: &Line| codec::line_text(line) == text && rules::check_line(line).is_empty();
        Self { text, line: line.filter(whole) }
    }
}

/// Where a line is now.
pub(super) enum Kept {
    /// In the table of entries, under this number.
    Entry(i64),
    /// In a table of the plan.
    Plan,
    /// Among those whose id is known with other content.
    Other,
    /// Nowhere but in the log.
    Held,
}

/// Lines on their way into the tables, within one transaction.
pub(super) struct Intake<'a> {
    connection: &'a Connection,
    /// Codes that are known by now.
    known: BTreeSet<(&'static str, String)>,
}

impl<'a> Intake<'a> {
    pub(super) const fn of(connection: &'a Connection) -> Self {
        Self { connection, known: BTreeSet::new() }
    }

    /// Writes a line into its table, once; true where it was not there.
    pub(super) fn keep(&mut self, read: &Read<'_>) -> Result<(Kept, bool), Fault> {
        let kept = match &read.line {
            None => return self.hold(read.text),
            Some(Line::Entry(entry)) => self.keep_entry(entry, read.text),
            Some(line) => self.keep_plan(line, read.text),
        };
        match kept {
            // This file takes no such row: it is kept as text, and travels on.
            Err(fault) if matches!(fault, Fault::Refused(_)) || fault.is_refused_row() => self.hold(read.text),
            kept => kept,
        }
    }

    fn keep_entry(&mut self, entry: &Entry, text: &str) -> Result<(Kept, bool), Fault> {
        match entries::find(self.connection, entry.id)? {
            Some((seq, there)) if codec::line_text(&Line::Entry(there.clone())) == text => {
                Ok((Kept::Entry(seq), false))
            }
            Some(_) => Ok((Kept::Other, content::add(self.connection, "entry", entry.id, text)?)),
            None => {
                self.know(entry.place.field(), entry.place.code())?;
                entries::insert(self.connection, entry)?;
                Ok((Kept::Entry(self.connection.last_insert_rowid()), true))
            }
        }
    }

    fn keep_plan(&mut self, line: &Line, text: &str) -> Result<(Kept, bool), Fault> {
        let Some(table) = crate::record::schema::plan_table(line.type_name()) else { return self.hold(text) };
        match plan::find(self.connection, table, line.id())? {
            Some(there) if codec::line_text(&there) == text => Ok((Kept::Plan, false)),
            Some(_) => Ok((Kept::Other, content::add(self.connection, table.name, line.id(), text)?)),
            None => {
                let named = line.content();
                for name in ["house", "bench", "lot", "trial", "plot"] {
                    if let Some(code) = named.take::<String>(name) {
                        self.know(name, &code)?;
                    }
                }
                plan::insert(self.connection, table, line)?;
                Ok((Kept::Plan, true))
            }
        }
    }

    /// Keeps a line as text; true where no stream has brought it.
    fn hold(&self, text: &str) -> Result<(Kept, bool), Fault> {
        Ok((Kept::Held, !is_logged(self.connection, text)?))
    }

    /// Makes a code known that a line names, though the line that is about it may still be under way.
    fn know(&mut self, name: &'static str, code: &str) -> Result<(), Fault> {
        if self.known.insert((name, code.to_owned())) {
            plan::know_code(self.connection, name, code)?;
        }
        Ok(())
    }
}

/// True where some stream has this text in the log.
pub(super) fn is_logged(connection: &Connection, text: &str) -> Result<bool, Fault> {
    next_row();
    let sql = "SELECT EXISTS (SELECT 1 FROM log WHERE line = ?1)";
    Ok(connection.prepare_cached(sql)?.query_row([text], |row| row.get(0))?)
}

/// Writes a line where it belongs, and its row of the log.
fn take_one(intake: &mut Intake<'_>, writer: &mut Writer<'_>, read: &Read<'_>, taken: &mut Taken) -> Result<(), Fault> {
    let (kept, new) = intake.keep(read)?;
    match kept {
        Kept::Entry(seq) => writer.entry(read.text, seq)?,
        Kept::Plan => writer.text(read.text, State::Counts)?,
        Kept::Other => writer.text(read.text, State::Other)?,
        Kept::Held => writer.text(read.text, State::Held)?,
    }
    match (new, kept) {
        (true, Kept::Held) => (taken.new, taken.held) = (taken.new + 1, taken.held + 1),
        (true, _) => taken.new += 1,
        (false, _) => taken.known += 1,
    }
    Ok(())
}

/// Adds lines to a branch that ends at `after`; nothing where it does not.
pub(super) fn take(
    connection: &Connection,
    branch: i64,
    after: u64,
    lines: &[(&Linked, Read<'_>)],
) -> Result<Taken, Fault> {
    let (last, chain) = head(connection, branch)?;
    let fits = lines.first().is_none_or(|(first, _)| chain.link(&first.text) == first.chain);
    if last != number(after) || !fits {
        return Ok(Taken::default());
    }
    let mut taken = Taken::default();
    let (mut writer, mut intake) = (Writer::at(connection, branch)?, Intake::of(connection));
    for (_, read) in lines {
        take_one(&mut intake, &mut writer, read, &mut taken)?;
    }
    season::settle(connection, None)?;
    Ok(taken)
}

/// Writes a text that another stream has into the own stream.
pub(super) fn write_again(connection: &Connection, seat: Option<&Seat>, texts: &[String]) -> Result<(), Fault> {
    let own = super::own_or_new(connection, seat)?;
    let (mut writer, mut intake) = (Writer::at(connection, own)?, Intake::of(connection));
    for text in texts {
        take_one(&mut intake, &mut writer, &Read::of(text), &mut Taken::default())?;
        writer.mark_again()?;
    }
    Ok(())
}
