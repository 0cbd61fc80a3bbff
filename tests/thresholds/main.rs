//! Every threshold of the rules from both sides, each case with the basis it goes by; how the record is read; and that a
//! season replayed day by day says what opening it on that day says.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot go on stops there"
)]

mod drying;
mod edges;
mod feed;
mod growth;
mod leaves;
mod light;
mod logger;
mod pests;
mod program;
mod reading;
mod replay;
#[path = "../common/rng.rs"]
mod rng;
mod round;
#[path = "../common/season/mod.rs"]
mod season;
mod standing;
mod tomorrow;
mod watched;
mod water;
mod whose;
mod young;
