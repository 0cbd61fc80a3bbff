//! The real program in a pseudo-terminal: keys in, a screen out, and what is in the file afterwards.
//!
//! `BENCHWALK_BIN` names the program to try, else the one built for the tests. Nothing here sleeps: everything waits for what
//! it expects, with a deadline.
#![cfg(unix)]
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot go on stops there"
)]

mod arriving;
mod copies;
mod day;
mod ends;
mod keys;
#[path = "../common/laptops/mod.rs"]
mod laptops;
#[path = "../common/large.rs"]
mod large;
mod loggers;
mod over_a_folder;
mod palettes;
mod pictures;
mod progress;
#[path = "../common/rng.rs"]
mod rng;
mod scans;
#[path = "../common/season/mod.rs"]
mod season;
mod set_up;
#[path = "../common/terminal/mod.rs"]
mod terminal;
mod together;
mod unsaved;
mod walk;
