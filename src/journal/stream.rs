//! A journal read line by line, without holding its text: the way of a sound one. At the first thing that is not in order this way
//! ends, and [`read_all`](super::read_all) says of the whole text what it is.

use super::end::Measure;
use super::read::{Kept, LINE_MOST};
use super::{Numbered, end};
use crate::record::codec::{self, Header};
use crate::record::{Entry, Line};
use std::io::{self, BufRead};

/// What comes next in a journal.
#[derive(Debug)]
pub enum Next {
    /// A line of the plan that was not there before.
    Plan,
    /// An entry. One that stands in the journal twice comes twice.
    Entry(Entry),
    /// The end of a whole journal.
    End,
    /// Something that is not in order.
    Fault,
}

/// A journal that is read line by line.
#[derive(Debug)]
pub struct Streamed<R> {
    input: R,
    header: Header,
    /// Number of the line read last.
    number: usize,
    line: Vec<u8>,
    plan: Kept,
    /// The lines so far, where the last one is to say how many they are.
    measure: Option<Measure>,
    /// The end line was read.
    ended: bool,
}

impl<R: BufRead> Streamed<R> {
    /// Reads up to the first line; `None` where that is no header of a version this program reads.
    ///
    /// # Errors
    /// What the system says.
    pub fn begin(input: R) -> io::Result<Option<Self>> {
        let plan = Kept::default();
        let header = Header::default();
        let mut new = Self { input, header, number: 0, line: Vec::new(), plan, measure: None, ended: false };
        loop {
            if !new.read_line()? {
                return Ok(None);
            }
            let Some(text) = new.text() else { return Ok(None) };
            let text = if new.number == 1 { text.strip_prefix('\u{feff}').unwrap_or(text) } else { text };
            let trimmed = text.trim();
            if trimmed.is_empty() || trimmed.starts_with('#') {
                continue;
            }
            let Ok(header) = codec::decode_header(trimmed) else { return Ok(None) };
            let mut measure = Measure::default();
            measure.add(text);
            (new.measure, new.header) = (header.ends.then_some(measure), header);
            new.plan = Kept::of(&header);
            return Ok(Some(new));
        }
    }

    /// Its first line.
    pub const fn header(&self) -> Header {
        self.header
    }

    /// The lines of the plan so far, each once.
    pub fn plan(&self) -> &[Numbered] {
        self.plan.lines()
    }

    /// Reads up to the next line of the plan or entry.
    ///
    /// # Errors
    /// What the system says.
    pub fn read_next(&mut self) -> io::Result<Next> {
        loop {
            if !self.read_line()? {
                return Ok(if self.measure.is_some() && !self.ended { Next::Fault } else { Next::End });
            }
            let Ok(text) = std::str::from_utf8(&self.line) else { return Ok(Next::Fault) };
            let trimmed = text.trim();
            if let Some(measure) = &mut self.measure {
                if end::is_end_line(text) {
                    if self.ended || !measure.is_said_by(text) {
                        return Ok(Next::Fault);
                    }
                    self.ended = true;
                    continue;
                }
                if self.ended && !trimmed.is_empty() {
                    return Ok(Next::Fault);
                }
                measure.add(text);
            }
            if trimmed.is_empty() || trimmed.starts_with('#') {
                continue;
            }
            return Ok(match codec::decode(trimmed, self.header.version) {
                Err(_) => Next::Fault,
                Ok(Line::Entry(entry)) => Next::Entry(entry),
                Ok(line) => {
                    let before = self.plan.lines().len();
                    match self.plan.add(Numbered { number: self.number, line }) {
                        Some(_) => Next::Fault,
                        None if self.plan.lines().len() > before => Next::Plan,
                        None => continue,
                    }
                }
            });
        }
    }

    /// Reads a line without its line break; false at the end. One that is longer than any record is cut, and is then none.
    fn read_line(&mut self) -> io::Result<bool> {
        self.line.clear();
        let most = u64::try_from(LINE_MOST).unwrap_or(u64::MAX).saturating_add(2);
        if io::Read::take(&mut self.input, most).read_until(b'\n', &mut self.line)? == 0 {
            return Ok(false);
        }
        self.number = self.number.saturating_add(1);
        if self.line.last() == Some(&b'\n') {
            self.line.pop();
            if self.line.last() == Some(&b'\r') {
                self.line.pop();
            }
        }
        if self.line.len() > LINE_MOST {
            // No text has this byte.
            self.line = vec![0xff];
        }
        Ok(true)
    }

    fn text(&self) -> Option<&str> {
        std::str::from_utf8(&self.line).ok()
    }
}
