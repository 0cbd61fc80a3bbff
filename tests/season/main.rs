//! How a season reads its record: strikes, moves, pots standing, house and lot entries, keep-out, rules across lines.
//!
//! The expectations come from the journal's rules ("house rule"): there is nothing outside to hold them against.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot go on stops there"
)]

mod check;
mod history;
mod join;
mod keep_out;
mod places;
mod pots;
mod property;
#[path = "../common/season/mod.rs"]
mod season;
mod settle;
