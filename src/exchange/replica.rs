//! What a season file is asked in an exchange.

use super::{Chain, Linked, Stream};

/// A branch of a stream as the season file numbers it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct BranchId(pub i64);

/// The lines of a stream that are held here; of a stream that went on in several ways there are several.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Branch {
    /// Its number here.
    pub id: BranchId,
    /// The stream.
    pub stream: Stream,
    /// The number of its last line.
    pub last: u64,
    /// The chain there.
    pub chain: Chain,
    /// The laptop that writes it.
    pub laptop: Option<String>,
    /// True of the stream that this laptop writes.
    pub own: bool,
}

/// What became of lines that were taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Taken {
    /// Lines that were not here.
    pub new: usize,
    /// Lines that another stream had brought.
    pub known: usize,
    /// Lines of a newer program, kept as they are.
    pub held: usize,
}

/// A season file. Every call is one transaction: all of it is on the disk when it returns, or nothing.
pub trait Replica {
    /// Why it could not be read or written.
    type Error;

    /// Makes sure that there is a stream which this laptop writes: a new one where the file was copied from another laptop.
    ///
    /// # Errors
    /// When the file cannot be written.
    fn own(&mut self) -> Result<(), Self::Error>;

    /// Every branch held here, by number, the empty ones too.
    ///
    /// # Errors
    /// When the file cannot be read.
    fn branches(&mut self) -> Result<Vec<Branch>, Self::Error>;

    /// The chain at a line; `None` where the line is not here, [`Chain::START`] at 0.
    ///
    /// # Errors
    /// When the file cannot be read.
    fn chain_at(&mut self, branch: BranchId, n: u64) -> Result<Option<Chain>, Self::Error>;

    /// A new branch of a stream, without lines.
    ///
    /// # Errors
    /// When the file cannot be written.
    fn begin(&mut self, stream: Stream, laptop: Option<&str>) -> Result<BranchId, Self::Error>;

    /// Takes lines that follow the one numbered `after`, whose chains were checked. Nothing is judged here but the shape of a line:
    /// what one laptop has accepted every other takes. Where the branch does not end at `after` nothing is taken.
    ///
    /// # Errors
    /// When the file cannot be written.
    fn take(&mut self, branch: BranchId, after: u64, lines: &[Linked]) -> Result<Taken, Self::Error>;

    /// At most so many lines after a number.
    ///
    /// # Errors
    /// When the file cannot be read.
    fn read(&mut self, branch: BranchId, after: u64, most: usize) -> Result<Vec<Linked>, Self::Error>;

    /// Writes what only other branches of this branch's stream have, and neither this branch nor any other stream, once more into
    /// the own stream. An own stream that is a branch of this stream is given up before, and a new one begins. Gives how many.
    ///
    /// # Errors
    /// When the file cannot be written.
    fn write_again(&mut self, branch: BranchId) -> Result<usize, Self::Error>;
}
