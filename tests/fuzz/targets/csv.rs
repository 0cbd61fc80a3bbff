//! Any text as a table of the plan, as a list of benches, or as the file of a climate logger. The first byte says which; the
//! mapping of a logger is one of a few, or stands before the file, parted from it by a zero byte.
#![no_main]

use benchwalk::characters::hidden;
use benchwalk::journal::csv::{read_benches, read_plan, write_tables};
use benchwalk::journal::logger::{Mapping, RawMapping, join, read};
use benchwalk::journal::{self, Fault};
use benchwalk::record::Plan;
use chrono::{DateTime, Utc};
use libfuzzer_sys::fuzz_target;
use std::sync::LazyLock;

const MAPPINGS: [&str; 3] = [
    "name = \"log-n\"\nhouse = \"North\"\ntime = [\"Date\", \"Time\"]\ntime_format = \"%m/%d/%Y %I:%M %p\"\nzone = \"site\"\n\
     temperature = { column = \"Temp (F)\", unit = \"F\" }\nhumidity = { column = \"RH (%)\" }\n\
     light = { column = \"Light\", unit = \"umol\" }",
    "name = \"log-n\"\nhouse = \"North\"\ntime = \"Date\"\ntime_format = \"%d.%m.%Y %H:%M\"\nzone = \"site\"\ndecimal = \",\"\n\
     temperature = { column = \"Temp\", unit = \"C\" }",
    "name = \"log-n\"\nhouse = \"North\"\ntime = [1, 2]\ntime_format = \"%m/%d/%Y %I:%M %p\"\nzone = \"UTC\"\nseparator = \",\"\n\
     temperature = { column = 3, unit = \"F\" }",
];

static NOW: LazyLock<DateTime<Utc>> = LazyLock::new(|| "2026-12-01T12:00:00Z".parse().expect("an instant"));

/// The demo's plan of lots and benches, so that tables find what they name.
static PLAN: LazyLock<Plan> = LazyLock::new(|| {
    let mut plan = Plan::default();
    for line in journal::read(include_str!("../../../demo-data/demo.jsonl")).expect("the demo's journal is read") {
        drop(plan.keep(line));
    }
    plan
});

fn clean<'f>(faults: impl Iterator<Item = &'f Fault>) {
    for fault in faults {
        let said = fault.to_string();
        assert!(!said.chars().any(hidden), "not clean: {said:?}");
    }
}

fn logger(mapping: &str, file: &str) {
    let Ok(raw) = toml::from_str::<RawMapping>(mapping) else { return };
    let mapping = match Mapping::try_from(raw) {
        Ok(mapping) => mapping,
        Err(said) => return assert!(!said.chars().any(hidden), "not clean: {said:?}"),
    };
    match read(file, &mapping, "America/New_York".parse().unwrap(), *NOW) {
        Ok(log) => drop(join(&[("a".to_owned(), &log), ("b".to_owned(), &log)])),
        Err(faults) => clean(faults.iter()),
    }
}

fuzz_target!(|data: &[u8]| {
    let Some((which, rest)) = data.split_first() else { return };
    let Ok(text) = std::str::from_utf8(rest) else { return };
    match which % 8 {
        0 => match read_benches(text, &PLAN) {
            Ok(lines) => drop(write_tables(&lines.into_iter().map(|l| l.line).collect::<Vec<_>>(), &[], &|_| false)),
            Err(faults) => clean(faults.iter()),
        },
        1..=3 => {
            let tables: Vec<&str> = text.split('\0').collect();
            let empty = Plan::default();
            match read_plan(&tables, if *which % 8 == 1 { &empty } else { &PLAN }) {
                Ok(sheets) => {
                    let lines: Vec<_> = sheets.into_iter().flat_map(|sheet| sheet.lines).map(|l| l.line).collect();
                    drop(write_tables(&lines, &[], &|_| false));
                }
                Err(faults) => faults.iter().for_each(|faults| clean(faults.iter())),
            }
        }
        4 => {
            if let Some((mapping, file)) = text.split_once('\0') {
                logger(mapping, file);
            }
        }
        n => logger(MAPPINGS[usize::from(n - 5)], text),
    }
});
