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
//! | know every score that was typed, and find it again | [`Scores`], [`lines`], [`entries`], [`rescued`] |
//! | leave the screens | [`leave`] |
//! | have a small or read-only file system | [`in_own_mounts`], [`mount_small`], [`mount_read_only`] |
//! | judge a season file, from a copy | [`judge`] |
//! | run it under strace | [`have_strace`], [`traced`], [`strace_words`], [`Attached`] |
//! | have a season | [`demo`], [`load`], [`demo_journal`] |
#![allow(dead_code, unused_imports, reason = "each campaign takes what it needs")]

mod campaign;
mod command;
mod judge;
mod mounts;
mod saves;
mod scores;
mod seasons;
mod strace;

pub(crate) use campaign::{Campaign, count, have, is_full, together};
pub(crate) use command::{Done, Run, run};
pub(crate) use judge::{Judged, Row, beside, judge, judge_in_place};
pub(crate) use mounts::{Mounted, in_own_mounts, mount_read_only, mount_small};
pub(crate) use saves::Saves;
pub(crate) use scores::{Scores, asked, entries, leave, lines, rescued};
pub(crate) use seasons::{DEMO_DAY, copy, demo, demo_journal, load, walk, walk_demo};
pub(crate) use strace::{Attached, call, have_strace, strace_words, traced};
