//! How quick the screens are while a large season is read and worked out: `cargo bench --bench loading`.
//!
//! Made-up seasons of 500 and of 2,000 benches, a hundred days written, in a file. The program is started in a pseudo-terminal of
//! 190 x 50, and from its first frame on the cursor is moved on the Round, key after key, until some time after everything is
//! known: how long until the first frame, until all benches are worked out and until all is known, and how long a key waits for
//! the frame that shows its effect. Then the same work in process, each step and each frame by itself: the longest of each.
//! In the end nine more years of 500 benches lie in the folder: the same starts, and `compare`, beside one year more and beside
//! nine. Nothing is asserted here. `cargo bench --bench loading -- 2000` tries one size.
#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    clippy::indexing_slicing,
    reason = "a benchmark prints, and stops where it cannot go on"
)]

mod saved;
#[path = "ratios/season.rs"]
mod season;
#[path = "../common/terminal/mod.rs"]
mod terminal;
mod times;

use benchwalk::app::App;
use benchwalk::input::{Event, Key, Look, Palette};
use benchwalk::limits::Limits;
use benchwalk::model::{Model, Now, Outcome};
use benchwalk::record::{Entry, Plan};
use benchwalk::season::Season;
use benchwalk::store::Store;
use chrono::DateTime;
use ratatui::Terminal;
use ratatui::backend::TestBackend;
use saved::saved;
use std::hint::black_box;
use std::path::Path;
use std::time::{Duration, Instant};
use terminal::{Pty, Start, is_round};
use times::{timed, told};
use uuid::Uuid;

const WINDOW: (u16, u16) = (190, 50);
const DAY: &str = "2026-11-17";
const MORNING: &str = "2026-11-17T07:30:00-05:00";

/// Keys go on this long after the benches are worked out, so that lots, houses and the day before are among it.
const AFTER: Duration = Duration::from_secs(2);

fn main() {
    let args: Vec<String> = std::env::args().skip(1).collect();
    // `cargo test --benches` only wants to know that it runs.
    if args.iter().all(|arg| arg != "--bench") {
        return one_size(12, 20, 1);
    }
    let sizes: Vec<u32> = args.iter().filter_map(|arg| arg.parse().ok()).collect();
    for benches in if sizes.is_empty() { vec![500, 2_000] } else { sizes } {
        one_size(benches, 100, 5);
        if benches == 500 {
            years(benches, 100);
        }
    }
}

/// The same season with the one before it, then with nine, in one folder.
fn years(benches: u32, days: u32) {
    let folder = tempfile::tempdir().unwrap();
    let text = season::journal(benches, days);
    let file = |year: u32| folder.path().join(format!("season-{year}.db"));
    for (before, name) in [(2025..2026, "one year before it"), (2017..2025, "nine years before it")] {
        for year in before.chain((name == "one year before it").then_some(2026)) {
            import(folder.path(), &file(year), &text.replace("2026-", &format!("{year}-")));
        }
        println!("{benches} benches, {days} days, {name} in the folder");
        in_terminal(folder.path(), &file(2026), 3);
        let start = Instant::now();
        let done = std::process::Command::new(terminal::program())
            .args(["compare", "--season", &shown(&file(2026)), "--on", DAY])
            .envs(terminal::FOLDERS.map(|(name, sub)| (name, folder.path().join(sub))))
            .output()
            .unwrap();
        assert!(done.status.success(), "{}", String::from_utf8_lossy(&done.stderr));
        told("compare", vec![start.elapsed()]);
    }
}

fn import(folder: &Path, file: &Path, text: &str) {
    let journal = folder.join("season.jsonl");
    std::fs::write(&journal, text).unwrap();
    let words = ["import".to_owned(), "--season".to_owned(), shown(file), shown(&journal)];
    let done = std::process::Command::new(terminal::program()).args(words).output().unwrap();
    assert!(done.status.success(), "{}", String::from_utf8_lossy(&done.stderr));
}

fn one_size(benches: u32, days: u32, times: usize) {
    println!("{benches} benches, {days} days");
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("season.db");
    import(folder.path(), &file, &season::journal(benches, days));
    in_terminal(folder.path(), &file, times);
    in_process(&file);
}

fn shown(path: &Path) -> String {
    path.display().to_string()
}

/// The bench that the mark of the list stands before; empty where it stands before none, or before two while a frame comes in.
fn marked(screen: &vt100::Screen) -> String {
    let of = |row: String| Some(row.strip_prefix("▸ ")?.split_whitespace().next()?.to_owned());
    let mut all = screen.rows(0, screen.size().1.get()).filter_map(of);
    all.next().filter(|_| all.next().is_none()).unwrap_or_default()
}

fn in_terminal(folder: &Path, file: &Path, times: usize) {
    let words =
        ["--season".to_owned(), shown(file), "--on".to_owned(), DAY.to_owned(), "--by".to_owned(), "kt".to_owned()];
    let (mut first, mut all, mut known, mut waits, mut early) = (vec![], vec![], vec![], vec![], vec![]);
    for n in 0..=times {
        let start = Instant::now();
        let mut pty = Pty::start_as(Start { size: WINDOW, folder: Some(folder), ..Start::default() }, &words);
        pty.wait("the first frame", |text| text.starts_with("Round"));
        // The first start of all makes the copy of the day.
        if n == 0 {
            pty.wait("everything worked out", is_round);
            pty.send("\u{11}");
            pty.ended();
            continue;
        }
        first.push(start.elapsed());
        let mut worked_out = None;
        let mut key = 0_usize;
        while worked_out.is_none_or(|at: Duration| start.elapsed() < at + AFTER) {
            pty.wait_out("the mark", |out| !marked(out.screen.screen()).is_empty());
            let before = pty.with_screen(marked);
            let sent = Instant::now();
            pty.send(if key.is_multiple_of(2) { "j" } else { "k" });
            let moved = |at: &str| !at.is_empty() && at != before;
            pty.wait_out("the mark to move", |out| moved(&marked(out.screen.screen())));
            let wait = sent.elapsed();
            if worked_out.is_none() {
                worked_out = is_round(&pty.text()).then(|| start.elapsed());
                early.push(wait);
            }
            waits.push(wait);
            key += 1;
            pty.pause(Duration::from_millis(3));
        }
        all.extend(worked_out);
        pty.send("\u{11}");
        pty.ended();
        // Without a key: what is left from yesterday is the last to be known, and the page asks for nothing further.
        let start = Instant::now();
        let mut pty = Pty::start_as(Start { size: WINDOW, folder: Some(folder), ..Start::default() }, &words);
        pty.send("e");
        pty.wait("the Evening", |text| text.starts_with("Evening") && !text.contains("Calculating"));
        known.push(start.elapsed());
        pty.send("\u{11}");
        pty.ended();
    }
    told("start to first frame", first);
    told("start to all benches worked out, keys meanwhile", all);
    told("start to the Evening, pressed at the start", known);
    told("a key to its effect, until then", early);
    told("a key to its effect, all of them", waits);
}

fn in_process(file: &Path) {
    let now = |ms: u64| Now {
        at: DateTime::parse_from_rfc3339(MORNING).unwrap(),
        ms,
        id: Uuid::from_u128(0x0199_0000_0000_7000_8000_0000_0000_0000 | (u128::from(ms) << 36)),
    };
    let look = Look { color: true, ascii: false, palette: Palette::Usual };
    let begun = Instant::now();
    let store = Store::open_read_only(file).unwrap();
    let plan: Plan = store.load_plan().unwrap();
    let mut model = Model::new(&Season::new(plan, Vec::new()), Limits::default(), "kt".into(), now(0), look);
    model.wait_for_entries();
    let mut app = App::new(model);
    let mut terminal = Terminal::new(TestBackend::new(WINDOW.0, WINDOW.1)).unwrap();
    app.event(Event::Resize(WINDOW.0, WINDOW.1), now(0));
    let mut frames = Vec::new();
    let mut draw = |app: &App, frames: &mut Vec<Duration>| {
        timed(frames, || {
            black_box(terminal.draw(|frame| app.view(frame)).unwrap());
        });
    };
    draw(&app, &mut frames);
    let (mut read, mut entries, mut after) = (Vec::new(), Vec::<Entry>::new(), 0);
    loop {
        let slice = timed(&mut read, || store.load_entries(after, 500)).unwrap();
        entries.extend(slice.entries);
        after = slice.last;
        if slice.done {
            break;
        }
    }
    let mut index = Vec::new();
    timed(&mut index, || app.answer(Outcome::Loaded(entries)));
    draw(&app, &mut frames);
    let (mut benches, mut rest) = (Vec::new(), Vec::new());
    while timed(&mut benches, || app.idle_benches()) {
        if benches.len().is_multiple_of(50) {
            draw(&app, &mut frames);
        }
    }
    let mut more = true;
    while more {
        more = timed(&mut rest, || app.idle());
        draw(&app, &mut frames);
    }
    println!("  in process: all known {:.1?} after the opening", begun.elapsed());
    let keys = pressed(&mut app, (&mut rest, now), |app| draw(app, &mut frames));
    for (what, times) in [
        ("500 entries read", read),
        ("all of them indexed", index),
        ("a few benches", benches),
        ("one step at rest", rest),
        ("update of a key", keys),
        ("one frame", frames),
    ] {
        let sum: Duration = times.iter().sum();
        told(&format!("{what} ({sum:.1?} in all)"), times);
    }
}

/// Keys on the Round, the Walk card (whose scores are saved), the Evening, a bench's page and the Season page: how long the update
/// of each took, and in `rest` each step of what follows from it.
fn pressed(
    app: &mut App,
    (rest, now): (&mut Vec<Duration>, impl Fn(u64) -> Now),
    mut draw: impl FnMut(&App),
) -> Vec<Duration> {
    let row = Key::row("rjk{PgDn}jk{PgUp}w3{Tab}2{Esc}{Esc}ejj{PgDn}k{Enter}{Right}{Esc}{Esc}sj{Esc}").unwrap();
    let mut keys = Vec::new();
    for (n, key) in row.iter().cycle().take(5 * row.len()).enumerate() {
        let effects = timed(&mut keys, || app.event(Event::Key(*key), now(1_000 + 500 * n as u64)));
        draw(app);
        if !effects.is_empty() {
            timed(&mut keys, || saved(app, effects));
        }
        while timed(rest, || app.idle_benches()) {}
        while timed(rest, || app.idle()) {}
    }
    keys
}
