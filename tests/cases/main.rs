//! Small seasons in journal form with the warnings that must and must not stand on a day; see `run`.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot go on stops there"
)]

mod run;
