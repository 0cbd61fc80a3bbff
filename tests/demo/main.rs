//! The demo season of `demo-data/demo.jsonl`, and the one of the year before in `last-year.jsonl` beside it: made by a seeded model of a crop, so that it can be re-made and checked.
//!
//! `BENCHWALK_MAKE_DEMO=1 cargo test --test demo` writes the files anew; without it they must be what is made here, must
//! keep the journal's own form and the rules across lines, and its day must flag just the benches it is meant to flag.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot go on stops there"
)]

#[allow(dead_code, reason = "the season simulator uses more of it")]
#[path = "../common/grow/mod.rs"]
mod grow;
mod last;
mod last_tests;
#[path = "../common/rng.rs"]
mod rng;
mod scan;
#[path = "../common/season/mod.rs"]
mod season;
mod story;
mod tests;
mod trial;
