//! Ids made of content, for records that come without one.

use super::{canonical, canonical_line};
use crate::record::{Entry, Line};
use sha2::{Digest, Sha256};
use uuid::Uuid;

/// The id of an entry made of its content: a `UUIDv8` of the milliseconds of its instant (48 bits) and the first bytes of the
/// SHA-256 of its canonical object. Two identical lines have one id; so have lines that differ in the order of their
/// fields, in spaces or in the spelling of a number only.
pub fn derived_id(entry: &Entry) -> Uuid {
    made_of(entry.at.timestamp_millis(), &canonical(entry))
}

/// The same of a line of the plan. One of version 1, which has no instant, begins with zeros.
fn derived_line_id(line: &Line) -> Uuid {
    let at = line.revision().and_then(|r| r.at);
    made_of(at.map_or(0, |at| at.timestamp_millis()), &canonical_line(line))
}

/// The id of a season, made of the id of the first line of its site: two laptops that begin with one journal hold one season.
pub fn season_id(first_site_line: Uuid) -> Uuid {
    made_of(0, &format!("season {first_site_line}"))
}

fn made_of(milliseconds: i64, content: &str) -> Uuid {
    let hash = Sha256::digest(content.as_bytes());
    let ms = u64::try_from(milliseconds).unwrap_or(0);
    let head = ms.to_be_bytes().into_iter().skip(2);
    let mut bytes = [0u8; 16];
    for (to, from) in bytes.iter_mut().zip(head.chain(hash)) {
        *to = from;
    }
    Uuid::new_v8(bytes)
}

impl Line {
    /// Its id: the one it was given, else the one made of its content.
    pub fn id(&self) -> Uuid {
        match self {
            Self::Entry(entry) => entry.id,
            line => line.revision().and_then(|r| r.id).unwrap_or_else(|| derived_line_id(line)),
        }
    }
}
