//! One record on many laptops: real season files, exchanged through a carrier in memory that is cut, copied and put back.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot go on stops there"
)]

mod cases;
mod held;
#[path = "../common/hub.rs"]
mod hub;
mod lines;
mod lives;
mod mirror;
mod seats;
mod waits;

use benchwalk::exchange::{Carrier, CarrierError, Chain, Head, Linked, Offered, Piece, Stream};
