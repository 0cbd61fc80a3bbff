//! The season simulator: how early the warnings tell of a fault, and how often they cry wolf.
//!
//! Seeded seasons of six benches dry down by weather, pot, plant and season, are read with errors and now and then not at
//! all, and each carries one fault put in on a known day (or none). Nobody acts on the warnings, so that the time from a
//! warning to the visible loss can be measured. The table is printed by
//!
//! ```text
//! cargo test --release --test simulator -- --nocapture
//! ```
//!
//! and with it those of `designs`: what the layouts of trials are worth. `SEASONS=1000` before it takes more seasons. The crop's
//! model is ours (`tests/common/grow`); what it says of the rules holds as far as the model does.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot go on stops there"
)]

mod designs;
mod drying;
mod faults;
mod floor;
#[allow(dead_code, reason = "the demo season uses more of it")]
#[path = "../common/grow/mod.rs"]
mod grow;
mod lived;
mod measure;
mod replay;
#[path = "../common/rng.rs"]
mod rng;
#[path = "../common/season/mod.rs"]
mod season;
