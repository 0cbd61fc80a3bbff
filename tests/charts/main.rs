//! What the charts show, of the demo season and of made-up ones; the pages they stand on.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot go on stops there"
)]

mod climate;
mod pages;
mod series;

use benchwalk::journal;
use benchwalk::season::Season;
use chrono::NaiveDate;
use std::sync::LazyLock;

/// The demo season, read once for all tests.
static DEMO: LazyLock<Season> =
    LazyLock::new(|| Season::of(journal::read(include_str!("../../demo-data/demo.jsonl")).unwrap()));

/// The demo season.
pub(crate) fn demo() -> Season {
    DEMO.clone()
}

/// The last day anything was written in a season.
pub(crate) fn last_day(season: &Season) -> NaiveDate {
    season.entries().iter().map(benchwalk::record::Entry::day).max().unwrap()
}
