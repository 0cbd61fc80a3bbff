//! What is refused, by line and field, and what is said of it.

use benchwalk::journal;
use std::fmt::Write as _;

const LOT: &str =
    r#""type":"lot","lot":"L1","cultivar":"mid red","container":"6.5 in","cuttings_per_pot":1,"pots":300"#;
const REST: &str =
    r#""planted":"2026-08-17","pinch":"soft","response_weeks":9.5,"nights":"natural","ready_by":"2026-11-27""#;

pub(super) fn entry(rest: &str) -> String {
    format!(r#"{{"type":"entry","at":"2026-10-05T07:10:00-04:00","by":"kt","bench":"E1",{rest}}}"#)
}

fn site(rest: &str) -> String {
    format!(r#"{{"type":"site","name":"Thistlecot",{rest}}}"#)
}

fn lot(rest: &str) -> String {
    format!("{{{LOT},{REST}{rest}}}")
}

/// Lines that are wrong, and how.
fn wrong_lines() -> Vec<(&'static str, String)> {
    let mut lines = misshapen();
    lines.extend(wrong_plan());
    lines.extend(wrong_entries());
    lines.extend(wrong_findings());
    lines.extend(wrong_work());
    lines
}

fn misshapen() -> Vec<(&'static str, String)> {
    vec![
        ("not JSON", "water 4 on E1".to_owned()),
        ("JSON cut off", r#"{"type":"bench","bench":"E1""#.to_owned()),
        ("two objects on a line", r#"{"type":"bench"}{"type":"bench"}"#.to_owned()),
        ("a list", "[1,2]".to_owned()),
        ("no type", r#"{"bench":"E1","house":"East","order":1}"#.to_owned()),
        ("unknown type", r#"{"type":"table","bench":"E1"}"#.to_owned()),
        ("type is a number", r#"{"type":5}"#.to_owned()),
        ("type twice", r#"{"type":"bench","type":"lot"}"#.to_owned()),
        ("a second header", r#"{"type":"journal","version":1}"#.to_owned()),
        ("number out of range", entry(r#""kind":"night-light","lux":1e999"#)),
    ]
}

fn wrong_plan() -> Vec<(&'static str, String)> {
    let place = r#""latitude":44.1,"longitude":-70.21"#;
    vec![
        (
            "latitude beyond the pole",
            site(r#""latitude":94.1,"longitude":-70.21,"time_zone":"America/New_York","units":"us""#),
        ),
        ("unknown time zone", site(&format!(r#"{place},"time_zone":"Eastern","units":"us""#))),
        ("unknown units", site(&format!(r#"{place},"time_zone":"America/New_York","units":"imperial""#))),
        (
            "dull house twice",
            site(&format!(r#"{place},"time_zone":"Europe/Oslo","units":"us","low_light_houses":["A","A"]"#)),
        ),
        ("lot without its fields", r#"{"type":"lot","lot":"L1"}"#.to_owned()),
        ("date that is none", lot("").replace("2026-11-27", "2026-11-31")),
        ("date with one digit", lot("").replace("2026-08-17", "2026-8-17")),
        ("year beyond 2100", lot("").replace("2026-11-27", "2926-11-27")),
        ("sale before planting", lot("").replace("2026-11-27", "2026-08-01")),
        ("blackout without its day", lot("").replace("natural", "blackout")),
        ("lights without their day", lot("").replace("natural", "lights")),
        ("blackout day on natural nights", lot(r#","blackout_from":"2026-09-24""#)),
        ("heights the wrong way round", lot(r#","height_low_cm":40.6,"height_high_cm":35.6"#)),
        ("rim in the wrong unit", lot(r#","rim_cm":"6.5 in""#)),
        ("code with a space", r#"{"type":"bench","bench":"N 1","house":"East","order":1}"#.to_owned()),
        ("code too long", r#"{"type":"bench","bench":"E1234567890123456","house":"East","order":1}"#.to_owned()),
        ("order not whole", r#"{"type":"bench","bench":"E1","house":"East","order":1.5}"#.to_owned()),
        ("revision 0", r#"{"type":"bench","bench":"E1","house":"East","order":1,"rev":0}"#.to_owned()),
        ("no pots placed", r#"{"type":"placement","bench":"E1","lot":"L1","pots":0,"from":"2026-08-17"}"#.to_owned()),
        ("pots below none", r#"{"type":"order","lot":"L1","date":"2026-11-27","pots":-5}"#.to_owned()),
    ]
}

fn wrong_entries() -> Vec<(&'static str, String)> {
    let water = r#""kind":"water","level":4"#;
    vec![
        ("unknown kind", entry(r#""kind":"watering","level":4"#)),
        ("unknown field", entry(&format!("{water},\"shade\":1"))),
        ("field of another kind", entry(&format!("{water},\"ppm\":100"))),
        ("field twice", entry(r#""kind":"water","level":4,"level":2"#)),
        ("kind twice", entry(r#""kind":"water","level":4,"kind":"bracts""#)),
        ("no place", entry(water).replace(r#""bench":"E1","#, "")),
        ("two places", entry(&format!(r#""house":"East",{water}"#))),
        ("instant without offset", entry(water).replace("-04:00", "")),
        ("instant with fractions", entry(water).replace("10:00-", "10:00.25-")),
        ("by too long", entry(water).replace("\"kt\"", "\"margarete\"")),
        ("by with a space", entry(water).replace("\"kt\"", "\"k t\"")),
        ("id that is none", entry(&format!(r#""id":"17",{water}"#))),
        ("null for left out", entry(&format!("{water},\"base\":null"))),
        ("turned text", entry(&format!("{water},\"note\":\"soft\u{202e}\""))),
        ("line break in a note", entry(&format!("{water},\"note\":\"soft\\nand wet\""))),
        ("note with nothing in it", entry(r#""kind":"note","note":"""#)),
        ("note without the note", entry(r#""kind":"note""#)),
    ]
}

fn wrong_findings() -> Vec<(&'static str, String)> {
    vec![
        ("level off the scale", entry(r#""kind":"water","level":6"#)),
        ("base without level", entry(r#""kind":"water","base":3"#)),
        ("level in words", entry(r#""kind":"water","level":"wet""#)),
        ("more bad than pots", entry(r#""kind":"roots","score":2,"pots":3,"bad":4"#)),
        ("bad without pots", entry(r#""kind":"roots","score":2,"bad":1"#)),
        ("unknown sign", entry(r#""kind":"roots","score":2,"signs":["mushy"]"#)),
        ("sign twice", entry(r#""kind":"leaves","signs":["rolled","rolled"]"#)),
        ("signs not a list", entry(r#""kind":"leaves","signs":"rolled""#)),
        ("stage off the scale", entry(r#""kind":"bracts","stage":0"#)),
        ("no reading", entry(r#""kind":"height","cm":[]"#)),
        ("reading below none", entry(r#""kind":"height","cm":[25.1,-3]"#)),
        ("reading in words", entry(r#""kind":"height","cm":[25.1,"26"]"#)),
        ("pests not counted", entry(r#""kind":"pests","pest":"whitefly""#)),
        ("pests counted halfway", entry(r#""kind":"pests","pest":"thrips","cards":4,"count":10"#)),
        (
            "pests counted in two ways",
            entry(r#""kind":"pests","pest":"thrips","inspected":20,"infested":1,"larvae":2"#),
        ),
        ("more infested than inspected", entry(r#""kind":"pests","pest":"whitefly","inspected":20,"infested":21"#)),
        ("root zone without a reading", entry(r#""kind":"root-zone","method":"sme""#)),
        ("pH beyond 14", entry(r#""kind":"root-zone","method":"sme","ph":61"#)),
        ("feed check without a reading", entry(r#""kind":"feed-check""#)),
        ("climate without a reading", entry(r#""kind":"climate""#)),
        ("climate in °F", entry(r#""kind":"climate","night_c":680"#)),
        ("nothing lost", entry(r#""kind":"losses","pots":0"#)),
        ("grade without dump", entry(r#""kind":"grade","sell":80,"second":10"#)),
    ]
}

fn wrong_work() -> Vec<(&'static str, String)> {
    let regulator = r#""kind":"growth-regulator","how":"spray""#;
    let spray = r#""kind":"sprayed","ai":"soap","against":"whitefly""#;
    vec![
        ("fed without N", entry(r#""kind":"fed","mg_ppm":30"#)),
        ("nutrient as a fog", entry(r#""kind":"nutrient","material":"magnesium-sulfate","ppm":100,"how":"fog""#)),
        ("no REI", entry(&format!(r#"{spray},"how":"spray""#))),
        ("REI below none", entry(&format!(r#"{spray},"how":"fog","rei_h":-1"#))),
        ("growth regulator without parts", entry(&format!(r#"{regulator},"rei_h":12"#))),
        ("no parts", entry(&format!(r#"{regulator},"parts":[],"rei_h":12"#))),
        ("unknown field of a part", entry(&format!(r#"{regulator},"parts":[{{"ai":"a","ppm":5,"oz":1}}],"rei_h":12"#))),
        ("field of a part twice", entry(&format!(r#"{regulator},"parts":[{{"ai":"a","ppm":5,"ppm":6}}],"rei_h":12"#))),
        ("part without ppm", entry(&format!(r#"{regulator},"parts":[{{"ai":"a","ppm":5}},{{"ai":"b"}}],"rei_h":12"#))),
        ("moved from a house", entry(r#""kind":"moved","to":"E2","pots":5"#).replace("bench", "house")),
        ("moved to where they stand", entry(r#""kind":"moved","to":"E1","pots":5"#)),
        ("covered in words", entry(r#""kind":"blackout","night":"2026-10-04","covered":"yes""#)),
        ("postponed until before", entry(r#""kind":"put-off","warning":"unfed","until":"2026-10-01","why":"later""#)),
        (
            "a job that was not needed, without a reason",
            entry(r#""kind":"job","step":"Look for a drip.","listed_for":"2026-10-06","outcome":"not-needed""#),
        ),
        (
            "a job with an unknown outcome",
            entry(r#""kind":"job","step":"Look for a drip.","listed_for":"2026-10-06","outcome":"later""#),
        ),
        ("strike without an id", entry(r#""kind":"strike","entry":"that one","why":"wrong bench""#)),
        (
            "strike without a reason",
            entry(r#""kind":"strike","entry":"01890a5d-ac96-774b-bcce-b302099a8057","why":" ""#),
        ),
    ]
}

/// A journal with this as its third line.
fn third_line(line: &str) -> String {
    let bench = r#"{"type":"bench","bench":"E1","house":"East","order":1}"#;
    format!("{{\"type\":\"journal\",\"version\":1}}\n{bench}\n{line}\n")
}

/// What is said of each.
pub(super) fn refused(lines: &[(&str, String)]) -> String {
    let mut said = String::new();
    for (how, line) in lines {
        let faults = journal::read(&third_line(line)).expect_err(how);
        assert!(faults.iter().all(|f| f.line == 3), "{how}: {faults:?}");
        writeln!(said, "{how}").unwrap();
        for fault in faults.iter() {
            writeln!(said, "    {fault}").unwrap();
        }
    }
    said
}

#[test]
fn each_is_refused_by_line_and_field() {
    let lines = wrong_lines();
    assert!(lines.len() >= 40, "{}", lines.len());
    let said = refused(&lines);
    snapshot("journal_refused", &said);
}

#[test]
fn all_faults_of_a_file_are_told_at_once() {
    let lines = wrong_lines();
    let mut text = "{\"type\":\"journal\",\"version\":1}\n".to_owned();
    for (_, line) in &lines {
        writeln!(text, "\n# a comment\n{line}").unwrap();
    }
    let faults = journal::read(&text).unwrap_err();
    let mut told: Vec<usize> = faults.iter().map(|f| f.line).collect();
    assert!(told.is_sorted());
    told.dedup();
    let wanted: Vec<usize> = (0..lines.len()).map(|n| 4 + 3 * n).collect();
    assert_eq!(told, wanted);
}

fn faults_of(text: &str) -> String {
    journal::read(text).unwrap_err().iter().fold(String::new(), |said, fault| format!("{said}    {fault}\n"))
}

#[test]
fn the_first_line_is_the_header() {
    let bench = r#"{"type":"bench","bench":"E1","house":"East","order":1}"#;
    let newer = format!("{{\"type\":\"journal\",\"version\":3}}\n{bench}\n{{\"type\":\"new\"}}");
    let said = [
        ("nothing", String::new()),
        ("a comment only", "# nothing\n\n".to_owned()),
        ("no header", bench.to_owned()),
        ("no header, and a wrong record", bench.replace("East", "")),
        ("a header and a record that are wrong", "{\"type\":\"log\"}\n{}".to_owned()),
        ("no version", "{\"type\":\"journal\"}".to_owned()),
        ("more in the header", "{\"type\":\"journal\",\"version\":1,\"site\":\"x\"}".to_owned()),
        ("a newer version", newer),
    ]
    .map(|(how, text)| format!("{how}\n{}", faults_of(&text)))
    .concat();
    snapshot("journal_header", &said);
}

#[test]
fn lines_that_contradict_each_other_are_told() {
    let bench = r#"{"type":"bench","bench":"E1","house":"East","order":1}"#;
    let water = entry(r#""id":"01890a5d-ac96-774b-bcce-b302099a8057","kind":"water","level":4"#);
    let both = |a: &str, b: &str| faults_of(&format!("{{\"type\":\"journal\",\"version\":1}}\n{a}\n{b}\n"));
    let said =
        both(bench, &bench.replace("East", "West")) + &both(&water, &water.replace("\"level\":4", "\"level\":3"));
    snapshot("journal_contradicting", &said);
}

pub(super) fn snapshot(name: &str, said: &str) {
    insta::with_settings!({omit_expression => true, prepend_module_to_snapshot => false, snapshot_path => "../snapshots"}, {
        insta::assert_snapshot!(name, said);
    });
}

#[test]
fn two_identical_lines_without_ids_are_one_entry() {
    let line = entry(r#""kind":"water","level":4"#);
    let spaced = line.replace(',', " , ").replace("\"level\":4", "\"level\": 4.0");
    let text = format!("{{\"type\":\"journal\",\"version\":1}}\n{line}\n{line}\n{spaced}\n");
    assert_eq!(journal::read(&text).unwrap().len(), 1);
}
