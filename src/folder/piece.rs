//! The text of a piece: an ordinary journal, which `benchwalk import` takes, with what the exchange needs in comments.
//!
//! ```text
//! {"type":"journal","version":2,"season":"…","ends":true}
//! # benchwalk piece: season …, stream …, first 101, before 9f…, laptop ann-2
//! the lines
//! # benchwalk piece end: 37 lines, chain 4c…
//! # end: 40 lines, sha256 …
//! ```
//!
//! A piece without its two last lines, or whose lines do not come to the chain they name, is not there: it is being written, or was
//! cut.

use crate::characters::in_one_line;
use crate::exchange::{Chain, Linked, Stream};
use crate::journal::{self, Header};
use uuid::Uuid;

const HEAD: &str = "# benchwalk piece: ";
const END: &str = "# benchwalk piece end: ";

/// Bytes from the start of a piece that hold its first two lines.
pub(super) const HEAD_BYTES: usize = 512;

/// Bytes at the end of a piece that hold its last two lines.
pub(super) const END_BYTES: usize = 256;

/// What a piece says of itself at its start.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Head {
    pub(super) season: Uuid,
    pub(super) stream: Stream,
    /// The number of its first line.
    pub(super) first: u64,
    /// The chain before its first line.
    pub(super) before: Chain,
    /// The laptop that writes the stream.
    pub(super) laptop: Option<String>,
}

/// What a piece says of itself at its end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct End {
    pub(super) lines: u64,
    /// The chain up to its last line.
    pub(super) chain: Chain,
}

/// Writes a piece.
pub(super) fn write(head: &Head, lines: &[Linked]) -> String {
    let mut text = Header { season: Some(head.season), ends: true, ..Header::default() }.encode();
    let Head { season, stream, first, before, laptop } = head;
    text.push_str(&format!("\n{HEAD}season {season}, stream {stream}, first {first}, before {before}"));
    if let Some(laptop) = laptop {
        text.push_str(&format!(", laptop {}", in_one_line(laptop)));
    }
    text.push('\n');
    for line in lines {
        text.push_str(&line.text);
        text.push('\n');
    }
    let chain = lines.last().map_or(*before, |line| line.chain);
    text.push_str(&format!("{END}{} lines, chain {chain}\n", lines.len()));
    let end = journal::end_line(&text);
    text.push_str(&end);
    text.push('\n');
    text
}

/// True of a text that stays itself as a line of a piece.
pub(super) fn fits(text: &str) -> bool {
    !text.is_empty() && !text.contains('\n') && !text.ends_with('\r') && !text.starts_with(END)
}

/// Reads the start of a piece.
pub(super) fn head(start: &[u8]) -> Option<Head> {
    let mut lines = start.split(|byte| *byte == b'\n').skip(1);
    // What follows it shows that the line is whole.
    let (line, _) = (lines.next()?, lines.next()?);
    let said = std::str::from_utf8(line).ok()?.trim_end_matches('\r').strip_prefix(HEAD)?;
    let mut fields = said.splitn(5, ", ");
    let mut field = |name: &str| fields.next()?.strip_prefix(name);
    Some(Head {
        season: Uuid::try_parse(field("season ")?).ok()?,
        stream: Stream(Uuid::try_parse(field("stream ")?).ok()?),
        first: field("first ")?.parse().ok()?,
        before: Chain::parse(field("before ")?)?,
        laptop: field("laptop ").filter(|laptop| !laptop.is_empty()).map(in_one_line),
    })
}

/// Reads the end of a piece; `None` where the two last lines are not whole.
pub(super) fn end(rest: &[u8]) -> Option<End> {
    let mut lines = rest.rsplit(|byte| *byte == b'\n');
    if !lines.next()?.is_empty() {
        return None;
    }
    let mut line = || std::str::from_utf8(lines.next()?).ok().map(|line| line.trim_end_matches('\r'));
    let (last, own) = (line()?, line()?);
    let (lines, chain) = own.strip_prefix(END)?.split_once(" lines, chain ")?;
    let (counted, hash) = last.strip_prefix("# end: ")?.split_once(" lines, sha256 ")?;
    let lines: u64 = lines.parse().ok()?;
    // The header and the two comments are lines too.
    let whole = counted.parse() == Ok(lines.checked_add(3)?) && hash.len() == 64;
    whole.then_some(End { lines, chain: Chain::parse(chain)? })
}

/// The lines of a piece, each with its chain, up to the end or to where it was cut. What is left of a line that was cut is one too.
pub(super) fn lines(text: &str, before: Chain) -> Vec<Linked> {
    let mut chain = before;
    let body = text.split('\n').skip(2).map(|line| line.strip_suffix('\r').unwrap_or(line));
    body.take_while(|line| !line.starts_with(END) && !line.is_empty())
        .map(|line| {
            chain = chain.link(line);
            Linked { text: line.to_owned(), chain }
        })
        .collect()
}

/// Reads a whole piece; `None` where anything of it is not right.
pub(super) fn read(bytes: &[u8]) -> Option<(Head, Vec<Linked>)> {
    let text = std::str::from_utf8(bytes).ok()?;
    let (head, end) = (head(bytes)?, end(bytes)?);
    let lines = lines(text, head.before);
    let right = u64::try_from(lines.len()) == Ok(end.lines) && lines.last().is_some_and(|l| l.chain == end.chain);
    right.then_some((head, lines))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn piece() -> (Head, Vec<Linked>) {
        let head = Head {
            season: Uuid::from_u128(7),
            stream: Stream(Uuid::from_u128(9)),
            first: 3,
            before: Chain::START.link("a").link("b"),
            laptop: Some("ann, 2".to_owned()),
        };
        let mut chain = head.before;
        let line = |n: u32| {
            let text = format!("{{\"n\":{n}}}");
            chain = chain.link(&text);
            Linked { text, chain }
        };
        (head, (0..5).map(line).collect())
    }

    #[test]
    fn a_piece_comes_back_and_one_that_is_cut_anywhere_does_not() {
        let (about, lines) = piece();
        let text = write(&about, &lines);
        let whole = Some((about.clone(), lines));
        assert_eq!(read(text.as_bytes()), whole);
        assert_eq!(read(text.replace('\n', "\r\n").as_bytes()), whole, "{text}");
        assert_eq!(end(&text.as_bytes()[text.len() - END_BYTES..]), end(text.as_bytes()));
        assert_eq!(head(&text.as_bytes()[..HEAD_BYTES.min(text.len())]), Some(about));
        for cut in 0..text.len() {
            let cut = &text.as_bytes()[..cut];
            assert!(read(cut).is_none() && end(cut).is_none(), "{} bytes", cut.len());
        }
        for (what, other) in [("{\"n\":2}", "{\"n\":7}"), ("5 lines", "4 lines"), ("{\"n\":4}\n", "")] {
            assert_eq!(read(text.replacen(what, other, 1).as_bytes()), None, "{what}");
        }
    }

    #[test]
    fn a_piece_is_an_ordinary_journal() {
        let (head, lines) = piece();
        let reading = journal::read_all(&write(&head, &lines));
        // The lines of this test are no records; the end is right all the same.
        assert!(reading.faults.iter().all(|fault| (3..=7).contains(&fault.line)), "{:?}", reading.faults);
        assert_eq!(reading.header.and_then(|header| header.season), Some(head.season));
    }
}
