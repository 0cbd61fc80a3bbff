//! What the charts show, of the demo season and of made-up ones; the pages they stand on.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot go on stops there"
)]

mod pages;
mod series;

use benchwalk::journal;
use benchwalk::record::{Line, Plan};
use benchwalk::season::Season;
use chrono::NaiveDate;

/// The demo season.
pub(crate) fn demo() -> Season {
    let lines = journal::read(include_str!("../../demo-data/demo.jsonl")).unwrap();
    let mut season = Season::new(Plan::default(), Vec::new());
    let mut entries = Vec::new();
    for line in lines {
        match line {
            Line::Entry(entry) => entries.push(entry),
            line => season.revise(line),
        }
    }
    Season::new(season.plan().clone(), entries)
}

/// The last day anything was written in a season.
pub(crate) fn last_day(season: &Season) -> NaiveDate {
    season.entries().iter().map(benchwalk::record::Entry::day).max().unwrap()
}
