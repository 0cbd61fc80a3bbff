//! Files of climate loggers: what is read, and sixty kinds of bad file, each refused by line and column.

use benchwalk::dates::Tz;
use benchwalk::journal::logger::{Log, Mapping, RawMapping, join, read};
use chrono::{DateTime, Utc};
use std::collections::BTreeSet;
use std::fmt::Write;

fn site() -> Tz {
    "America/New_York".parse().unwrap()
}

fn now() -> DateTime<Utc> {
    "2026-12-01T12:00:00Z".parse().unwrap()
}

/// The mapping of a clock on the wall: °F, AM and PM.
const WALL: &str = r#"name = "log-n"
house = "North"
time = ["Date", "Time"]
time_format = "%m/%d/%Y %I:%M %p"
zone = "site"
temperature = { column = "Temp (F)", unit = "F" }
humidity = { column = "RH (%)" }
light = { column = "Light", unit = "umol" }"#;

fn mapping(text: &str) -> Result<Mapping, String> {
    let raw: RawMapping = toml::from_str(text).map_err(|error| error.message().to_owned())?;
    Mapping::try_from(raw)
}

/// The mapping with some of its lines in other words: `key = value` in the place of the line of that key; without value it goes.
fn with(lines: &[&str]) -> String {
    let key = |line: &str| line.split('=').next().unwrap_or_default().trim().to_owned();
    let mut kept: Vec<String> =
        WALL.lines().filter(|line| !lines.iter().any(|new| key(new) == key(line))).map(str::to_owned).collect();
    kept.extend(lines.iter().filter(|line| line.contains('=')).map(|line| (*line).to_owned()));
    kept.join("\n")
}

const HEADER: &str = "Plot Title: North\n\nDate,Time,Temp (F),RH (%),Light\n";
const ROWS: &str = "10/12/2026,01:00 AM,64.1,81,0\n10/12/2026,01:10 AM,64.0,82,0\n10/12/2026,01:20 AM,63.8,83,1.5\n";

fn file(text: &str, mapping_text: &str) -> Result<Log, String> {
    read(text, &mapping(mapping_text)?, site(), now())
        .map_err(|faults| faults.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n"))
}

#[test]
fn junk_above_the_header_is_passed_over_and_missing_readings_are_none() {
    let log =
        file(&format!("\u{feff}{HEADER}{ROWS}10/12/2026,01:30 AM,--,84,\n,,,,\n").replace('\n', "\r\n"), WALL).unwrap();
    assert_eq!((log.readings.len(), log.above, log.told.len()), (4, 3, 0));
    let (line, first) = log.readings[0];
    assert_eq!((line, first.at.to_rfc3339().as_str()), (4, "2026-10-12T05:00:00+00:00"));
    assert!((first.air.unwrap().c() - 17.833).abs() < 0.001 && first.light.unwrap().umol() < 0.1);
    let (_, last) = log.readings[3];
    assert_eq!((last.air, last.humidity_percent, last.light), (None, Some(84.0), None));
}

#[test]
fn columns_by_number_need_no_header_and_a_quoted_one_may_hold_the_separator() {
    let numbers = with(&[
        "time = [1, 2]",
        "temperature = { column = 3, unit = \"F\" }",
        "humidity",
        "light",
        "separator = \",\"",
    ]);
    let log = file(&format!("some junk\n{ROWS}"), &numbers).unwrap();
    assert_eq!((log.readings.len(), log.above), (3, 1));
    let quoted = "\"Date\";\"Temp; upper\"\n12.10.2026 01:00;20,5\n12.10.2026 01:30;20,25\n";
    let comma = with(&[
        "time = \"Date\"",
        "time_format = \"%d.%m.%Y %H:%M\"",
        "temperature = { column = \"Temp; upper\", unit = \"C\" }",
        "humidity",
        "light",
        "decimal = \",\"",
    ]);
    let log = file(quoted, &comma).unwrap();
    assert!((log.readings[1].1.air.unwrap().c() - 20.25).abs() < 1e-9);
}

/// The light of one reading, µmol/m2/s.
fn umol(unit: &str, cell: &str) -> f64 {
    let text = format!("Date,Time,Light\n10/12/2026,01:00 PM,{cell}\n");
    let log =
        file(&text, &with(&["temperature", "humidity", &format!("light = {{ column = \"Light\", {unit} }}")])).unwrap();
    log.readings[0].1.light.unwrap().umol()
}

#[test]
fn light_is_taken_in_every_unit() {
    let near = |a: f64, b: f64| assert!((a - b).abs() < 0.01 * b.max(0.01), "{a} {b}");
    near(umol("unit = \"umol\"", "400"), 400.0);
    near(umol("unit = \"umol\", share = 0.5", "400"), 200.0);
    near(umol("unit = \"lux\", source = \"sun\"", "54000"), 1000.0);
    near(umol("unit = \"klux\", source = \"sodium\"", "8.2"), 100.0);
    near(umol("unit = \"fc\", source = \"sun\"", "5016.7"), 1000.0);
    near(umol("unit = \"W/m2\"", "100"), 206.0);
    near(umol("unit = \"W/m2\"", "-1.2"), 0.0);
}

/// Ten-minute times of a wall clock, without other readings than the temperature.
fn clock(times: &[&str]) -> String {
    let rows: Vec<String> = times.iter().map(|time| format!("{time},64.0\n")).collect();
    format!("Date,Temp (F)\n{}", rows.concat())
}

const CLOCK: [&str; 4] = ["time = \"Date\"", "time_format = \"%Y-%m-%d %H:%M\"", "humidity", "light"];

fn instants(times: &[&str]) -> Vec<String> {
    let log = file(&clock(times), &with(&CLOCK)).unwrap();
    log.readings.iter().map(|(_, reading)| reading.at.format("%H:%M").to_string()).collect()
}

#[test]
fn the_double_hour_is_the_second_one_when_it_does_not_come_after_the_row_before() {
    let day = |times: &[&str]| -> Vec<String> { times.iter().map(|time| format!("2026-11-01 {time}")).collect() };
    let both = day(&["00:30", "01:00", "01:30", "01:00", "01:30", "02:00"]);
    let both: Vec<&str> = both.iter().map(String::as_str).collect();
    assert_eq!(instants(&both), ["04:30", "05:00", "05:30", "06:00", "06:30", "07:00"]);
    // A file that begins in the second pass, and one that ends in the first.
    assert_eq!(instants(&both[3..]), ["06:00", "06:30", "07:00"]);
    assert_eq!(instants(&both[4..]), ["06:30", "07:00"]);
    assert_eq!(instants(&both[2..]), ["05:30", "06:00", "06:30", "07:00"]);
    assert_eq!(instants(&both[..3]), ["04:30", "05:00", "05:30"]);
    // Every hour: 01:00 comes twice in a row, with the same temperature.
    let hourly = day(&["00:00", "01:00", "01:00", "02:00"]);
    let hourly: Vec<&str> = hourly.iter().map(String::as_str).collect();
    assert_eq!(instants(&hourly), ["04:00", "05:00", "06:00", "07:00"]);
}

#[test]
fn a_clock_that_is_not_put_back_shows_as_a_step_an_hour_too_long() {
    let times: Vec<String> = (4..13).map(|n| format!("2026-11-01 {:02}:{:02}", n * 10 / 60, n * 10 % 60)).collect();
    let times: Vec<&str> = times.iter().map(String::as_str).collect();
    assert_eq!((times[0], times[8]), ("2026-11-01 00:40", "2026-11-01 02:00"));
    let log = file(&clock(&times), &with(&CLOCK)).unwrap();
    assert_eq!(
        log.told,
        ["70 minutes between 01:50 and 02:00 on Nov 1: a clock that is not put back? Then give zone = \"-04:00\""]
    );
    let fixed = file(&clock(&times), &with(&[&CLOCK[..], &["zone = \"-04:00\""]].concat())).unwrap();
    assert!(fixed.told.is_empty());
    let spring = ["2026-03-08 01:00", "2026-03-08 03:00", "2026-03-08 05:00", "2026-03-08 07:00"];
    let log = file(&clock(&spring), &with(&CLOCK)).unwrap();
    assert_eq!(
        log.told,
        ["60 minutes between 01:00 and 03:00 on Mar 8: a clock that is not put forward? Then give zone = \"-05:00\""]
    );
}

#[test]
fn files_of_one_logger_join_where_they_agree() {
    let one = file(&format!("{HEADER}{ROWS}"), WALL).unwrap();
    let next = "10/12/2026,01:20 AM,63.8,83,1.5\n10/12/2026,01:30 AM,63.5,83,1.5\n";
    let two = file(&format!("{HEADER}{next}"), WALL).unwrap();
    assert_eq!(join(&[("a.csv".into(), &one), ("b.csv".into(), &two)]).unwrap().len(), 4);
    let other = file(&format!("{HEADER}{}", next.replace("63.8", "60.8")), WALL).unwrap();
    let said = join(&[("a.csv".into(), &one), ("b.csv".into(), &other)]).unwrap_err();
    assert_eq!(said, ["b.csv, line 4: is of the same time as line 6 of a.csv, with other readings"]);
}

/// Kinds of bad rows: the third row of a good file in other words.
const BAD_ROWS: [(&str, &str); 31] = [
    ("comma in a number", "10/12/2026,01:20 AM,\"1,063\",83,1.5"),
    ("decimal comma that makes a cell", "10/12/2026,01:20 AM,63,8,83,1.5"),
    ("unit in the cell", "10/12/2026,01:20 AM,63.8 F,83,1.5"),
    ("word in the cell", "10/12/2026,01:20 AM,warm,83,1.5"),
    ("sensor fault of the logger", "10/12/2026,01:20 AM,ERR,83,1.5"),
    ("exponent", "10/12/2026,01:20 AM,6.38e1,83,1.5"),
    ("two points", "10/12/2026,01:20 AM,63.8.1,83,1.5"),
    ("infinite", "10/12/2026,01:20 AM,inf,83,1.5"),
    ("too hot for air", "10/12/2026,01:20 AM,163.8,83,1.5"),
    ("sensor torn off", "10/12/2026,01:20 AM,-196.6,83,1.5"),
    ("humidity over 100", "10/12/2026,01:20 AM,63.8,104,1.5"),
    ("humidity below nothing", "10/12/2026,01:20 AM,63.8,-1,1.5"),
    ("percent sign", "10/12/2026,01:20 AM,63.8,83%,1.5"),
    ("light below nothing", "10/12/2026,01:20 AM,63.8,83,-4"),
    ("light of lux as umol", "10/12/2026,01:20 AM,63.8,83,54000"),
    ("row ends early", "10/12/2026,01:20 AM,63.8"),
    ("row ends in the time", "10/12/2026"),
    ("row goes on", "10/12/2026,01:20 AM,63.8,83,1.5,7,8"),
    ("no date", ",01:20 AM,63.8,83,1.5"),
    ("no time", "10/12/2026,,63.8,83,1.5"),
    ("day and month the other way", "22/12/2026,01:20 AM,63.8,83,1.5"),
    ("year of two digits", "10/12/26,01:20 AM,63.8,83,1.5"),
    ("no AM or PM", "10/12/2026,01:20,63.8,83,1.5"),
    ("hour 13 with PM", "10/12/2026,13:20 PM,63.8,83,1.5"),
    ("day that is not", "02/30/2026,01:20 AM,63.8,83,1.5"),
    ("later than today", "10/12/2027,01:20 AM,63.8,83,1.5"),
    ("backwards", "10/12/2026,12:50 AM,63.8,83,1.5"),
    ("same time, other readings", "10/12/2026,01:10 AM,70.0,83,1.5"),
    ("footer", "End of file,,,,"),
    ("units below the header", "mm/dd/yyyy,hh:mm,F,%,umol"),
    ("open quote", "10/12/2026,01:20 AM,\"63.8,83,1.5"),
];

/// Kinds of bad files: name, text, and lines of the mapping in other words.
#[expect(clippy::too_many_lines, reason = "one list")]
fn bad_files() -> Vec<(&'static str, String, String)> {
    let whole = format!("{HEADER}{ROWS}");
    let clock_of = |times: &[&str], more: &[&str]| (clock(times), with(&[&CLOCK[..], more].concat()));
    let mut all = vec![
        ("nothing in it", String::new(), WALL.to_owned()),
        ("blank lines only", "\n\n\n".to_owned(), WALL.to_owned()),
        ("header only", HEADER.to_owned(), WALL.to_owned()),
        ("no header", ROWS.to_owned(), WALL.to_owned()),
        ("one column named otherwise", whole.replace("Temp (F)", "Temp (C)"), WALL.to_owned()),
        ("header in small letters", whole.replace("Date,Time", "date,time"), WALL.to_owned()),
        ("header broken over two lines", whole.replace("RH (%),", "RH (%)\n"), WALL.to_owned()),
        (
            "a column twice",
            whole.replace("Light", "RH (%)").replace("RH (%),RH (%)", "RH (%),RH (%),Light"),
            WALL.to_owned(),
        ),
        ("another separator than given", whole.clone(), with(&["separator = \";\""])),
        ("a web page", "<html><body>Please log in</body></html>\n".to_owned(), WALL.to_owned()),
        ("column number beyond the header", whole.clone(), with(&["humidity = { column = 9 }"])),
        ("column number of a named column", whole.clone(), with(&["humidity = { column = 3 }"])),
        ("RFC 3339 wanted", whole.replace("Date,Time", "Stamp,Time"), with(&["time = \"Stamp\"", "time_format"])),
        (
            "no offset in RFC 3339",
            "Stamp,Temp (F)\n2026-10-12 01:00:00,64\n".to_owned(),
            with(&["time = \"Stamp\"", "time_format", "humidity", "light"]),
        ),
        ("year 26", whole.replace("/2026", "/0026"), WALL.to_owned()),
        ("decimal comma wanted", whole.clone(), with(&["decimal = \",\""])),
        (
            "wrong unit",
            "Date,Time,Temp\n10/12/2026,01:00 AM,64.1\n".to_owned(),
            with(&["temperature = { column = \"Temp\", unit = \"C\" }", "humidity", "light"]),
        ),
        (
            "radiation over the sun",
            "Date,Time,Light\n10/12/2026,01:00 PM,4000\n".to_owned(),
            with(&["temperature", "humidity", "light = { column = \"Light\", unit = \"W/m2\" }"]),
        ),
        (
            "lux over the sun",
            "Date,Time,Light\n10/12/2026,01:00 PM,900000\n".to_owned(),
            with(&["temperature", "humidity", "light = { column = \"Light\", unit = \"lux\", source = \"sun\" }"]),
        ),
        (
            "thousand lux over the sun",
            "Date,Time,Light\n10/12/2026,01:00 PM,54000\n".to_owned(),
            with(&["temperature", "humidity", "light = { column = \"Light\", unit = \"klux\", source = \"sun\" }"]),
        ),
        (
            "newest first",
            format!("{HEADER}{}", ROWS.lines().rev().fold(String::new(), |all, row| all + row + "\n")),
            WALL.to_owned(),
        ),
        (
            "numbers alone, no time",
            "a,b,c\nd,e,f\n".to_owned(),
            with(&[
                "time = [1, 2]",
                "temperature = { column = 3, unit = \"F\" }",
                "humidity",
                "light",
                "separator = \",\"",
            ]),
        ),
        (
            "numbers alone, a bad row later",
            format!("{ROWS}x,y,z\n"),
            with(&[
                "time = [1, 2]",
                "temperature = { column = 3, unit = \"F\" }",
                "humidity",
                "light",
                "separator = \",\"",
            ]),
        ),
        ("missing text not named", whole.replace("63.8", "n/a"), WALL.to_owned()),
        ("missing named, empty no longer", whole.replace("63.8", ""), with(&["missing = [\"n/a\"]"])),
        ("two header rows", format!("{HEADER}Date,Time,Temp (F),RH (%),Light\n{ROWS}"), WALL.to_owned()),
    ];
    let (text, map) = clock_of(&["2026-03-08 01:50", "2026-03-08 02:30"], &[]);
    all.push(("hour that does not exist", text, map));
    let (text, map) = clock_of(&["2026-03-29 01:50", "2026-03-29 02:10"], &["zone = \"Europe/Amsterdam\""]);
    all.push(("hour that does not exist elsewhere", text, map));
    let (text, map) = clock_of(&["2026-11-01 01:50", "2026-11-01 01:00"], &["zone = \"-04:00\""]);
    all.push(("fixed clock put back", text, map));
    let (text, map) = clock_of(&["2026-10-20 01:50", "2026-10-20 00:50"], &[]);
    all.push(("put back on another day", text, map));
    let (text, map) = clock_of(
        &["2026-11-01 01:00", "2026-11-01 01:30", "2026-11-01 01:00", "2026-11-01 01:30", "2026-11-01 01:00"],
        &[],
    );
    all.push(("double hour a third time", text, map));
    let rows = BAD_ROWS.iter().map(|(name, row)| {
        let good: Vec<&str> = ROWS.lines().take(2).collect();
        (*name, format!("{HEADER}{}\n{row}\n", good.join("\n")), WALL.to_owned())
    });
    all.extend(rows);
    all
}

#[test]
fn sixty_kinds_of_bad_file_are_refused_by_line_and_column() {
    let bad = bad_files();
    let mut said = String::new();
    let mut texts = BTreeSet::new();
    for (name, text, map) in &bad {
        let refused = file(text, map);
        let Err(faults) = refused else { panic!("{name} was read: {refused:?}") };
        assert!(faults.lines().all(|fault| fault.starts_with("line ")), "{name}: {faults}");
        writeln!(said, "{name}\n  {}", faults.replace('\n', "\n  ")).unwrap();
        texts.insert(faults);
    }
    assert!(bad.len() >= 60, "{}", bad.len());
    assert!(texts.len() >= 50, "{}", texts.len());
    insta::with_settings!({ prepend_module_to_snapshot => false, snapshot_path => "../snapshots" }, {
        insta::assert_snapshot!("journal_loggers_refused", said);
    });
}

#[test]
fn a_mapping_that_cannot_be_is_refused_with_what_would_be_right() {
    let mut said = String::new();
    for lines in [
        &["name"][..],
        &["name = \"much too long\""],
        &["house"],
        &["bench = \"E1\""],
        &["time"],
        &["time = []"],
        &["zone"],
        &["zone = \"EST5\""],
        &["zone = \"-5\""],
        &["time_format = \"%Q\""],
        &["time_format = \"%m/%d %H:%M\""],
        &["time_format = \"%m/%d/%Y %I:%M\""],
        &["temperature", "humidity", "light"],
        &["temperature = { column = \"T\" }"],
        &["temperature = { column = \"T\", unit = \"K\" }"],
        &["temperature = { column = 0, unit = \"F\" }"],
        &["temperature = { column = \"RH (%)\", unit = \"F\" }"],
        &["light = { column = \"L\", unit = \"lux\" }"],
        &["light = { column = \"L\", unit = \"umol\", source = \"sun\" }"],
        &["light = { column = \"L\", unit = \"umol\", share = 60.0 }"],
        &["light = { column = \"L\", unit = \"candles\" }"],
        &["decimal = \"·\""],
        &["separator = \"|\""],
        &["decimal = \",\"", "separator = \",\""],
        &["day = \"18:00-06:00\""],
        &["folder = \"loggers\""],
        &["color = \"red\""],
        &["time = 1", "temperature = { column = 2, unit = \"F\" }", "humidity", "light"],
    ] {
        let refused = mapping(&with(lines)).unwrap_err();
        writeln!(said, "{}\n  {refused}", lines.join(", ")).unwrap();
    }
    insta::with_settings!({ prepend_module_to_snapshot => false, snapshot_path => "../snapshots" }, {
        insta::assert_snapshot!("journal_loggers_mapping", said);
    });
}

#[test]
fn a_mapping_comes_back_from_its_own_toml() {
    let folder = if cfg!(windows) { "folder = 'C:\\loggers'" } else { "folder = \"/mnt/loggers\"" };
    for lines in [
        &[][..],
        &["zone = \"UTC\"", "separator = \"tab\"", "day = \"06:30-18:00\"", folder],
        &["zone = \"-05:00\"", "light = { column = 5, unit = \"klux\", source = \"sodium\", share = 0.65 }"],
        &["time = \"Stamp\"", "time_format = \"%Y-%m-%dT%H:%M:%S%z\"", "zone"],
        &["house", "bench = \"E1\"", "missing = [\"\\\"\", \"a\\\\b\"]"],
    ] {
        let first = mapping(&with(lines)).unwrap();
        let text = first.toml();
        assert_eq!(mapping(text.strip_prefix("[[logger]]\n").unwrap()).unwrap(), first, "{text}");
    }
}
