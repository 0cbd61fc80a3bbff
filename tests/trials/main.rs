//! Trials as growers make them: lines of a journal become a season, its readings become tables, and these are analyzed.
//!
//! The arithmetic itself is held against outside answers in `tests/outside/trial.rs`; here it is reached through what is written.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot go on stops there"
)]

mod apart;
mod before;
mod days;
mod field;
mod laid;
mod losses;
mod position;
mod refused;
#[path = "../common/rng.rs"]
mod rng;
mod subsamples;
mod together;
