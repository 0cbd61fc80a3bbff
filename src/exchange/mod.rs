//! One record on many laptops: streams of lines, their heads, and the one exchange that brings a laptop and a carrier to the same
//! set of lines.
//!
//! - A **stream** is the lines of one season file in the order they were written there, numbered 1, 2, 3 … without gaps and chained
//!   by hash ([`Chain`]). Streams are transport only: a season is the set of its lines, whatever stream brought them.
//! - A **head** is a stream's last number with its chain. Two sides that have the same heads have the same lines.
//! - A **carrier** ([`Carrier`]) is a place that streams are left at and fetched from: a folder, a stick, a hub. A **replica**
//!   ([`Replica`]) is a season file.
//! - A season file that was put back from a copy may go on from the same number in another way. Then a stream has several
//!   **branches** here; what only the branch has that the carrier does not hold is written once more into the own stream.
//!
//! [`exchange`] remembers nothing of earlier exchanges: it compares heads and copies what is missing. So it may be cut after any
//! call, and hubs and laptops may be put back from copies, without code of their own for that.

mod carrier;
mod chain;
mod exchanging;
mod gate;
#[cfg(test)]
pub(crate) mod memory;
mod replica;
mod sharing;
#[cfg(test)]
mod tests;

pub use carrier::{Arrival, Carrier, CarrierError, Head, Offered, Piece, Remark};
pub use chain::{Chain, Linked, Stream};
pub use exchanging::{Batches, Damaged, Exchanged, Stopped, exchange, take_only};
pub use gate::{Gate, Gated, Save};
pub use replica::{Branch, BranchId, Replica, Taken};
pub use sharing::{CarrierState, LaptopState, Sharing};
