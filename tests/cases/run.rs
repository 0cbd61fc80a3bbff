//! Small seasons in journal form with the warnings that must and must not stand on a day.
//!
//! Each `tests/cases/NAME.jsonl` has a `NAME.expect.json`: `expect` (at least this level, and no more than `most` where that
//! is given), `absent` (not there at any level), `closed` (exactly these benches, until exactly then), and `quiet` (on no day
//! of the range anything above a level). Every case is run as it stands and with its lines turned round.

use benchwalk::journal;
use benchwalk::limits::Limits;
use benchwalk::record::{Line, Place, Plan, Term};
use benchwalk::season::Season;
use benchwalk::warnings::{Severity, Warning, WarningName, assess_all};
use chrono::{DateTime, NaiveDate, Utc};
use serde_json::Value;
use std::path::{Path, PathBuf};

fn season(lines: Vec<Line>) -> Season {
    let mut season = Season::new(Plan::default(), Vec::new());
    for line in lines {
        season.revise(line);
    }
    season
}

fn level(text: &str) -> Severity {
    [Severity::Watch, Severity::Act, Severity::Urgent].into_iter().find(|l| l.code() == text).expect("a level")
}

fn text<'a>(value: &'a Value, field: &str) -> Option<&'a str> {
    value.get(field).and_then(Value::as_str)
}

fn day(value: &Value, field: &str) -> NaiveDate {
    text(value, field).and_then(|t| t.parse().ok()).unwrap_or_else(|| panic!("{field} is a day"))
}

/// The strongest warning of a name that concerns the place asked about.
fn strongest<'w>(told: &[&'w Warning], asked: &Value) -> Option<&'w Warning> {
    let name = WarningName::from_code(text(asked, "warning").expect("a warning")).expect("a known warning");
    let concerns = |w: &Warning| {
        text(asked, "bench").is_none_or(|b| w.benches.iter().any(|c| c == b))
            && text(asked, "lot").is_none_or(|l| w.lot.as_deref() == Some(l))
            && text(asked, "house").is_none_or(|h| w.place == Place::House(h.to_owned()))
    };
    told.iter().copied().filter(|w| w.name == name && concerns(w)).max_by_key(|w| w.level)
}

fn list<'a>(value: &'a Value, field: &str) -> &'a [Value] {
    value.get(field).and_then(Value::as_array).map_or(&[], Vec::as_slice)
}

/// What does not hold of a case, in words.
fn faults(season: &Season, expect: &Value) -> Vec<String> {
    let on = day(expect, "on");
    let limits = Limits::default();
    let assessment = assess_all(season, on, &limits);
    let told: Vec<&Warning> = assessment.all().collect();
    let mut faults = Vec::new();
    for asked in list(expect, "expect") {
        let least = level(text(asked, "level").expect("a level"));
        let most = text(asked, "most").map_or(Severity::Urgent, level);
        let found = strongest(&told, asked).map(|w| w.level);
        if !found.is_some_and(|l| (least..=most).contains(&l)) {
            faults.push(format!("wanted {asked}, found {found:?}"));
        }
    }
    for asked in list(expect, "absent") {
        if let Some(found) = strongest(&told, asked) {
            faults.push(format!("{asked} should be absent: {:?} since {}", found.level, found.since));
        }
    }
    faults.extend(closed_faults(season, on, expect));
    if let Some(quiet) = expect.get("quiet") {
        faults.extend(loud_days(season, quiet, &limits));
    }
    faults
}

fn closed_faults(season: &Season, on: NaiveDate, expect: &Value) -> Vec<String> {
    let found: Vec<(String, DateTime<Utc>)> = season
        .benches()
        .iter()
        .filter_map(|b| season.closed_on(&b.bench, on).map(|until| (b.bench.clone(), until)))
        .collect();
    let wanted: Vec<(String, DateTime<Utc>)> = list(expect, "closed")
        .iter()
        .map(|c| {
            let until = text(c, "until").and_then(|t| DateTime::parse_from_rfc3339(t).ok()).expect("an instant");
            (text(c, "bench").expect("a bench").to_owned(), until.to_utc())
        })
        .collect();
    if found == wanted { Vec::new() } else { vec![format!("closed: wanted {wanted:?}, found {found:?}")] }
}

fn loud_days(season: &Season, quiet: &Value, limits: &Limits) -> Vec<String> {
    let most = level(text(quiet, "most").expect("a level"));
    let to = day(quiet, "to");
    let mut faults = Vec::new();
    for on in day(quiet, "from").iter_days().take_while(|d| *d <= to) {
        for warning in assess_all(season, on, limits).all().filter(|w| w.level > most) {
            faults.push(format!("{on}: {} {:?} on {:?}", warning.name.code(), warning.level, warning.benches));
        }
    }
    faults
}

fn cases() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases");
    let mut found: Vec<PathBuf> = std::fs::read_dir(folder)
        .expect("the cases")
        .map(|f| f.expect("a file").path())
        .filter(|p| p.extension().is_some_and(|e| e == "jsonl"))
        .collect();
    found.sort();
    found
}

fn run(turned: bool) -> Vec<String> {
    let mut faults_found = Vec::new();
    let cases = cases();
    assert!(cases.len() >= 19, "{} cases", cases.len());
    for case in cases {
        let name = case.file_stem().expect("a name").to_string_lossy().into_owned();
        let read = |path: &Path| std::fs::read_to_string(path).expect("a case");
        let mut lines = journal::read(&read(&case)).unwrap_or_else(|f| panic!("{name}: {f:?}"));
        if turned {
            lines.reverse();
        }
        let expect: Value = serde_json::from_str(&read(&case.with_extension("expect.json"))).expect("JSON");
        faults_found.extend(faults(&season(lines), &expect).into_iter().map(|f| format!("{name}: {f}")));
    }
    faults_found
}

#[test]
fn every_case_holds() {
    let faults = run(false);
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn the_order_of_lines_does_not_matter() {
    let faults = run(true);
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}
