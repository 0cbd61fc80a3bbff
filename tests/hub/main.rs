//! The hub on a PostgreSQL server of its own: its script, who may what, the exchange over lines that are cut and with a server that is
//! killed, and what is said when it cannot be used.
//!
//! The server lies in a temporary folder and is asked over a socket there; where there is no PostgreSQL (`initdb` in
//! `/usr/lib/postgresql/*/bin` or on the path) each test says so and passes over. `BENCHWALK_HUB=required`, as in the gate, makes that
//! a failure. `.ci/load` runs the one that is ignored here.
#![cfg(all(unix, feature = "hub"))]
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot go on stops there"
)]
#![allow(clippy::print_stdout, reason = "what was passed over and the figures are printed")]
#![allow(clippy::cast_possible_truncation, reason = "small counts")]
#![allow(clippy::too_many_lines, reason = "a case is told from its start to its end")]

mod certificates;
mod failures;
mod faults;
mod killed;
mod laptop;
#[path = "../common/laptops/mod.rs"]
mod laptops;
mod load;
mod lost;
mod proxy;
mod put_back;
mod rights;
#[path = "../common/rng.rs"]
mod rng;
mod script;
#[path = "../common/season/mod.rs"]
mod season;
mod server;
mod stories;
#[path = "../common/terminal/mod.rs"]
mod terminal;
