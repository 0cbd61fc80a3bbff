//! Versions of the journal: the end line, the season in the header, and the names of version 1.

use benchwalk::journal::{self, Header};
use benchwalk::record::{Kind, Line, codec};
use std::fmt::Write as _;
use uuid::Uuid;

const HEAD: &str = r#"{"type":"journal","version":2,"season":"0199a5d0-ac96-874b-8cce-b302099a8057","ends":true}"#;
const LINES: [&str; 3] = [
    r#"{"type":"bench","bench":"E1","house":"East","order":1}"#,
    r#"{"type":"entry","at":"2026-10-05T07:10:00-04:00","by":"kt","bench":"E1","kind":"water","level":4}"#,
    r#"{"type":"entry","at":"2026-10-06T07:10:00-04:00","by":"kt","bench":"E1","kind":"water","level":3}"#,
];

fn lines() -> Vec<Line> {
    LINES.iter().map(|line| codec::decode(line, codec::VERSION).unwrap()).collect()
}

fn whole() -> String {
    let season = "0199a5d0-ac96-874b-8cce-b302099a8057".parse().unwrap();
    journal::write_lines(Some(season), &lines())
}

fn faults(text: &str) -> String {
    journal::read(text).unwrap_err().iter().fold(String::new(), |said, fault| format!("{said}    {fault}\n"))
}

#[test]
fn the_end_is_the_count_and_the_hash_of_the_lines_from_the_header_on() {
    let text = whole();
    assert_eq!(text.lines().next(), Some(HEAD));
    // By `sha256sum`, of the four lines before.
    let hash = "bdccac88112836ab7e1a2706b1aa175d6c24befd2f807f8143277dde110a201a";
    assert_eq!(text.lines().last(), Some(format!("# end: 4 lines, sha256 {hash}").as_str()));
    let season = Uuid::parse_str("0199a5d0-ac96-874b-8cce-b302099a8057").ok();
    assert_eq!(journal::read_all(&text).header, Some(Header { version: 2, season, ends: true }));
    assert_eq!(journal::read(&text).unwrap(), lines());
}

#[test]
fn a_file_cut_at_any_lines_end_or_within_any_line_is_refused() {
    let text = whole();
    for at in (HEAD.len()..text.len() - 1).filter(|at| text.is_char_boundary(*at)) {
        let reading = journal::read_all(&text[..at]);
        assert!(!reading.faults.is_empty(), "{}", &text[..at]);
        assert!(!reading.plan_sound, "what is lost may be a line of the plan");
    }
}

#[test]
fn what_the_end_does_not_fit_is_told() {
    let text = whole();
    let end = text.lines().last().unwrap();
    let body = text.strip_suffix(&format!("{end}\n")).unwrap();
    let bad = [
        ("no end", body.to_owned()),
        ("a line lost", text.lines().filter(|l| !l.contains("10-05")).fold(String::new(), |all, l| all + l + "\n")),
        ("a line added", format!("{body}{}\n{end}\n", LINES[1].replace("07:10", "08:10"))),
        ("a comment added", format!("{body}# seen\n{end}\n")),
        ("a digit changed", text.replace("\"level\":3", "\"level\":2")),
        ("another hash", format!("{body}# end: 4 lines, sha256 {}\n", "0".repeat(64))),
        ("no count", format!("{body}# end: four\n")),
        ("a line after it", format!("{text}\n{}\n", LINES[1].replace("07:10", "08:10"))),
    ];
    let mut said = String::new();
    for (how, text) in bad {
        writeln!(said, "{how}\n{}", faults(&text)).unwrap();
    }
    insta::with_settings!({omit_expression => true, prepend_module_to_snapshot => false, snapshot_path => "../snapshots"}, {
        insta::assert_snapshot!("journal_end", said);
    });
}

#[test]
fn other_line_breaks_and_comments_before_the_header_leave_it_whole() {
    let text = whole();
    assert_eq!(journal::read(&text.replace('\n', "\r\n")).unwrap(), lines());
    assert_eq!(journal::read(&format!("\u{feff}# a season\n\n{text}\n\n")).unwrap(), lines());
}

#[test]
fn a_journal_by_hand_needs_neither_season_nor_end() {
    let text = format!("{{\"type\":\"journal\",\"version\":2}}\n{}\n", LINES.join("\n"));
    assert_eq!(journal::read(&text).unwrap(), lines());
    assert_eq!(journal::read_all(&text).header, Some(Header::default()));
    let odd = text.replace("\"version\":2", "\"version\":2,\"ends\":\"yes\",\"site\":\"x\"");
    assert_eq!(
        faults(&odd),
        "    line 1, ends: is \"yes\"; give true or false\n    line 1, site: is not known here; known fields: version, season, ends\n"
    );
}

const SPRAYED: &str = r#"{"type":"entry","at":"2026-10-05T07:10:00-04:00","by":"kt","bench":"E1","kind":"sprayed","ai":"soap","against":"whitefly","how":"spray","re_entry_h":12}"#;
const SITE: &str = r#"{"type":"site","name":"Thistlecot","latitude":44.1,"longitude":-70.2,"time_zone":"America/New_York","units":"us","dull_houses":["Low"]}"#;

#[test]
fn version_1_knows_its_own_names_and_todays() {
    let new = [SPRAYED, SITE].map(|l| l.replace("re_entry_h", "rei_h").replace("dull_houses", "low_light_houses"));
    let of = |version: u32, lines: &[&str]| {
        journal::read(&format!("{{\"type\":\"journal\",\"version\":{version}}}\n{}\n", lines.join("\n")))
    };
    let today = of(2, &[&new[0], &new[1]]).unwrap();
    assert_eq!(of(1, &[SPRAYED, SITE]).unwrap(), today);
    assert_eq!(of(1, &[&new[0], &new[1]]).unwrap(), today);
    let Some(Line::Entry(entry)) = today.first() else { panic!("an entry") };
    assert!(matches!(*entry.kind, Kind::Sprayed { rei_h, .. } if (rei_h - 12.0).abs() < f64::EPSILON));
    let Some(Line::Site(site)) = today.get(1) else { panic!("a site") };
    assert_eq!(site.low_light_houses, ["Low"]);

    let refused: Vec<String> = of(2, &[SPRAYED, SITE]).unwrap_err().iter().map(ToString::to_string).collect();
    assert_eq!(
        refused,
        [
            "line 2, re_entry_h: is named rei_h from version 2 of the journal on; write rei_h",
            "line 3, dull_houses: is named low_light_houses from version 2 of the journal on; write low_light_houses",
        ]
    );
    let twice = SPRAYED.replace("\"re_entry_h\":12", "\"re_entry_h\":12,\"rei_h\":12");
    let told: Vec<String> = of(1, &[&twice]).unwrap_err().iter().map(ToString::to_string).collect();
    assert_eq!(told, ["line 2, re_entry_h: is given 2 times; give it once"]);
    let out_of_range = of(1, &[&SPRAYED.replace(":12}", ":-1}")]).unwrap_err();
    assert_eq!(out_of_range[0].field.as_deref(), Some("re_entry_h"), "under the name it was written by");
}

#[test]
fn ids_made_of_the_content_are_those_of_version_1() {
    let read = |text: &str, version| match codec::decode(text, version) {
        Ok(Line::Entry(entry)) => entry.id.to_string(),
        other => panic!("{other:?}"),
    };
    let id = "01a10bc1-9b40-89ed-a055-82cd61eaef3a";
    assert_eq!(read(SPRAYED, 1), id);
    assert_eq!(read(&SPRAYED.replace("re_entry_h", "rei_h"), 2), id);
}

#[test]
fn what_later_programs_write_is_kept_and_checked() {
    let entry =
        |rest: &str| format!(r#"{{"type":"entry","at":"2026-10-05T18:10:00-04:00","by":"kt","bench":"E1",{rest}}}"#);
    let good = [
        entry(r#""plot":"T1.7","kind":"height","cm":[40]"#),
        entry(
            r#""kind":"climate","day_c":22,"night_c":17.5,"low_c":15.1,"high_c":26,"humid_hours":6.5,"humid_over":85,"vpd_kpa":0.44,"light_mol":9.3,"warm_h":1.5,"readings":288"#,
        ),
        entry(
            r#""kind":"sprayed","ai":"soap","against":"whitefly","how":"spray","rei_h":12,"product":"X","rate":"2 %","epa_reg_no":"0000-00","started_at":"2026-10-05T17:40:00-04:00","amount_used":"1.5 gal","area_m2":46.5,"target":"poinsettia","applicator":"M. L.","license":"A-12""#,
        ),
    ];
    for text in good {
        let line = codec::decode(&text, codec::VERSION).unwrap_or_else(|f| panic!("{text}: {f:?}"));
        let written: serde_json::Value = serde_json::from_str(&codec::encode(&line)).unwrap();
        let mut given: serde_json::Value = serde_json::from_str(&text).unwrap();
        given["id"] = written["id"].clone();
        assert_eq!(written, given);
    }
    let bad = [
        (entry(r#""plot":"T1","kind":"height","cm":[40]"#), "plot"),
        (entry(r#""plot":"T1.0","kind":"height","cm":[40]"#), "plot"),
        (entry(r#""plot":"T1.7","kind":"height","cm":[40]"#).replace("\"bench\"", "\"house\""), "plot"),
        (entry(r#""kind":"climate","night_c":17,"humid_hours":25,"humid_over":85"#), "humid_hours"),
        (entry(r#""kind":"climate","night_c":17,"humid_hours":5"#), "humid_over"),
        (entry(r#""kind":"climate","low_c":17,"high_c":16"#), "low_c"),
        (entry(r#""kind":"climate","readings":288"#), "day_c"),
    ];
    for (text, field) in bad {
        let told = codec::decode(&text, codec::VERSION).unwrap_err();
        assert_eq!(told.iter().map(|f| f.field.as_str()).collect::<Vec<_>>(), [field], "{text}");
    }
}
