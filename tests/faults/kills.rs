//! Killed (SIGKILL) while walking, up to 400 ms after a key and half of the times within 3 ms: whatever the screen had shown
//! as saved is in the file, and the file is sound.

use crate::harness::{Campaign, Saves, count, is_full, judge, load, run, together, walk};
use crate::rng::Rng;
use crate::terminal::{Pty, Start};
use std::path::Path;
use std::time::Duration;

/// Keys of a walk other than digits.
const OTHERS: [&str; 6] = ["d", "u", "\t", "-", "nA note\r", "b"];

#[test]
fn killed_while_walking_nothing_shown_as_saved_is_gone() {
    let mut campaign = Campaign::new("kills");
    let season = tempfile::tempdir().unwrap();
    load(&season.path().join("s.db"), if is_full() { 150 } else { 40 }, 20, 1);
    // Each lane kills the walk on one file again and again.
    let lanes: Vec<usize> = (0..count(1, 10)).collect();
    let found = together(&lanes, |_, lane| killed(&campaign, &season.path().join("s.db"), *lane));
    let shown: usize = found.iter().flatten().map(|(_, _, shown)| shown).sum();
    for (what, why, _) in found.iter().flatten() {
        campaign.case(what, why);
    }
    println!("kills: {shown} saves were shown");
    campaign.end();
}

/// The kills of one lane: each one's name, what did not hold, and how many saves its screen showed.
fn killed(campaign: &Campaign, season: &Path, lane: usize) -> Vec<(String, Vec<String>, usize)> {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("s.db");
    std::fs::copy(season, &file).unwrap();
    let mut before = judge(&file).rows.len();
    let times = count(12, 100);
    let one = |n: usize| {
        let mut rng = campaign.rng(lane * times + n);
        let by = format!("k{n:05}");
        let day = format!("2026-09-{:02}", 1 + n / 20);
        let start = Start { folder: Some(folder.path()), size: (100, 30), ..Start::default() };
        let mut pty = walk(start, &file, &day, &by);
        let saves = Saves::watch(&pty);
        let mut card = pty.send("w").wait("the card", |text| text.contains('['));
        while card.contains("[heights") {
            // An empty line passes heights over. The same key at once would be one held down.
            pty.pause(Duration::from_millis(350));
            card = pty.send("\r").wait("the next check", |text| text.contains('[') && top(text) != top(&card));
        }
        pty.send("3").wait("a save", |text| text.contains("saved: "));
        type_some(&mut pty, &mut rng);
        let most = if rng.chance(0.5) { 0.003 } else { 0.4 };
        let delay = Duration::from_secs_f64(rng.unit() * most);
        pty.pause(delay);
        pty.kill();
        let judged = judge(&file);
        let mut why = judged.bad;
        why.extend(saves.missing(&judged.rows, &by));
        if judged.rows.len() < before {
            why.push(format!("{before} rows before, {} now", judged.rows.len()));
        }
        before = judged.rows.len();
        if n % 10 == 9 {
            why.extend(left_in_order(folder.path(), &file, before));
        }
        (format!("lane {lane}, kill {n}, {delay:?} after the last key"), why, saves.shown())
    };
    (0..times).map(one).collect()
}

/// The bench and the checks of a card: all but its picture.
fn top(card: &str) -> (Option<&str>, Option<&str>) {
    (card.lines().next(), card.lines().find(|line| line.contains('[')))
}

/// Types one to eleven keys, at times faster than frames come.
fn type_some(pty: &mut Pty, rng: &mut Rng) {
    let mut last = "3";
    for _ in 0..=rng.below(11) {
        let digits: Vec<&str> = ["0", "1", "2", "3", "4", "5"].into_iter().filter(|digit| *digit != last).collect();
        let key = if rng.chance(0.85) { *rng.pick(&digits) } else { *rng.pick(&OTHERS) };
        last = key;
        pty.send(key);
        if rng.chance(0.6) {
            pty.settle(Duration::from_millis(*rng.pick(&[1, 4, 20])));
        }
    }
}

/// After a kill all of it can be exported; opened and left in order, nothing stays beside the file.
fn left_in_order(folder: &Path, file: &Path, rows: usize) -> Vec<String> {
    let mut why = Vec::new();
    let export = run(folder, &["--season", "s.db", "export"]);
    let exported = export.out().lines().filter(|line| line.contains("\"kind\":")).count();
    if export.code != Some(0) || exported != rows {
        why.push(format!("exported after the kill: {exported} of {rows} entries, {}", export.err()));
    }
    let start = Start { folder: Some(folder), ..Start::default() };
    let mut pty = walk(start, file, "2026-08-30", "kt");
    pty.send("q");
    let code = pty.ended().0.exit_code();
    let names = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name().into_string().unwrap());
    let strays: Vec<String> =
        names.filter(|name| !matches!(name.as_str(), "s.db" | "state" | "data" | "config")).collect();
    if code != 0 || !strays.is_empty() {
        why.push(format!("left with {code}, beside the file stay {strays:?}"));
    }
    why
}
