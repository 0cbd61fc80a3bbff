//! The file read by any SQLite client, through the views named after the checks.

use super::{entry, season, strategies, water};
use benchwalk::record::{Entry, Kind, KindName, Line, Term};
use benchwalk::store::Store;
use proptest::prelude::*;
use rusqlite::{Connection, OpenFlags};
use std::path::Path;

/// Everything a query gives, cell by cell.
fn rows(path: &Path, sql: &str) -> Vec<String> {
    let client = Connection::open_with_flags(path, OpenFlags::SQLITE_OPEN_READ_ONLY).unwrap();
    client.pragma_update(None, "trusted_schema", false).unwrap();
    let mut statement = client.prepare(sql).unwrap();
    let width = statement.column_count();
    let mut rows = statement.query([]).unwrap();
    let mut all = Vec::new();
    while let Some(row) = rows.next().unwrap() {
        let cells = (0..width).map(|at| match row.get::<_, rusqlite::types::Value>(at).unwrap() {
            rusqlite::types::Value::Null => "-".to_owned(),
            rusqlite::types::Value::Integer(value) => value.to_string(),
            rusqlite::types::Value::Real(value) => value.to_string(),
            rusqlite::types::Value::Text(value) => value,
            rusqlite::types::Value::Blob(value) => format!("{value:?}"),
        });
        all.push(cells.collect::<Vec<_>>().join(" | "));
    }
    all
}

#[test]
fn scores_read_as_they_were_given() {
    let (_folder, path, mut store) = season();
    let at = |hour: u8| format!("2026-10-05T{hour:02}:10:00-04:00");
    store
        .append(&[
            water(5, 4),
            entry(6, &at(8), r#""kind":"water","level":3,"base":5,"note":"dry corner""#),
            entry(7, &at(9), r#""kind":"roots","score":2,"pots":4,"bad":1,"signs":["canker","larvae"],"reach":"wall""#),
            entry(8, &at(10), r#""kind":"height","cm":[20,22.5,21]"#),
            entry(9, &at(11), r#""kind":"root-zone","method":"1:2","ph":6.1,"ec_ms_cm":1.4"#),
            entry(10, &at(12), r#""kind":"pests","pest":"whitefly","inspected":20,"infested":3"#),
            entry(11, &at(13), r#""kind":"leaves","signs":["split","pale-new"],"plants":3"#),
            entry(12, &at(14), r#""kind":"growth-regulator","parts":[{"ai":"daminozide","ppm":2500},{"ai":"chlormequat","ppm":1000}],"how":"spray","rei_h":24"#),
            entry(13, "2026-10-05T23:30:00+05:30", r#""kind":"bracts","stage":2"#),
        ])
        .unwrap();
    store.close().unwrap();
    assert_eq!(
        rows(&path, "SELECT day, at_time, bench, house, author, level, base, note FROM water"),
        [
            "2026-10-05 | 2026-10-05T07:10:00-04:00 | E1 | - | kt | 4 | - | -",
            "2026-10-05 | 2026-10-05T08:10:00-04:00 | E1 | - | kt | 3 | 5 | dry corner",
        ]
    );
    assert_eq!(rows(&path, "SELECT score, pots, bad, signs, reach FROM roots"), ["2 | 4 | 1 | canker, larvae | wall"]);
    assert_eq!(rows(&path, "SELECT round(mean_cm, 3), plants FROM height"), ["21.167 | 3"]);
    assert_eq!(rows(&path, "SELECT method, ph, ec_ms_cm, pots FROM root_zone"), ["1:2 | 6.1 | 1.4 | -"]);
    assert_eq!(rows(&path, "SELECT pest, inspected, infested, cards FROM pests"), ["whitefly | 20 | 3 | -"]);
    assert_eq!(rows(&path, "SELECT day, signs, plants FROM leaves"), ["2026-10-05 | split, pale-new | 3"]);
    let parts = rows(&path, "SELECT parts, how, rei_h FROM growth_regulator");
    assert!(parts[0].starts_with("daminozide 2500"), "{parts:?}");
    assert_eq!(rows(&path, "SELECT day, at_time, stage FROM bracts"), ["2026-10-05 | 2026-10-05T23:30:00+05:30 | 2"]);
    assert_eq!(rows(&path, "SELECT bench, house, walk_order FROM bench"), ["E1 | East | 1", "E2 | East | 2"]);
    assert_eq!(rows(&path, "SELECT lot, planted, ready_by FROM lot"), ["R1 | 2026-08-17 | 2026-11-27"]);
    assert_eq!(rows(&path, "SELECT name, units FROM site"), ["Thistlecot | us"]);
    assert_eq!(rows(&path, "SELECT bench, lot, pots, from_day FROM placement"), ["E1 | R1 | 80 | 2026-08-17"]);
    assert_eq!(rows(&path, "SELECT lot, due_day, pots FROM orders"), ["R1 | 2026-11-27 | 200"]);
}

#[test]
fn what_is_struck_out_is_left_out_of_the_checks_and_marked_in_written() {
    let (_folder, path, mut store) = season();
    let strike = r#""kind":"strike","entry":"0199a000-0000-7000-8000-000000000001","why":"wrong bench""#;
    store.append(&[water(1, 5), water(2, 3), entry(3, "2026-10-03T07:00:00-04:00", strike)]).unwrap();
    store.close().unwrap();
    assert_eq!(rows(&path, "SELECT day, level FROM water"), ["2026-10-02 | 3"]);
    assert_eq!(
        rows(&path, "SELECT day, kind, json_extract(fields, '$.level'), substr(struck_by, -2) FROM written"),
        ["2026-10-01 | water | 5 | 03", "2026-10-02 | water | 3 | -", "2026-10-03 | strike | - | -"]
    );
    assert_eq!(rows(&path, "SELECT why, reopen FROM strike"), ["wrong bench | 0"]);
    let named = "SELECT w.day, json_extract(w.fields, '$.level') FROM strike AS s JOIN written AS w ON w.id = s.entry AND w.struck_by = s.id";
    assert_eq!(rows(&path, named), ["2026-10-01 | 5"], "ids read as the journal writes them");
}

/// How many entries of a kind count: those no strike names, of whole places or of plots.
fn counting(entries: &[Entry], name: KindName, of_plots: bool) -> usize {
    let struck = |id| entries.iter().any(|e| matches!(*e.kind, Kind::Strike { entry, .. } if entry == id));
    entries.iter().filter(|e| e.name() == name && e.plot.is_some() == of_plots && !struck(e.id)).count()
}

/// Kinds that a trial can be read by.
const READ: [KindName; 8] = [
    KindName::Water,
    KindName::Roots,
    KindName::Bracts,
    KindName::Height,
    KindName::RootZone,
    KindName::Grade,
    KindName::Greenness,
    KindName::BractWidth,
];

proptest! {
    #![proptest_config(ProptestConfig { cases: 16, ..ProptestConfig::default() })]

    #[test]
    fn every_kind_has_its_view_with_every_entry_that_counts((plan, entries) in strategies::season()) {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("season.db");
        let mut store = Store::create(&path).unwrap();
        let lines: Vec<Line> = entries.iter().cloned().map(Line::Entry).chain(plan.lines()).collect();
        store.append(&lines).unwrap();
        store.close().unwrap();
        for name in KindName::ALL {
            let view = name.code().replace('-', "_");
            let days = rows(&path, &format!("SELECT day FROM {view}"));
            prop_assert_eq!(days.len(), counting(&entries, *name, false), "{}", view);
            let of_plots = rows(&path, &format!("SELECT plot FROM trial_reading WHERE kind = '{}'", name.code()));
            let read = if READ.contains(name) { counting(&entries, *name, true) } else { 0 };
            prop_assert_eq!(of_plots.len(), read, "{} of plots", view);
        }
        let odd = "SELECT day FROM trial_reading WHERE day NOT GLOB '2[0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'";
        prop_assert_eq!(rows(&path, odd), Vec::<String>::new(), "days of plots are dates");
        let means = plan.lots.iter().filter(|lot| lot.response_c.is_some()).count();
        prop_assert!(rows(&path, "SELECT response_c FROM lot WHERE response_c = 19.5").len() <= means);
        prop_assert_eq!(rows(&path, "SELECT plot FROM plot"), ["T1.1", "T1.2", "T1.3", "T1.4"]);
        let written = rows(&path, "SELECT day || ' ' || id FROM written ORDER BY id");
        let mut wanted: Vec<String> =
            entries.iter().map(|e| format!("{} {}", e.day(), e.id)).collect();
        wanted.sort_by_key(|line| line.split(' ').nth(1).map(str::to_owned));
        prop_assert_eq!(written, wanted);
    }
}
