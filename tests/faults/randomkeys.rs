//! Random keys, pastes, resizes, cut escape sequences, reports of mouse and focus, and bytes that are no text, at the screens on
//! the demo season: no panic, no hang, the terminal given back, the file sound, what was shown as saved there, and its journal
//! comes back the same.

use crate::harness::{Campaign, DEMO_DAY, count, demo, is_full, judge};
use crate::mutants::ask;
use crate::rng::Rng;
use crate::screens::{Screens, given_back, raw_controls};
use crate::terminal::{Start, is_round};
use std::ffi::OsStr;
use std::path::Path;
use std::sync::Mutex;
use std::time::{Duration, Instant};

/// A program that reads and draws nothing for so long stands; how fast it is on a busy machine is not asked here.
const STANDS: Duration = Duration::from_mins(5);
/// Rounds, each on a season of its own, and the keys of each: 210,018 in all.
const SHORT: usize = 2;
const FULL: usize = 142;
const KEYS: usize = 1_479;
/// Keys of a round of the short form.
const SHORT_KEYS: usize = 700;

/// Keys of the pages, digits and letters more often than signs.
const PLAIN: &str = "012345678901234567890123456789wwwsbunlamfexcpiogrdtzy,.?jkh W!=+-@/\\:;'\"<>()[]{}%&*#~`\
                     \r\r\r\r\r\r\r\r\t\t\t\t\t\t\u{1b}\u{1b}\u{1b}\u{1b}\u{1b}\u{1b}\u{1b}\u{1b}\u{7f}\u{7f}";

/// Arrows, function keys, and letters with Ctrl and Alt.
const NAMED: [&str; 39] = [
    "\u{1b}[A",
    "\u{1b}[B",
    "\u{1b}[C",
    "\u{1b}[D",
    "\u{1b}[H",
    "\u{1b}[F",
    "\u{1b}[5~",
    "\u{1b}[6~",
    "\u{1b}[Z",
    "\u{1b}[3~",
    "\u{1b}[2~",
    "\u{1b}OP",
    "\u{1b}OQ",
    "\u{1b}OR",
    "\u{1b}OS",
    "\u{1b}[15~",
    "\u{1b}[1;5C",
    "\u{1b}[1;2A",
    "\u{1}",
    "\u{2}",
    "\u{4}",
    "\u{5}",
    "\u{6}",
    "\u{b}",
    "\u{c}",
    "\u{e}",
    "\u{10}",
    "\u{12}",
    "\u{15}",
    "\u{16}",
    "\u{17}",
    "\u{18}",
    "\u{19}",
    "\u{0}",
    "\u{1d}",
    "\u{1e}",
    "\u{1f}",
    "\u{1b}q",
    "\u{1b}3",
];

/// Reports, sequences of other protocols, pieces of sequences, and bytes that are no text.
const ODD: [&[u8]; 38] = [
    b"\x1b\x1b",
    b"\n",
    b"\x1b[<0;10;5M",
    b"\x1b[<0;10;5m",
    b"\x1b[<64;200;300M",
    b"\x1b[M !!",
    b"\x1b[I",
    b"\x1b[O",
    b"\x1b[51;1:3u",
    b"\x1b[51;5u",
    b"\x1b[57399u",
    b"\x1b[97;1:2u",
    b"\x1b[27u",
    b"\x1b[1;1R",
    b"\x1b[?1;2c",
    b"\x1b[?0u",
    b"\x1b[999999999999;1H",
    b"\xff",
    b"\xc3",
    b"\xe2\x82",
    b"\xf0\x9f",
    b"\x80",
    b"\xed\xa0\x80",
    "é".as_bytes(),
    "日本".as_bytes(),
    "👩\u{200d}🌾".as_bytes(),
    "e\u{301}".as_bytes(),
    "\u{202e}".as_bytes(),
    "\u{200b}".as_bytes(),
    "\u{a0}".as_bytes(),
    b"\x1b]0;title\x07",
    b"\x1bP$q\x1b\\",
    b"\x1b[",
    b"\x1bO",
    b"\x1b[1",
    b"\x1b[200~",
    b"\x1b[201~",
    b"\x9b31m",
];

/// What is pasted; the first ones are also typed.
fn text(rng: &mut Rng, typed: bool) -> Vec<u8> {
    match rng.below(if typed { 8 } else { 17 }) {
        0 => "3".into(),
        1 => "12.5 13 12".into(),
        2 => "staying wet by the door".into(),
        3 => DEMO_DAY.into(),
        4 => "a\r\nb\tc".into(),
        // Outside a paste each is a key with a frame of its own, which takes a debug build long.
        5 => "x".repeat(if is_full() { 5_000 } else { 300 }).into(),
        6 => "=cmd|' /C calc'!A0".into(),
        7 => "\u{1b}[31mred".into(),
        8 => "\u{202e}evil".into(),
        9 => "0x1p3 1e999 -0 NaN".into(),
        10 => "M1 M2 M3".into(),
        11 => "all".into(),
        12 => "日本語のメモ".repeat(50).into(),
        13 => "\u{0}\u{1}\u{2}".into(),
        14 => "1\n".repeat(200).into(),
        15 => "/etc/passwd".into(),
        _ => "~/nothing.jsonl".into(),
    }
}

/// Some keys at once, and how many.
fn burst(rng: &mut Rng) -> (Vec<u8>, usize) {
    let plain: Vec<char> = PLAIN.chars().collect();
    let many = *rng.pick(&[1, 1, 1, 2, 5, 20]);
    let mut keys = Vec::new();
    for _ in 0..many {
        let draw = rng.unit();
        if draw < 0.70 {
            keys.extend(rng.pick(&plain).to_string().bytes());
        } else if draw < 0.85 {
            keys.extend(rng.pick(&NAMED).bytes());
        } else if draw < 0.90 {
            keys.extend(*rng.pick(&ODD));
        } else if draw < 0.91 {
            keys.extend(b"\x1b[200~".iter().chain(&text(rng, false)).chain(b"\x1b[201~"));
        } else if draw < 0.92 {
            keys.extend(text(rng, true));
        } else {
            keys.push(0x1b);
        }
    }
    (keys, many)
}

/// A piece of a walk, from wherever the screens are.
fn walk(rng: &mut Rng) -> Vec<Vec<u8>> {
    let mut keys: Vec<Vec<u8>> =
        [&b"\x1b[201~"[..], b"\x1b", b"\x1b", b"\x1b", b"r", b"w"].iter().map(|key| key.to_vec()).collect();
    keys.extend((0..15).map(|_| vec![*rng.pick(b"12345 0wu".as_slice())]).filter(|key| key != b" "));
    keys
}

/// What the rounds showed together.
#[derive(Default)]
struct Shown {
    keys: usize,
    saves: usize,
    starts: usize,
    slowest: Duration,
}

/// The screens of a round, from one start to its end.
struct Session<'a> {
    screens: Screens,
    rng: &'a mut Rng,
    sent: usize,
    slowest: Duration,
    /// The last bursts, for the report.
    tail: Vec<Vec<u8>>,
    why: Vec<String>,
}

impl Session<'_> {
    /// Types; notes it where the program does not read.
    fn types(&mut self, bytes: &[u8]) {
        for piece in bytes.chunks(512) {
            if self.why.is_empty() && !self.screens.pty.types(piece, STANDS) {
                self.why.push(format!("reads nothing; screen:\n{}", self.screens.pty.text()));
            }
        }
    }

    /// Types at random until so many keys are sent, the program has ended, or something is wrong.
    fn keys(&mut self, many: usize) {
        let mut first = true;
        while self.sent < many && self.why.is_empty() && self.screens.is_running() {
            if std::mem::take(&mut first) || self.rng.chance(0.01) {
                for key in walk(self.rng) {
                    if self.screens.is_running() {
                        self.types(&key);
                        self.screens.pty.settle(Duration::from_millis(10));
                        self.sent += 1;
                    }
                }
            }
            let (keys, number) = burst(self.rng);
            self.sent += number;
            self.tail.push(keys.clone());
            if self.rng.chance(0.04) {
                let columns = *self.rng.pick(&[1, 2, 10, 39, 40, 80, 100, 200, 300]);
                let rows = *self.rng.pick(&[1, 2, 5, 11, 12, 24, 50, 100]);
                self.screens.pty.resize(columns, rows);
            }
            if keys.len() > 2 && self.rng.chance(0.05) {
                let (start, end) = keys.split_at(1 + self.rng.below(keys.len() - 1));
                self.types(start);
                self.screens.pty.pause(Duration::from_millis(30));
                self.types(end);
            } else {
                self.types(&keys);
            }
            let pause = *self.rng.pick(&[0, 0, 1, 5]);
            self.screens.pty.pause(Duration::from_millis(pause));
            if self.sent % 500 < 20 {
                self.still_draws();
            }
        }
    }

    /// The screens answer a change of size and a key.
    fn still_draws(&mut self) {
        let start = Instant::now();
        self.screens.pty.resize(80, 24);
        let frames = self.screens.pty.frames();
        // A paste or a sequence that was left open swallows what follows, as in any terminal.
        self.types(b"~\x1b[201~\x1b");
        self.screens.pty.settle(Duration::from_millis(50));
        self.types(b"\x0c");
        if !self.screens.more_frames(frames, STANDS) && self.screens.is_running() {
            self.why.push(format!("no frame; screen:\n{}", self.screens.pty.text()));
        }
        self.slowest = self.slowest.max(start.elapsed());
    }

    /// Ends the program, if it still runs, and judges how it left.
    fn leave(&mut self) {
        if self.screens.is_running() {
            self.screens.pty.resize(80, 24);
            self.types(b"\x1b[201~");
            for _ in 0..8 {
                self.screens.press("\u{1b}");
            }
        }
        let by_keys = !self.screens.is_running();
        if !by_keys {
            self.screens.signal("TERM");
        }
        match self.screens.code(Duration::from_secs(30)) {
            None => self.why.push("does not end on SIGTERM".to_owned()),
            Some(0 | 1) => {}
            Some(143) if !by_keys => {}
            Some(code) => self.why.push(format!("exit {code}")),
        }
        let raw = self.screens.pty.raw();
        if let Some(at) = raw.find("panicked") {
            self.why.push(format!("panics: {}", raw[at..].chars().take(500).collect::<String>()));
        }
        self.why.extend(given_back(&raw));
        self.why.extend(raw_controls(&raw).into_iter().map(|what| format!("{what} reached the terminal")));
        if !self.why.is_empty() {
            let last: Vec<String> = self
                .tail
                .iter()
                .rev()
                .take(4)
                .rev()
                .map(|keys| format!("{:.80?}", String::from_utf8_lossy(keys)))
                .collect();
            self.why.push(format!("after key {}, last keys {}", self.sent, last.join(" ")));
        }
    }
}

/// A round: keys on a season of its own, started again where the keys left the screens.
fn round(number: usize, mut rng: Rng, shown: &Mutex<Shown>) -> Vec<String> {
    let folder = tempfile::tempdir().unwrap();
    let season = folder.path().join("s.db");
    demo(&season);
    let by = format!("r{number:03}");
    let goal = if is_full() { KEYS } else { SHORT_KEYS };
    let (mut sent, mut why) = (0, Vec::new());
    while sent < goal && why.is_empty() {
        let size = (*rng.pick(&[80, 100, 40, 132]), *rng.pick(&[24, 30, 12, 45]));
        let start = Start { folder: Some(folder.path()), size, ..Start::default() };
        let mut screens = Screens::open_as(start, &season, &by);
        screens.pty.comes(Duration::from_secs(30), is_round);
        let mut session = Session { screens, rng: &mut rng, sent: 0, slowest: Duration::ZERO, tail: Vec::new(), why };
        session.keys(goal - sent);
        session.leave();
        sent += session.sent.max(1);
        session.why.extend(judge(&season).bad);
        session.why.extend(session.screens.gone(&season, &by));
        let mut all = shown.lock().unwrap();
        all.keys += session.sent;
        all.saves += session.screens.saves.shown();
        all.starts += 1;
        all.slowest = all.slowest.max(session.slowest);
        why = session.why;
    }
    why.extend(replay(folder.path(), &season));
    why
}

/// The journal of the season comes out, in, and out the same; every command reads the season.
fn replay(folder: &Path, season: &Path) -> Vec<String> {
    let second = folder.join("t.db");
    let mut why = Vec::new();
    let out = ask(folder, season, &["export".as_ref()], b"");
    let back = ask(folder, &second, &["import".as_ref(), "-".as_ref()], &out.stdout);
    let again = ask(folder, &second, &["export".as_ref()], b"");
    if out.code != Some(0) || back.code != Some(0) || out.stdout != again.stdout {
        why.push(format!("the journal does not come back the same: {:.300} {:.300}", out.err(), back.err()));
    }
    let ways: [&[&str]; 3] = [&["review"], &["season"], &["export", "--format", "csv"]];
    for way in ways {
        let mut all: Vec<&OsStr> = vec!["--on".as_ref(), DEMO_DAY.as_ref()];
        all.extend(way.iter().map(OsStr::new));
        let done = ask(folder, season, &all, b"");
        if done.code != Some(0) {
            why.push(format!("{way:?}: {:.200}", done.err()));
        }
    }
    why
}

#[test]
fn whatever_is_typed_what_is_shown_as_saved_is_there() {
    let mut campaign = Campaign::new("random keys");
    let rounds: Vec<usize> = (0..count(SHORT, FULL)).collect();
    let rngs: Vec<Mutex<Option<Rng>>> = rounds.iter().map(|n| Mutex::new(Some(campaign.rng(*n)))).collect();
    let shown = Mutex::new(Shown::default());
    campaign.each(
        &rounds,
        |_| "round".to_owned(),
        |number, _| round(number, rngs[number].lock().unwrap().take().unwrap(), &shown),
    );
    let Shown { keys, saves, starts, slowest } = shown.into_inner().unwrap();
    println!(
        "random keys: {keys} keys in {} rounds, {starts} starts, {saves} saves shown, slowest redraw {slowest:?}",
        rounds.len()
    );
    if saves < count(2, 1_000) {
        campaign.fail(format!("only {saves} saves were shown: this says too little"));
    }
    campaign.end();
}
