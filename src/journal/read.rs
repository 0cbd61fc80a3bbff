//! Text to records: all or nothing, every fault named by line and field.

use super::end;
use super::faults::{Fault, Faults};
use crate::progress::{Step, Work};
use crate::record::codec::Header;
use crate::record::{Line, LineKey, codec};
use std::collections::HashMap;
use uuid::Uuid;

/// The longest line read, in bytes. The longest record there can be, a note of 2,000 characters all written as escapes, takes about
/// 25,000.
pub const LINE_MOST: usize = 1_000_000;

/// A record with the line it came from, so that faults across records can name it too.
#[derive(Debug, Clone, PartialEq)]
pub struct Numbered {
    /// Line of the file, from 1.
    pub number: usize,
    /// The record.
    pub line: Line,
}

/// Reads a journal. Lines that are the same record twice are one.
///
/// # Errors
/// The faults of the file, in the order of its lines.
pub fn read(text: &str) -> Result<Vec<Line>, Faults> {
    read_numbered(text).map(|lines| lines.into_iter().map(|n| n.line).collect())
}

/// Reads a journal, keeping where each record stood.
///
/// # Errors
/// The faults of the file, in the order of its lines.
pub fn read_numbered(text: &str) -> Result<Vec<Numbered>, Faults> {
    let Reading { lines, faults, .. } = read_all(text);
    if faults.is_empty() { Ok(lines) } else { Err(faults) }
}

/// What a journal holds, the good and the bad: so that the rules across records can be tried on the good ones too, and
/// one run reports the faults of a whole file. Nothing of a reading with faults is to be written.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Reading {
    /// The lines that are good in themselves.
    pub lines: Vec<Numbered>,
    /// The faults, in the order of the lines.
    pub faults: Faults,
    /// False where a plan line may be missing or among the bad ones: what the good ones name may then be there all the same.
    pub plan_sound: bool,
    /// The first line, where it could be read.
    pub header: Option<Header>,
}

/// Reads a journal whatever is wrong with it. One of which the reading is stopped ([`crate::progress`]) has a fault too.
pub fn read_all(text: &str) -> Reading {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let mut lines = text
        .split('\n')
        .enumerate()
        .map(|(i, line)| (i + 1, line.trim()))
        .filter(|(_, line)| !line.is_empty() && !line.starts_with('#'));
    let Some((number, first)) = lines.next() else {
        let text = format!("there is no record; the first line must be {}", codec::header());
        return Reading { faults: Faults::one(1, text), ..Reading::default() };
    };
    let mut faults = Faults::default();
    let mut headless = None;
    let mut plan_sound = true;
    if first.len() > LINE_MOST {
        let long = too_long(number, first);
        return Reading { faults: Faults::one(long.line, long.text), ..Reading::default() };
    }
    let header = match codec::decode_header(first) {
        Ok(header) => Some(header),
        Err(no) => {
            faults.extend(no.faults.into_iter().map(|f| Fault::at(number, f)));
            if no.newer {
                // What a newer version means by its lines is not known here: one fault says it all.
                return Reading { faults, ..Reading::default() };
            }
            // Where the header was left out the first line is a record, and its own faults are reported too.
            headless = (codec::line_type(first).as_deref() != Some("journal")).then_some((number, first));
            None
        }
    };
    if let Some(fault) = header.filter(|h| h.ends).and_then(|_| end::check(text, number).err()) {
        plan_sound = false;
        faults.push(fault);
    }
    // A file without a header is read under the names of any version.
    let version = header.map_or(1, |h| h.version);
    let mut kept = header.as_ref().map_or_else(Kept::default, Kept::of);
    let mut work = Work::begin(Step::ReadJournal, text.split('\n').count());
    for (number, line) in headless.into_iter().chain(lines) {
        if work.one().is_err() {
            // Half a journal must not be taken for a whole one.
            plan_sound = false;
            faults.push(Fault { line: number, field: None, text: "and what follows was not read".to_owned() });
            break;
        }
        if line.len() > LINE_MOST {
            plan_sound = false;
            faults.push(too_long(number, line));
            continue;
        }
        match codec::decode(line, version) {
            Ok(line) => faults.extend(kept.add(Numbered { number, line })),
            Err(found) => {
                plan_sound &= codec::line_type(line).as_deref() == Some("entry");
                faults.extend(found.into_iter().map(|f| Fault::at(number, f)));
            }
        }
    }
    faults.sort_by_line();
    Reading { lines: kept.lines, faults, plan_sound, header }
}

fn too_long(number: usize, line: &str) -> Fault {
    let text = format!("has {} bytes; a record has less than 1 MB", line.len());
    Fault { line: number, field: None, text }
}

/// The lines so far, each once.
#[derive(Debug, Default)]
pub(super) struct Kept {
    lines: Vec<Numbered>,
    by_key: HashMap<LineIs, usize>,
    /// One number of version 1 may have several contents.
    joined: bool,
}

impl Kept {
    /// None yet, of a journal that begins so.
    pub(super) fn of(header: &Header) -> Self {
        // In the journal of a season two laptops' lines may contradict each other.
        Self { joined: header.season.is_some(), ..Self::default() }
    }

    /// The lines.
    pub(super) fn lines(&self) -> &[Numbered] {
        &self.lines
    }

    /// Keeps a line, passes over one that is there already, and tells of one that contradicts it.
    pub(super) fn add(&mut self, new: Numbered) -> Option<Fault> {
        let key = if self.joined { LineIs::Id(new.line.id()) } else { line_is(&new.line) };
        let Some(old) = self.by_key.get(&key).and_then(|at| self.lines.get(*at)) else {
            self.by_key.insert(key, self.lines.len());
            self.lines.push(new);
            return None;
        };
        // As written: two instants may be equal in different offsets, which are different local days.
        if codec::encode(&old.line) == codec::encode(&new.line) {
            return None;
        }
        let (field, text) = match new.line.revision() {
            None => ("id", format!("is also the id of line {}, which says something else", old.number)),
            Some(r) if r.at.is_some() => {
                ("id", format!("is also the id of line {}, which says something else", old.number))
            }
            Some(_) => {
                ("rev", format!("line {} is the same revision with other content; give a higher rev", old.number))
            }
        };
        Some(Fault { line: new.number, field: Some(field.to_owned()), text })
    }
}

/// What a line is the record of: where these are equal the content must be.
#[derive(Debug, PartialEq, Eq, Hash)]
enum LineIs {
    /// The revision of version 1 of this number.
    Revision(LineKey, u32),
    /// Anything else goes by its id.
    Id(Uuid),
}

fn line_is(line: &Line) -> LineIs {
    match line.revision() {
        Some(revision) if revision.at.is_none() => LineIs::Revision(line.key(), revision.rev),
        _ => LineIs::Id(line.id()),
    }
}
