//! Readings to days, and days to the entries that are new.

use super::How;
use crate::crop::climate::day::{Counting, Division, Figures, Parts, Reading, Short, figures};
use crate::crop::night;
use crate::dates::Tz;
use crate::journal::logger::{DayHours, Mapping};
use crate::limits::Limits;
use crate::record::codec::derived_id;
use crate::record::{ClimateLog, Entry, Kind, Line, Place};
use crate::season::Season;
use crate::units::System;
use chrono::{DateTime, FixedOffset, NaiveDate, Utc};
use std::collections::HashMap;
use uuid::Uuid;

/// What of the season the days of a logger depend on.
#[derive(Debug, Clone, PartialEq)]
pub struct Site {
    /// The site's zone.
    pub zone: Tz,
    division: Division,
    counting: Counting,
}

impl Site {
    /// Of a season.
    ///
    /// # Errors
    /// Where there is no site, or the logger hangs where the season has no such house or bench; in words.
    pub fn of(season: &Season, mapping: &Mapping, limits: &Limits) -> Result<Self, String> {
        let site = season.site().ok_or_else(|| "there is no site yet; a season begins with one".to_owned())?;
        let unknown = |what: &str, code: &str, known: Vec<&str>| {
            format!("\"{code}\" is not a {what} of this season; known: {}", known.join(", "))
        };
        match &mapping.place {
            Place::House(house) if !season.houses().contains(&house.as_ref()) => {
                return Err(unknown("house", house, season.houses()));
            }
            Place::Bench(bench) if season.bench(bench).is_none() => {
                let known = season.benches().iter().map(|b| b.bench.as_str()).collect();
                return Err(unknown("bench", bench, known));
            }
            _ => {}
        }
        let place = night::Place::new(site.latitude, site.longitude).map_err(|error| error.to_string())?;
        let division = match mapping.day {
            DayHours::Sun => Division::Sun(place),
            DayHours::Hours(from, to) => Division::Hours(from, to, site.time_zone),
        };
        let light = &limits.light;
        let counting = Counting {
            humid_over: light.damp_percent,
            damp_hour: light.damp_hour,
            warm_night_c: light.warm_night_c,
            zone: site.time_zone,
        };
        Ok(Self { zone: site.time_zone, division, counting })
    }
}

/// A day of the readings, not held against the season yet.
#[derive(Debug, Clone, PartialEq)]
pub struct Found {
    day: NaiveDate,
    /// Where it ends, in the site's zone.
    ends: DateTime<FixedOffset>,
    figures: Result<Figures, Short>,
    humid_over: f64,
}

/// What becomes of a day.
#[derive(Debug, Clone, PartialEq)]
pub enum DayState {
    /// Written, or to be written.
    Written,
    /// There with the same content.
    Known,
    /// There with other content, and left as it is: the figures that were written.
    Differs(Box<Entry>),
    /// There with other content, which was replaced.
    Replaced,
    /// There, and voided by somebody: left so.
    Voided,
    /// Not whole.
    Waiting(Short),
}

/// A day of a logger.
#[derive(Debug, Clone, PartialEq)]
pub struct Day {
    /// The day.
    pub day: NaiveDate,
    /// Its entry, where it is whole.
    pub entry: Option<Entry>,
    /// What becomes of it.
    pub state: DayState,
}

/// What readings, in order of time, come to day by day: every day that they touch.
///
/// # Errors
/// Where a day cannot be divided, in words.
pub fn days_of(readings: &[Reading], mapping: &Mapping, site: &Site) -> Result<Vec<Found>, String> {
    let (Some(first), Some(last)) = (readings.first(), readings.last()) else { return Ok(Vec::new()) };
    let local = |at: DateTime<Utc>| at.with_timezone(&site.zone).date_naive();
    let days = local(first.at).iter_days().take_while(|day| *day <= local(last.at).succ_opt().unwrap_or(*day));
    let mut found = Vec::new();
    for day in days {
        let parts: Parts = site.division.parts(day).map_err(|error| error.to_string())?;
        if parts.begins > last.at || parts.ends < first.at {
            continue;
        }
        found.push(Found {
            day,
            ends: parts.ends.with_timezone(&site.zone).fixed_offset(),
            figures: figures(readings, day, &parts, &site.counting, mapping.lead()),
            humid_over: site.counting.humid_over,
        });
    }
    Ok(found)
}

/// The entry of a day.
fn entry(found: &Found, of: &Figures, mapping: &Mapping, note: Option<String>) -> Entry {
    let log = ClimateLog {
        low_c: of.low_c,
        high_c: of.high_c,
        humid_hours: of.humid_hours,
        humid_over: of.humid_hours.map(|_| found.humid_over),
        vpd_kpa: of.vpd_kpa,
        light_mol: of.light_mol,
        warm_h: of.warm_h,
        readings: Some(of.readings),
    };
    let kind = Kind::Climate {
        day_c: of.day_c,
        night_c: of.night_c,
        humidity_percent: of.humidity_percent,
        log: Box::new(log),
    };
    with_id(Entry {
        id: Uuid::nil(),
        at: found.ends,
        by: mapping.name.as_str().into(),
        place: mapping.place.clone(),
        plot: None,
        kind: kind.into(),
        note: note.map(Into::into),
    })
}

fn with_id(entry: Entry) -> Entry {
    Entry { id: derived_id(&entry), ..entry }
}

/// Holds the days against what is kept: what becomes of each, and the lines that are new.
pub(super) fn against(found: Vec<Found>, kept: &Season, how: &How<'_>) -> (Vec<Day>, Vec<Line>) {
    let mapping = how.mapping;
    let mut own: HashMap<NaiveDate, Vec<&Entry>> = HashMap::new();
    for entry in kept.entries().iter().filter(|entry| is_own(entry, mapping)) {
        own.entry(entry.day()).or_default().push(entry);
    }
    let today = how.at.date_naive();
    let mut lines = Vec::new();
    let days = found.into_iter().map(|found| {
        let figures = match found.figures {
            Ok(figures) => figures,
            Err(short) => return Day { day: found.day, entry: None, state: DayState::Waiting(short) },
        };
        let there = own.get(&found.day).map(Vec::as_slice).unwrap_or_default();
        let (standing, voided): (Vec<&Entry>, Vec<&Entry>) = there.iter().partition(|e| !kept.is_struck(e, today));
        let mut new = entry(&found, &figures, mapping, None);
        let state = match (standing.as_slice(), voided.is_empty()) {
            (standing, _) if standing.iter().any(|e| is_same(e, &new)) => DayState::Known,
            ([], true) => DayState::Written,
            ([], false) if !how.replace => DayState::Voided,
            ([last, ..], _) if !how.replace => DayState::Differs(Box::new((*last).clone())),
            (standing, _) => {
                lines.extend(standing.iter().map(|old| Line::Entry(void(old, how))));
                DayState::Replaced
            }
        };
        if matches!(state, DayState::Written | DayState::Replaced) {
            // One that was voided stays so: the day is written with a note, as another entry.
            let again = (2..).map(|n| format!("read again, {n}"));
            for note in again {
                if kept.entry(new.id).is_none() {
                    break;
                }
                new = entry(&found, &figures, mapping, Some(note));
            }
            lines.push(Line::Entry(new.clone()));
        }
        Day { day: found.day, entry: Some(new), state }
    });
    (days.collect(), lines)
}

/// An entry that this logger wrote.
fn is_own(entry: &Entry, mapping: &Mapping) -> bool {
    *entry.by == *mapping.name && entry.place == mapping.place && entry.is_from_logger()
}

/// The same day with the same figures, whatever was noted beside it.
fn is_same(a: &Entry, b: &Entry) -> bool {
    a.kind == b.kind && a.at == b.at
}

/// The voiding of a day that is replaced.
fn void(old: &Entry, how: &How<'_>) -> Entry {
    let why = "the readings of the logger changed".to_owned();
    with_id(Entry {
        id: Uuid::nil(),
        at: how.at,
        by: how.mapping.name.as_str().into(),
        place: old.place.clone(),
        plot: None,
        kind: Kind::Strike { entry: old.id, why, reopen: false }.into(),
        note: None,
    })
}

/// Why the season does not take the lines, in words.
pub(super) fn refused(kept: &Season, lines: &[Line]) -> Option<String> {
    let faults = kept.admit(lines, System::Metric).err()?;
    let fault = faults.into_iter().next()?;
    let day = match lines.get(fault.index) {
        Some(Line::Entry(entry)) => crate::dates::short(entry.day()),
        _ => "a day".to_owned(),
    };
    let field = fault.field.map(|field| format!(", {field}")).unwrap_or_default();
    Some(format!("{day}{field}: {}", fault.text))
}
