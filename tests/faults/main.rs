//! Campaigns of faults on the built program: nothing shown as saved is ever gone, whatever happens to the program, the disk,
//! the file and what is typed.
//!
//! Each file is a campaign: it lists cases, tries each, and fails with the list of all that did not hold. `cargo test --test
//! faults` tries a bounded part of each, `BENCHWALK_CAMPAIGN=full` all (`.ci/campaign`, with a release build). Some need
//! `strace`, a file system of their own or another user: where that cannot be had a campaign says so and passes over;
//! `BENCHWALK_FAULTS=required`, as in the gate, makes it a failure. `BENCHWALK_BIN` names another build.
//!
//! What campaigns share stands in `harness`; the pseudo-terminal is `tests/common/terminal`, seasons are `season` and `large`.
#![cfg(unix)]
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot go on stops there"
)]
#![allow(clippy::print_stdout, reason = "a campaign prints its figures")]
#![allow(clippy::unnecessary_wraps, clippy::type_complexity, reason = "tables of cases read best in one form")]
#![allow(clippy::cast_possible_truncation, reason = "small counts")]
#![allow(clippy::too_many_lines, clippy::needless_pass_by_value, reason = "a case is told from its start to its end")]
#![allow(clippy::explicit_auto_deref, reason = "what is picked is copied")]

mod cuts;
mod fulldisk;
mod harness;
mod kills;
#[path = "../common/large.rs"]
mod large;
mod locks;
mod powerloss;
mod readonly;
mod replaced;
mod rescue;
#[path = "../common/rng.rs"]
mod rng;
#[path = "../common/season/mod.rs"]
mod season;
#[path = "../common/terminal/mod.rs"]
mod terminal;
mod walking_errors;

// These stand between the program and the system's calls.
#[cfg(target_os = "linux")]
mod clocks;
#[cfg(target_os = "linux")]
mod month;
#[cfg(target_os = "linux")]
mod nfs;
#[cfg(target_os = "linux")]
mod preload;
#[cfg(target_os = "linux")]
mod typeahead;
#[cfg(target_os = "linux")]
mod walker;
#[cfg(target_os = "linux")]
mod wrong_clock;

// Files that are not as they should be, what is typed, and where.
mod damaged;
mod hostile;
mod journals;
mod lists;
mod mutants;
mod names;
mod randomkeys;
mod screens;
mod terminals;
