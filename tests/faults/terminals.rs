//! Terminals of every kind and size, streams closed or led elsewhere, signals, stops, and a terminal that vanishes: no panic, the
//! terminal given back, what was shown as saved there, and an exit code that says how it ended.

use crate::harness::{Campaign, DEMO_DAY, Run, demo, is_full, judge};
use crate::mutants::controls;
use crate::screens::{Screens, given_back, raw_controls};
use crate::terminal::{Start, is_round, program};
use std::ffi::OsString;
use std::path::Path;
use std::time::Duration;

const BY: &str = "tm";

/// One in so many is tried in the short form.
const EVERY: usize = 5;

/// How long anything may take on a busy machine.
const PATIENCE: Duration = Duration::from_secs(30);

/// What is tried.
#[derive(Debug, Clone)]
enum Case {
    /// A variable set, or taken away.
    Variable(&'static str, Option<String>),
    /// Opened in a terminal of so many columns and rows.
    Size(u16, u16),
    /// Made so big while open.
    Resized(u16, u16),
    /// Opened with its streams led elsewhere, as a shell writes it.
    Streams(&'static str),
    /// A command without a terminal, as a shell writes it, and the exit codes it may have.
    Command(&'static str, &'static [i32]),
    /// A signal, on the Round or with a note half typed.
    Signal(&'static str, i32, Page),
    /// Stopped and continued, by these signals in their order; the last ones may end it.
    Stopped(&'static [&'static str], i32),
    /// The terminal goes away; the signal that says so may be ignored.
    Vanished(Page, &'static str),
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Page {
    Round,
    Note,
}

/// Variables that say what the terminal is.
fn variables() -> Vec<Case> {
    let mut all = Vec::new();
    let terms = [
        "xterm-256color",
        "xterm",
        "vt100",
        "linux",
        "screen-256color",
        "tmux-256color",
        "xterm-kitty",
        "alacritty",
        "foot",
        "dumb",
        "",
        "nonsense",
        "\u{1b}[31m",
    ];
    all.extend(terms.map(|term| Case::Variable("TERM", Some(term.to_owned()))));
    all.push(Case::Variable("TERM", Some("x".repeat(5_000))));
    all.push(Case::Variable("TERM", None));
    let locales = [
        "C",
        "POSIX",
        "C.UTF-8",
        "en_US.UTF-8",
        "de_DE@euro",
        "ja_JP.eucJP",
        "tr_TR.UTF-8",
        "",
        "nonsense",
        "\u{1b}[31m",
    ];
    all.extend(locales.map(|locale| Case::Variable("LC_ALL", Some(locale.to_owned()))));
    for (name, value) in [
        ("NO_COLOR", "1"),
        ("COLORTERM", "truecolor"),
        ("COLUMNS", "99999"),
        ("LINES", "-1"),
        ("TERM_PROGRAM", "ghostty"),
        ("TERM_PROGRAM", "wezterm"),
    ] {
        all.push(Case::Variable(name, Some(value.to_owned())));
    }
    all
}

fn cases() -> Vec<Case> {
    let mut all = variables();
    let sizes = [
        (0, 0),
        (0, 24),
        (80, 0),
        (1, 1),
        (2, 2),
        (10, 5),
        (39, 11),
        (40, 12),
        (300, 100),
        (1_000, 200),
        (65_535, 1),
        (1, 65_535),
    ];
    all.extend(sizes.map(|(columns, rows)| Case::Size(columns, rows)));
    all.extend(sizes.map(|(columns, rows)| Case::Resized(columns, rows)));
    let streams = ["<&-", "</dev/null", ">&-", ">out.txt", "| cat", "2>&-", "2>err.txt", "2>/dev/full", "<&- >&- 2>&-"];
    all.extend(streams.map(Case::Streams));
    all.extend(commands());
    for (name, number) in
        [("HUP", 1), ("INT", 2), ("QUIT", 3), ("USR1", 10), ("USR2", 12), ("PIPE", 13), ("ALRM", 14), ("TERM", 15)]
    {
        all.extend([Page::Round, Page::Note].map(|page| Case::Signal(name, number, page)));
    }
    all.extend([
        Case::Stopped(&["TSTP", "CONT"], 0),
        Case::Stopped(&["STOP", "CONT"], 0),
        Case::Stopped(&["TSTP", "CONT", "TSTP", "CONT", "STOP", "CONT"], 0),
        Case::Stopped(&["CONT"], 0),
        Case::Stopped(&["CONT", "WINCH", "CONT"], 0),
        Case::Stopped(&["STOP", "TERM", "CONT"], 143),
        Case::Stopped(&["TSTP", "HUP", "CONT"], 129),
        Case::Stopped(&["TERM", "TERM", "TERM"], 143),
    ]);
    for page in [Page::Round, Page::Note] {
        all.extend([Case::Vanished(page, ""), Case::Vanished(page, "HUP")]);
    }
    all
}

fn commands() -> [Case; 13] {
    [
        Case::Command("\"$0\" --season s.db --on \"$1\" review >&-", &[0, 1]),
        Case::Command("\"$0\" --season s.db --on \"$1\" review >/dev/full", &[1]),
        Case::Command("\"$0\" --season s.db export >/dev/full", &[1]),
        Case::Command("\"$0\" --season s.db export --format csv >/dev/full", &[1]),
        Case::Command("\"$0\" --season s.db export | head -n 1 >/dev/null", &[0]),
        Case::Command("\"$0\" limits | head -n 1 >/dev/null", &[0]),
        Case::Command("\"$0\" help journal | head -n 1 >/dev/null", &[0]),
        Case::Command("\"$0\" completions bash | head -n 1 >/dev/null", &[0]),
        Case::Command("\"$0\" --season none.db review 2>&-", &[1]),
        Case::Command("\"$0\" --season none.db review 2>/dev/full", &[1]),
        Case::Command("\"$0\" --season t.db import - <&-", &[1]),
        Case::Command("setsid -w \"$0\" --season s.db --on \"$1\" </dev/null >/dev/null", &[1]),
        Case::Command("setsid -w \"$0\" --season s.db --on \"$1\" <&- >&- 2>&-", &[1]),
    ]
}

/// Tries a case on a demo season of its own.
fn faults(case: &Case) -> Vec<String> {
    let folder = tempfile::tempdir().unwrap();
    let (here, season) = (folder.path(), folder.path().join("s.db"));
    demo(&season);
    let start = Start { folder: Some(here), ..Start::default() };
    let mut why = match case {
        Case::Variable(name, value) => walked(Start { env: &[(name, value.as_deref())], ..start }, &season),
        Case::Size(columns, rows) => sized(Start { size: (*columns, *rows), ..start }, &season),
        Case::Resized(columns, rows) => resized(start, &season, (*columns, *rows)),
        Case::Streams(how) => streams(start, &season, how),
        Case::Command(shell, codes) => command(here, shell, codes),
        Case::Signal(name, number, page) => signaled(start, &season, name, *number, *page),
        Case::Stopped(names, code) => stopped(start, &season, names, *code),
        Case::Vanished(page, ignored) => vanished(start, &season, *page, ignored),
    };
    why.extend(judge(&season).bad);
    why
}

/// Walks one bench by one digit and waits until it is saved.
fn one_save(screens: &mut Screens) -> Vec<String> {
    // An Esc and a key that are read together are the key with Alt: then neither is heard.
    let there = (0..10).any(|_| {
        let there = screens.pty.comes(PATIENCE / 10, is_round);
        if !there {
            screens.press("\u{1b}");
            screens.press("r");
        }
        there
    });
    if !there {
        return vec![format!("no Round:\n{}", screens.pty.text())];
    }
    screens.press("w");
    screens.pty.comes(PATIENCE, |text| text.contains("[water _]"));
    screens.press("4");
    if screens.pty.comes(PATIENCE, |text| text.contains("saved:")) {
        Vec::new()
    } else {
        vec![format!("nothing is saved:\n{}", screens.pty.text())]
    }
}

/// Waits for the end and judges it: exit code, terminal, and what was shown as saved.
fn judged(screens: &mut Screens, season: &Path, code: i32) -> Vec<String> {
    let mut why = Vec::new();
    let found = screens.code(PATIENCE);
    if found != Some(code) {
        why.push(format!("ended with {found:?}, wanted {code}"));
    }
    let raw = screens.pty.raw();
    if raw.contains("panicked") {
        why.push(format!("panics:\n{}", screens.pty.text()));
    }
    why.extend(given_back(&raw));
    why.extend(raw_controls(&raw));
    why.extend(screens.gone(season, BY));
    why
}

/// Esc to the Round, and out.
fn leave(screens: &mut Screens) {
    for _ in 0..10 {
        for key in ["\u{1b}", "\u{1b}", "q"] {
            screens.press(key);
        }
        if screens.code(PATIENCE / 10).is_some() {
            return;
        }
    }
}

/// A walk of one bench from the start to the end.
fn walked(start: Start<'_>, season: &Path) -> Vec<String> {
    let mut screens = Screens::open_as(start, season, BY);
    let mut why = one_save(&mut screens);
    leave(&mut screens);
    why.extend(judged(&mut screens, season, 0));
    why
}

/// The same, after some keys in a terminal of an odd size.
fn sized(start: Start<'_>, season: &Path) -> Vec<String> {
    let mut screens = Screens::open_as(start, season, BY);
    screens.pty.settle(Duration::from_millis(100));
    for key in ["e", "?", "\u{1b}", "s", "g", "i", "\u{1b}", "\u{1b}", "r"] {
        screens.press(key);
    }
    screens.pty.resize(80, 24);
    let mut why = one_save(&mut screens);
    leave(&mut screens);
    why.extend(judged(&mut screens, season, 0));
    why
}

/// Made bigger and smaller on every page.
fn resized(start: Start<'_>, season: &Path, (columns, rows): (u16, u16)) -> Vec<String> {
    let mut screens = Screens::open_as(start, season, BY);
    let mut why = one_save(&mut screens);
    for key in ["\u{1b}", "\r", "c", "\u{1b}", "e", "s", "\t", "g", "r", "i", "\u{1b}", "\u{1b}", "?"] {
        screens.press(key);
        screens.pty.resize(columns, rows);
        screens.pty.settle(Duration::from_millis(10));
        screens.pty.resize(80, 24);
    }
    screens.pty.resize(columns, rows);
    leave(&mut screens);
    why.extend(judged(&mut screens, season, 0));
    why
}

/// With its streams led elsewhere it works as ever, or says that it needs a terminal.
fn streams(start: Start<'_>, season: &Path, how: &str) -> Vec<String> {
    let shell = format!("\"$0\" \"$@\" {how}");
    let mut screens =
        Screens::open_as(Start { prefix: &["bash", "-o", "pipefail", "-c", &shell], ..start }, season, BY);
    if screens.pty.comes(PATIENCE, is_round) {
        let mut why = one_save(&mut screens);
        leave(&mut screens);
        why.extend(judged(&mut screens, season, 0));
        return why;
    }
    let mut why = judged(&mut screens, season, 1);
    let raw = screens.pty.raw();
    if !how.contains("2>") && !raw.contains("need a terminal") {
        why.push(format!("refused without the reason: {raw:.200?}"));
    }
    why
}

/// A command without a terminal.
fn command(here: &Path, shell: &str, codes: &[i32]) -> Vec<String> {
    let mut words: Vec<OsString> = ["bash", "-c", shell].map(OsString::from).to_vec();
    words.extend([program().into_os_string(), DEMO_DAY.into()]);
    let done = Run { deadline: PATIENCE, ..Run::at(here) }.go_words(&words);
    let mut why = done.unsound();
    if !done.code.is_some_and(|code| codes.contains(&code)) {
        why.push(format!("exit {:?}, wanted {codes:?}: {:.300}", done.code, done.err()));
    }
    if done.code == Some(1) && !shell.contains("2>") && done.err().trim().is_empty() {
        why.push("failed without a word".to_owned());
    }
    if controls(&done.stderr) {
        why.push(format!("control characters in the message: {:.300?}", done.err()));
    }
    why
}

/// On a page, with one bench walked.
fn on_page(screens: &mut Screens, page: Page) -> Vec<String> {
    let why = one_save(screens);
    match page {
        Page::Round => screens.press("\u{1b}"),
        Page::Note => {
            screens.press("n");
            screens.press("half a no");
        }
    }
    why
}

fn signaled(start: Start<'_>, season: &Path, name: &str, number: i32, page: Page) -> Vec<String> {
    let mut screens = Screens::open_as(start, season, BY);
    let mut why = on_page(&mut screens, page);
    screens.signal(name);
    if name != "PIPE" {
        why.extend(judged(&mut screens, season, 128 + number));
        return why;
    }
    // Programs of this language ignore it: then everything goes on as before.
    screens.pty.pause(Duration::from_millis(100));
    let ended = !screens.is_running();
    screens.press("\u{1b}");
    leave(&mut screens);
    why.extend(judged(&mut screens, season, if ended { 128 + number } else { 0 }));
    why
}

fn stopped(start: Start<'_>, season: &Path, names: &[&str], code: i32) -> Vec<String> {
    let mut screens = Screens::open_as(start, season, BY);
    let mut why = on_page(&mut screens, Page::Round);
    for name in names {
        screens.signal(name);
        if ["TSTP", "STOP"].contains(name) {
            screens.pty.wait_state('T');
        }
        screens.pty.pause(Duration::from_millis(50));
    }
    if code == 0 {
        why.extend(one_save(&mut screens));
        leave(&mut screens);
    }
    why.extend(judged(&mut screens, season, code));
    why
}

fn vanished(start: Start<'_>, season: &Path, page: Page, ignored: &str) -> Vec<String> {
    let trap = format!("trap '' {ignored}; exec \"$0\" \"$@\"");
    let prefix = ["sh", "-c", &trap];
    let prefix = if ignored.is_empty() { &prefix[..0] } else { &prefix[..] };
    let mut screens = Screens::open_as(Start { prefix, ..start }, season, BY);
    let mut why = on_page(&mut screens, page);
    screens.pty.hang_up("\u{1b}");
    match screens.code(PATIENCE) {
        Some(1 | 129) => {}
        other => {
            why.push(format!("ended with {other:?}, wanted 129, or 1 where nothing said that the terminal is gone"));
        }
    }
    why.extend(screens.gone(season, BY));
    why
}

#[test]
fn in_every_terminal_it_works_and_gives_it_back() {
    let cases = cases();
    assert!(cases.len() >= 68, "{}", cases.len());
    let tried: Vec<Case> = if is_full() {
        cases
    } else {
        cases.into_iter().enumerate().filter(|(n, _)| n % EVERY == 0).map(|(_, c)| c).collect()
    };
    let mut campaign = Campaign::new("terminals");
    campaign.each(&tried, |case| format!("{case:.80?}"), |_, case| faults(case));
    campaign.end();
}
