//! Two season files that grew apart from one export are joined by the program itself: `export` here, `import` there.

use crate::{SMALL, water};
use benchwalk::record::codec;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use tempfile::TempDir;

/// A folder with season files.
struct Desk(TempDir);

impl Desk {
    fn path(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    /// Runs the program on a season file of this folder.
    fn run(&self, season: &str, arguments: &[&str]) -> Output {
        Command::new(env!("CARGO_BIN_EXE_benchwalk"))
            .arg("--season")
            .arg(self.path(season))
            .args(arguments)
            .env("HOME", self.0.path())
            .env("XDG_DATA_HOME", self.0.path())
            .env("XDG_CONFIG_HOME", self.0.path())
            .env("XDG_STATE_HOME", self.0.path())
            .output()
            .unwrap()
    }

    /// What a command that must succeed prints.
    fn done(&self, season: &str, arguments: &[&str]) -> String {
        let output = self.run(season, arguments);
        let err = String::from_utf8_lossy(&output.stderr);
        assert!(output.status.success(), "{season} {arguments:?}: {err}");
        String::from_utf8(output.stdout).unwrap()
    }

    /// Imports lines into a season file.
    fn write(&self, season: &str, text: &str) {
        let journal = self.path("lines.jsonl");
        std::fs::write(&journal, text).unwrap();
        self.done(season, &["import", journal.to_str().unwrap()]);
    }

    /// Takes what is in one file into another.
    fn join(&self, from: &str, to: &str) {
        let text = self.done(from, &["export"]);
        self.write(to, &text);
    }
}

/// The small season with a second bench.
fn base() -> String {
    format!("{SMALL}{}\n", r#"{"type":"bench","bench":"N2","house":"North","order":2}"#)
}

/// The id of the line of the base that begins so.
fn id_of(begins: &str) -> String {
    let text = base();
    let line = text.lines().find(|line| line.starts_with(begins)).unwrap();
    codec::decode(line, 1).unwrap().id().to_string()
}

fn lot(id: u32, at: &str, by: &str, replaces: &str, change: &str) -> String {
    format!(
        r#"{{"type":"lot","lot":"P6-R","cultivar":"mid red","container":"6 in","cuttings_per_pot":1,"pots":240,"planted":"2026-08-17","pinch":"soft","response_weeks":9.5,"nights":"natural",{change},"id":"0199a000-0000-7000-8000-{id:012}","at":"{at}","by":"{by}","replaces":[{replaces}]}}"#
    )
}

fn bench(id: u32, code: &str, area: u32, by: &str) -> String {
    format!(
        r#"{{"type":"bench","bench":"{code}","house":"North","order":5,"area_m2":{area},"id":"0199a000-0000-7000-8000-{id:012}","at":"2026-10-06T08:00:00-04:00","by":"{by}","replaces":[]}}"#
    )
}

fn entry(at: &str, by: &str, rest: &str) -> String {
    format!(r#"{{"type":"entry","at":"{at}","by":"{by}","bench":"N1",{rest}}}"#)
}

/// What each of two laptops wrote.
fn grown_apart() -> (String, String) {
    let lot_id = format!("\"{}\"", id_of("{\"type\":\"lot\""));
    let of = |by: &str, first: u32, change: &str, area: u32, minute: u32, level: u8| {
        [
            "{\"type\":\"journal\",\"version\":2}".to_owned(),
            lot(first, &format!("2026-10-06T09:{minute:02}:00-04:00"), by, &lot_id, change),
            bench(first + 1, "N5", 12, by),
            bench(first + 2, "N6", area, by),
            entry(&format!("2026-10-06T07:{minute:02}:00-04:00"), by, &format!("\"kind\":\"water\",\"level\":{level}")),
            entry(&format!("2026-10-06T10:{minute:02}:00-04:00"), by, r#""kind":"moved","to":"N2","pots":80"#),
        ]
        .join("\n")
    };
    (
        of("ann", 10, r#""ready_by":"2026-11-20""#, 10, 1, 2),
        of("bob", 20, r#""ready_by":"2026-11-27","height_high_cm":38"#, 11, 2, 5),
    )
}

fn joined() -> Desk {
    let desk = Desk(tempfile::tempdir().unwrap());
    desk.write("a.db", &base());
    desk.join("a.db", "b.db");
    let (ann, bob) = grown_apart();
    desk.write("a.db", &ann);
    desk.write("b.db", &bob);
    desk.join("a.db", "b.db");
    desk.join("b.db", "a.db");
    desk
}

#[test]
fn both_hold_all_of_it_and_export_the_same_and_what_contradicts_is_to_settle() {
    let desk = joined();
    let exported = desk.done("a.db", &["export"]);
    assert_eq!(exported, desk.done("b.db", &["export"]), "byte for byte");
    for held in
        ["\"level\":2", "\"level\":5", "2026-11-20", "\"height_high_cm\":38", "\"area_m2\":10", "\"area_m2\":11"]
    {
        assert!(exported.contains(held), "{held} in {exported}");
    }
    assert_eq!(exported.matches("\"bench\":\"N5\",\"house\"").count(), 2, "the same written twice is kept twice");
    // Joining again changes nothing.
    desk.join("a.db", "b.db");
    assert_eq!(desk.done("b.db", &["export"]), exported);
    let review = desk.done("a.db", &["review", "--on", "2026-10-06"]);
    let flat = review.split_whitespace().collect::<Vec<_>>().join(" ");
    let settle = flat.split("To settle").nth(1).unwrap_or_else(|| panic!("{review}")).split("Tomorrow").next().unwrap();
    for told in
        ["lot P6-R:", "ready_by 2026-11-20", "ann, Tue Oct 6", "bob, Tue Oct 6", "bench N6:", "80 moved off bench N1"]
    {
        assert!(settle.contains(told), "{told} in {settle}");
    }
    assert!(!settle.contains("N5"), "equal lines do not contradict: {settle}");
    assert_eq!(review, desk.done("b.db", &["review", "--on", "2026-10-06"]));
    let json: serde_json::Value =
        serde_json::from_str(&desk.done("a.db", &["review", "--on", "2026-10-06", "--format", "json"])).unwrap();
    let settle = json["to_settle"].as_array().unwrap();
    assert_eq!(settle.len(), 3, "{settle:#?}");
    let of_lot = settle.iter().find(|s| s["what"] == "lot P6-R").unwrap();
    assert_eq!(of_lot["lines"][0]["fields"]["ready_by"], "2026-11-20");
    assert_eq!(of_lot["lines"][1]["fields"]["height_high_cm"], 38);
    assert_eq!(of_lot["lines"][1]["by"], "bob");
    assert!(desk.done("a.db", &["review", "--on", "2026-10-06", "--format", "html"]).contains("<h2>To settle</h2>"));
    assert!(
        !desk.done("a.db", &["review", "--on", "2026-10-05"]).contains("To settle"),
        "nothing of it was written then"
    );
}

#[test]
fn a_line_made_after_seeing_both_settles_it_and_a_new_file_takes_it_all() {
    let desk = joined();
    let both = r#""0199a000-0000-7000-8000-000000000010","0199a000-0000-7000-8000-000000000020""#;
    let settled = lot(30, "2026-10-07T08:00:00-04:00", "ann", both, r#""ready_by":"2026-11-20","height_high_cm":38"#);
    desk.write("a.db", &format!("{{\"type\":\"journal\",\"version\":2}}\n{settled}\n"));
    // Written by hand, without what it replaces: it has seen all that stand before it.
    let by_hand = r#"{"type":"bench","bench":"N6","house":"North","order":5,"area_m2":10,"at":"2026-10-07T08:01:00-04:00","by":"ann"}"#;
    desk.write("a.db", &format!("{{\"type\":\"journal\",\"version\":2}}\n{by_hand}\n"));
    let review = desk.done("a.db", &["review", "--on", "2026-10-07"]);
    let settle = review.split("To settle").nth(1).unwrap().split("Tomorrow").next().unwrap();
    assert!(!settle.contains("lot P6-R:") && !settle.contains("bench N6:"), "{settle}");
    assert!(settle.contains("80 moved off bench N1"), "the pots are still to settle: {settle}");
    desk.join("a.db", "b.db");
    desk.join("b.db", "c.db");
    assert_eq!(desk.done("a.db", &["export"]), desk.done("c.db", &["export"]));
}

#[test]
fn the_journal_of_another_season_is_refused_naming_both_sites() {
    let desk = joined();
    desk.write("other.db", &base().replace("Alder Hollow", "Birch Flat"));
    let before = desk.done("a.db", &["export"]);
    for text in [desk.done("other.db", &["export"]), base().replace("Alder Hollow", "Birch Flat")] {
        let journal = desk.path("other.jsonl");
        std::fs::write(&journal, text).unwrap();
        let output = desk.run("a.db", &["import", journal.to_str().unwrap()]);
        let err = String::from_utf8_lossy(&output.stderr).into_owned();
        assert_eq!(output.status.code(), Some(1), "{err}");
        assert!(err.contains("Birch Flat") && err.contains("Alder Hollow") && err.contains("two seasons"), "{err}");
    }
    assert_eq!(desk.done("a.db", &["export"]), before);
}

#[test]
fn pots_that_do_not_add_up_are_refused_in_a_journal_of_no_season() {
    let desk = Desk(tempfile::tempdir().unwrap());
    desk.write("a.db", &base());
    let sold = entry("2026-10-06T10:00:00-04:00", "ann", r#""kind":"sold","pots":81"#);
    let journal = desk.path("sold.jsonl");
    std::fs::write(&journal, format!("{{\"type\":\"journal\",\"version\":1}}\n{sold}\n")).unwrap();
    let output = desk.run("a.db", &["import", journal.to_str().unwrap()]);
    assert_eq!(output.status.code(), Some(1));
    assert!(String::from_utf8_lossy(&output.stderr).contains("80 stand there"));
}

/// A season with a wet bench, and its reviews of a day as text and as JSON.
fn wet() -> Desk {
    let desk = Desk(tempfile::tempdir().unwrap());
    let days: Vec<String> = (5..=12).map(|day| water(day, 5)).collect();
    desk.write("a.db", &format!("{}{}\n", base(), days.join("\n")));
    desk
}

fn reviews(desk: &Desk, day: &str) -> (String, String) {
    (desk.done("a.db", &["review", "--on", day]), desk.done("a.db", &["review", "--on", day, "--format", "json"]))
}

#[test]
fn a_review_of_an_earlier_day_does_not_change_when_the_plan_is_revised() {
    let desk = wet();
    let (then, now) = (reviews(&desk, "2026-10-10"), reviews(&desk, "2026-10-12"));
    let lot_id = format!("\"{}\"", id_of("{\"type\":\"lot\""));
    let revised = lot(1, "2026-10-12T09:00:00-04:00", "ann", &lot_id, r#""ready_by":"2026-10-20""#);
    desk.write("a.db", &format!("{{\"type\":\"journal\",\"version\":2}}\n{revised}\n"));
    assert_eq!(reviews(&desk, "2026-10-10"), then);
    assert_ne!(reviews(&desk, "2026-10-12"), now, "the revision counts from its own day on");
}

#[test]
fn a_correction_holds_for_every_day_in_what_it_changed() {
    let desk = wet();
    let lot_id = format!("\"{}\"", id_of("{\"type\":\"lot\""));
    let revised = lot(1, "2026-10-11T09:00:00-04:00", "ann", &lot_id, r#""ready_by":"2026-10-20""#);
    desk.write("a.db", &format!("{{\"type\":\"journal\",\"version\":2}}\n{revised}\n"));
    let then = reviews(&desk, "2026-10-10");
    // The planting day was written down wrong; the sale is as it was planned meanwhile.
    let first = "\"0199a000-0000-7000-8000-000000000001\"";
    let corrected = lot(2, "2026-10-12T09:00:00-04:00", "ann", first, r#""ready_by":"2026-10-20","corrects":true"#)
        .replace("2026-08-17", "2026-09-28");
    desk.write("a.db", &format!("{{\"type\":\"journal\",\"version\":2}}\n{corrected}\n"));
    let mended = reviews(&desk, "2026-10-10");
    assert_ne!(mended, then, "planted a week before Oct 5, it was not wet for long");
    // As if the planting day had been right from the first, with the first sale still planned then.
    let right = Desk(tempfile::tempdir().unwrap());
    let days: Vec<String> = (5..=12).map(|day| water(day, 5)).collect();
    let lots = base().replace("\"planted\":\"2026-08-17\"", "\"planted\":\"2026-09-28\"");
    right.write("a.db", &format!("{lots}{}\n", days.join("\n")));
    assert_eq!(mended, reviews(&right, "2026-10-10"));
}

#[test]
fn a_season_file_of_version_1_is_joined_as_well() {
    let desk = joined();
    let v1 = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/store/v1.db");
    std::fs::copy(&v1, desk.path("old.db")).unwrap();
    std::fs::copy(&v1, desk.path("older.db")).unwrap();
    // Reading does not bring it to this version; its export names the season all the same.
    let exported = desk.done("old.db", &["export"]);
    desk.write("older.db", &exported);
    assert_eq!(desk.done("older.db", &["export"]), exported);
}
