//! A logger's file to its readings: all or nothing, every fault by line and column.

use super::super::{Fault, Faults};
use super::header::{self, Header};
use super::mapping::{Column, LightColumn, LightUnit, Mapping, TemperatureUnit, short};
use super::number::number;
use super::place_in_time::{Row, place};
use super::time_format::{TimeFormat, Written};
use crate::crop::climate::LightSource;
use crate::crop::climate::day::Reading;
use crate::crop::climate::{AIR_C, MOST_PPFD, photons_from_lux, photons_from_radiation};
use crate::dates::Tz;
use crate::progress::{Step, Work};
use crate::units::{Illuminance, Irradiance, Quantity, Temperature, plain};
use chrono::{DateTime, Datelike, TimeDelta, Utc};
use csv::{ReaderBuilder, StringRecord, Trim};

/// What a file holds.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Log {
    /// The readings in order of time, each with the line it came from.
    pub readings: Vec<(usize, Reading)>,
    /// What is worth a second look, in words.
    pub told: Vec<String>,
    /// Lines above the readings that were passed over, the header among them.
    pub above: usize,
}

/// First year of a reading; earlier ones are years of two digits read as four.
const FIRST_YEAR: i32 = 2000;
/// Darkness reads a little under nothing on a pyranometer, W/m2 (house rule); it counts as dark.
const DARK_WATTS: f64 = -20.0;

/// Reads a file. `site` is the zone of the site, `now` the present: a reading of a later day is a fault.
///
/// # Errors
/// The faults of the file, in the order of its lines.
pub fn read(text: &str, mapping: &Mapping, site: Tz, now: DateTime<Utc>) -> Result<Log, Faults> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let header = header::find(text, mapping)?;
    let mut reader = ReaderBuilder::new()
        .delimiter(header.separator)
        .has_headers(false)
        .flexible(true)
        .trim(Trim::All)
        .from_reader(header.rest.as_bytes());
    let mut rows =
        Rows { mapping, header: &header, found: Vec::new(), faults: Faults::default(), above: header.above, now };
    let mut work = Work::begin(Step::ReadLogger, header.rest.split('\n').count());
    let mut record = StringRecord::new();
    loop {
        match reader.read_record(&mut record) {
            Ok(false) => break,
            Ok(true) => rows.add(&record),
            Err(_) => rows.fault(0, None, "is not a row of a table in UTF-8".to_owned()),
        }
        if work.one().is_err() {
            rows.fault(0, None, "and what follows was not read".to_owned());
            break;
        }
    }
    let Rows { found: rows, mut faults, above, .. } = rows;
    let column = mapping.time.iter().map(Column::text).collect::<Vec<_>>().join("+");
    if rows.is_empty() && faults.is_empty() {
        let text = if header.named {
            "there is no reading below the header".to_owned()
        } else {
            format!("no row has a time there; {}", how(mapping.time_format.as_ref()))
        };
        let field = (!header.named).then(|| short(&column));
        return Err(Faults::from(vec![Fault { line: above.max(1), field, text }]));
    }
    let placed = place(rows, mapping.zone, site, &short(&column));
    faults.extend(placed.faults.iter().cloned());
    faults.sort_by_line();
    if faults.is_empty() { Ok(Log { readings: placed.readings, told: placed.told, above }) } else { Err(faults) }
}

/// How a time is written, in words.
fn how(format: Option<&TimeFormat>) -> String {
    format.map_or_else(
        || "without time_format a time is written as 2026-10-23T14:05:00-04:00; else say how, as time_format = \"%m/%d/%Y %H:%M\"".to_owned(),
        |format| format!("by time_format it is written as {}", format.example()),
    )
}

struct Rows<'a> {
    mapping: &'a Mapping,
    header: &'a Header<'a>,
    found: Vec<Row>,
    faults: Faults,
    /// Lines above the readings.
    above: usize,
    now: DateTime<Utc>,
}

impl Rows<'_> {
    fn fault(&mut self, line: usize, field: Option<&Column>, text: String) {
        self.faults.push(Fault { line, field: field.map(|column| short(&column.text())), text });
    }

    fn add(&mut self, record: &StringRecord) {
        let line = record.position().map_or(0, |p| usize::try_from(p.line()).unwrap_or(usize::MAX));
        let line = line.saturating_add(self.header.above);
        if record.iter().all(str::is_empty) {
            return;
        }
        let written = self.time(record);
        if !self.header.named && self.found.is_empty() && self.faults.is_empty() && written.is_err() {
            // Without a header to see, the first row with a time is the first reading.
            self.above = line;
            return;
        }
        if let Some((column, text)) = self.width_fault(record) {
            self.fault(line, column.as_ref(), text);
            return;
        }
        let faults = self.faults.len().saturating_add(self.faults.more());
        let written = match written {
            Ok(written) => Some(written),
            Err((column, text)) => {
                self.faults.push(Fault { line, field: Some(short(&column)), text });
                None
            }
        };
        let read = self.reading(record, line);
        let clean = self.faults.len().saturating_add(self.faults.more()) == faults;
        if let Some(written) = written.filter(|_| clean)
            && (read.air.is_some() || read.humidity_percent.is_some() || read.light.is_some())
        {
            self.found.push(Row { line, written, reading: read });
        }
    }

    /// A row that ends before a column that is read, or holds more than the header.
    fn width_fault(&self, record: &StringRecord) -> Option<(Option<Column>, String)> {
        let count = |n: usize| if n == 1 { "1 cell".to_owned() } else { format!("{n} cells") };
        let beyond = self.mapping.columns().zip(&self.header.places).find(|(_, place)| **place >= record.len());
        if let Some((column, _)) = beyond {
            let text = format!("the row ends before this column; it has {}", count(record.len()));
            return Some((Some(column.clone()), text));
        }
        let more = self.header.named && record.iter().skip(self.header.width).any(|cell| !cell.is_empty());
        more.then(|| {
            let (row, header) = (count(record.len()), self.header.width);
            let text = "a number with a decimal comma, or text that holds the separator, stands between quotes";
            (None, format!("the row has {row}, the header {header}; {text}"))
        })
    }

    /// The time of a row, or the column and what is wrong there.
    fn time(&self, record: &StringRecord) -> Result<Written, (String, String)> {
        let mut text = String::new();
        for (column, place) in self.mapping.time.iter().zip(&self.header.places) {
            let cell = record.get(*place).unwrap_or_default();
            if cell.is_empty() {
                return Err((
                    column.text(),
                    "is empty; every row below the header is a reading with its time".to_owned(),
                ));
            }
            text.push_str(if text.is_empty() { "" } else { " " });
            text.push_str(cell);
        }
        let column = || self.mapping.time.iter().map(Column::text).collect::<Vec<_>>().join("+");
        let format = self.mapping.time_format.as_ref();
        let read = match format {
            Some(format) => format.parse(&text),
            None => DateTime::parse_from_rfc3339(&text).ok().map(Written::Instant),
        };
        let written = read.ok_or_else(|| (column(), format!("'{}' is not a time; {}", short(&text), how(format))))?;
        let (year, about) = match written {
            Written::Local(at) => (at.year(), at.and_utc()),
            Written::Instant(at) => (at.year(), at.to_utc()),
        };
        if year < FIRST_YEAR {
            let text = format!("'{}' is of the year {year}; a year of two digits is %y in time_format", short(&text));
            return Err((column(), text));
        }
        if about > self.now + TimeDelta::days(1) {
            return Err((
                column(),
                format!("'{}' is later than today; is the clock of the logger right?", short(&text)),
            ));
        }
        Ok(written)
    }

    /// What a row reads; faults are noted.
    fn reading(&mut self, record: &StringRecord, line: usize) -> Reading {
        let mapping = self.mapping;
        let mut places = self.header.places.iter().copied().skip(mapping.time.len());
        let widest = self.header.places.iter().max().copied().unwrap_or(0);
        let mut reading = Reading { at: DateTime::UNIX_EPOCH, air: None, humidity_percent: None, light: None };
        if let Some(column) = &mapping.temperature {
            let value = self.cell(record, line, &column.column, places.next().unwrap_or(widest));
            reading.air = value.and_then(|value| self.judged(line, &column.column, air(value, column.unit)));
        }
        if let Some(column) = &mapping.humidity {
            let value = self.cell(record, line, &column.column, places.next().unwrap_or(widest));
            reading.humidity_percent = value.and_then(|value| self.judged(line, &column.column, humidity(value)));
        }
        if let Some(column) = &mapping.light {
            let value = self.cell(record, line, &column.column, places.next().unwrap_or(widest));
            reading.light = value.and_then(|value| self.judged(line, &column.column, light(value, column)));
        }
        reading
    }

    /// The number of a cell; `None` where it is missing or no number, which is noted.
    fn cell(&mut self, record: &StringRecord, line: usize, column: &Column, place: usize) -> Option<f64> {
        let cell = record.get(place).unwrap_or_default();
        if self.mapping.missing.iter().any(|text| text == cell) {
            return None;
        }
        let read = number(cell, self.mapping.decimal);
        self.judged(line, column, read)
    }

    fn judged<T>(&mut self, line: usize, column: &Column, value: Result<T, String>) -> Option<T> {
        value.map_err(|text| self.fault(line, Some(column), text)).ok()
    }
}

fn air(value: f64, unit: TemperatureUnit) -> Result<Temperature, String> {
    let air = match unit {
        TemperatureUnit::Celsius => Temperature::from_c(value),
        TemperatureUnit::Fahrenheit => Temperature::from_c((value - 32.0) * 5.0 / 9.0),
    };
    if (AIR_C.0..=AIR_C.1).contains(&air.c()) {
        return Ok(air);
    }
    let unit = unit.text();
    let in_unit = |c: f64| plain(Temperature::from_c(c).in_unit(unit).unwrap_or(c));
    let (least, most) = (in_unit(AIR_C.0), in_unit(AIR_C.1));
    Err(format!("{value} °{unit} is outside {least} to {most} °{unit}: is the unit right?"))
}

fn humidity(value: f64) -> Result<f64, String> {
    if (0.0..=100.0).contains(&value) { Ok(value) } else { Err(format!("{value} is outside 0 to 100%")) }
}

fn light(value: f64, column: &LightColumn) -> Result<Irradiance, String> {
    let source = column.source.map_or(LightSource::Sun, super::mapping::SourceName::source);
    let from_lux = |lux: f64| photons_from_lux(Illuminance::from_lux(lux), source).map(|light| light.likely);
    let fc = |fc: f64| fc * Illuminance::UNITS.iter().find(|u| u.names.contains(&"fc")).map_or(1.0, |u| u.factor);
    let light = match column.unit {
        LightUnit::Umol => Ok(Irradiance::from_umol(value)),
        LightUnit::Lux => from_lux(value),
        LightUnit::Klux => from_lux(value * 1000.0),
        LightUnit::FootCandles => from_lux(fc(value)),
        LightUnit::Watts if (DARK_WATTS..0.0).contains(&value) => Ok(Irradiance::from_umol(0.0)),
        LightUnit::Watts => photons_from_radiation(value).map(|light| light.likely),
    };
    let light = light.ok().filter(|light| (0.0..=MOST_PPFD).contains(&light.umol()));
    let light = light.ok_or_else(|| {
        let unit = column.unit.text();
        format!("{value} {unit} is outside what a day gives, 0 to {MOST_PPFD} µmol/m2/s: is the unit right?")
    })?;
    Ok(Irradiance::from_umol(light.umol() * column.share.unwrap_or(1.0)))
}

/// The readings of several files of one logger in one row of time. What two files both hold counts once.
///
/// # Errors
/// Where two files differ about one instant, a text each.
pub fn join(logs: &[(String, &Log)]) -> Result<Vec<Reading>, Vec<String>> {
    let mut all: Vec<(Reading, &str, usize)> = logs
        .iter()
        .flat_map(|(name, log)| log.readings.iter().map(move |(line, reading)| (*reading, name.as_str(), *line)))
        .collect();
    // Stable: of one instant in the order of the files.
    all.sort_by_key(|(reading, _, _)| reading.at);
    let mut faults = Vec::new();
    let mut joined: Vec<(Reading, &str, usize)> = Vec::with_capacity(all.len());
    for (reading, name, line) in all {
        match joined.last() {
            Some((last, _, _)) if last.at == reading.at && *last == reading => {}
            Some((last, other, at)) if last.at == reading.at => {
                faults.push(format!(
                    "{name}, line {line}: is of the same time as line {at} of {other}, with other readings"
                ));
            }
            _ => joined.push((reading, name, line)),
        }
    }
    if faults.is_empty() { Ok(joined.into_iter().map(|(reading, _, _)| reading).collect()) } else { Err(faults) }
}
