//! Streams and the hash that chains their lines.

use sha2::{Digest, Sha256};
use std::fmt;
use uuid::Uuid;

/// Bytes of a chain: enough that two different lines never meet by chance.
const BYTES: usize = 16;

/// The lines of one season file, in the order they were written there. A random number, so that two files never begin the same.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Stream(pub Uuid);

impl Stream {
    /// What the laptop that writes it is called where it does not call itself anything: `laptop 9ace1e2f`.
    pub fn laptop(self) -> String {
        format!("laptop {}", self.to_string().get(..8).unwrap_or_default())
    }
}

impl fmt::Display for Stream {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

/// The hash of a line and of all before it in its stream: two sides whose chains are equal at a number have the same lines up to it.
/// It tells damage, not forgery.
///
/// ```
/// use benchwalk::exchange::Chain;
///
/// let first = Chain::START.link("{\"type\":\"site\"}");
/// assert_eq!(Chain::from_bytes(first.as_bytes()), Some(first));
/// assert_ne!(first.link("a"), first.link("b"));
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Chain(Option<[u8; BYTES]>);

impl Chain {
    /// Before the first line.
    pub const START: Self = Self(None);

    /// The chain with one more line: the first 16 bytes of the SHA-256 of the chain so far and the text.
    #[must_use]
    pub fn link(self, text: &str) -> Self {
        let mut hash = Sha256::new();
        hash.update(self.as_bytes());
        hash.update(text.as_bytes());
        let mut bytes = [0_u8; BYTES];
        for (to, from) in bytes.iter_mut().zip(hash.finalize()) {
            *to = from;
        }
        Self(Some(bytes))
    }

    /// Its bytes: none before the first line.
    pub fn as_bytes(&self) -> &[u8] {
        self.0.as_ref().map_or(&[], <[u8; BYTES]>::as_slice)
    }

    /// Of 16 bytes, or of none; `None` for any other number.
    pub fn from_bytes(bytes: &[u8]) -> Option<Self> {
        if bytes.is_empty() {
            return Some(Self::START);
        }
        bytes.try_into().ok().map(|bytes| Self(Some(bytes)))
    }

    /// Of the digits that [`fmt::Display`] gives; `-` before the first line.
    pub fn parse(text: &str) -> Option<Self> {
        if text == "-" {
            return Some(Self::START);
        }
        if text.len() != 2 * BYTES || !text.is_ascii() {
            return None;
        }
        let mut bytes = [0_u8; BYTES];
        for (at, to) in bytes.iter_mut().enumerate() {
            *to = u8::from_str_radix(text.get(2 * at..2 * at + 2)?, 16).ok()?;
        }
        Some(Self(Some(bytes)))
    }
}

impl fmt::Display for Chain {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0 {
            None => f.write_str("-"),
            Some(bytes) => bytes.iter().try_for_each(|byte| write!(f, "{byte:02x}")),
        }
    }
}

/// A line of a stream with the chain up to and with it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Linked {
    /// The line as JSON in its one spelling.
    pub text: String,
    /// The chain.
    pub chain: Chain,
}
