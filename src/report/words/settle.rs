//! What is to settle, in words: a line each, with who wrote what, when, and on which laptop where it is another one.

use crate::dates;
use crate::record::{Line, Place, Value, schema, typed};
use crate::report::entry;
use crate::report::share::lines::lines;
use crate::season::{ClockAhead, Contradiction, Missing, NotThere, PotsLeft, Twins, Unsettled, Writer};
use crate::units::System;
use chrono::NaiveDate;
use std::collections::BTreeSet;

/// One line.
pub fn settle(unsettled: &Unsettled, system: System) -> String {
    match unsettled {
        Unsettled::Plan(contradiction) => plan(contradiction, system),
        Unsettled::Pots(left) => pots(left),
        Unsettled::Twins(twins) => self::twins(twins, system),
        Unsettled::NotThere(not_there) => self::not_there(not_there),
        Unsettled::Clock(clock) => self::clock(clock),
        Unsettled::Held(1) => "1 line of a newer program is not understood here: update this program".to_owned(),
        Unsettled::Held(lines) => {
            format!("{lines} lines of a newer program are not understood here: update this program")
        }
    }
}

/// What it is about, in a few words: the heading of its form.
pub fn settle_about(unsettled: &Unsettled) -> String {
    match unsettled {
        Unsettled::Plan(contradiction) => {
            let times =
                if contradiction.lines.len() == 2 { "twice".to_owned() } else { times(contradiction.lines.len()) };
            format!("{} was written {times}", contradiction.key)
        }
        Unsettled::Pots(pots) => format!("pots on bench {} do not add up", pots.bench),
        Unsettled::Twins(twins) => format!("{}: logged twice?", places(twins)),
        Unsettled::NotThere(not_there) => format!("{} is not here", missing(&not_there.what)),
        Unsettled::Clock(_) => "a clock is wrong".to_owned(),
        Unsettled::Held(_) => "lines of a newer program".to_owned(),
    }
}

fn times(many: usize) -> String {
    format!("{many} times")
}

/// Who: the initials, with the laptop where it is another one: `ann`, `bob (bob-2)`. Where others beside have the same initials
/// this laptop is named as such.
pub fn who(writer: &Writer, beside: &[Writer]) -> String {
    let by = writer.by.as_deref().unwrap_or("somebody");
    match &writer.laptop {
        Some(laptop) => format!("{by} ({laptop})"),
        None if clashes(writer, beside) => format!("{by} (this laptop)"),
        None => by.to_owned(),
    }
}

/// True where others beside have the same initials on another laptop.
fn clashes(writer: &Writer, beside: &[Writer]) -> bool {
    beside.iter().any(|other| other.by == writer.by && other.laptop != writer.laptop)
}

/// Who and when: `bob (bob-2) 09:00` of the day that is named beside it, else with the day.
pub fn who_when(writer: &Writer, beside: &[Writer], day: Option<NaiveDate>) -> String {
    let who = who(writer, beside);
    match writer.at {
        Some(at) if day == Some(at.date_naive()) => format!("{who} {}", dates::time(&at)),
        Some(at) => format!("{who} {} {}", dates::weekday(at.date_naive()), dates::time(&at)),
        None => who,
    }
}

/// All of them in one text.
fn who_all(writers: &[Writer], day: Option<NaiveDate>) -> String {
    let all: Vec<String> = writers.iter().map(|writer| who_when(writer, writers, day)).collect();
    all.join(", ")
}

fn plan(contradiction: &Contradiction, system: System) -> String {
    let versions = contradiction.lines.iter().zip(&contradiction.writers).map(|(line, writer)| {
        let fields = contradiction.fields.iter().map(|name| field(contradiction, line, name, system));
        let written = written_by(line, writer, &contradiction.writers);
        format!("{} ({written})", fields.collect::<Vec<_>>().join(", "))
    });
    let versions = versions.collect::<Vec<_>>().join("; or ");
    format!("{}: {versions}. The last one holds until the line is saved again in Setup", contradiction.key)
}

fn pots(pots: &PotsLeft) -> String {
    let writers: Vec<Writer> = pots.writer.iter().chain(&pots.other_writer).cloned().collect();
    let who = who_all(&writers, None);
    let who = if who.is_empty() { String::new() } else { format!(" (written by {who})") };
    format!("{}; or void what was logged twice{who}", pots.text)
}

/// The places of twins: `M1, M2`, `house East`; of many the first.
pub fn places(twins: &Twins) -> String {
    /// More places than these are counted.
    const NAMED: usize = 6;
    let name = |place: &Place| match place {
        Place::Bench(code) => code.to_string(),
        Place::House(_) | Place::Lot(_) => format!("{} {}", place.field(), place.code()),
    };
    let all: Vec<String> = twins.places.iter().take(NAMED).map(|(place, _)| name(place)).collect();
    let more = twins.places.len().saturating_sub(NAMED);
    let more = if more > 0 { format!(" and {more} more") } else { String::new() };
    format!("{}{more}", all.join(", "))
}

fn twins(twins: &Twins, system: System) -> String {
    let what = entry::of_kind(&twins.kind, system);
    let who = who_all(&twins.writers, Some(twins.day));
    format!("{}, {}: {what}, logged twice? {who}", places(twins), dates::weekday(twins.day))
}

/// What is not there: `bench M9`, `the entry 01a1163c`.
fn missing(what: &Missing) -> String {
    match what {
        Missing::Bench(code) => format!("bench {code}"),
        Missing::House(house) => format!("house {house}"),
        Missing::Lot(lot) => format!("lot {lot}"),
        Missing::Plot(plot) => format!("plot {plot}"),
        Missing::Entry(id) => format!("the entry {}", short_id(&id.to_string())),
    }
}

/// The first part of an id.
fn short_id(id: &str) -> &str {
    id.split('-').next().unwrap_or(id)
}

fn not_there(of: &NotThere) -> String {
    let (what, who) = (missing(&of.what), who_when(&of.writer, &[], None));
    if matches!(of.what, Missing::Entry(_)) {
        return format!("{what} is not here, but {who} voided it. Share with the laptop that logged it");
    }
    let first = match of.lines.len() {
        1 => format!("{who} named it"),
        lines => format!("{lines} lines name it, {who} first"),
    };
    format!("{what} is not in the plan: {first}. Share with that laptop, or add {what} in Setup")
}

/// `12 min`, `3 h 2 min`, `2 days 4 h`.
fn span(minutes: i64) -> String {
    let (days, hours, rest) = (minutes / 1440, minutes / 60 % 24, minutes % 60);
    match (days, hours) {
        (0, 0) => format!("{rest} min"),
        (0, _) => format!("{hours} h {rest} min"),
        (1, _) => format!("1 day {hours} h"),
        _ => format!("{days} days {hours} h"),
    }
}

fn clock(of: &ClockAhead) -> String {
    let lines = lines(of.lines.len());
    let (late, who) = (span(of.minutes), who_when(&of.writer, &[], None));
    let mend = "Set the clock, then void its entries of that time and log them again";
    match &of.writer.laptop {
        Some(laptop) => format!(
            "the clock of {laptop} is {late} ahead of this one: {lines} written later than now, the last by {who}. {mend}"
        ),
        None => {
            format!("{lines} of this laptop are up to {late} later than now, the last by {who}. {mend}")
        }
    }
}

/// One field by its label in the form, with its value: rounded as it is read, and exact where rounding would hide that the
/// versions differ.
fn field(contradiction: &Contradiction, line: &Line, name: &str, system: System) -> String {
    let Some(field) = schema::plan_table(line.type_name()).and_then(|table| table.field(name)) else {
        return name.to_owned();
    };
    format!("{} {}", field.label, version(&contradiction.lines, line, field, system))
}

/// A value of one of several lines as it is read: exact where rounding would hide that they differ, `none` where there is none.
pub fn version(lines: &[Line], line: &Line, field: &schema::Field, system: System) -> String {
    let each = |line: &Line, show: Show| line.content().get(field.name).map(|value| show(field, value, system));
    let read: BTreeSet<Option<String>> = lines.iter().map(|line| each(line, display)).collect();
    let exact: BTreeSet<Option<String>> = lines.iter().map(|line| each(line, typed::show)).collect();
    let show: Show = if read.len() < exact.len() { typed::show } else { display };
    each(line, show).filter(|text| !text.is_empty()).unwrap_or_else(|| "none".to_owned())
}

/// A value as it is read, a day as everywhere on the screens.
pub(in crate::report) fn display(field: &schema::Field, value: &Value, system: System) -> String {
    if let Value::Day(day) = value { dates::weekday(*day) } else { typed::display(field, value, system) }
}

/// How a value is written.
type Show = fn(&schema::Field, &Value, System) -> String;

/// Who wrote a line on which laptop, and when.
fn written_by(line: &Line, writer: &Writer, all: &[Writer]) -> String {
    match &writer.laptop {
        Some(laptop) => format!("{}, on {laptop}", written(line)),
        None if clashes(writer, all) => format!("{}, on this laptop", written(line)),
        None => written(line),
    }
}

/// Who wrote a line, and when.
pub(in crate::report) fn written(line: &Line) -> String {
    let Some(revision) = line.revision() else { return String::new() };
    match (&revision.by, revision.at) {
        (Some(by), Some(at)) => format!("{by}, {} {}", dates::weekday(at.date_naive()), dates::time(&at)),
        _ => format!("revision {}", revision.rev),
    }
}
