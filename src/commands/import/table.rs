//! The days of a logger as a table: what was written, what was known, what waits and why.

use crate::crop::climate::day::{COVERED_PERCENT, Part, Short};
use crate::dates;
use crate::journal::logger::Mapping;
use crate::progress::in_thousands;
use crate::record::{Entry, Kind, Place};
use crate::session::logger::{Day, DayState, Imported};
use crate::units::{Quantity, System, Temperature, plain};

/// The table; with `#` before each line where it follows a mapping that is to be kept.
pub(super) fn text(imported: &Imported, mapping: &Mapping, system: System, dry: bool) -> String {
    let unit = Temperature::unit_name(system);
    let mut lines = vec![head(imported, mapping)];
    lines.extend(imported.told.iter().cloned());
    if imported.days.iter().any(|day| day.entry.is_some()) {
        lines.push(format!(
            "{:<10} {:>6} {:>6} {:>6} {:>6} {:>6} {:>6}",
            "", "day", "night", "low", "high", "RH", "light"
        ));
        lines.push(format!("{:<10} {unit:>6} {unit:>6} {unit:>6} {unit:>6} {:>6} {:>6}", "", "%", "mol"));
    }
    lines.extend(imported.days.iter().map(|day| row(day, system, dry)));
    if dry {
        lines.push(format!("nothing was written; {}", counted(imported, "to write")));
    }
    let mark = if dry { "# " } else { "" };
    lines.iter().map(|line| format!("{mark}{line}").trim_end().to_owned() + "\n").collect::<Vec<_>>().concat()
}

/// What of the files is there.
fn head(imported: &Imported, mapping: &Mapping) -> String {
    let place = match &mapping.place {
        Place::Bench(code) => format!("bench {code}"),
        place => format!("house {}", place.code()),
    };
    let span = imported.span.as_ref().map_or(String::new(), |(first, last)| {
        let at = |at| format!("{} {}", dates::short(chrono::DateTime::date_naive(at)), dates::time(at));
        format!(", {} to {}", at(first), at(last))
    });
    format!("{}, {place}: {} readings{span}", mapping.name, in_thousands(imported.readings))
}

/// The columns of a day.
fn row(day: &Day, system: System, dry: bool) -> String {
    let name = dates::weekday(day.day);
    let Some(entry) = &day.entry else { return format!("{name:<10}  {}", state(day, system, dry)) };
    let Kind::Climate { day_c, night_c, humidity_percent, log } = &*entry.kind else { return name };
    let c = |c: Option<f64>| c.map_or("-".to_owned(), |c| format!("{:.1}", Temperature::from_c(c).in_system(system)));
    let number = |n: Option<f64>| n.map_or("-".to_owned(), plain);
    format!(
        "{name:<10} {:>6} {:>6} {:>6} {:>6} {:>6} {:>6}  {}",
        c(*day_c),
        c(*night_c),
        c(log.low_c),
        c(log.high_c),
        number(*humidity_percent),
        number(log.light_mol),
        state(day, system, dry)
    )
}

/// What became of it, in words.
fn state(day: &Day, system: System, dry: bool) -> String {
    match &day.state {
        DayState::Written if dry => "new".to_owned(),
        DayState::Written => "written".to_owned(),
        DayState::Known => "known".to_owned(),
        DayState::Replaced if dry => "to be replaced".to_owned(),
        DayState::Replaced => "replaced".to_owned(),
        DayState::Voided => "voided by hand, stays so; --replace writes it again".to_owned(),
        DayState::Differs(old) => differs(old, day.entry.as_ref(), system),
        DayState::Waiting(short) => waiting(*short),
    }
}

/// `night 64.2 °F was written, 64.6 °F now; --replace voids that and writes this`.
fn differs(old: &Entry, new: Option<&Entry>, system: System) -> String {
    let values = |entry: &Entry| match &*entry.kind {
        Kind::Climate { day_c, night_c, humidity_percent, log } => {
            let c = |c: Option<f64>| {
                c.map(|c| format!("{:.1} {}", Temperature::from_c(c).in_system(system), Temperature::unit_name(system)))
            };
            let n = |n: Option<f64>, unit: &str| n.map(|n| format!("{}{unit}", plain(n)));
            vec![
                ("night", c(*night_c)),
                ("day", c(*day_c)),
                ("low", c(log.low_c)),
                ("high", c(log.high_c)),
                ("humidity", n(*humidity_percent, "%")),
                ("humid hours", n(log.humid_hours, " h")),
                ("VPD", n(log.vpd_kpa, " kPa")),
                ("light", n(log.light_mol, " mol")),
                ("warm night", n(log.warm_h, " °C h")),
                ("readings", log.readings.map(|n| n.to_string())),
            ]
        }
        _ => Vec::new(),
    };
    let (was, now) = (values(old), new.map(values).unwrap_or_default());
    let first = was.into_iter().zip(now).find(|(was, now)| was.1 != now.1);
    let said = |value: Option<String>| value.unwrap_or_else(|| "nothing".to_owned());
    let what = first.map_or_else(
        || "another sunset".to_owned(),
        |((name, was), (_, now))| format!("{name} {} was written, {} now", said(was), said(now)),
    );
    format!("{what}; --replace voids the old and writes the new")
}

fn waiting(short: Short) -> String {
    let name = |part| match part {
        Part::Night => "night",
        Part::Light => "daylight",
    };
    match short {
        Short::Begins => "the readings begin within it; not written".to_owned(),
        Short::Ends { part, percent } => {
            format!("{percent}% of the {}; not written, comes with the next file", name(part))
        }
        Short::Gaps { part, percent } => {
            format!("{percent}% of the {}, {}% are needed; not written", name(part), plain(COVERED_PERCENT))
        }
    }
}

/// `108 days written, 2 known, 2 waiting`; of a trial run `to write`.
pub(super) fn counted(imported: &Imported, written_is: &str) -> String {
    let count = |pick: fn(&DayState) -> bool| imported.days.iter().filter(|day| pick(&day.state)).count();
    let written = count(|state| matches!(state, DayState::Written | DayState::Replaced));
    let mut parts = vec![format!("{written} {} {written_is}", if written == 1 { "day" } else { "days" })];
    let replaced = count(|state| matches!(state, DayState::Replaced));
    if replaced > 0 {
        parts.push(format!("{replaced} of them in the place of another"));
    }
    parts.push(format!("{} known", count(|state| matches!(state, DayState::Known))));
    for (n, what) in [
        (count(|state| matches!(state, DayState::Differs(_))), "left as written before"),
        (count(|state| matches!(state, DayState::Voided)), "voided"),
        (count(|state| matches!(state, DayState::Waiting(_))), "waiting"),
    ] {
        if n > 0 {
            parts.push(format!("{n} {what}"));
        }
    }
    parts.join(", ")
}
