//! The season as tables, and the plan from tables.

use crate::{Laptop, SMALL, arg};
use std::fs;

const LOTS: &str = "lot,cultivar,container,cuttings per pot,pots,planted,pinch,response weeks,nights,ready by,pot diameter (in),feed N\n\
                    R6,mid red,6.5 in,1,160,2026-08-17,soft,9,natural,2026-11-24,6.5,\n\
                    L1,white,\"6.5 in, tall\",1,80,2026-08-19,soft,8,natural,2026-11-20,16 cm,200\n";

fn site() -> Laptop {
    let laptop = Laptop::new();
    laptop.done(&["import", arg(&laptop.file("small.jsonl", SMALL))]);
    laptop
}

#[test]
fn a_season_goes_out_as_one_file_a_kind_and_its_plan_comes_in_again() {
    let laptop = site();
    let more = "{\"type\":\"journal\",\"version\":2}\n\
        {\"type\":\"lot\",\"lot\":\"R6\",\"cultivar\":\"=HYPERLINK(1)\",\"container\":\"'@home\",\"rim_cm\":16.5,\"cuttings_per_pot\":1,\"pots\":10,\"planted\":\"2026-08-17\",\"pinch\":\"soft\",\"response_weeks\":9.5,\"nights\":\"natural\",\"ready_by\":\"2026-11-27\",\"feed_n_ppm\":200}\n\
        {\"type\":\"order\",\"lot\":\"R6\",\"date\":\"2026-11-24\",\"pots\":10}\n\
        {\"type\":\"entry\",\"at\":\"2026-10-05T07:10:00-04:00\",\"by\":\"kt\",\"bench\":\"E1\",\"kind\":\"climate\",\"night_c\":-12.5,\"note\":\"+cold\"}\n\
        {\"type\":\"entry\",\"at\":\"2026-10-05T07:10:00-04:00\",\"by\":\"kt\",\"bench\":\"E1\",\"kind\":\"height\",\"cm\":[20,21.5]}\n";
    laptop.done(&["import", arg(&laptop.file("more.jsonl", more))]);
    let folder = laptop.path("tables");
    let said = laptop.done(&["export", "--format", "csv", arg(&folder)]);
    assert!(said.ends_with("tables: 7 files\n"), "{said}");
    let read = |name: &str| fs::read_to_string(folder.join(name)).unwrap();
    assert!(
        read("benches.csv").starts_with("bench,house,order,area_m2 (m2)\nE1,East,1,12\n"),
        "{}",
        read("benches.csv")
    );
    let climate = read("climate.csv");
    let (heads, row) = climate.trim_end().split_once('\n').unwrap();
    assert!(heads.starts_with("id,day,at,by,place,code,plot,day_c (°C),night_c (°C),"), "{heads}");
    assert!(row.contains(",2026-10-05,2026-10-05T07:10:00-04:00,kt,bench,E1,,,-12.5,"), "numbers stay numbers: {row}");
    assert!(row.ends_with(",'+cold,"), "{row}");
    assert!(read("height.csv").contains(",20; 21.5,"), "{}", read("height.csv"));
    assert!(read("lots.csv").contains(",'=HYPERLINK(1),''@home,16.5,"), "{}", read("lots.csv"));
    // Into the same season: nothing new. Into an empty one: the same plan.
    let tables = ["site.csv", "lots.csv", "benches.csv", "placements.csv", "orders.csv"].map(|name| folder.join(name));
    let names: Vec<&str> = tables.iter().map(|path| arg(path)).collect();
    let import = |season: &str| {
        let all = [&["import", "--season", season, "--plan"][..], &names].concat();
        laptop.done(&all)
    };
    let own = laptop.path("data/season.db");
    assert!(import(arg(&own)).contains("nothing new"));
    let other = laptop.path("other.db");
    assert!(import(arg(&other)).ends_with("6 records imported\n"));
    let again = laptop.path("again");
    laptop.done(&["export", "--format", "csv", "--season", arg(&other), arg(&again)]);
    for path in &tables {
        let name = path.file_name().unwrap();
        assert_eq!(fs::read_to_string(again.join(name)).unwrap(), fs::read_to_string(path).unwrap(), "{name:?}");
    }
}

#[test]
fn a_voided_entry_says_so_in_its_table() {
    let laptop = site();
    let lines = "{\"type\":\"journal\",\"version\":2}\n\
        {\"type\":\"entry\",\"id\":\"01890a5d-ac96-774b-bcce-b302099a8057\",\"at\":\"2026-10-05T07:10:00-04:00\",\"by\":\"kt\",\"bench\":\"E1\",\"kind\":\"water\",\"level\":3}\n\
        {\"type\":\"entry\",\"at\":\"2026-10-05T08:10:00-04:00\",\"by\":\"kt\",\"bench\":\"E1\",\"kind\":\"strike\",\"entry\":\"01890a5d-ac96-774b-bcce-b302099a8057\",\"why\":\"wrong bench\"}\n";
    laptop.done(&["import", arg(&laptop.file("lines.jsonl", lines))]);
    let folder = laptop.path("tables");
    laptop.done(&["export", "--format", "csv", arg(&folder)]);
    assert!(fs::read_to_string(folder.join("water.csv")).unwrap().trim_end().ends_with(",yes"));
    assert!(laptop.done(&["export", "--format", "csv"]).starts_with("id,day,at,by,place,code,plot,kind,"), "one table");
}

#[test]
fn a_plan_typed_in_a_spreadsheet_comes_in_with_the_checks_of_the_forms() {
    let laptop = site();
    let lots = laptop.file("my lots.csv", LOTS);
    let benches = laptop.file("b.csv", "house;bench;lot;pots;area (ft2)\nWest;W1;R6;160;100\nWest;W2;L1;80;\n");
    let orders = laptop.file("o.csv", "date,lot,pots\n2026-11-20,L1,70\n# a remark\n2026-11-24,R6,150\n");
    let all = ["import", "--plan", arg(&orders), arg(&benches), arg(&lots), "--by", "kt"];
    assert!(laptop.done(&all).ends_with("8 records imported\n"));
    assert!(laptop.done(&all).contains("nothing new"));
    let export = laptop.done(&["export"]);
    for there in [
        r#""lot":"R6","cultivar":"mid red","container":"6.5 in","rim_cm":16.51,"#,
        r#""container":"6.5 in, tall","rim_cm":16,"#,
        r#""bench":"W1","house":"West","order":2,"area_m2":9.290304,"#,
        r#""bench":"W2","lot":"L1","pots":80,"from":"2026-08-19""#,
        r#""lot":"R6","date":"2026-11-24","pots":150"#,
    ] {
        assert!(export.contains(there), "{there}: {export}");
    }
    // A changed row is the next revision of its line, from today on.
    let changed = laptop.file("c.csv", "lot,date,pots\nR6,2026-11-24,140\n");
    assert!(laptop.done(&["import", arg(&changed)]).ends_with("1 record imported\n"));
    assert!(laptop.done(&["export"]).contains(r#""pots":140"#));
}

#[test]
fn every_fault_of_a_plan_is_named_by_line_and_column_and_nothing_is_imported() {
    let laptop = site();
    let before = laptop.done(&["export"]);
    let mut said = String::new();
    for (name, text) in [
        (
            "lots",
            LOTS.replace("R6,", "R 6,")
                .replace("2026-08-19", "8/19")
                .replace(",80,", ",many,")
                .replace("soft,8", "softly,8"),
        ),
        ("twice", LOTS.replace("L1,", "R6,")),
        ("columns", "lot,cultivar,shade,pots,pots\nR6,red,x,1,2\n".to_owned()),
        ("early", LOTS.replace("2026-11-24", "2026-08-01")),
        ("orders", "lot,date,pots\nR9,2026-11-24,10\nR1,,5\nR1,2026-11-24,-5,7\n".to_owned()),
        ("placements", "bench,lot,pots,date\nE9,R1,10,2026-08-17\n".to_owned()),
        ("benches", "bench,house,order,area (in)\nE5,East,9,12\nE6,East,,\n".to_owned()),
        ("nothing", "lot,date,pots\n".to_owned()),
    ] {
        let file = laptop.file(&format!("{name}.csv"), &text);
        let refused = laptop.run(&["import", arg(&file)]);
        assert_eq!(refused.code, 1, "{name}: {refused:?}");
        said.push_str(&refused.err);
        said.push('\n');
    }
    // Of several tables a good one is not taken where another is bad, and the fault names its table.
    let good = laptop.file("good.csv", "lot,date,pots\nR1,2026-11-24,10\n");
    let bad = laptop.path("orders.csv");
    let refused = laptop.run(&["import", "--plan", arg(&good), arg(&bad)]);
    said.push_str(&refused.err);
    insta::assert_snapshot!("plan-faults", said);
    assert_eq!(laptop.done(&["export"]), before);
}

#[test]
fn a_template_is_printed_for_each_table_and_can_be_filled_in() {
    let laptop = site();
    let printed = laptop.done(&["import", "--template", "lot"]);
    let (heads, rest) = printed.split_once('\n').unwrap();
    assert!(
        heads.starts_with("code,cultivar,container,pot diameter (in),pot height (in),cuttings per pot,pots,planted,"),
        "{heads}"
    );
    assert!(rest.lines().count() >= 3, "{rest}");
    let many = heads.split(',').count();
    assert!(many > 20, "{heads}");
    let empty = laptop.file("empty.csv", &printed);
    assert!(laptop.run(&["import", arg(&empty)]).err.contains("there is no lot below the header"));
    let order = laptop.done(&["import", "--template", "order"]);
    let filled = laptop.file("filled.csv", &format!("{order}R1,2026-11-24,25\n"));
    assert!(laptop.done(&["import", arg(&filled)]).ends_with("1 record imported\n"));
    for table in ["site", "bench", "placement", "history", "trial", "plot"] {
        assert!(laptop.done(&["import", "--template", table]).contains("\n# "), "{table}");
    }
}
