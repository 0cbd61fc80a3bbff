//! How quick the screens are: `cargo bench --bench keys`.
//!
//! On the demo, and on a season of 500 benches with sixty days written, and a trial of 96 plots read on six days: from the start
//! of the program to its first frame (in a pseudo-terminal), from a key to its frame (update and view, and in the
//! pseudo-terminal), one bench worked out, all benches, and what concerns lots and houses. The pages that grow with the window
//! are tried at 80 x 24 and at 190 x 50, where all their panels are shown. It prints medians, the 99th of a hundred, and how
//! much that is of what is wanted; nothing is asserted here. `cargo bench --bench keys -- Evening` tries one page of the season
//! of 500 benches, for a profile.
#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    clippy::indexing_slicing,
    reason = "a benchmark prints, and stops where it cannot go on"
)]

mod saved;
#[path = "../common/terminal/mod.rs"]
mod terminal;
mod times;

use benchwalk::app::App;
use benchwalk::input::{Event, Key, Look, Palette};
use benchwalk::journal;
use benchwalk::limits::Limits;
use benchwalk::model::{Model, Now, Summary};
use benchwalk::season::Season;
use chrono::DateTime;
use ratatui::Terminal;
use ratatui::backend::TestBackend;
use saved::saved;
use std::fmt::Write;
use std::hint::black_box;
use std::time::{Duration, Instant};
use terminal::{Pty, Start, is_round};
use times::{timed, told};
use uuid::Uuid;

/// From a key to its frame, the 99th of a hundred.
const KEY: Duration = Duration::from_millis(8);
/// From the start of the program to its first frame.
const FIRST: Duration = Duration::from_millis(50);

/// The window with all panels, and the smallest that shows everything.
const LARGE: (u16, u16) = (190, 50);
const SMALL: (u16, u16) = (80, 24);

/// A page: the keys that open it, and those pressed on it over and over.
const PAGES: [(&str, &str, &str); 6] = [
    ("Round", "{Esc}{Esc}r{Home}", "jj{PgDn}jk{PgUp}j"),
    ("Walk", "{Esc}{Esc}rw", "3{Tab}{Tab}{Shift-Tab}"),
    ("Evening", "{Esc}{Esc}e", "jj{PgDn}jk{PgUp}j"),
    ("Bench", "{Esc}{Esc}r{Enter}", "{Right}jk{Right}{Left}"),
    ("Bench with charts", "{Esc}{Esc}r{Enter}c", "{Right}{Right}{Left}"),
    ("Trial", "{Esc}{Esc}rt", "{Tab},{Tab}.v{Tab}joz{Tab}k"),
];

const LOOK: Look = Look { color: true, ascii: false, palette: Palette::Usual };

/// The morning on which the season of 500 benches is looked at.
const LARGE_AT: &str = "2026-10-12T07:30:00-04:00";

const DEMO: &str = include_str!("../../demo-data/demo.jsonl");

fn main() {
    // `cargo test --benches` only wants to know that it runs.
    let quick = !std::env::args().any(|a| a == "--bench");
    if let Some(page) = PAGES.into_iter().find(|(page, ..)| std::env::args().any(|a| a == *page)) {
        one_page(page, if quick { 12 } else { 500 });
        return;
    }
    for (name, text, now) in [
        ("demo (24 benches)", DEMO.to_owned(), "2026-10-14T07:30:00-04:00"),
        ("500 benches, 60 days", large(if quick { 12 } else { 500 }), LARGE_AT),
    ] {
        println!("{name}");
        in_process(&text, now, quick);
        in_terminal(&text, now, quick);
    }
}

fn one_page(page: (&str, &str, &str), benches: u32) {
    let season = season(&large(benches));
    let mut app = App::new(Model::new(&season, Limits::default(), "kt".into(), stamp(LARGE_AT, 0), LOOK));
    while app.idle() {}
    let mut presses = 0;
    let mut now = || {
        presses += 1;
        stamp(LARGE_AT, presses)
    };
    on_page(&mut app, page, &mut now, 1_000);
}

/// The n-th key of a run, half a second after the one before.
fn stamp(from: &str, n: u64) -> Now {
    Now {
        at: DateTime::parse_from_rfc3339(from).unwrap(),
        ms: n * 500,
        id: Uuid::from_u128(0x0199_0000_0000_7000_8000_0000_0000_0000 | (u128::from(n) << 36)),
    }
}

/// Prints them against what is wanted of the 99th of a hundred.
fn compared(what: &str, times: Vec<Duration>, wanted: Duration) -> Duration {
    let mut sorted = times.clone();
    sorted.sort_unstable();
    let late = sorted[(sorted.len() * 99 / 100).min(sorted.len() - 1)];
    told(what, times);
    println!("  {:<48} p99 is {:.2} of the {wanted:?} wanted", "", late.as_secs_f64() / wanted.as_secs_f64());
    late
}

fn season(text: &str) -> Season {
    Season::of(journal::read(text).unwrap())
}

fn in_process(text: &str, now: &str, quick: bool) {
    let mut built = Vec::new();
    let mut kept = None;
    timed(&mut built, || kept = Some(season(text)));
    told("journal read and season indexed", built);
    let season = kept.unwrap();
    let stamp = |n: u64| stamp(now, n);
    let mut app = App::new(Model::new(&season, Limits::default(), "kt".into(), stamp(0), LOOK));
    let mut steps = Vec::new();
    let mut more = true;
    while more {
        timed(&mut steps, || more = app.idle());
    }
    println!("  everything worked out once: {:.1?} in {} steps", steps.iter().sum::<Duration>(), steps.len());
    told("one step of it", steps);
    let (season, day) = (&app.model.season, app.model.day);
    let mut one = Vec::new();
    for bench in season.benches().iter().cycle().take(if quick { 20 } else { 500 }) {
        timed(&mut one, || {
            let code = std::slice::from_ref(&bench.bench);
            black_box(Summary::of_all(season, code, day, &app.model.limits));
        });
    }
    told("one bench worked out anew", one);
    let mut presses = 0;
    for page in PAGES {
        on_page(
            &mut app,
            page,
            &mut || {
                presses += 1;
                stamp(presses)
            },
            if quick { 10 } else { 300 },
        );
    }
    let mut terminal = Terminal::new(TestBackend::new(LARGE.0, LARGE.1)).unwrap();
    let (mut update, mut view, mut after) = (Vec::new(), Vec::new(), Vec::new());
    let row = Key::row("{Esc}{Esc}rw3-2{Esc}jj{Enter}{Down}{Esc}e{Down}r").unwrap();
    for (n, key) in row.iter().cycle().take(if quick { 40 } else { 1_000 }).enumerate() {
        let mut effects = Vec::new();
        timed(&mut update, || effects = app.event(Event::Key(*key), stamp(n as u64 + 100_000)));
        timed(&mut view, || {
            black_box(terminal.draw(|frame| app.view(frame)).unwrap());
        });
        saved(&mut app, effects);
        while app.idle_benches() {}
        let slow = app.patience().is_some_and(|p| p.is_zero() || n % 13 == 0);
        let mut more = slow;
        while more {
            timed(&mut after, || more = app.idle());
        }
    }
    let both = update.iter().zip(&view).map(|(u, v)| *u + *v).collect();
    told("key: update", update);
    told("key: view (190 x 50)", view);
    compared("key to frame, in process (190 x 50)", both, KEY);
    told("one step of slow work at rest", after);
}

/// From a key to its frame on one page, in the small window and in the large one.
fn on_page(app: &mut App, (page, open, keys): (&str, &str, &str), now: &mut impl FnMut() -> Now, presses: usize) {
    let (open, keys) = (Key::row(open).unwrap(), Key::row(keys).unwrap());
    let mut late = Vec::new();
    for (columns, rows) in [SMALL, LARGE] {
        let mut terminal = Terminal::new(TestBackend::new(columns, rows)).unwrap();
        app.event(Event::Resize(columns, rows), now());
        let (mut opened, mut times) = (Duration::ZERO, Vec::new());
        for (n, key) in open.iter().chain(keys.iter().cycle().take(presses)).enumerate() {
            let (mut effects, now) = (Vec::new(), now());
            let mut both = Vec::new();
            timed(&mut both, || {
                effects = app.event(Event::Key(*key), now);
                black_box(terminal.draw(|frame| app.view(frame)).unwrap());
            });
            saved(app, effects);
            while app.idle_benches() {}
            while app.idle() {}
            if n < open.len() {
                opened = both[0];
            } else {
                times.extend(both);
            }
        }
        println!("  {page}, {columns} x {rows}: opens in {opened:.3?}");
        late.push(compared(&format!("{page}, {columns} x {rows}"), times, KEY));
    }
    println!("  {page}: 190 x 50 takes {:.2} times 80 x 24", late[1].as_secs_f64() / late[0].as_secs_f64());
}

fn in_terminal(text: &str, now: &str, quick: bool) {
    let day = now.get(..10).unwrap();
    let mut first = Vec::new();
    let large = || Start { size: LARGE, ..Start::default() };
    let folder = tempfile::tempdir().unwrap();
    let journal = folder.path().join("season.jsonl");
    std::fs::write(&journal, text).unwrap();
    let file = folder.path().join("season.db").display().to_string();
    let mut import = Pty::start(&["import", "--season", &file, &journal.display().to_string()]);
    assert_eq!(import.ended().0.exit_code(), 0, "{}", import.text());
    for _ in 0..if quick { 1 } else { 20 } {
        let start = Instant::now();
        let mut pty = Pty::start_as(large(), &["--season", &file, "--on", day, "--by", "kt"]);
        pty.wait("the first frame", |text| text.starts_with("Round"));
        first.push(start.elapsed());
        pty.send("q");
        pty.ended();
    }
    compared("start to first frame, in a terminal (190 x 50)", first, FIRST);
    let mut pty = Pty::start_as(large(), &["--season", &file, "--on", day, "--by", "kt"]);
    pty.wait("everything worked out", is_round);
    let mut keys = Vec::new();
    for n in 0..if quick { 10 } else { 300 } {
        let (key, mark) = if n % 2 == 0 { ("w", "Walk") } else { ("r", "Round") };
        let start = Instant::now();
        pty.send(key);
        pty.wait("the frame", |text| text.starts_with(mark));
        keys.push(start.elapsed());
    }
    compared("key to frame, in a terminal (190 x 50)", keys, KEY);
    pty.send("\u{11}");
    pty.ended();
}

/// A season of so many benches in ten houses, ten lots, sixty days of water, weekly roots and heights; with a trial.
fn large(benches: u32) -> String {
    let mut text = String::from(
        "{\"type\":\"journal\",\"version\":1}\n{\"type\":\"site\",\"name\":\"Large\",\"latitude\":44.1,\"longitude\":-70.2,\
         \"time_zone\":\"America/New_York\",\"units\":\"us\"}\n",
    );
    for lot in 0..10 {
        writeln!(
            text,
            "{{\"type\":\"lot\",\"lot\":\"L{lot}\",\"cultivar\":\"red\",\"container\":\"6.5 in\",\"cuttings_per_pot\":1,\
             \"pots\":4000,\"planted\":\"2026-08-13\",\"pinch\":\"soft\",\"response_weeks\":9,\"nights\":\"natural\",\
             \"ready_by\":\"2026-11-27\",\"slow_release_g\":4,\"pot_height_cm\":11.4,\"height_low_cm\":35.6,\
             \"height_high_cm\":40.6}}"
        )
        .unwrap();
    }
    let mut seed = 1_u32;
    let mut next = |most: u32| {
        seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        (seed >> 16) % most
    };
    for n in 0..benches {
        let (bench, house, lot) = (format!("E{n:03}"), n / 50, n % 10);
        writeln!(text, "{{\"type\":\"bench\",\"bench\":\"{bench}\",\"house\":\"H{house}\",\"order\":{n}}}").unwrap();
        writeln!(
            text,
            "{{\"type\":\"placement\",\"bench\":\"{bench}\",\"lot\":\"L{lot}\",\"pots\":80,\"from\":\"2026-08-13\"}}"
        )
        .unwrap();
        let first = chrono::NaiveDate::from_ymd_opt(2026, 8, 13).unwrap();
        for (i, day) in first.iter_days().take(60).enumerate() {
            let mut line = |time: &str, rest: String| {
                writeln!(
                    text,
                    "{{\"type\":\"entry\",\"at\":\"{day}T{time}:00-04:00\",\"by\":\"kt\",\"bench\":\"{bench}\",{rest}}}"
                )
                .unwrap();
            };
            line("07:05", format!("\"kind\":\"water\",\"level\":{}", 2 + next(4)));
            match i % 7 {
                0 => line("07:06", format!("\"kind\":\"roots\",\"score\":{}", next(2))),
                1 => {
                    line(
                        "07:06",
                        "\"kind\":\"pests\",\"pest\":\"whitefly\",\"inspected\":20,\"infested\":0".to_owned(),
                    );
                }
                2 if i > 20 => line("07:06", format!("\"kind\":\"height\",\"cm\":[{0},{0}.5,{0}.2]", 18 + i / 5)),
                _ => {}
            }
            if i == 16 {
                line("09:00", "\"kind\":\"pinched\",\"how\":\"soft\"".to_owned());
            }
        }
    }
    text.push_str(&trial("E000"));
    text
}

/// A trial of 96 plots on a bench, in 24 blocks of four rates, its heights and greenness read on six days.
fn trial(bench: &str) -> String {
    let mut text = String::from(
        "{\"type\":\"trial\",\"trial\":\"T1\",\"lot\":\"L0\",\"question\":\"rate\",\"treatments\":[\"0 g\",\"4 g\",\"8 g\",\"12 g\"],\
         \"rates\":[0,4,8,12],\"rate_unit\":\"g per pot\",\"design\":\"randomized-blocks\",\"seed\":\"48213907\",\
         \"reads\":[\"height\",\"greenness\"],\"from\":\"2026-08-31\"}\n",
    );
    for n in 0..96_u32 {
        let (plot, block, at) = (n + 1, n / 4 + 1, n % 4);
        let treatment = (at + block * 7 / 3) % 4;
        writeln!(
            text,
            "{{\"type\":\"plot\",\"plot\":\"T1.{plot}\",\"trial\":\"T1\",\"bench\":\"{bench}\",\"row\":{block},\"column\":{},\
             \"block\":{block},\"treatment\":\"{} g\",\"pots\":1}}",
            at + 1,
            4 * treatment
        )
        .unwrap();
    }
    for (week, day) in
        ["2026-08-31", "2026-09-07", "2026-09-14", "2026-09-21", "2026-09-28", "2026-10-05"].iter().enumerate()
    {
        for n in 0..96_u32 {
            let odd = f64::from(n * 37 % 11) / 4.0 + f64::from(n / 4) / 6.0;
            let height = 18.0 + 3.0 * week as f64 + odd + f64::from((n % 4 + (n / 4 + 1) * 7 / 3) % 4);
            for rest in [
                format!("\"kind\":\"height\",\"cm\":[{height:.1}]"),
                format!("\"kind\":\"greenness\",\"class\":{}", 1 + n % 5),
            ] {
                writeln!(
                    text,
                    "{{\"type\":\"entry\",\"at\":\"{day}T08:00:00-04:00\",\"by\":\"kt\",\"bench\":\"{bench}\",\"plot\":\"T1.{}\",{rest}}}",
                    n + 1
                )
                .unwrap();
            }
        }
    }
    text
}
