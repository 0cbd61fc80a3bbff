//! The end of a journal: its last line says how many lines there are and what their hash is, so that a file cut short, even
//! at a line's end, is not taken for a whole one.
//!
//! `# end: N lines, sha256 HEX`: N lines stand from the header to the end, the header counted, the end not; HEX is the SHA-256,
//! in small letters, of those lines, each with one line feed behind it. A carriage return before a line feed does not count,
//! so that a file sent through a program that changes line breaks is still whole. Comments before the header do not count.

use super::Fault;
use sha2::{Digest, Sha256};
use std::fmt::Write as _;

const MARK: &str = "# end: ";
const BY_HAND: &str =
    "get the file again; if it was changed on purpose, remove its end line, and \"ends\":true in the first";

/// The end line of these lines, the header among them, without its line break.
pub fn end_line(lines: &str) -> String {
    let (many, hash) = measure(lines.lines());
    format!("{MARK}{many} lines, sha256 {hash}")
}

/// Holds the end of a text against its lines from the header on, which stands on a line of this number.
pub(super) fn check(text: &str, header: usize) -> Result<(), Fault> {
    let lines: Vec<&str> = text.lines().collect();
    let fault = |line: usize, text: String| Err(Fault { line, field: None, text });
    let Some(at) = lines.iter().rposition(|l| is_end_line(l)) else {
        let text = format!("is the last line, but the first promises an end line: the file was cut short; {BY_HAND}");
        return fault(lines.len().max(1), text);
    };
    let number = at.saturating_add(1);
    let after = lines.iter().skip(number).position(|l| !l.trim().is_empty());
    if let Some(after) = after {
        let line = number.saturating_add(after).saturating_add(1);
        return fault(line, format!("stands after the end line (line {number}); {BY_HAND}"));
    }
    let from = header.saturating_sub(1);
    let (many, hash) = measure(lines.iter().skip(from).take(at.saturating_sub(from)).copied());
    let promised =
        lines.get(at).and_then(|l| l.strip_prefix(MARK)).and_then(|l| l.trim_end().split_once(" lines, sha256 "));
    match promised {
        None => fault(number, format!("is not an end line such as {MARK}12 lines, sha256 and 64 digits; {BY_HAND}")),
        Some((n, _)) if n != many.to_string() => {
            fault(number, format!("counts {} lines, here are {many}: lines were lost or added; {BY_HAND}", shown(n)))
        }
        Some((_, h)) if h != hash => {
            fault(number, format!("has the hash of other lines: a line before it was changed; {BY_HAND}"))
        }
        Some(_) => Ok(()),
    }
}

/// True of a line that is one by its beginning.
pub(super) fn is_end_line(line: &str) -> bool {
    line.starts_with(MARK.trim_end())
}

/// Lines as they come: how many, and their hash.
#[derive(Debug, Clone, Default)]
pub(super) struct Measure {
    many: usize,
    hash: Sha256,
}

impl Measure {
    /// One more line, without its line break.
    pub(super) fn add(&mut self, line: &str) {
        self.hash.update(line.as_bytes());
        self.hash.update(b"\n");
        self.many = self.many.saturating_add(1);
    }

    /// How many lines, and their hash.
    fn done(self) -> (usize, String) {
        let hex = self.hash.finalize().iter().fold(String::new(), |mut hex, byte| {
            // Writing to a string cannot fail.
            write!(hex, "{byte:02x}").ok();
            hex
        });
        (self.many, hex)
    }

    /// True where an end line says just these lines.
    pub(super) fn is_said_by(&self, end: &str) -> bool {
        let (many, hash) = self.clone().done();
        end.trim_end() == format!("{MARK}{many} lines, sha256 {hash}")
    }
}

/// How many lines, and their hash.
fn measure<'t>(lines: impl Iterator<Item = &'t str>) -> (usize, String) {
    let mut measure = Measure::default();
    for line in lines {
        measure.add(line);
    }
    measure.done()
}

fn shown(text: &str) -> String {
    crate::record::clean(text).chars().take(12).collect()
}
