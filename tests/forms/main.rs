//! The forms, driven by keys without a terminal: every kind filled in, put right, saved and taken back; one bench, several, a
//! house, a lot; warnings answered by the form that is filled in for them; how a form looks at every size of window.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::string_slice,
    clippy::format_collect,
    clippy::bool_to_int_with_if,
    unreachable_pub,
    reason = "a test that cannot go on stops there; the desk belongs to another test"
)]

mod answered;
mod cautions;
mod dates;
#[path = "../common/desk/mod.rs"]
#[allow(dead_code, reason = "the desk serves more tests than these")]
mod desk;
mod every_kind;
mod looks;
mod places;
mod readings;
mod rights;
#[path = "../common/rng.rs"]
mod rng;
#[path = "../common/season/mod.rs"]
mod season;
mod strikes;
mod trial;
