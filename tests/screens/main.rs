//! The screens, driven by keys without a terminal: what a row of keys writes and shows, how the pages look, that no size of
//! window and no row of keys ends the program.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot go on stops there"
)]

mod applications;
mod bench_wide;
mod bound_keys;
mod charts;
mod clock;
mod closed;
mod codes;
mod color;
#[path = "../common/desk/mod.rs"]
mod desk;
mod door;
mod evening;
mod finding;
mod first_walk;
mod held_keys;
mod house_temperature;
#[path = "../common/large.rs"]
mod large;
mod last_year;
mod late_start;
mod mixing;
mod pages;
mod palettes;
mod plots;
mod pots;
mod random;
mod random_walk;
mod read_late;
mod rechecks;
#[path = "../common/rng.rs"]
mod rng;
mod round_wide;
#[path = "../common/season/mod.rs"]
mod season;
mod season_end;
mod set_up;
mod settle;
mod share;
mod sizes;
mod trial;
mod trial_from_draw_to_report;
mod unsaved;
mod walk_wide;
mod walking;
mod whose;
mod wide;
