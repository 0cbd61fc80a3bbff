//! The journal, in and out: what is read is what was meant, and what is wrong is named.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot go on stops there"
)]

mod cases;
mod loggers;
mod refused;
mod refused_trials;
mod round;
#[path = "../common/strategies/mod.rs"]
mod strategies;
mod table;
mod version;
