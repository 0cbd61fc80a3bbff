//! The times of a logger's rows as instants, in the order of the file.
//!
//! A local time may stand for two instants or for none where clocks are changed. A double hour is the second one when it does
//! not come after the row before; a missing hour is a fault; a step that is an hour off at the change is reported, as it says that
//! the clock is not changed.

use super::super::{Fault, Faults};
use super::mapping::Zone;
use super::time_format::Written;
use crate::crop::climate::day::Reading;
use crate::dates::Tz;
use chrono::{DateTime, MappedLocalTime, NaiveDateTime, Offset, TimeDelta, TimeZone, Utc};

/// One row of a file.
#[derive(Debug, Clone)]
pub(super) struct Row {
    /// Line of the file, from 1.
    pub(super) line: usize,
    /// Its time as written.
    pub(super) written: Written,
    /// What was read; its instant is not known yet.
    pub(super) reading: Reading,
}

/// The instants a row can stand for.
#[derive(Debug, Clone, Copy)]
enum At {
    One(DateTime<Utc>),
    Two(DateTime<Utc>, DateTime<Utc>),
    None(Tz),
}

/// The rows in time.
#[derive(Debug, Default)]
pub(super) struct Placed {
    /// Each with its line.
    pub(super) readings: Vec<(usize, Reading)>,
    /// What is worth a second look, in words.
    pub(super) told: Vec<String>,
    /// What cannot be.
    pub(super) faults: Faults,
    /// The last row taken.
    last: Option<Row>,
    /// The rows so far all stand in a double hour that the file begins in: how much later its second pass is.
    unsure: Option<TimeDelta>,
}

/// Gives each row its instant; `column` names the time in faults.
pub(super) fn place(rows: Vec<Row>, zone: Option<Zone>, site: Tz, column: &str) -> Placed {
    let tz = match zone {
        Some(Zone::Site) => Some(site),
        Some(Zone::Named(tz)) => Some(tz),
        Some(Zone::Fixed(_)) | None => None,
    };
    let step = usual_step(&rows);
    let mut placed = Placed::default();
    for row in rows {
        let at = instants(row.written, zone, tz);
        if let Err(text) = placed.take(row.clone(), at, step, tz) {
            placed.faults.push(Fault { line: row.line, field: Some(column.to_owned()), text });
        }
    }
    placed
}

/// The middle one of the steps from row to row.
fn usual_step(rows: &[Row]) -> TimeDelta {
    let local = |row: &Row| match row.written {
        Written::Local(at) => at,
        Written::Instant(at) => at.naive_utc(),
    };
    let pairs = rows.iter().zip(rows.iter().skip(1));
    let mut steps: Vec<TimeDelta> =
        pairs.map(|(a, b)| local(b) - local(a)).filter(|d| *d > TimeDelta::zero()).collect();
    steps.sort_unstable();
    steps.get(steps.len() / 2).copied().unwrap_or_default()
}

fn instants(written: Written, zone: Option<Zone>, tz: Option<Tz>) -> At {
    let local = match (written, zone) {
        (Written::Instant(at), _) => return At::One(at.to_utc()),
        (Written::Local(local), Some(Zone::Fixed(offset))) => {
            return At::One(local.and_utc() - TimeDelta::seconds(i64::from(offset.local_minus_utc())));
        }
        (Written::Local(local), _) => local,
    };
    // A mapping without zone has times with their own offset, which are instants.
    let Some(tz) = tz else { return At::One(local.and_utc()) };
    match tz.from_local_datetime(&local) {
        MappedLocalTime::Single(at) => At::One(at.to_utc()),
        MappedLocalTime::Ambiguous(a, b) => At::Two(a.min(b).to_utc(), a.max(b).to_utc()),
        MappedLocalTime::None => At::None(tz),
    }
}

impl Placed {
    fn take(&mut self, row: Row, at: At, step: TimeDelta, tz: Option<Tz>) -> Result<(), String> {
        let before = self.readings.last().map(|(_, reading)| reading.at);
        let at = match at {
            At::None(tz) => return Err(missing_hour(row.written, tz)),
            At::One(at) => {
                self.settle(at, step);
                at
            }
            At::Two(first, second) => {
                if before.is_none() {
                    self.unsure = Some(second - first);
                }
                let twice = self.last.as_ref().filter(|last| last.written == row.written);
                match (before, twice) {
                    // An equal row is the same reading again, but where the logger's own step leads to the second pass.
                    (Some(before), Some(last)) if before + step != second && same(&last.reading, &row.reading) => {
                        first.max(before)
                    }
                    (Some(before), _) if first <= before => {
                        self.unsure = None;
                        second
                    }
                    _ => first,
                }
            }
        };
        let before = self.readings.last().map(|(line, reading)| (*line, *reading));
        let reading = Reading { at, ..row.reading };
        if let Some((line, last)) = before {
            if at == last.at && reading == last {
                return Ok(());
            }
            if at == last.at {
                return Err(format!("is the time of line {line} again, with other readings; remove one of the two"));
            }
            if at < last.at {
                return Err(backwards(line, tz));
            }
            if let Some(tz) = tz.filter(|_| matches!(row.written, Written::Local(_))) {
                self.told.extend(odd_step(last.at, at, step, tz));
            }
        }
        self.readings.push((row.line, reading));
        self.last = Some(row);
        Ok(())
    }

    /// The first row after a double hour that the file begins in: where it follows by the usual step on the second pass, and by
    /// more on the first, the rows stand in the second.
    fn settle(&mut self, next: DateTime<Utc>, step: TimeDelta) {
        let Some(later) = self.unsure.take() else { return };
        let Some(last) = self.readings.last().map(|(_, reading)| reading.at) else { return };
        if is_near(next - last, step + later, step) {
            for (_, reading) in &mut self.readings {
                reading.at += later;
            }
        }
    }
}

/// The same readings, whatever their time.
fn same(a: &Reading, b: &Reading) -> bool {
    Reading { at: b.at, ..*a } == *b
}

fn is_near(step: TimeDelta, wanted: TimeDelta, usual: TimeDelta) -> bool {
    (step - wanted).abs() <= usual / 2
}

fn local(written: Written) -> NaiveDateTime {
    match written {
        Written::Local(at) => at,
        Written::Instant(at) => at.naive_local(),
    }
}

/// The offset of a zone at an instant, as it is typed.
fn offset(tz: Tz, at: DateTime<Utc>) -> String {
    at.with_timezone(&tz).offset().fix().to_string()
}

fn missing_hour(written: Written, tz: Tz) -> String {
    let at = local(written);
    let winter = tz.from_utc_datetime(&(at - TimeDelta::days(1)));
    let standard = winter.offset().fix();
    format!(
        "{} does not exist in {tz}; if this clock is never put forward, give zone = \"{standard}\"",
        at.format("%H:%M on %b %-d")
    )
}

fn backwards(line: usize, tz: Option<Tz>) -> String {
    let again = match tz {
        Some(_) => "",
        None => "; a clock that is put back has zone = \"site\"",
    };
    format!("comes before line {line}; rows stand in order of time, the oldest first{again}")
}

/// A step that is an hour off where clocks are changed.
fn odd_step(before: DateTime<Utc>, at: DateTime<Utc>, step: TimeDelta, tz: Tz) -> Option<String> {
    let (from, to) = (before.with_timezone(&tz), at.with_timezone(&tz));
    let shift =
        TimeDelta::seconds(i64::from(from.offset().fix().local_minus_utc() - to.offset().fix().local_minus_utc()));
    if shift.is_zero() || !is_near(at - before, step + shift, step) {
        return None;
    }
    let never = if shift > TimeDelta::zero() { "back" } else { "forward" };
    let summer = from.offset().is_summer();
    let kept = if shift > TimeDelta::zero() || !summer { offset(tz, before) } else { offset(tz, at) };
    Some(format!(
        "{} minutes between {} and {} on {}: a clock that is not put {never}? Then give zone = \"{kept}\"",
        (at - before).num_minutes(),
        from.format("%H:%M"),
        to.format("%H:%M"),
        to.format("%b %-d"),
    ))
}
