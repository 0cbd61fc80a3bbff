//! Keys typed before the season is read: they open the same bench as later, and never one that is closed.

use crate::harness::{Campaign, DEMO_DAY, count, demo, is_full};
use crate::large::large;
use crate::preload::Preload;
use crate::season::{date, entry, house, instant, sprayed};
use crate::terminal::{Pty, Start};
use crate::walker::{WIDE, at_round, begin, card};
use benchwalk::record::Line;
use chrono::Days;
use std::path::Path;
use std::sync::{Arc, Mutex};
use std::time::Duration;

/// Milliseconds after the first frame.
const DELAYS: [u64; 5] = [0, 2, 10, 30, 100];

/// Opens the season, types `w`, and gives the benches whose cards were ever shown.
fn opened(preload: &Preload, folder: &Path, arguments: &[&str], delay: Option<u64>) -> Vec<String> {
    let mut pty =
        Pty::start_as(Start { folder: Some(folder), size: WIDE, env: &preload.env(), ..Start::default() }, arguments);
    let cards = Arc::new(Mutex::new(Vec::new()));
    let theirs = Arc::clone(&cards);
    pty.observe(move |screen| {
        let mut cards = theirs.lock().unwrap();
        if let Some(bench) = card(&screen.contents()).filter(|bench| cards.last() != Some(bench)) {
            cards.push(bench);
        }
    });
    match delay {
        None => drop(pty.wait("the Round", at_round)),
        Some(delay) => {
            pty.wait_out("the first frame", |out| out.frames > 0);
            pty.pause(Duration::from_millis(delay));
        }
    }
    pty.send("w");
    pty.wait("a card", |text| card(text).is_some());
    // Back on the Round the season is read: a card that was judged before is judged again by then.
    pty.send("\u{1b}");
    pty.wait("the Round", at_round);
    pty.kill();
    let cards = cards.lock().unwrap();
    cards.clone()
}

/// All cards shown are the right one; how often `w` is typed ahead is the short form's number or the full one.
fn campaign(name: &'static str, folder: &Path, preload: &Preload, arguments: &[&str]) {
    let mut campaign = Campaign::new(name);
    let right = opened(preload, folder, arguments, None);
    assert_eq!(right.len(), 1, "{right:?}");
    let tries: Vec<u64> = DELAYS.into_iter().cycle().take(count(5, 20)).collect();
    campaign.each(
        &tries,
        |delay| format!("w {delay} ms after the first frame"),
        |_, delay| {
            let got = opened(preload, folder, arguments, Some(*delay));
            if got == right { Vec::new() } else { vec![format!("opens {got:?}, later {right:?}")] }
        },
    );
    campaign.end();
}

#[test]
fn a_key_typed_ahead_opens_no_closed_bench_of_a_big_season() {
    let (benches, days) = if is_full() { (300, 90) } else { (100, 30) };
    let folder = tempfile::tempdir().unwrap();
    let preload = Preload::new(folder.path());
    let today = date(8, 10) + Days::new(days.into());
    preload.stand_at(instant(today, (10, 0)));
    let mut lines = large(benches, days, 1).lines();
    lines.push(Line::Entry(entry(
        7,
        instant(today, (9, 0)),
        house("H1"),
        sprayed("demo soap, not a real product", 24.0),
    )));
    begin(&folder.path().join("season.db"), &lines);
    campaign("type-ahead, a big season", folder.path(), &preload, &["--season", "season.db", "--by", "zz"]);
}

#[test]
fn a_key_typed_ahead_opens_the_bench_of_the_demo_that_is_next() {
    let folder = tempfile::tempdir().unwrap();
    let preload = Preload::new(folder.path());
    demo(&folder.path().join("season.db"));
    let arguments = ["--season", "season.db", "--by", "zz", "--on", DEMO_DAY];
    campaign("type-ahead, the demo", folder.path(), &preload, &arguments);
}
