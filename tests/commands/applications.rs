//! The application record on the command line: one line a treatment, blanks marked, nothing invented.

use crate::{Laptop, arg};

const PLAN: &str = r#"{"type":"journal","version":2}
{"type":"site","name":"Thistlecot","latitude":44.1,"longitude":-70.21,"time_zone":"America/New_York","units":"us"}
{"type":"lot","lot":"R6","cultivar":"mid red","container":"6.5 in","cuttings_per_pot":1,"pots":240,"planted":"2026-08-17","pinch":"soft","response_weeks":9.5,"nights":"natural","ready_by":"2026-11-27"}
{"type":"bench","bench":"E1","house":"East","order":1}
{"type":"bench","bench":"E2","house":"East","order":2}
{"type":"bench","bench":"W1","house":"West","order":3}
{"type":"placement","bench":"E1","lot":"R6","pots":80,"from":"2026-08-17"}
{"type":"placement","bench":"E2","lot":"R6","pots":80,"from":"2026-08-17"}
{"type":"placement","bench":"W1","lot":"R6","pots":80,"from":"2026-08-17"}
"#;

/// The common fields of an entry of a bench.
fn entry(id: u32, at: &str, bench: &str, rest: &str) -> String {
    format!(
        "{{\"type\":\"entry\",\"id\":\"01990000-0000-7000-8000-{id:012}\",\"at\":\"{at}-04:00\",\"by\":\"kt\",\"bench\":\"{bench}\",{rest}}}\n"
    )
}

const WHOLE: &str = r#""kind":"sprayed","ai":"demo soap","against":"whitefly","how":"spray","rei_h":13,"product":"=Demo Wash","rate":"2 in 100","epa_reg_no":"000-00","started_at":"2026-09-22T07:30:00-04:00","amount_used":"3 pt","area_m2":20,"target":"potted poinsettia","applicator":"K. T.","license":"L-1""#;
const BARE: &str = r#""kind":"growth-regulator","parts":[{"ai":"demo dwarf","ppm":1500}],"how":"spray","rei_h":13"#;

/// Two benches sprayed in one go with everything logged, a growth regulator with nothing but what must be, and one voided.
fn laptop() -> Laptop {
    let laptop = Laptop::new();
    let journal = [
        PLAN.to_owned(),
        entry(1, "2026-09-22T08:10:00", "E1", WHOLE),
        entry(2, "2026-09-22T08:10:00", "E2", WHOLE),
        entry(3, "2026-10-01T09:00:00", "W1", BARE),
        entry(4, "2026-10-02T09:00:00", "E1", BARE),
        entry(
            5,
            "2026-10-02T10:00:00",
            "E1",
            r#""kind":"strike","entry":"01990000-0000-7000-8000-000000000004","why":"typed twice""#,
        ),
    ]
    .concat();
    let journal = laptop.file("j.jsonl", &journal);
    laptop.done(&["import", arg(&journal)]);
    laptop
}

#[test]
fn each_treatment_is_one_line_with_what_is_missing_marked() {
    let text = laptop().done(&["applications"]);
    let lines: Vec<&str> = text.lines().collect();
    assert_eq!(
        &lines[..2],
        ["Application record: Thistlecot, Sep 22 to Oct 12", "2 treatments, 1 with blanks marked MISSING."]
    );
    assert_eq!(
        lines[3],
        "2026-09-22 07:30 to 08:10; =Demo Wash, EPA reg. no. 000-00, demo soap; potted poinsettia; benches E1 E2 (house East); \
         area 215 sq ft, amount 3 pt; REI 13 h, open from Tue Sep 22 21:10; applicator K. T., license L-1, logged by kt; spray, \
         against whitefly, 2 in 100"
    );
    assert_eq!(
        lines[4],
        "2026-10-01 start MISSING to 09:00; product MISSING, EPA reg. no. MISSING, demo dwarf; poinsettia, lot R6; bench W1 \
         (house West); area MISSING, amount MISSING; REI 13 h, open from Thu Oct 1 22:00; applicator MISSING, license MISSING, \
         logged by kt; spray, against height (growth regulator), 1500 ppm"
    );
    assert_eq!(lines[5], "", "what was voided is left out: {text}");
    let rest = lines[6..].join(" ");
    for source in ["40 CFR part 170", "7 CFR part 110", "Your state may ask for more"] {
        assert!(rest.contains(source), "{source}: {rest}");
    }
}

#[test]
fn a_span_of_days_is_printed_as_table_and_page() {
    let laptop = laptop();
    let csv = laptop.done(&["applications", "--to", "9/30", "--format", "csv"]);
    let lines: Vec<&str> = csv.lines().collect();
    assert!(lines[0].starts_with("date,start,end,product,EPA reg. no.,active ingredient,"), "{csv}");
    // A product that a spreadsheet would take for a formula is text.
    assert!(lines[1].starts_with("2026-09-22,07:30,08:10,'=Demo Wash,000-00,demo soap,"), "{csv}");
    assert_eq!(lines.len(), 2);
    let html = laptop.done(&["applications", "--from", "10/1", "--format", "html"]);
    assert!(html.contains("product MISSING") && !html.contains("Demo Wash") && !html.contains("<script"), "{html}");
    assert!(html.contains("Your state may ask for more"), "{html}");
    let none = laptop.done(&["applications", "--from", "10/5"]);
    assert!(none.contains("No growth regulator or spray is logged for these days."), "{none}");
    let said = laptop.run(&["applications", "--from", "10/5", "--to", "10/1"]);
    assert_eq!(said.code, 2, "{said:?}");
    assert!(said.err.contains("--from: 2026-10-05 is after 2026-10-01"), "{said:?}");
}
