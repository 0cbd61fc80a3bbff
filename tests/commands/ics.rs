//! The season as a calendar file: what stands in it, what it says on later days, and that two independent parsers read it alike.
//!
//! The parsers are Python packages (`icalendar`, `vobject`) of the Python that `BENCHWALK_PYTHON` names, else of `python3`. Where they
//! are missing that test says so and is passed over, but fails where `BENCHWALK_ICS=required` says that they must be there.

use crate::{Laptop, SMALL, arg};
use benchwalk::journal;
use benchwalk::limits::Limits;
use benchwalk::report::ics::{Event, Status, events};
use benchwalk::season::Season;
use chrono::{Days, NaiveDate};
use serde::Deserialize;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::process::Command;

/// A name that wants escaping and folding, as a grower may type it.
const ODD: &str = "mid red, \\\"early\\\"; 20 °C, 400 µmol/m² of light through the whole of the season";

/// The small season with an order, an application and the odd name.
fn season() -> String {
    let lot = SMALL.replace("\"mid red\"", &format!("\"{ODD}\""));
    format!(
        "{lot}{}\n{}\n",
        r#"{"type":"order","lot":"R1","date":"2026-11-20","pots":60}"#,
        r#"{"type":"entry","at":"2026-10-12T07:00:00-04:00","by":"kt","bench":"E1","kind":"growth-regulator","parts":[{"ai":"chlormequat","ppm":750}],"how":"spray","rei_h":12}"#
    )
}

fn laptop() -> Laptop {
    let laptop = Laptop::new();
    let journal = laptop.file("season.jsonl", &season());
    laptop.done(&["import", arg(&journal)]);
    laptop
}

/// The file as of a day.
fn written(laptop: &Laptop, name: &str, on: &str) -> PathBuf {
    let path = laptop.path(name);
    assert_eq!(laptop.done(&["calendar", "--ics", arg(&path), "--on", on]), "");
    path
}

/// The part of a file about one thing.
fn about<'a>(text: &'a str, what: &str) -> &'a str {
    let at = text.find(&format!(".{what}@benchwalk")).unwrap_or_else(|| panic!("no {what} in {text}"));
    let begin = text[..at].rfind("BEGIN:VEVENT").unwrap();
    let end = at + text[at..].find("END:VEVENT").unwrap();
    &text[begin..end]
}

#[test]
fn the_season_goes_to_a_phone_as_events_of_whole_days() {
    let laptop = laptop();
    let text = laptop.done(&["calendar", "--ics"]);
    let id = text.split("UID:").nth(1).unwrap().get(..36).unwrap().to_owned();
    insta::assert_snapshot!("ics", text.replace(&id, "[season]").replace("\r\n", "\n"));
    assert_eq!(text.matches('\n').count(), text.matches("\r\n").count(), "every line ends in CR LF");
    assert!(text.split("\r\n").all(|line| line.len() <= 75), "{text}");
    assert_eq!(laptop.done(&["calendar", "--ics", "-"]), text);
}

#[test]
fn when_a_closed_bench_opens_again_is_never_in_a_calendar() {
    let text = laptop().done(&["calendar", "--ics"]).replace("\r\n ", "").to_lowercase();
    for word in ["rei", "entry", "reentry", "keep", "reopen"] {
        assert!(
            !text.split(|c: char| !c.is_alphanumeric()).any(|w| w == word) && !text.contains("restricted"),
            "{word}: {text}"
        );
    }
    assert!(text.contains("the product label decides"), "{text}");
}

#[test]
fn what_is_done_goes_out_as_canceled_for_two_weeks_and_then_not_at_all() {
    let laptop = Laptop::new();
    let pinched =
        r#"{"type":"entry","at":"2026-08-31T08:00:00-04:00","by":"kt","bench":"E1","kind":"pinched","how":"soft"}"#;
    let journal = laptop.file("season.jsonl", &format!("{SMALL}{pinched}\n"));
    laptop.done(&["import", arg(&journal)]);
    let on = |day: &str| laptop.done(&["calendar", "--ics", "--on", day]);
    assert!(about(&on("2026-08-30"), "pinch").contains("DTSTART;VALUE=DATE:20260831\r\nDTEND;VALUE=DATE:20260907"));
    assert!(about(&on("2026-08-30"), "pinch").contains("STATUS:CONFIRMED"));
    assert!(about(&on("2026-08-31"), "pinch").contains("STATUS:CANCELLED"));
    assert!(about(&on("2026-09-14"), "pinch").contains("STATUS:CANCELLED"), "on the 14th day");
    assert!(!on("2026-09-15").contains(".pinch@"), "on the 15th");
}

#[test]
fn work_not_done_is_overdue_and_a_forecast_is_tentative() {
    let laptop = laptop();
    let late = laptop.done(&["calendar", "--ics", "--on", "2026-09-10"]);
    let pinch = about(&late, "pinch");
    assert!(pinch.contains("SUMMARY:OVERDUE: Pinch R1") && pinch.contains("DTEND;VALUE=DATE:20260911"), "{pinch}");
    let color = about(&late, "full-color");
    assert!(color.contains("STATUS:TENTATIVE") && color.contains("SUMMARY:Full color R1"), "{color}");
    let order = about(&late, "order-2026-11-20");
    assert!(order.contains("SUMMARY:60 pots of R1 committed") && order.contains("STATUS:CONFIRMED"), "{order}");
    assert!(order.contains("CATEGORIES:East"), "{order}");
}

#[test]
fn an_order_that_is_taken_back_is_canceled() {
    let laptop = laptop();
    let back = laptop
        .file("back.jsonl", &format!("{}\n", r#"{"type":"order","lot":"R1","date":"2026-11-20","pots":0,"rev":2}"#));
    let journal = format!("{}\n{}", SMALL.lines().next().unwrap(), std::fs::read_to_string(&back).unwrap());
    let back = laptop.file("back.jsonl", &journal);
    laptop.done(&["import", arg(&back)]);
    let text = laptop.done(&["calendar", "--ics"]);
    assert!(about(&text, "order-2026-11-20").contains("STATUS:CANCELLED"), "{text}");
}

#[test]
fn a_calendar_replaces_itself_and_no_other_file() {
    let laptop = laptop();
    let path = written(&laptop, "season.ics", "2026-10-12");
    let first = std::fs::read_to_string(&path).unwrap();
    written(&laptop, "season.ics", "2026-10-13");
    assert_ne!(std::fs::read_to_string(&path).unwrap(), first);
    let other = laptop.file("letters.ics", "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Somebody//EN\r\n");
    let said = laptop.run(&["calendar", "--ics", arg(&other)]);
    assert!(said.code == 1 && said.err.contains("already exists, with other content"), "{said:?}");
    let said = laptop.run(&["calendar", "--ics", "--pots", "100"]);
    assert!(said.code == 2 && said.err.contains("cannot be used with"), "{said:?}");
    let said = laptop.run(&["calendar", "--ics", "--on", "2027-06-01"]);
    assert!(said.code == 2 && said.err.contains("nothing is due or expected as of"), "{said:?}");
}

#[test]
fn over_a_season_ids_stay_and_nothing_is_gone_before_it_was_canceled() {
    let season = Season::of(journal::read(include_str!("../../demo-data/demo.jsonl")).unwrap());
    let limits = Limits::default();
    let id = |e: &Event| (e.lot.clone(), e.what.clone());
    let mut day: NaiveDate = "2026-09-20".parse().unwrap();
    let (mut open, mut moved): (BTreeMap<_, Event>, _) = (BTreeMap::new(), 0);
    for _ in 0..6 {
        let all = events(&season.on(day), day, &limits);
        let ids: BTreeSet<_> = all.iter().map(id).collect();
        assert_eq!(ids.len(), all.len(), "an id names one event: {all:?}");
        assert!(all.iter().all(|e| e.first <= e.last), "{all:?}");
        for (known, before) in &open {
            let now = all
                .iter()
                .find(|e| id(e) == *known)
                .unwrap_or_else(|| panic!("{known:?} is gone on {day}: {before:?}"));
            moved += u32::from((now.first, now.last) != (before.first, before.last));
        }
        open = all.into_iter().filter(|e| e.status != Status::Over).map(|e| (id(&e), e)).collect();
        day = day + Days::new(5);
    }
    assert!(moved > 5, "forecasts moved, under their ids: {moved}");
}

/// One event as a parser found it.
#[derive(Debug, Clone, PartialEq, Deserialize)]
struct Found {
    uid: String,
    sequence: u64,
    first: NaiveDate,
    end: NaiveDate,
    status: String,
    summary: String,
    description: String,
    houses: Vec<String>,
}

/// What each parser found in each file.
#[derive(Debug, Deserialize)]
struct Read {
    icalendar: Vec<Vec<Found>>,
    vobject: Vec<Vec<Found>>,
}

/// Reads files with both parsers; `None` where they are missing.
#[allow(clippy::print_stderr, reason = "a test that is passed over says so")]
fn read(files: &[&Path]) -> Option<Vec<Vec<Found>>> {
    let python = std::env::var("BENCHWALK_PYTHON").unwrap_or_else(|_| "python3".to_owned());
    let there = Command::new(&python).args(["-c", "import icalendar, vobject"]).output();
    if !there.as_ref().is_ok_and(|said| said.status.success()) {
        let required = std::env::var_os("BENCHWALK_ICS").is_some_and(|said| said == "required");
        assert!(!required, "BENCHWALK_ICS=required, but {python} has not both icalendar and vobject: {there:?}");
        eprintln!("SKIPPED: {python} has not both icalendar and vobject; no other parser read the calendar.");
        return None;
    }
    let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/commands/ics.py");
    let said = Command::new(&python).arg(script).args(files).output().unwrap();
    assert!(said.status.success(), "{}", String::from_utf8_lossy(&said.stderr));
    let read: Read = serde_json::from_slice(&said.stdout).unwrap();
    assert_eq!(read.icalendar, read.vobject, "both parsers read the same");
    Some(read.icalendar)
}

/// What a calendar holds that imports files one after the other: an event replaces the one of its UID unless it is older.
fn imported(files: &[&[Found]]) -> BTreeMap<String, Found> {
    let mut held: BTreeMap<String, Found> = BTreeMap::new();
    for event in files.iter().copied().flatten() {
        if held.get(&event.uid).is_none_or(|known| known.sequence <= event.sequence) {
            held.insert(event.uid.clone(), event.clone());
        }
    }
    held
}

#[test]
fn two_parsers_read_it_alike_and_importing_it_again_gives_no_doubles() {
    let laptop = laptop();
    let first = written(&laptop, "first.ics", "2026-10-20");
    let again = written(&laptop, "again.ics", "2026-10-20");
    // Color is seen early: the forecast moves, and first color is done.
    let header = SMALL.lines().next().unwrap();
    let seen = r#"{"type":"entry","at":"2026-10-22T07:00:00-04:00","by":"kt","bench":"E1","kind":"bracts","stage":2}"#;
    let more = laptop.file("more.jsonl", &format!("{header}\n{seen}\n"));
    laptop.done(&["import", arg(&more)]);
    let later = written(&laptop, "later.ics", "2026-10-23");
    let Some(read) = read(&[&first, &again, &later]) else { return };
    let [first, again, later] = read.as_slice() else { panic!("{read:?}") };
    assert!(first.len() > 5, "{first:?}");
    assert_eq!(imported(&[first]).len(), first.len(), "a UID is one event's");
    assert_eq!(imported(&[first, again]), imported(&[again]), "imported twice, nothing is there twice");
    let held = imported(&[first, later]);
    let of = |what: &str| held.values().find(|e| e.uid.ends_with(&format!(".{what}@benchwalk"))).unwrap();
    let was = |what: &str| first.iter().find(|e| e.uid == of(what).uid).unwrap();
    assert_eq!((was("first-color").status.as_str(), of("first-color").status.as_str()), ("TENTATIVE", "CANCELLED"));
    assert_ne!(was("full-color").first, of("full-color").first, "the forecast moved");
    assert_eq!(held.len(), first.len(), "under the same ids");
    assert!(later.iter().all(|event| event.sequence > first[0].sequence), "so that calendars take the later one");
    let order = of("order-2026-11-20");
    assert_eq!(order.end, order.first + Days::new(1), "the end is the day after the last");
    assert!(order.description.contains("mid red, \"early\"; 20 °C, 400 µmol/m² of light"), "{}", order.description);
    assert_eq!(order.houses, ["East"]);
}
