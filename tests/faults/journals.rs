//! Mutated journals into an empty and into a full season: no panic, no hang, nothing half written, every refusal names a line;
//! what is taken comes out and in the same.

use crate::harness::{Campaign, DEMO_DAY, count, demo, demo_journal, judge};
use crate::mutants::{ask, byte, controls, keep, message_faults, other_breaks, sample};
use crate::rng::Rng;
use serde_json::Value;
use std::ffi::OsStr;
use std::fs;
use std::path::Path;
use std::sync::atomic::{AtomicUsize, Ordering};

const SHORT: usize = 45;
const FULL: usize = 6_000;

/// Entries of kinds that the demo season has few of.
const EXTRA: [&str; 16] = [
    r#""kind":"leaves","signs":["lower-yellow","rolled"],"where":"old""#,
    r#""kind":"root-zone","method":"sme","ph":5.9,"ec_ms_cm":2.1,"pots":5"#,
    r#""kind":"night-light","lux":12.5"#,
    r#""kind":"losses","pots":1,"cause":"dropped""#,
    r#""kind":"counted","pots":79"#,
    r#""kind":"grade","sell":70,"second":5,"dump":4"#,
    r#""kind":"note","note":"plain""#,
    r#""kind":"sprayed","ai":"x","against":"thrips","how":"spray","rei_h":12"#,
    r#""kind":"released","species":"encarsia","count":100"#,
    r#""kind":"spaced","centers_cm":30.5"#,
    r#""kind":"moved","to":"M2","pots":1"#,
    r#""kind":"sold","pots":1"#,
    r#""kind":"put-off","warning":"staying-wet","until":"2026-10-20","why":"known""#,
    r#""kind":"growth-regulator","parts":[{"ai":"paclobutrazol","ppm":0.1}],"how":"drench","rei_h":12"#,
    r#""kind":"topdressed","g_per_pot":1.5"#,
    r#""kind":"blackout","night":"2026-10-01","covered":true"#,
];

/// Values as JSON text: of every type, at and over every edge, and text that nothing may pass on raw.
const VALUES: [&str; 52] = [
    "null",
    "true",
    "false",
    "0",
    "-1",
    "1",
    "5",
    "6",
    "255",
    "256",
    "65536",
    "2147483648",
    "4294967296",
    "9007199254740992",
    "9223372036854775808",
    "-9223372036854775808",
    "18446744073709551616",
    "1e308",
    "-1e308",
    "1e-320",
    "0.1",
    "4.9999999",
    "\"\"",
    "\" \"",
    "\"x\"",
    "\"3\"",
    "\"NaN\"",
    r#""\u0000""#,
    r#""\u0000b""#,
    r#""\u001b[2J""#,
    r#""\u001b]0;t\u0007""#,
    "\"\u{202e}abc\"",
    "\"\u{200b}z\"",
    "\"e\u{301}\"",
    r#""\ud800""#,
    "\"👩\u{200d}🌾\"",
    "\"=cmd|' /C calc'!A0\"",
    "\"<script>alert(1)</script>\"",
    "\"../../etc/passwd\"",
    "\"M1'; DROP TABLE entry;--\"",
    "\"日本\"",
    "[]",
    "{}",
    "[[]]",
    "[1, 2]",
    "[null]",
    r#"["x", "x", "x"]"#,
    r#"{"a": 1}"#,
    "\"Mars/Olympus\"",
    "\"America/New_York\"",
    "\"00000000-0000-0000-0000-000000000000\"",
    "\"ffffffff-ffff-ffff-ffff-ffffffffffff\"",
];

const DAYS: [&str; 13] = [
    "2026-02-30",
    "0000-00-00",
    "9999-12-31",
    "2100-12-31",
    "2000-01-01",
    "1999-12-31",
    "2026-10-10T07:10:00Z",
    "2026-10-10T24:00:00-04:00",
    "2026-10-10T07:10:60-04:00",
    "2026-10-10T07:10:00+24:00",
    "2026-10-10T07:10:00-23:59",
    "2026-10-10T07:10:00.5-04:00",
    "2016-12-31T23:59:60Z",
];

const NEW_KEYS: [&str; 11] = ["Level", "level ", "", "x", "level", "rev", "id", "note", "bench", r"\u0000", "rei_h"];

fn value(rng: &mut Rng) -> Vec<u8> {
    match rng.below(VALUES.len() + DAYS.len() + 3) {
        0 => format!("\"{}\"", "a".repeat(81)).into_bytes(),
        1 => format!("\"{}\"", "a".repeat(3_000)).into_bytes(),
        2 => b"\"\xed\xa0\x80\"".to_vec(),
        n if n < VALUES.len() + 3 => VALUES[n - 3].into(),
        n => format!("\"{}\"", DAYS[n - 3 - VALUES.len()]).into_bytes(),
    }
}

/// Bytes that no text should hold, and JSON that no reader should follow to its end.
fn raw(rng: &mut Rng) -> Vec<u8> {
    const SMALL: [&[u8]; 22] = [
        b"\xff\xfe",
        b"\x00",
        b"\xef\xbb\xbf",
        b"\xed\xa0\x80",
        b"\xc0\x80",
        b"\r\n",
        b"\r",
        b"\x0b",
        b"\x1b[31m",
        br"\ud800",
        br"\u0000",
        b"1e999",
        b"-0",
        b"01",
        b"NaN",
        b"Infinity",
        b",",
        b"\"",
        b"}",
        b"\\",
        b"/*",
        b"\xe2\x80\xa8",
    ];
    match rng.below(SMALL.len() + 4) {
        0 => b"{".repeat(5_000),
        1 => b"[".repeat(200_000),
        2 => b"1".repeat(400),
        3 => [b"0.".to_vec(), b"0".repeat(400), b"1".to_vec()].concat(),
        n => SMALL[n - 4].to_vec(),
    }
}

/// The demo season as lines: what a journal is put together from.
struct Lines {
    season: String,
    plan: Vec<String>,
    entries: Vec<String>,
    extra: Vec<String>,
}

impl Lines {
    fn of(export: &str) -> Self {
        let all: Vec<String> = export.lines().filter(|line| !line.starts_with('#')).map(str::to_owned).collect();
        let (entries, plan): (Vec<_>, Vec<_>) = all[1..].iter().cloned().partition(|l| l.contains(r#""type":"entry""#));
        let season = serde_json::from_str::<Value>(&all[0]).unwrap()["season"].as_str().unwrap().to_owned();
        let extra = EXTRA
            .iter()
            .map(|rest| format!(r#"{{"type":"entry","at":"2026-10-10T07:10:00-04:00","by":"kt","bench":"M1",{rest}}}"#))
            .collect();
        Self { season, plan, entries, extra }
    }

    /// A good journal: the plan, up to forty entries and a few more kinds. It may name the season, and promise its end.
    fn journal(&self, rng: &mut Rng) -> Vec<Vec<u8>> {
        let head = match rng.below(10) {
            0..5 => r#"{"type":"journal","version":2}"#.to_owned(),
            _ => format!(r#"{{"type":"journal","version":2,"season":"{}"}}"#, self.season),
        };
        let mut lines = vec![head];
        lines.extend(self.plan.iter().cloned());
        let (many, more) = (1 + rng.below(39), rng.below(6));
        lines.extend(sample(rng, &self.entries, many));
        lines.extend(sample(rng, &self.extra, more));
        lines.into_iter().map(String::into_bytes).collect()
    }
}

/// The same line with one member left out, put in, changed or doubled.
fn change_member(line: &[u8], rng: &mut Rng) -> Option<Vec<u8>> {
    let Ok(Value::Object(object)) = serde_json::from_slice::<Value>(line) else { return None };
    let mut members: Vec<(Vec<u8>, Vec<u8>)> = object
        .iter()
        .map(|(key, value)| (Value::from(key.as_str()).to_string().into_bytes(), value.to_string().into_bytes()))
        .collect();
    if members.is_empty() {
        return None;
    }
    let at = rng.below(members.len());
    match rng.below(6) {
        0 => drop(members.remove(at)),
        1 => {
            let key = format!("\"{}\"", rng.pick(&NEW_KEYS)).into_bytes();
            let value = value(rng);
            match members.iter_mut().find(|member| member.0 == key) {
                Some(member) => member.1 = value,
                None => members.push((key, value)),
            }
        }
        2 => {
            let again = (members[at].0.clone(), value(rng));
            members[at].1 = value(rng);
            members.push(again);
        }
        _ => members[at].1 = value(rng),
    }
    let members: Vec<Vec<u8>> = members.into_iter().map(|(key, value)| [key, b": ".to_vec(), value].concat()).collect();
    let line = [b"{".to_vec(), members.join(b", ".as_slice()), b"}".to_vec()].concat();
    Some(if rng.chance(0.5) { as_ascii(&line) } else { line })
}

/// Text with every other sign as its escape.
fn as_ascii(line: &[u8]) -> Vec<u8> {
    let Ok(text) = std::str::from_utf8(line) else { return line.to_vec() };
    let mut out = String::new();
    for c in text.chars() {
        if c.is_ascii() {
            out.push(c);
        } else {
            let mut units = [0_u16; 2];
            out.extend(c.encode_utf16(&mut units).iter().map(|unit| format!("\\u{unit:04x}")));
        }
    }
    out.into_bytes()
}

/// A journal with something done to it.
fn mutant(lines: &Lines, rng: &mut Rng) -> Vec<u8> {
    let mut lines = lines.journal(rng);
    let how = rng.below(11);
    let any = rng.below(lines.len());
    match how {
        0..=4 => {
            for _ in 0..*rng.pick(&[1, 1, 1, 3]) {
                let at = 1 + rng.below(lines.len() - 1);
                if let Some(line) = change_member(&lines[at], rng) {
                    lines[at] = line;
                }
            }
        }
        5 => {
            let again = lines[any].clone();
            let to = rng.below(lines.len() + 1);
            lines.insert(to, again);
        }
        6 => rng.shuffle(&mut lines),
        7 => drop(lines.remove(any)),
        8 => {
            let length = rng.below(lines[any].len() + 1);
            lines[any].truncate(length);
        }
        _ => {}
    }
    let mut data = lines.join(b"\n".as_slice());
    if rng.chance(0.8) {
        data.push(b'\n');
    }
    if how >= 9 {
        for _ in 0..*rng.pick(&[1, 1, 4, 40]) {
            let at = rng.below(data.len());
            match rng.below(4) {
                0 => data[at] ^= 1 << rng.below(8),
                1 => {
                    let to = (at + 1 + rng.below(7)).min(data.len());
                    let raw = raw(rng);
                    data.splice(at..to, raw);
                }
                2 => data[at] = byte(rng),
                _ => {
                    let to = (at + 1 + rng.below(29)).min(data.len());
                    data.drain(at..to);
                }
            }
        }
    }
    if rng.chance(0.05) {
        data = other_breaks(&data);
    }
    if rng.chance(0.03) {
        data.splice(0..0, *b"\xef\xbb\xbf");
    }
    data
}

/// True where a refusal says what it is about: a line, a site that is missing, or two seasons.
fn names_its_cause(said: &str) -> bool {
    let numbered = said.match_indices("line ").any(|(at, _)| said[at + 5..].starts_with(|c: char| c.is_ascii_digit()));
    numbered || said.contains("there is no site line") || said.contains("they are two seasons")
}

/// What is wrong with a season file after a journal was taken: it must come out, in, and out the same.
fn taken_faults(folder: &Path, season: &Path, every_way: bool) -> Vec<String> {
    let second = folder.join("t.db");
    let mut why = Vec::new();
    let out = ask(folder, season, &["export".as_ref()], b"");
    let again = ask(folder, &second, &["import".as_ref(), "-".as_ref()], &out.stdout);
    let twice = ask(folder, &second, &["export".as_ref()], b"");
    if out.code != Some(0) || again.code != Some(0) || twice.stdout != out.stdout {
        why.push(format!("what it took does not come out and in the same: {:.300} {:.300}", out.err(), again.err()));
    }
    if controls(&out.stdout) || out.stdout.contains(&b'\t') {
        why.push("control characters in the export".to_owned());
    }
    let ways: [&[&str]; 6] = [
        &["review"],
        &["review", "--format", "html"],
        &["export", "--format", "csv"],
        &["season"],
        &["season", "--format", "html"],
        &["sheet"],
    ];
    for way in ways.into_iter().filter(|_| every_way) {
        let mut all: Vec<&OsStr> = vec!["--on".as_ref(), DEMO_DAY.as_ref()];
        all.extend(way.iter().map(OsStr::new));
        let done = ask(folder, season, &all, b"");
        if done.code != Some(0) {
            why.push(format!("{way:?}: exit {:?} {:.300}", done.code, done.err()));
        }
        // In plain text it is a name like any other.
        if way.contains(&"html") && done.out().contains("<script>alert") {
            why.push(format!("{way:?}: a script in the page"));
        }
    }
    why.extend(judge(season).bad);
    why
}

/// Imports a journal: whether it was taken, and what is wrong with that. Every third goes into the demo season, which holds so
/// many entries.
fn import(number: usize, data: &[u8], entries: usize) -> (bool, Vec<String>) {
    let folder = tempfile::tempdir().unwrap();
    let (season, journal) = (folder.path().join("s.db"), folder.path().join("m.jsonl"));
    let full = number.is_multiple_of(3);
    if full {
        demo(&season);
    }
    fs::write(&journal, data).unwrap();
    let done = ask(folder.path(), &season, &["import".as_ref(), journal.as_os_str()], b"");
    let mut why = message_faults(&done);
    if done.code == Some(1) {
        if !names_its_cause(&done.err()) {
            why.push(format!("a refusal without a line: {:.300}", done.err()));
        }
        if full {
            let judged = judge(&season);
            if !judged.bad.is_empty() || judged.rows.len() != entries {
                why.push(format!("half written: {:?}, {} of {entries} entries", judged.bad, judged.rows.len()));
            }
        } else if season.exists() {
            why.push("a refused journal began a season file".to_owned());
        }
    }
    let taken = done.code == Some(0);
    if taken {
        why.extend(taken_faults(folder.path(), &season, number.is_multiple_of(5)));
    }
    (taken, why)
}

#[test]
fn a_mutated_journal_is_taken_whole_or_refused_by_its_line() {
    let lines = Lines::of(demo_journal());
    let entries = lines.entries.len();
    assert!(entries > 1_000 && lines.plan.len() > 40, "the demo season is too small");
    // Unless these are good by themselves their mutants are bad for no reason of their own.
    let head = r#"{"type":"journal","version":2}"#.to_owned();
    let good = [vec![head], lines.plan.clone(), lines.extra.clone()].concat().join("\n");
    let (taken, why) = import(1, good.as_bytes(), entries);
    assert!(taken && why.is_empty(), "the journal to mutate is not good: {why:?}");
    let mut campaign = Campaign::new("mutated journals");
    let mutants: Vec<Vec<u8>> =
        (0..count(SHORT, FULL)).map(|number| mutant(&lines, &mut campaign.rng(number))).collect();
    let taken = AtomicUsize::new(0);
    campaign.each(
        &mutants,
        |_| "mutant".to_owned(),
        |number, data| {
            let (good, mut why) = import(number, data, entries);
            taken.fetch_add(usize::from(good), Ordering::SeqCst);
            if !why.is_empty() {
                why.push(keep(&format!("journal-{number}.jsonl"), data));
            }
            why
        },
    );
    let (taken, tried) = (taken.into_inner(), mutants.len());
    println!("mutated journals: {taken} taken, {} refused", tried - taken);
    if taken * 10 < tried || taken * 10 > tried * 9 {
        campaign.fail(format!("{taken} of {tried} were taken: the mutants try too little"));
    }
    campaign.end();
}
