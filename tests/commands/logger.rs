//! Climate loggers from the file to the season: one entry a house and day, whoever imports it and however it is cut.

use crate::{Laptop, Said, arg};
use benchwalk::limits::Limits;
use benchwalk::model::Summary;
use benchwalk::season::Season;
use benchwalk::store::Store;
use benchwalk::warnings::{WarningName, assess_all};
use chrono::{DateTime, FixedOffset, NaiveDate, TimeDelta, Utc};
use chrono_tz::Tz;
use proptest::prelude::*;
use serde_json::Value;
use std::f64::consts::TAU;

/// One reading: when, °C, percent, µmol/m2/s.
type Read = (DateTime<Utc>, f64, f64, f64);

/// Readings of a house that is warm by day, every so many minutes.
fn readings(from: &str, days: i64, step: i64) -> Vec<Read> {
    let first: DateTime<Utc> = from.parse().unwrap();
    let read = |n: i64| {
        let at = first + TimeDelta::minutes(n * step);
        let hour = (at.timestamp() % 86_400) as f64 / 3_600.0;
        let day = at.timestamp().div_euclid(86_400) as f64;
        let wave = ((hour - 14.0) / 24.0 * TAU).sin();
        let c = 19.0 + 4.0 * wave + 0.6 * (day * 0.7).sin() + 0.2 * (n as f64 * 1.3).sin();
        let percent = 78.0 - 14.0 * wave + 4.0 * (day * 0.9).cos();
        (at, c, percent.clamp(5.0, 100.0), (600.0 * wave).max(0.0))
    };
    (0..days * 1440 / step).map(read).collect()
}

/// A wall clock in °F with junk above, AM and PM.
fn wall(all: &[Read], zone: Tz) -> String {
    let row = |(at, c, percent, light): &Read| {
        let local = at.with_timezone(&zone).format("%m/%d/%Y,%I:%M:%S %p");
        format!("{local},{:.4},{percent:.3},{light:.3}\n", c * 1.8 + 32.0)
    };
    let rows: Vec<String> = all.iter().map(row).collect();
    format!("Plot Title: \"north\"\n\n\"Date\",\"Time\",\"Temp (F)\",\"RH (%)\",\"Light\"\n{}", rows.concat())
}

const WALL: [&str; 12] = [
    "--time",
    "Date+Time",
    "--time-format",
    "%m/%d/%Y %I:%M:%S %p",
    "--zone",
    "site",
    "--temperature",
    "Temp (F)=F",
    "--humidity",
    "RH (%)",
    "--light",
    "Light=umol",
];

/// A clock that is never put forward or back, decimal comma, semicolons, °C.
fn fixed(all: &[Read], offset: FixedOffset) -> String {
    let comma = |n: f64| format!("{n:.5}").replace('.', ",");
    let row = |(at, c, percent, light): &Read| {
        let local = at.with_timezone(&offset).format("%d.%m.%Y %H:%M");
        format!("{local};{};{};{}\n", comma(*c), comma(*percent), comma(*light))
    };
    let rows: Vec<String> = all.iter().map(row).collect();
    format!("Zeit;T;rF;PAR\n{}", rows.concat())
}

/// UTC as in RFC 3339; every so many humidities are missing.
fn utc(all: &[Read], missing: usize) -> String {
    let row = |(n, (at, c, percent, light)): (usize, &Read)| {
        let percent = if missing > 0 && n % missing == 0 { "--".to_owned() } else { format!("{percent:.4}") };
        format!("{}\t{c:.5}\t{percent}\t{light:.4}\n", at.to_rfc3339())
    };
    let rows: Vec<String> = all.iter().enumerate().map(row).collect();
    format!("stamp\tt\trh\tpar\n{}", rows.concat())
}

const UTC: [&str; 8] = ["--time", "stamp", "--temperature", "t=C", "--humidity", "rh", "--light", "par=umol"];

/// A season at a place, begun on a laptop whose clock stands on a day of December 2026.
fn laptop_at(latitude: f64, longitude: f64, zone: &str) -> Laptop {
    let laptop = Laptop::new();
    laptop.clock.set("2026-12-20T12:00:00Z".parse().unwrap());
    let season = format!(
        r#"{{"type":"journal","version":1}}
{{"type":"site","name":"Thistlecot","latitude":{latitude},"longitude":{longitude},"time_zone":"{zone}","units":"us"}}
{{"type":"lot","lot":"R6","cultivar":"mid red","container":"6.5 in","cuttings_per_pot":1,"pots":240,"planted":"2026-08-17","pinch":"soft","response_weeks":9.5,"nights":"natural","ready_by":"2026-11-27"}}
{{"type":"bench","bench":"E1","house":"East","order":1,"area_m2":12}}
{{"type":"bench","bench":"E2","house":"East","order":2,"area_m2":12}}
{{"type":"placement","bench":"E1","lot":"R6","pots":80,"from":"2026-08-17"}}
{{"type":"placement","bench":"E2","lot":"R6","pots":80,"from":"2026-08-17"}}
"#
    );
    let journal = laptop.file("season.jsonl", &season);
    laptop.done(&["import", arg(&journal)]);
    laptop
}

fn new_york() -> Laptop {
    laptop_at(44.1, -70.21, "America/New_York")
}

/// Imports files of the logger log-n in house East.
fn import(laptop: &Laptop, files: &[(&str, String)], options: &[&str]) -> Said {
    let paths: Vec<_> = files.iter().map(|(name, text)| laptop.file(name, text)).collect();
    let mut all = vec!["import", "--logger", "log-n", "--house", "East"];
    all.extend(options);
    all.extend(paths.iter().map(|path| arg(path)));
    laptop.run(&all)
}

fn imported(laptop: &Laptop, files: &[(&str, String)], options: &[&str]) -> String {
    let said = import(laptop, files, options);
    assert_eq!((said.code, said.err.as_str()), (0, ""), "{said:?}");
    said.out
}

/// The climate entries of the season, as the journal has them.
fn climate(laptop: &Laptop) -> Vec<Value> {
    let export = laptop.done(&["export"]);
    export
        .lines()
        .filter(|line| line.contains("\"kind\":\"climate\""))
        .map(|l| serde_json::from_str(l).unwrap())
        .collect()
}

fn number(entry: &Value, field: &str) -> f64 {
    entry[field].as_f64().unwrap_or_else(|| panic!("{field} of {entry}"))
}

#[test]
fn three_shapes_in_two_zones_over_both_changes_give_the_same_figures() {
    let cases = [
        (44.1, -70.21, "America/New_York", "2026-03-05T03:00:00Z", "-05:00"),
        (44.1, -70.21, "America/New_York", "2026-10-29T04:00:00Z", "-05:00"),
        (52.3, 4.8, "Europe/Amsterdam", "2026-03-26T00:00:00Z", "+01:00"),
        (52.3, 4.8, "Europe/Amsterdam", "2026-10-22T00:00:00Z", "+01:00"),
    ];
    for (latitude, longitude, zone, from, offset) in cases {
        let all = readings(from, 7, 10);
        let (tz, standard): (Tz, FixedOffset) = (zone.parse().unwrap(), offset.parse().unwrap());
        let fixed_zone = ["--zone", offset, "--decimal", ","];
        let never = [
            "--time",
            "Zeit",
            "--time-format",
            "%d.%m.%Y %H:%M",
            "--temperature",
            "T=C",
            "--humidity",
            "rF",
            "--light",
            "PAR=umol",
        ];
        let of = |text: String, options: &[&str]| {
            let laptop = laptop_at(latitude, longitude, zone);
            let said = imported(&laptop, &[("a.csv", text)], options);
            assert!(said.contains("6 days written") || said.contains("5 days written"), "{zone} {from}: {said}");
            assert!(!said.contains("minutes between"), "{said}");
            climate(&laptop)
        };
        let first = of(wall(&all, tz), &WALL);
        assert_eq!(first, of(fixed(&all, standard), &[&never[..], &fixed_zone].concat()), "{zone} {from}");
        assert_eq!(first, of(utc(&all, 0), &UTC), "{zone} {from}");
        // Of missing humidities only what is made of humidity differs.
        let gaps = of(utc(&all, 7), &UTC);
        for (whole, with_gaps) in first.iter().zip(&gaps) {
            for field in ["day_c", "night_c", "low_c", "high_c", "light_mol", "warm_h", "readings"] {
                assert_eq!(whole[field], with_gaps[field], "{field}");
            }
            for (field, near) in [("humidity_percent", 1.0), ("humid_hours", 0.5), ("vpd_kpa", 0.02)] {
                assert!(
                    (number(whole, field) - number(with_gaps, field)).abs() <= near + 1e-9,
                    "{field}: {whole} {with_gaps}"
                );
            }
        }
    }
}

#[test]
fn a_clock_read_as_the_site_shows_itself_at_the_change() {
    let all = readings("2026-10-29T04:00:00Z", 7, 10);
    let summer: FixedOffset = "-04:00".parse().unwrap();
    let options = [
        "--time",
        "Zeit",
        "--time-format",
        "%d.%m.%Y %H:%M",
        "--temperature",
        "T=C",
        "--humidity",
        "rF",
        "--light",
        "PAR=umol",
        "--decimal",
        ",",
        "--zone",
    ];
    let wrong = new_york();
    let said = imported(&wrong, &[("a.csv", fixed(&all, summer))], &[&options[..], &["site"]].concat());
    assert!(
        said.contains(
            "70 minutes between 01:50 and 02:00 on Nov 1: a clock that is not put back? Then give zone = \"-04:00\""
        ),
        "{said}"
    );
    let right = new_york();
    imported(&right, &[("a.csv", fixed(&all, summer))], &[&options[..], &["-04:00"]].concat());
    let nov_2 = |laptop: &Laptop| number(&climate(laptop)[3], "day_c");
    assert!((nov_2(&wrong) - nov_2(&right)).abs() > 0.3, "worth the warning");
}

#[test]
fn a_dry_run_prints_the_mapping_to_keep_and_writes_nothing() {
    let laptop = new_york();
    let file = || [("n.csv", wall(&readings("2026-10-08T04:00:00Z", 5, 10), chrono_tz::America::New_York))];
    let dry = imported(&laptop, &file(), &[&WALL[..], &["--dry-run"]].concat());
    insta::assert_snapshot!("logger_dry_run", dry);
    assert!(climate(&laptop).is_empty());
    // What it printed is a config file as it stands.
    laptop.file("config/config.toml", &dry);
    let path = laptop.path("n.csv");
    let said = laptop.done(&["import", "--logger", "log-n", arg(&path)]);
    insta::assert_snapshot!("logger_import", said);
    let again = laptop.done(&["import", "--logger", "log-n", arg(&path)]);
    assert!(again.ends_with("0 days written, 4 known, 2 waiting\n"), "{again}");
    assert_eq!(climate(&laptop).len(), 4);
}

#[test]
fn two_laptops_that_import_one_file_hold_one_entry_a_day() {
    let (ann, bob) = (new_york(), new_york());
    let all = readings("2026-10-08T04:00:00Z", 9, 10);
    let tz = chrono_tz::America::New_York;
    imported(&ann, &[("n.csv", wall(&all, tz))], &[&WALL[..], &["--by", "ann"]].concat());
    // The other one has it in two files that overlap, and reads it on another day.
    bob.clock.step(86_400);
    let (head, tail) = (wall(&all[..900], tz), wall(&all[500..], tz));
    imported(&bob, &[("1.csv", head), ("2.csv", tail)], &[&WALL[..], &["--by", "bob"]].concat());
    assert_eq!(climate(&ann), climate(&bob));
    assert_eq!(climate(&ann).len(), 8);
    assert!(climate(&ann).iter().all(|entry| entry["by"] == "log-n"));
}

#[test]
fn a_day_that_comes_out_otherwise_is_told_and_replaced_only_when_asked() {
    let laptop = new_york();
    let all = readings("2026-10-08T04:00:00Z", 5, 10);
    let tz = chrono_tz::America::New_York;
    // Eighty minutes of a night are missing, and come with a later file.
    let hole = |read: &&Read| {
        !("2026-10-10T05:00:00Z".parse::<DateTime<Utc>>().unwrap()..).contains(&read.0)
            || read.0 > "2026-10-10T06:20:00Z".parse::<DateTime<Utc>>().unwrap()
    };
    let gap: Vec<Read> = all.iter().filter(hole).copied().collect();
    imported(&laptop, &[("gap.csv", wall(&gap, tz))], &WALL);
    let said = imported(&laptop, &[("n.csv", wall(&all, tz))], &WALL);
    let row = said.lines().find(|line| line.starts_with("Sat Oct 10")).unwrap();
    assert!(
        row.contains(" was written, ") && row.ends_with("now; --replace voids the old and writes the new"),
        "{row}"
    );
    assert!(said.contains("0 days written, 3 known, 1 left as written before"), "{said}");
    let said = imported(&laptop, &[("n.csv", wall(&all, tz))], &[&WALL[..], &["--replace"]].concat());
    assert!(said.contains("1 day written, 1 of them in the place of another, 3 known"), "{said}");
    let said = imported(&laptop, &[("n.csv", wall(&all, tz))], &WALL);
    assert!(said.contains("0 days written, 4 known"), "{said}");
    // The other way round again: the entry that was voided is not brought back, its figures are written as another.
    let said = imported(&laptop, &[("gap.csv", wall(&gap, tz))], &[&WALL[..], &["--replace"]].concat());
    assert!(said.contains("1 day written"), "{said}");
    assert!(imported(&laptop, &[("gap.csv", wall(&gap, tz))], &WALL).contains("0 days written, 4 known"));
    // A day voided by hand stays so.
    let last = climate(&laptop).pop().unwrap();
    let strike = format!(
        r#"{{"type":"journal","version":1}}
{{"type":"entry","at":"2026-12-20T07:00:00-05:00","by":"kt","house":"East","kind":"strike","entry":{},"why":"sensor wet"}}
"#,
        last["id"]
    );
    let path = laptop.file("strike.jsonl", &strike);
    laptop.done(&["import", arg(&path)]);
    let said = imported(&laptop, &[("gap.csv", wall(&gap, tz))], &WALL);
    assert!(said.contains("voided by hand, stays so; --replace writes it again"), "{said}");
}

#[test]
fn a_bad_file_refuses_all_files_by_line_and_column() {
    let laptop = new_york();
    let tz = chrono_tz::America::New_York;
    let good = wall(&readings("2026-10-08T04:00:00Z", 5, 10), tz);
    let bad = good.replacen(",0.000\n", ",dark\n", 1);
    let said = import(&laptop, &[("good.csv", good.clone()), ("bad.csv", bad)], &WALL);
    assert_eq!((said.code, said.out.as_str()), (1, ""));
    assert_eq!(
        said.err,
        "benchwalk: nothing was written, 1 error in 2 files:\n  [root]/bad.csv, line 4, Light: 'dark' is not a number; if it \
         stands for no reading, add it to missing\n"
    );
    assert!(climate(&laptop).is_empty());
    let other = import(&laptop, &[("good.csv", good)], &[&WALL[..], &["--house", "West"]].concat());
    assert_eq!(other.code, 2, "{other:?}");
    let path = laptop.path("good.csv");
    let known = laptop.run(&[&["import", "--logger", "log-n", "--house", "West", arg(&path)], &WALL[..]].concat());
    assert!(known.err.contains("\"West\" is not a house of this season; known: East"), "{known:?}");
    let unknown = laptop.run(&["import", "--logger", "log-x", arg(&path)]);
    assert_eq!(unknown.code, 2);
    assert!(
        unknown.err.contains("house is missing") && unknown.err.contains("config.toml has no logger"),
        "{unknown:?}"
    );
}

#[test]
fn faults_of_a_logger_in_the_config_file_name_their_line() {
    let laptop = new_york();
    for (text, wanted) in [
        ("by = \"kt\"\n\n[[logger]]\nname = \"log-n\"\nhouse = \"East\"\n", "line 3: logger log-n: time is missing"),
        ("[[logger]]\nname = \"log-n\"\nzone = \"EST5\"\n", "line 3: 'EST5' is not a zone"),
        ("[[logger]]\nname = \"log-n\"\nhuose = \"East\"\n", "line 3: unknown field `huose`"),
        (
            "[[logger]]\nname = \"a\"\nhouse = \"East\"\ntime = \"T\"\nhumidity = { column = \"RH\" }\n\n[[logger]]\nname = \"a\"\n\
             house = \"East\"\ntime = \"T\"\nhumidity = { column = \"RH\" }\n",
            "line 7: there is a logger a already",
        ),
    ] {
        laptop.file("config/config.toml", text);
        let said = laptop.run(&["limits"]);
        assert_eq!(said.code, 1, "{text}");
        assert!(said.err.contains(wanted) && said.err.contains("config.toml"), "{text}: {}", said.err);
    }
}

/// The season as it is in the file.
fn season(laptop: &Laptop) -> Season {
    let store = Store::open_read_only(&laptop.path("data/season.db")).unwrap();
    let (plan, entries) = store.load().unwrap();
    Season::new(plan, entries)
}

#[test]
fn house_climate_never_counts_as_a_walk() {
    let laptop = new_york();
    let tz = chrono_tz::America::New_York;
    let text = wall(&readings("2026-10-01T04:00:00Z", 12, 10), tz);
    imported(&laptop, &[("n.csv", text.clone())], &WALL);
    // Nor does that of a logger that hangs at one bench.
    let path = laptop.file("e.csv", &text);
    laptop.done(&[&["import", "--logger", "log-e", "--bench", "E1", arg(&path)], &WALL[..]].concat());
    assert_eq!(climate(&laptop).len(), 22);
    let day = NaiveDate::from_ymd_opt(2026, 10, 11).unwrap();
    let review = laptop.done(&["review", "--on", "2026-10-11", "--format", "json"]);
    let review: Value = serde_json::from_str(&review).unwrap();
    assert_eq!((&review["benches"], &review["walked"]), (&Value::from(2), &Value::from(0)), "the review");
    let (season, limits) = (season(&laptop).on(day), Limits::default());
    for bench in ["E1", "E2"] {
        let summary = Summary::of_all(&season, &[bench.to_owned()], day, &limits).remove(0);
        assert_eq!((summary.seen, summary.last_seen), (false, None), "the round");
    }
    let warned = assess_all(&season, day, &limits);
    let missed = warned.all().find(|w| w.name == WarningName::NotWalked).expect("the rule");
    assert_eq!(missed.benches, ["E1", "E2"]);
    assert_eq!(season.record_begins(season.lot("R6").unwrap(), day).to_string(), "2026-08-17");
}

#[test]
fn a_long_file_shows_how_far_it_is() {
    let laptop = new_york();
    let text = wall(&readings("2026-08-25T04:00:00Z", 110, 10), chrono_tz::America::New_York);
    let path = laptop.file("n.csv", &text);
    let shown = crate::progress::drawn(
        &laptop,
        &[&["import", "--logger", "log-n", "--house", "East", arg(&path)], &WALL[..]].concat(),
    );
    assert!(shown.contains("Reading the logger's file: ") && shown.contains(" of 15,8"), "{shown}");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 8, ..ProptestConfig::default() })]

    /// However a file is cut into parts that overlap by two days, in whatever order they are imported, and with parts given
    /// twice: the entries are those of the whole file.
    #[test]
    fn any_split_into_overlapping_parts_writes_the_same_entries(
        step in prop::sample::select(vec![10_i64, 15, 60]),
        cuts in prop::collection::vec(any::<prop::sample::Index>(), 1..4),
        holes in prop::collection::vec((any::<prop::sample::Index>(), 1_usize..9), 0..4),
        order in any::<prop::sample::Index>(),
        at_once: bool,
    ) {
        let tz = chrono_tz::America::New_York;
        let mut all = readings("2026-10-27T04:00:00Z", 12, step);
        for (at, length) in holes {
            let from = at.index(all.len());
            all.drain(from..(from + length).min(all.len()));
        }
        let whole = new_york();
        imported(&whole, &[("n.csv", wall(&all, tz))], &WALL);
        let mut cuts: Vec<usize> = cuts.iter().map(|cut| cut.index(all.len())).collect();
        cuts.sort_unstable();
        let overlap = if at_once { 0 } else { usize::try_from(2 * 1440 / step).unwrap() };
        let mut from = 0;
        let mut parts = Vec::new();
        for cut in cuts.into_iter().chain([all.len()]) {
            let to = (cut + overlap).min(all.len());
            // A part of less than a few hours that lies in the double hour cannot say which of the two it is of.
            if to > from + usize::try_from(360 / step).unwrap() {
                parts.push(wall(&all[from..to], tz));
                from = cut;
            }
        }
        if from < all.len() && at_once {
            parts.push(wall(&all[from.saturating_sub(usize::try_from(360 / step).unwrap())..], tz));
        }
        let turn = order.index(parts.len());
        parts.rotate_left(turn);
        parts.push(parts[0].clone());
        let cut = new_york();
        let names: Vec<String> = (0..parts.len()).map(|n| format!("{n}.csv")).collect();
        let files: Vec<(&str, String)> = names.iter().map(String::as_str).zip(parts).collect();
        if at_once {
            imported(&cut, &files, &WALL);
        } else {
            for file in files {
                imported(&cut, &[file], &WALL);
            }
        }
        prop_assert_eq!(climate(&whole), climate(&cut));
        prop_assert!(climate(&whole).len() >= 4);
    }
}
