//! The names of pieces: `<stream>.<first>-<last>.<writer>.jsonl`, of small letters, digits, dots and dashes only, so that every file
//! system keeps them as they are.

use super::PIECE_LINES;
use crate::exchange::Stream;
use std::fmt;
use uuid::Uuid;

/// What a piece ends with.
const ENDING: &str = ".jsonl";

/// What the name of a piece ends with while it is being written.
const PART: &str = ".part";

/// Characters of a writer's id.
const WRITER: usize = 8;

/// Which laptop writes files: the first characters of the id of its stream.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Writer(String);

impl Writer {
    pub(super) fn of(stream: Stream) -> Self {
        Self(stream.0.simple().to_string().chars().take(WRITER).collect())
    }

    /// Its characters.
    pub(super) fn id(&self) -> &str {
        &self.0
    }

    fn parse(text: &str) -> Option<Self> {
        let good = text.len() == WRITER && text.bytes().all(|b| b.is_ascii_digit() || (b'a'..=b'f').contains(&b));
        good.then(|| Self(text.to_owned()))
    }
}

/// A piece by its name.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Name {
    pub(super) stream: Stream,
    /// The number of its first line.
    pub(super) first: u64,
    /// The number of its last line.
    pub(super) last: u64,
    pub(super) writer: Writer,
}

impl Name {
    /// Reads the name of a file; with it, true where the file is being written still. `None` for a file that is no piece.
    pub(super) fn parse(file: &str) -> Option<(Self, bool)> {
        let (name, part) = match file.strip_suffix(PART) {
            Some(name) => (name, true),
            None => (file.strip_suffix(ENDING)?, false),
        };
        let mut fields = name.split('.');
        let (stream, range, writer) = (fields.next()?, fields.next()?, fields.next()?);
        let (first, last) = range.split_once('-')?;
        let (first, last) = (number(first)?, number(last)?);
        let whole = fields.next().is_none() && first > 0 && first <= last && last - first < PIECE_LINES;
        // Also written as `Display` does: no braces, no large letters.
        let id = Uuid::try_parse(stream).ok().filter(|id| id.to_string() == stream)?;
        let name = Self { stream: Stream(id), first, last, writer: Writer::parse(writer)? };
        whole.then_some((name, part))
    }

    /// Its name while it is being written.
    pub(super) fn part(&self) -> String {
        let name = self.to_string();
        format!("{}{PART}", name.strip_suffix(ENDING).unwrap_or(&name))
    }

    /// How many lines it has.
    pub(super) const fn lines(&self) -> u64 {
        self.last.saturating_sub(self.first).saturating_add(1)
    }
}

impl fmt::Display for Name {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}.{:07}-{:07}.{}{ENDING}", self.stream, self.first, self.last, self.writer.0)
    }
}

fn number(text: &str) -> Option<u64> {
    text.parse().ok().filter(|_| text.bytes().all(|b| b.is_ascii_digit()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_come_back_and_nothing_else_is_a_piece() {
        let stream = Stream(Uuid::from_u128(0x9ace_1e2f_0000_4000_8000_0000_0000_00ab));
        let name = Name { stream, first: 1001, last: 1040, writer: Writer::of(stream) };
        let file = name.to_string();
        assert_eq!(file, "9ace1e2f-0000-4000-8000-0000000000ab.0001001-0001040.9ace1e2f.jsonl");
        assert!(file.len() < 100 && file.bytes().all(|b| b.is_ascii_alphanumeric() || b"-.".contains(&b)));
        assert_eq!(Name::parse(&file), Some((name.clone(), false)));
        assert_eq!(Name::parse(&name.part()), Some((name, true)));
        let id = "9ace1e2f-0000-4000-8000-0000000000ab";
        for other in [
            String::new(),
            "season.txt".to_owned(),
            format!("{id}.1-2.9ace1e2f"),
            format!("{id}.0-2.9ace1e2f.jsonl"),
            format!("{id}.3-2.9ace1e2f.jsonl"),
            format!("{id}.1-1001.9ace1e2f.jsonl"),
            format!("{id}.+1-2.9ace1e2f.jsonl"),
            format!("{id}.1-2.9ACE1E2F.jsonl"),
            format!("{id}.1-2.9ace1e2f.x.jsonl"),
            format!("{id}.1-99999999999999999999.9ace1e2f.jsonl"),
            format!("{}.1-2.9ace1e2f.jsonl", id.to_uppercase()),
        ] {
            assert_eq!(Name::parse(&other), None, "{other}");
        }
    }
}
