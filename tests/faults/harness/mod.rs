//! What the campaigns share.
//!
//! | to | use |
//! | --- | --- |
//! | choose how many cases are tried | [`count`] (short, full), [`is_full`] |
//! | try cases, two at a time at full count, and fail with all that did not hold | [`Campaign::new`], [`Campaign::each`], [`Campaign::end`] |
//! | have the same random numbers for the same case | [`Campaign::rng`] |
//! | pass over what cannot be had here | [`have`] |
//! | run a command with a deadline | [`run`], [`Run`] |
//! | walk in a pseudo-terminal | [`Pty::start_as`](crate::terminal::Pty::start_as), [`walk`] |
//! | know everything a screen showed as saved | [`Saves::watch`], [`Saves::missing`] |
//! | judge a season file, from a copy | [`judge`] |
//! | have a season | [`demo`], [`load`], [`demo_journal`] |
#![allow(dead_code, unused_imports, reason = "each campaign takes what it needs")]

mod campaign;
mod command;
mod judge;
mod saves;
mod seasons;

pub(crate) use campaign::{Campaign, count, have, is_full, together};
pub(crate) use command::{Done, Run, run};
pub(crate) use judge::{Judged, Row, beside, judge, judge_in_place};
pub(crate) use saves::Saves;
pub(crate) use seasons::{DEMO_DAY, copy, demo, demo_journal, load, walk};
