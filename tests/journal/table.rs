//! Tables for a spreadsheet: a list of benches in, the entries out.

use crate::round::plan_of;
use crate::strategies;
use benchwalk::journal;
use benchwalk::journal::csv::{read_benches, write_entries};
use benchwalk::record::{Entry, Line, Plan, codec};
use proptest::prelude::*;

const PLAN: &str = r#"{"type":"journal","version":1}
{"type":"site","name":"A","latitude":44.1,"longitude":-70.21,"time_zone":"America/New_York","units":"us"}
{"type":"lot","lot":"R1","cultivar":"mid red","container":"6.5 in","cuttings_per_pot":1,"pots":240,"planted":"2026-08-17","pinch":"soft","response_weeks":9.5,"nights":"natural","ready_by":"2026-11-27"}
{"type":"bench","bench":"H1","house":"Old","order":4,"area_m2":10}
{"type":"placement","bench":"H1","lot":"R1","pots":50,"from":"2026-08-17"}
"#;

fn plan() -> Plan {
    plan_of(&journal::read(PLAN).unwrap()).0
}

fn read(text: &str) -> String {
    match read_benches(text, &plan()) {
        Ok(lines) => lines.iter().map(|l| codec::encode(&l.line) + "\n").collect(),
        Err(faults) => faults.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n"),
    }
}

#[test]
fn a_bench_that_is_there_is_revised_or_left() {
    insta::assert_snapshot!(read("bench,house,lot,pots\nH1,Old,R1,50\n"), @r#"
    {"type":"bench","bench":"H1","house":"Old","order":4,"area_m2":10}
    {"type":"placement","bench":"H1","lot":"R1","pots":50,"from":"2026-08-17"}
    "#);
    insta::assert_snapshot!(read("bench,house,lot,pots\nH1,New,R1,60\n"), @r#"
    {"type":"bench","bench":"H1","house":"New","order":4,"area_m2":10,"rev":2}
    {"type":"placement","bench":"H1","lot":"R1","pots":60,"from":"2026-08-17","rev":2}
    "#);
}

#[test]
fn a_list_needs_its_site_first() {
    let faults = read_benches("bench,house\nE1,East\n", &Plan::default()).unwrap_err();
    insta::assert_snapshot!(faults[0], @"line 1: there is no site yet; import the site and the lots before a list of benches");
}

#[test]
fn a_bench_list_becomes_benches_and_pots() {
    insta::assert_snapshot!(read("bench,house,lot,pots,area\nE1,East,R1,80,130\nE2,East,,,12 m2\n\"E3\",\"East, new\",R1, 60 ,\n"), @r#"
    {"type":"bench","bench":"E1","house":"East","order":5,"area_m2":12.077395}
    {"type":"placement","bench":"E1","lot":"R1","pots":80,"from":"2026-08-17"}
    {"type":"bench","bench":"E2","house":"East","order":6,"area_m2":12}
    {"type":"bench","bench":"E3","house":"East, new","order":7}
    {"type":"placement","bench":"E3","lot":"R1","pots":60,"from":"2026-08-17"}
    "#);
    // As spreadsheets save it: a mark at the start, semicolons, other order, CRLF, capitals.
    insta::assert_snapshot!(read("\u{feff}House;Bench\r\nEast;E1\r\n\r\nEast;E2\r\n"), @r#"
    {"type":"bench","bench":"E1","house":"East","order":5}
    {"type":"bench","bench":"E2","house":"East","order":6}
    "#);
}

#[test]
fn every_fault_is_told_by_line_and_column() {
    insta::assert_snapshot!(read("bench,house,lot,pots,area\nE 1,East,R1,80,\nE2,,V2,60,\nE3,East,R1,,\nE4,East,,40,\nE5,East,R1,many,\nE6,East,R1,0,big\nE6,East,,,,x\n"), @r#"
    line 2, bench: is "E 1"; give a code of 1 to 16 letters, digits, - or .
    line 3, house: is empty; every row names its bench and house
    line 3, lot: 'V2' is not a lot in this season; lots: R1
    line 4, pots: is empty; give the pots of the lot on this bench
    line 5, lot: is empty; give the lot the pots are of
    line 6, pots: is "many"; give a whole number, 0 or more
    line 7, area: 'big' is not a number; type an area such as 12 sq ft
    line 7, pots: is 0; give 1 or more, or leave lot and pots empty
    line 8: has more cells than the header; quote text that contains the separator
    line 8, bench: E6 is also on line 7; one row is one bench
    "#);
    insta::assert_snapshot!(read("bench,hous,bench\nE1,East,E2\n"), @r"
    line 1, hous: is not a known column; the first row names the columns: bench, house, lot, pots, area
    line 1, bench: appears twice as a column
    line 1, house: is missing; the first row names the columns: bench, house, lot, pots, area
    ");
    insta::assert_snapshot!(read(""), @r"
    line 1, bench: is missing; the first row names the columns: bench, house, lot, pots, area
    line 1, house: is missing; the first row names the columns: bench, house, lot, pots, area
    ");
    insta::assert_snapshot!(read("bench,house\n"), @"line 1: there is no bench below the header");
}

fn note(text: &str) -> Entry {
    let line = format!(
        r#"{{"type":"entry","at":"2026-10-05T07:10:00-04:00","by":"=kt","bench":"-E1","kind":"note","note":"{text}"}}"#
    );
    match codec::decode(&line, codec::VERSION) {
        Ok(Line::Entry(entry)) => entry,
        other => panic!("{other:?}"),
    }
}

#[test]
fn no_cell_is_a_formula() {
    let notes = ["=1+1", "@SUM(A1), or so", "dry", "a;=HYPERLINK(1)", "b; \\\"=2", "c;,=3;+cmd"].map(note);
    let table = write_entries(&notes);
    for delimiter in [b',', b';', b'\t'] {
        let mut reader = csv::ReaderBuilder::new().delimiter(delimiter).flexible(true).from_reader(table.as_bytes());
        for row in reader.records() {
            for cell in &row.unwrap() {
                let bare = cell.trim_start_matches(['"', ' ']);
                assert!(!bare.starts_with(['=', '+', '-', '@']), "{cell} where cells are parted at {delimiter}");
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(60) })]

    #[test]
    fn every_entry_is_one_row((_, entries) in strategies::season()) {
        let table = write_entries(&entries);
        let mut reader = csv::Reader::from_reader(table.as_bytes());
        let width = reader.headers().unwrap().len();
        let rows: Vec<_> = reader.records().map(|r| r.unwrap()).collect();
        prop_assert_eq!(rows.len(), entries.len());
        for (row, entry) in rows.iter().zip(&entries) {
            prop_assert_eq!(row.len(), width);
            prop_assert_eq!(&row[0], entry.id.hyphenated().to_string());
        }
    }

    #[test]
    fn any_list_is_answered(text in "(bench,house,lot,pots,area\n)?[a-zN0-9,;\"\n ]{0,80}") {
        read(&text);
    }
}
