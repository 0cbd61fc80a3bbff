//! Ids made of content, for entries that come without one.

use super::{Entry, codec};
use sha2::{Digest, Sha256};
use uuid::Uuid;

/// The id of an entry made of its content: a `UUIDv8` of the milliseconds of its instant (48 bits) and the first bytes of the
/// SHA-256 of its canonical object. Two identical lines have one id; so have lines that differ in the order of their
/// fields, in spaces or in the spelling of a number only.
pub fn derived_id(entry: &Entry) -> Uuid {
    let hash = Sha256::digest(codec::canonical(entry).as_bytes());
    let ms = u64::try_from(entry.at.timestamp_millis()).unwrap_or(0);
    let head = ms.to_be_bytes().into_iter().skip(2);
    let mut bytes = [0u8; 16];
    for (to, from) in bytes.iter_mut().zip(head.chain(hash)) {
        *to = from;
    }
    Uuid::new_v8(bytes)
}
