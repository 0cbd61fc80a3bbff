//! Small seasons in journal form with the warnings that must and must not stand on a day.
//!
//! Each `NAME.jsonl` in `tests/cases` and `tests/cases/published` has a `NAME.expect.json`: `expect` (at least this level, and
//! no more than `most` where that is given), `absent` (not there at any level), `closed` (exactly these benches, until exactly
//! then), `more` (further days with their own `expect` and `absent`), `says` and `saysnot` (a text that the JSON of a warning
//! has on a day, or has not), and `quiet` (on no day of the range anything above a level, nor one of the warnings `noted` that
//! is not only noted). Every case is run as it stands and with its lines turned round. The published ones are made from reports
//! of growers and plant clinics, each named as `source`.

use benchwalk::journal;
use benchwalk::limits::Limits;
use benchwalk::record::{Line, Place, Plan, Term};
use benchwalk::season::Season;
use benchwalk::warnings::{Severity, Warning, WarningName, assess_all};
use benchwalk::{report, review};
use chrono::{DateTime, NaiveDate, Utc};
use serde_json::Value;
use std::path::{Path, PathBuf};

/// Cases that do not hold yet, each with the reason. One that holds is taken off the list: the test fails until it is.
const NOT_YET: [(&str, &str); 0] = [];

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
    let name = WarningName::from_code(text(asked, "warning").expect("a warning"))?;
    let concerns = |w: &Warning| {
        text(asked, "bench").is_none_or(|b| w.benches.iter().any(|c| c == b))
            && text(asked, "lot").is_none_or(|l| w.lot.as_deref() == Some(l))
            && text(asked, "house").is_none_or(|h| w.place == Place::House(h.to_owned().into()))
    };
    told.iter().copied().filter(|w| w.name == name && concerns(w)).max_by_key(|w| w.level)
}

fn list<'a>(value: &'a Value, field: &str) -> &'a [Value] {
    value.get(field).and_then(Value::as_array).map_or(&[], Vec::as_slice)
}

/// What does not hold of a case, in words.
fn faults(season: &Season, expect: &Value) -> Vec<String> {
    let limits = Limits::default();
    let days = std::iter::once(expect).chain(list(expect, "more"));
    let mut faults: Vec<String> = days.flat_map(|of| faults_of_a_day(season, of, &limits)).collect();
    faults.extend(closed_faults(season, day(expect, "on"), expect));
    for (field, wanted) in [("says", true), ("saysnot", false)] {
        for asked in list(expect, field) {
            let said = said(season, asked, &limits);
            if said.contains(text(asked, "text").expect("a text")) != wanted {
                faults.push(format!("{field} {asked}: {said}"));
            }
        }
    }
    if let Some(quiet) = expect.get("quiet") {
        faults.extend(loud_days(season, quiet, &limits));
    }
    faults
}

/// What of `expect` and `absent` does not hold on the day of `of`.
fn faults_of_a_day(season: &Season, of: &Value, limits: &Limits) -> Vec<String> {
    let on = day(of, "on");
    let assessment = assess_all(season, on, limits);
    let told: Vec<&Warning> = assessment.all().collect();
    let mut faults = Vec::new();
    for asked in list(of, "expect") {
        let least = level(text(asked, "level").expect("a level"));
        let most = text(asked, "most").map_or(Severity::Urgent, level);
        let found = strongest(&told, asked).map(|w| w.level);
        if !found.is_some_and(|l| (least..=most).contains(&l)) {
            faults.push(format!("{on}: wanted {asked}, found {found:?}"));
        }
    }
    for asked in list(of, "absent") {
        if let Some(found) = strongest(&told, asked) {
            faults.push(format!("{on}: {asked} should be absent: {:?} since {}", found.level, found.since));
        }
    }
    faults
}

/// What the JSON of the warnings of a name says on a day, one after the other.
fn said(season: &Season, asked: &Value, limits: &Limits) -> String {
    let on = day(asked, "on");
    let all: Vec<Warning> = assess_all(season, on, limits).all().cloned().collect();
    let review = review::build(season, on, all, &[], String::new()).expect("a site");
    let json: Value = serde_json::from_str(&report::review::json(&review).expect("JSON")).expect("JSON");
    let of_the_name = list(&json, "warnings").iter().filter(|w| text(w, "warning") == text(asked, "warning"));
    of_the_name.map(ToString::to_string).collect::<Vec<_>>().join("\n")
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
    let noted: Vec<&str> = list(quiet, "noted").iter().filter_map(Value::as_str).collect();
    let mut faults = Vec::new();
    for on in day(quiet, "from").iter_days().take_while(|d| *d <= to) {
        let is_loud = |w: &&Warning| w.level > most || !w.noted && noted.contains(&w.name.code());
        for warning in assess_all(season, on, limits).all().filter(is_loud) {
            faults.push(format!("{on}: {} {:?} on {:?}", warning.name.code(), warning.level, warning.benches));
        }
    }
    faults
}

fn cases_in(folder: &str) -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
    let mut found: Vec<PathBuf> = std::fs::read_dir(folder)
        .expect("the cases")
        .map(|f| f.expect("a file").path())
        .filter(|p| p.extension().is_some_and(|e| e == "jsonl"))
        .collect();
    found.sort();
    found
}

fn read(path: &Path) -> String {
    std::fs::read_to_string(path).expect("a case")
}

fn expected(case: &Path) -> Value {
    serde_json::from_str(&read(&case.with_extension("expect.json"))).expect("JSON")
}

/// What does not hold of a case, its lines as they stand or turned round.
fn run_case(case: &Path, turned: bool) -> Vec<String> {
    let mut lines = match journal::read(&read(case)) {
        Ok(lines) => lines,
        Err(faults) => return vec![format!("{faults:?}")],
    };
    if turned {
        lines.reverse();
    }
    faults(&season(lines), &expected(case))
}

fn run(turned: bool) -> Vec<String> {
    let cases = [cases_in("tests/cases"), cases_in("tests/cases/published")].concat();
    let mut wrong = Vec::new();
    for case in cases {
        let name = case.file_stem().expect("a name").to_string_lossy().into_owned();
        let faults = run_case(&case, turned);
        match NOT_YET.iter().find(|(known, _)| *known == name) {
            Some((_, reason)) if faults.is_empty() => {
                wrong.push(format!("{name} holds now; take it off the list ({reason})"));
            }
            Some(_) => {}
            None => wrong.extend(faults.into_iter().map(|f| format!("{name}: {f}"))),
        }
    }
    wrong
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

#[test]
fn no_case_is_lost_and_every_published_one_names_its_source() {
    assert!(cases_in("tests/cases").len() >= 19);
    let published = cases_in("tests/cases/published");
    assert!(published.len() >= 10);
    for case in published {
        let expect = expected(&case);
        for field in ["source", "diagnosis", "advice"] {
            assert!(text(&expect, field).is_some_and(|t| !t.is_empty()), "{}: {field}", case.display());
        }
    }
}
