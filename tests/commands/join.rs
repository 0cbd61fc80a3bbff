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
    format!("{SMALL}{}\n", r#"{"type":"bench","bench":"E2","house":"East","order":2}"#)
}

/// The id of the line of the base that begins so.
fn id_of(begins: &str) -> String {
    let text = base();
    let line = text.lines().find(|line| line.starts_with(begins)).unwrap();
    codec::decode(line, 1).unwrap().id().to_string()
}

fn lot(id: u32, at: &str, by: &str, replaces: &str, change: &str) -> String {
    format!(
        r#"{{"type":"lot","lot":"R1","cultivar":"mid red","container":"6.5 in","cuttings_per_pot":1,"pots":240,"planted":"2026-08-17","pinch":"soft","response_weeks":9.5,"nights":"natural",{change},"id":"0199a000-0000-7000-8000-{id:012}","at":"{at}","by":"{by}","replaces":[{replaces}]}}"#
    )
}

fn bench(id: u32, code: &str, area: u32, by: &str) -> String {
    format!(
        r#"{{"type":"bench","bench":"{code}","house":"East","order":5,"area_m2":{area},"id":"0199a000-0000-7000-8000-{id:012}","at":"2026-10-06T08:00:00-04:00","by":"{by}","replaces":[]}}"#
    )
}

fn entry(at: &str, by: &str, rest: &str) -> String {
    format!(r#"{{"type":"entry","at":"{at}","by":"{by}","bench":"E1",{rest}}}"#)
}

/// What each of two laptops wrote.
fn grown_apart() -> (String, String) {
    let lot_id = format!("\"{}\"", id_of("{\"type\":\"lot\""));
    let of = |by: &str, first: u32, change: &str, area: u32, minute: u32, level: u8| {
        [
            "{\"type\":\"journal\",\"version\":2}".to_owned(),
            lot(first, &format!("2026-10-06T09:{minute:02}:00-04:00"), by, &lot_id, change),
            bench(first + 1, "E5", 12, by),
            bench(first + 2, "E6", area, by),
            entry(&format!("2026-10-06T07:{minute:02}:00-04:00"), by, &format!("\"kind\":\"water\",\"level\":{level}")),
            entry(&format!("2026-10-06T10:{minute:02}:00-04:00"), by, r#""kind":"moved","to":"E2","pots":80"#),
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
    assert_eq!(exported.matches("\"bench\":\"E5\",\"house\"").count(), 2, "the same written twice is kept twice");
    // Joining again changes nothing.
    desk.join("a.db", "b.db");
    assert_eq!(desk.done("b.db", &["export"]), exported);
    let review = desk.done("a.db", &["review", "--on", "2026-10-06"]);
    let flat = review.split_whitespace().collect::<Vec<_>>().join(" ");
    let settle = flat.split("To settle").nth(1).unwrap_or_else(|| panic!("{review}")).split("Tomorrow").next().unwrap();
    for told in [
        "lot R1:",
        "ready by Fri Nov 20",
        "finished ht, max 15 in",
        "ann, Tue Oct 6",
        "bob, Tue Oct 6",
        "bench E6:",
        "80 moved off bench E1",
    ] {
        assert!(settle.contains(told), "{told} in {settle}");
    }
    assert!(!settle.contains("E5"), "equal lines do not contradict: {settle}");
    assert_eq!(review, desk.done("b.db", &["review", "--on", "2026-10-06"]));
    let json: serde_json::Value =
        serde_json::from_str(&desk.done("a.db", &["review", "--on", "2026-10-06", "--format", "json"])).unwrap();
    let settle = json["to_settle"].as_array().unwrap();
    assert_eq!(settle.len(), 3, "{settle:#?}");
    let of_lot = settle.iter().find(|s| s["what"] == "lot R1").unwrap();
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
    let by_hand = r#"{"type":"bench","bench":"E6","house":"East","order":5,"area_m2":10,"at":"2026-10-07T08:01:00-04:00","by":"ann"}"#;
    desk.write("a.db", &format!("{{\"type\":\"journal\",\"version\":2}}\n{by_hand}\n"));
    let review = desk.done("a.db", &["review", "--on", "2026-10-07"]);
    let settle = review.split("To settle").nth(1).unwrap().split("Tomorrow").next().unwrap();
    assert!(!settle.contains("lot R1:") && !settle.contains("bench E6:"), "{settle}");
    assert!(settle.contains("80 moved off bench E1"), "the pots are still to settle: {settle}");
    desk.join("a.db", "b.db");
    desk.join("b.db", "c.db");
    assert_eq!(desk.done("a.db", &["export"]), desk.done("c.db", &["export"]));
}

#[test]
fn the_journal_of_another_season_is_refused_naming_both_sites() {
    let desk = joined();
    desk.write("other.db", &base().replace("Thistlecot", "Mossling"));
    let before = desk.done("a.db", &["export"]);
    for text in [desk.done("other.db", &["export"]), base().replace("Thistlecot", "Mossling")] {
        let journal = desk.path("other.jsonl");
        std::fs::write(&journal, text).unwrap();
        let output = desk.run("a.db", &["import", journal.to_str().unwrap()]);
        let err = String::from_utf8_lossy(&output.stderr).into_owned();
        assert_eq!(output.status.code(), Some(1), "{err}");
        assert!(err.contains("Mossling") && err.contains("Thistlecot") && err.contains("two seasons"), "{err}");
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
    assert!(String::from_utf8_lossy(&output.stderr).contains("80 are there"));
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
    std::fs::copy(of_store("v1.db"), desk.path("old.db")).unwrap();
    std::fs::copy(of_store("v1.db"), desk.path("older.db")).unwrap();
    // Reading does not bring it to this version; its export names the season all the same.
    let exported = desk.done("old.db", &["export"]);
    desk.write("older.db", &exported);
    assert_eq!(desk.done("older.db", &["export"]), exported);
}

/// A file of the tests of the store.
fn of_store(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/store").join(name)
}

/// The season that a journal's header names.
fn season_of(exported: &str) -> String {
    let header: serde_json::Value = serde_json::from_str(exported.lines().next().unwrap()).unwrap();
    header["season"].as_str().unwrap_or_else(|| panic!("no season in {header}")).to_owned()
}

#[test]
fn the_season_of_a_journal_that_names_none_is_made_of_its_first_site_line() {
    let desk = Desk(tempfile::tempdir().unwrap());
    let old = std::fs::read_to_string(of_store("v1.jsonl")).unwrap();
    // The site stands in it twice; on the other laptop the lines came in two parts and turned round.
    desk.write("a.db", &old);
    let (header, lines) = old.split_once('\n').unwrap();
    let (plan, entries): (Vec<&str>, Vec<&str>) = lines.lines().partition(|line| !line.contains(r#""type":"entry""#));
    let part = |lines: &[&str]| format!("{header}\n{}\n", lines.iter().rev().copied().collect::<Vec<_>>().join("\n"));
    desk.write("b.db", &part(&plan));
    desk.write("b.db", &part(&entries));
    let exported = desk.done("a.db", &["export"]);
    assert_eq!(exported, desk.done("b.db", &["export"]), "byte for byte");
    let first = plan.iter().find(|line| line.contains(r#""type":"site""#)).unwrap();
    let made = codec::season_id(codec::decode(first, 1).unwrap().id()).to_string();
    assert_eq!(season_of(&exported), made);
    // The file that the program of version 1 kept the same records in is of that season too.
    std::fs::copy(of_store("v1.db"), desk.path("old.db")).unwrap();
    assert_eq!(desk.done("old.db", &["export"]), exported);
    desk.join("a.db", "old.db");
    assert_eq!(desk.done("old.db", &["export"]), exported);
    assert!(desk.path("old.v1.db").exists(), "the import brought the file to this version");
}

#[test]
fn a_new_file_adopts_the_season_that_a_journal_names() {
    let desk = Desk(tempfile::tempdir().unwrap());
    let named = "0199a000-0000-7000-8000-00000000beef";
    let text = base().replacen("\"version\":1}", &format!("\"version\":2,\"season\":\"{named}\"}}"), 1);
    desk.write("a.db", &format!("{text}{}\n", water(5, 3)));
    let exported = desk.done("a.db", &["export"]);
    assert_eq!(season_of(&exported), named);
    // From an empty folder to the next one, byte for byte.
    for (from, to) in [("a.db", "b/season.db"), ("b/season.db", "c/season.db")] {
        desk.join(from, to);
        assert_eq!(desk.done(to, &["export"]), exported);
    }
    // The same lines in a file that named its own season are of another one.
    desk.write("own.db", &base());
    assert_ne!(season_of(&desk.done("own.db", &["export"])), named);
    let journal = desk.path("lines.jsonl");
    std::fs::write(&journal, &exported).unwrap();
    assert_eq!(desk.run("own.db", &["import", journal.to_str().unwrap()]).status.code(), Some(1));
}

#[test]
fn what_is_written_of_a_plot_changes_nothing_the_bench_is_judged_by() {
    let desk = wet();
    let looks = |desk: &Desk| {
        let of = |format: &str| desk.done("a.db", &["review", "--on", "2026-10-12", "--format", format]);
        (of("text"), of("json"), of("html"), desk.done("a.db", &["sheet", "--on", "2026-10-12"]))
    };
    let trial = [
        r#"{"type":"trial","trial":"T1","lot":"R1","question":"rate","treatments":["0 g","12 g"],"design":"as-laid","reads":["height"],"from":"2026-11-01"}"#,
        r#"{"type":"plot","plot":"T1.7","trial":"T1","bench":"E1","row":1,"column":1,"treatment":"12 g","pots":40}"#,
    ];
    desk.write("a.db", &format!("{{\"type\":\"journal\",\"version\":2}}\n{}\n", trial.join("\n")));
    let before = looks(&desk);
    let of_plot = |minute: u8, rest: &str| {
        entry(&format!("2026-10-12T08:{minute:02}:00-04:00"), "kt", &format!(r#""plot":"T1.7",{rest}"#))
    };
    let lines = [
        of_plot(0, r#""kind":"water","level":1"#),
        of_plot(1, r#""kind":"height","cm":[61]"#),
        of_plot(2, r#""kind":"roots","score":0,"signs":["canker"]"#),
        of_plot(3, r#""kind":"pests","pest":"whitefly","inspected":10,"infested":10"#),
        of_plot(4, r#""kind":"root-zone","method":"1:2","ph":4.1"#),
        of_plot(5, r#""kind":"leaves","signs":["wilted"]"#),
        of_plot(6, r#""kind":"topdressed","g_per_pot":12"#),
        of_plot(7, r#""kind":"sold","pots":30"#),
        of_plot(8, r#""kind":"grade","sell":5,"second":5,"dump":20"#),
    ];
    desk.write("a.db", &format!("{{\"type\":\"journal\",\"version\":2}}\n{}\n", lines.join("\n")));
    assert!(looks(&desk) == before, "{}", looks(&desk).0);
    // Losses leave the bench's count, and a spray closes the bench.
    let more = [
        of_plot(9, r#""kind":"losses","pots":4"#),
        of_plot(10, r#""kind":"sprayed","ai":"soap","against":"whitefly","how":"spray","rei_h":12"#),
    ];
    desk.write("a.db", &format!("{{\"type\":\"journal\",\"version\":2}}\n{}\n", more.join("\n")));
    let json: serde_json::Value =
        serde_json::from_str(&desk.done("a.db", &["review", "--on", "2026-10-12", "--format", "json"])).unwrap();
    assert!(json["closed"].to_string().contains("E1"), "{json:#}");
    let all = desk.done("a.db", &["export"]);
    assert_eq!(all.matches(r#""plot":"T1.7""#).count(), 12);
    desk.join("a.db", "b.db");
    assert_eq!(desk.done("b.db", &["export"]), all);
}

#[test]
fn a_newer_file_is_exported_as_far_as_it_is_understood_and_left_as_it_is() {
    let desk = wet();
    let exported = desk.done("a.db", &["export"]);
    let client = rusqlite::Connection::open(desk.path("a.db")).unwrap();
    let newer = "INSERT INTO kind (number, name) VALUES (99, 'co2');
                 ALTER TABLE lot_line ADD COLUMN breeder TEXT;
                 CREATE TABLE share (laptop TEXT);
                 INSERT INTO entry (id, bench, day, instant, utc_offset, author, kind, fields)
                 VALUES (randomblob(16), 'E1', 20738, 20738 * 86400 + 40000, -240, 'kt', 99, '{\"ppm\":800}');";
    client.execute_batch(newer).unwrap();
    client.pragma_update(None, "user_version", benchwalk::store::NEWEST + 1).unwrap();
    client.close().unwrap();
    let bytes = std::fs::read(desk.path("a.db")).unwrap();
    let output = desk.run("a.db", &["export"]);
    assert!(output.status.success());
    assert_eq!(String::from_utf8(output.stdout).unwrap(), exported);
    let said = String::from_utf8(output.stderr).unwrap();
    assert!(said.contains("1 record of a newer Benchwalk"), "{said}");
    let journal = desk.path("back.jsonl");
    std::fs::write(&journal, &exported).unwrap();
    let refused = desk.run("a.db", &["import", journal.to_str().unwrap()]);
    let said = String::from_utf8(refused.stderr).unwrap();
    assert_eq!(refused.status.code(), Some(1), "{said}");
    for words in ["written by a newer Benchwalk", "nothing is written to it", "benchwalk export"] {
        assert!(said.contains(words), "{words} in {said}");
    }
    assert!(std::fs::read(desk.path("a.db")).unwrap() == bytes, "the bytes were changed");
    let names = std::fs::read_dir(desk.0.path()).unwrap().map(|f| f.unwrap().file_name().into_string().unwrap());
    let copies: Vec<String> = names.filter(|name| name.starts_with("a.v")).collect();
    assert!(copies.is_empty(), "{copies:?}");
    // What was exported is a season that the present program can go on with.
    desk.write("on.db", &exported);
    assert_eq!(desk.done("on.db", &["export"]), exported);
}
