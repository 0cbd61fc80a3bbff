//! The small seasons of `tests/cases` through the whole program: imported, reviewed, read back as JSON.

use crate::{Laptop, arg};
use chrono::NaiveDate;
use serde_json::Value;
use std::path::{Path, PathBuf};

const LEVELS: [&str; 3] = ["watch", "act", "urgent"];

fn rank(level: &Value) -> usize {
    LEVELS.iter().position(|known| level == known).unwrap_or_else(|| panic!("{level} is no level"))
}

fn list<'a>(value: &'a Value, field: &str) -> &'a [Value] {
    value[field].as_array().map_or(&[], Vec::as_slice)
}

/// The strongest level the review tells of what is asked about.
fn told(review: &Value, asked: &Value) -> Option<usize> {
    let concerns = |w: &&Value| {
        w["warning"] == asked["warning"]
            && asked.get("bench").is_none_or(|bench| list(w, "benches").contains(bench))
            && asked.get("lot").is_none_or(|lot| w["lot"] == *lot)
            && (asked.get("house").is_none() || w["scope"] == "house")
    };
    list(review, "warnings").iter().filter(concerns).map(|w| rank(&w["level"])).max()
}

fn review(laptop: &Laptop, on: &str) -> Value {
    serde_json::from_str(&laptop.done(&["review", "--on", on, "--format", "json"])).unwrap()
}

/// What of a case does not hold.
fn faults(laptop: &Laptop, expect: &Value) -> Vec<String> {
    let review = review(laptop, expect["on"].as_str().unwrap());
    let mut faults = Vec::new();
    for asked in list(expect, "expect") {
        let most = asked.get("most").map_or(2, rank);
        let found = told(&review, asked);
        if !found.is_some_and(|level| (rank(&asked["level"])..=most).contains(&level)) {
            faults.push(format!("wanted {asked}, found {found:?}"));
        }
    }
    for asked in list(expect, "absent").iter().filter(|asked| told(&review, asked).is_some()) {
        faults.push(format!("{asked} should be absent"));
    }
    let benches = |value: &Value| -> Vec<String> {
        list(value, "closed").iter().map(|c| c["bench"].as_str().unwrap().to_owned()).collect()
    };
    if benches(&review) != benches(expect) {
        faults.push(format!("closed: wanted {:?}, found {:?}", benches(expect), benches(&review)));
    }
    faults
}

/// What is above a level on the days of a range.
fn loud(laptop: &Laptop, quiet: &Value) -> Vec<String> {
    let day = |field: &str| -> NaiveDate { quiet[field].as_str().unwrap().parse().unwrap() };
    let mut faults = Vec::new();
    for on in day("from").iter_days().take_while(|on| *on <= day("to")) {
        let review = review(laptop, &on.to_string());
        let above = list(&review, "warnings").iter().filter(|w| rank(&w["level"]) > rank(&quiet["most"]));
        faults.extend(above.map(|w| format!("{on}: {} {} on {}", w["warning"], w["level"], w["benches"])));
    }
    faults
}

fn cases() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases");
    let paths = std::fs::read_dir(folder).unwrap().map(|found| found.unwrap().path());
    let mut cases: Vec<PathBuf> = paths.filter(|path| path.extension().is_some_and(|e| e == "jsonl")).collect();
    cases.sort();
    cases
}

#[test]
fn every_case_holds_through_the_program() {
    let cases = cases();
    assert!(cases.len() >= 19, "{} cases", cases.len());
    let mut all = Vec::new();
    for case in cases {
        let laptop = Laptop::new();
        laptop.done(&["import", arg(&case)]);
        let expect = std::fs::read_to_string(case.with_extension("expect.json")).unwrap();
        let expect: Value = serde_json::from_str(&expect).unwrap();
        let mut found = faults(&laptop, &expect);
        if let Some(quiet) = expect.get("quiet") {
            found.extend(loud(&laptop, quiet));
        }
        all.extend(found.into_iter().map(|fault| format!("{}: {fault}", case.display())));
    }
    assert!(all.is_empty(), "{}", all.join("\n"));
}
