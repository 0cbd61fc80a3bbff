//! The table: what each command takes, beside what SQLite takes for the same rows.

use crate::beside::BESIDE;
use crate::cost::{self, Cost};
use crate::season;
use chrono::{Days, NaiveDate};
use std::fs;

const BENCHWALK: &str = env!("CARGO_BIN_EXE_benchwalk");

/// Measures a season of this size and prints its table.
pub(crate) fn print(benches: u32, days: u32, runs: usize) {
    let folder = tempfile::tempdir().unwrap();
    let path = |name: &str| folder.path().join(name).display().to_string();
    let (journal, file, out) = (path("season.jsonl"), path("season.db"), folder.path().join("out"));
    let text = season::journal(benches, days);
    let entries = text.matches("\"type\":\"entry\"").count();
    fs::write(&journal, text).unwrap();
    let (year, month, day) = season::PLANTED;
    let planted = NaiveDate::from_ymd_opt(year, month, day).unwrap();
    let on = planted.checked_add_days(Days::new(u64::from(days) - 1)).unwrap().to_string();
    let exe = std::env::current_exe().unwrap().display().to_string();

    let import = [BENCHWALK, "import", "--season", &file, &journal];
    let first = cost::of(&import, &out, runs, || {
        for name in fs::read_dir(folder.path()).unwrap().map(|found| found.unwrap().path()) {
            if name.file_name().is_some_and(|name| name.to_string_lossy().starts_with("season.db")) {
                fs::remove_file(name).unwrap();
            }
        }
    });
    // The copy of the day is made at the first import that finds a file; it is no part of what is measured.
    let again = cost::of(&import, &out, runs + 1, || {});
    let new = path("bare.db");
    let mut inserted = cost::of(&[&exe, BESIDE, "insert", &file, &new], &out, 1, || {});
    for _ in 0..runs {
        fs::remove_file(&new).unwrap();
        cost::of(&[&exe, BESIDE, "insert", &file, &new], &out, 1, || {});
        let seconds = fs::read_to_string(&out).unwrap().trim().parse::<f64>().unwrap();
        inserted.seconds = inserted.seconds.min(seconds);
    }
    let shell = ["sqlite3", &file, "SELECT * FROM entry"];
    let has_shell = std::process::Command::new(shell[0]).arg("-version").output().is_ok_and(|out| out.status.success());
    let own = [exe.as_str(), BESIDE, "select", &file];
    let (name, selected) = if has_shell {
        ("sqlite3 \"SELECT * FROM entry\"", cost::of(&shell, &out, runs, || {}))
    } else {
        ("SELECT * FROM entry", cost::of(&own, &out, runs, || {}))
    };
    println!(
        "{benches} benches, {days} days, {entries} entries: the least of {runs} runs, processor time and most memory"
    );
    println!("{:<24}{:>18}   {:<30}{:>18}{:>8}   wanted", "work", "s, MB", "beside", "s, MB", "ratio");
    row("first import", first, ("bare insert", inserted), "3 x, 64 MB at 2,000");
    row("the same again", again, ("first import", first), "0.33 x");
    let review = ["--on", &on, "--season", &file, "review"];
    let reviewed = cost::of(&[&[BENCHWALK], review.as_slice()].concat(), &out, runs, || {});
    row("review", reviewed, (name, selected), "1.5 x, 40 MB (100 at 2,000)");
    let page = ["--on", &on, "--season", &file, "season", "--format", "html"];
    for (work, more) in [("season as HTML", [].as_slice()), ("the same with charts", &["--benches"])] {
        let drawn = cost::of(&[&[BENCHWALK], page.as_slice(), more].concat(), &out, runs.min(2), || {});
        row(work, drawn, (name, selected), if more.is_empty() { "2 s, page 4 MB" } else { "-" });
        println!("{:<24}{:>15.2} MB the page", "", fs::metadata(&out).unwrap().len() as f64 / 1e6);
    }
    println!();
}

fn row(work: &str, took: Cost, (beside, other): (&str, Cost), wanted: &str) {
    let of = |cost: Cost| format!("{:.2} s {:.0} MB", cost.seconds, cost.megabytes);
    let ratio = took.seconds / other.seconds;
    println!("{work:<24}{:>18}   {beside:<30}{:>18}{ratio:>7.2}x   {wanted}", of(took), of(other));
}
