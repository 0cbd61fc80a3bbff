//! What the columns of a logger's file are: a `[[logger]]` of the config file, the options of `import`, or both.

use super::time_format::TimeFormat;
use crate::crop::climate::LightSource;
use crate::crop::climate::day::Lead;
use crate::dates::Tz;
use crate::record::{Place, Value, rules, schema};
use chrono::{FixedOffset, NaiveTime};
use serde::de::{Error, SeqAccess, Visitor};
use serde::{Deserialize, Deserializer};
use std::fmt;
use std::path::PathBuf;
use std::str::FromStr;

/// What a logger is called, in words.
pub const NAME: &str = "1 to 8 characters";

/// A column by the text above it, or by its number from 1.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Column {
    /// The text of the header, without the blanks around it.
    Named(String),
    /// Its place, from 1.
    Number(usize),
}

impl Column {
    /// As it is named in messages.
    pub fn text(&self) -> String {
        match self {
            Self::Named(name) => name.clone(),
            Self::Number(n) => format!("column {n}"),
        }
    }
}

impl From<&str> for Column {
    fn from(text: &str) -> Self {
        let text = text.trim();
        match text.parse() {
            Ok(n) if n > 0 => Self::Number(n),
            _ => Self::Named(text.to_owned()),
        }
    }
}

impl<'de> Deserialize<'de> for Column {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        struct One;
        impl Visitor<'_> for One {
            type Value = Column;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("the header of a column, or its number from 1")
            }
            fn visit_str<E: Error>(self, text: &str) -> Result<Column, E> {
                let text = text.trim();
                if text.is_empty() {
                    Err(E::custom("a column needs its header, or its number from 1"))
                } else {
                    Ok(Column::Named(text.to_owned()))
                }
            }
            fn visit_i64<E: Error>(self, n: i64) -> Result<Column, E> {
                let n = usize::try_from(n).ok().filter(|n| (1..=MOST_COLUMNS).contains(n));
                n.map(Column::Number).ok_or_else(|| E::custom("columns are numbered from 1 to 500"))
            }
        }
        from.deserialize_any(One)
    }
}

/// The most columns of a file.
pub(super) const MOST_COLUMNS: usize = 500;

/// One column, or several whose cells are joined by a blank.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Columns(pub Vec<Column>);

impl<'de> Deserialize<'de> for Columns {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        struct Some;
        impl<'de> Visitor<'de> for Some {
            type Value = Columns;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a column, or several in brackets such as [\"Date\", \"Time\"]")
            }
            fn visit_str<E: Error>(self, text: &str) -> Result<Columns, E> {
                Column::deserialize(serde::de::value::StrDeserializer::new(text)).map(|one| Columns(vec![one]))
            }
            fn visit_i64<E: Error>(self, n: i64) -> Result<Columns, E> {
                Column::deserialize(serde::de::value::I64Deserializer::new(n)).map(|one| Columns(vec![one]))
            }
            fn visit_seq<A: SeqAccess<'de>>(self, mut seq: A) -> Result<Columns, A::Error> {
                let mut all = Vec::new();
                while let core::option::Option::Some(one) = seq.next_element()? {
                    all.push(one);
                }
                if (1..=4).contains(&all.len()) {
                    Ok(Columns(all))
                } else {
                    Err(A::Error::custom("give one to four columns"))
                }
            }
        }
        from.deserialize_any(Some)
    }
}

/// A value of a closed list, by the spellings it may have.
macro_rules! spelled {
    ($(#[$doc:meta])* $name:ident, $what:literal { $($(#[$item:meta])* $variant:ident: $($text:literal)|+;)+ }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
        #[serde(try_from = "String")]
        pub enum $name { $($(#[$item])* $variant),+ }

        impl $name {
            /// Its first spelling.
            pub const fn text(self) -> &'static str {
                match self { $(Self::$variant => [$($text),+][0]),+ }
            }
        }

        impl FromStr for $name {
            type Err = String;
            fn from_str(text: &str) -> Result<Self, String> {
                match text.trim() {
                    $($($text)|+ => Ok(Self::$variant),)+
                    other => {
                        let known = [$([$($text),+][0]),+].join("', '");
                        Err(format!("'{}' is not {}; give one of '{known}'", short(other), $what))
                    }
                }
            }
        }

        impl TryFrom<String> for $name {
            type Error = String;
            fn try_from(text: String) -> Result<Self, String> { text.parse() }
        }
    };
}

spelled!(
    /// The unit of temperatures.
    TemperatureUnit, "a unit of temperature" {
        /// °F.
        Fahrenheit: "F" | "°F";
        /// °C.
        Celsius: "C" | "°C";
    }
);
spelled!(
    /// The unit of light.
    LightUnit, "a unit of light" {
        /// µmol/m2/s of plant light.
        Umol: "umol" | "µmol" | "umol/m2/s" | "µmol/m2/s" | "PPFD";
        /// Lux.
        Lux: "lux" | "lx";
        /// Thousand lux.
        Klux: "klux" | "klx";
        /// Foot-candles.
        FootCandles: "fc";
        /// Global radiation, W/m2.
        Watts: "W/m2" | "W/m²";
    }
);
spelled!(
    /// Where light comes from.
    SourceName, "a source of light" {
        /// Sun and sky.
        Sun: "sun";
        /// Blue sky without sun.
        Sky: "sky";
        /// High-pressure sodium lights.
        Sodium: "sodium";
        /// Metal-halide lights.
        MetalHalide: "metal-halide";
        /// Cool-white fluorescent lights.
        CoolWhite: "cool-white";
        /// Incandescent bulbs.
        Incandescent: "incandescent";
    }
);
spelled!(
    /// The sign before the decimals of a number.
    Decimal, "a decimal sign" {
        /// A point.
        Point: ".";
        /// A comma.
        Comma: ",";
    }
);
spelled!(
    /// What stands between the cells of a row.
    Separator, "a separator" {
        /// A comma.
        Comma: "," | "comma";
        /// A semicolon.
        Semicolon: ";" | "semicolon";
        /// A tab.
        Tab: "tab" | "\t" | "\\t";
    }
);

impl SourceName {
    /// The source of the crop's arithmetic.
    pub(super) const fn source(self) -> LightSource {
        match self {
            Self::Sun => LightSource::Sun,
            Self::Sky => LightSource::BlueSky,
            Self::Sodium => LightSource::HighPressureSodium,
            Self::MetalHalide => LightSource::MetalHalide,
            Self::CoolWhite => LightSource::CoolWhite,
            Self::Incandescent => LightSource::Incandescent,
        }
    }
}

impl Separator {
    /// All of them.
    pub(super) const ALL: [Self; 3] = [Self::Comma, Self::Semicolon, Self::Tab];

    /// In words.
    pub(super) const fn name(self) -> &'static str {
        match self {
            Self::Comma => "comma",
            Self::Semicolon => "semicolon",
            Self::Tab => "tab",
        }
    }

    /// As a byte of the file.
    pub(super) const fn byte(self) -> u8 {
        match self {
            Self::Comma => b',',
            Self::Semicolon => b';',
            Self::Tab => b'\t',
        }
    }
}

/// Text of a file or an option, for a message.
pub(super) fn short(text: &str) -> String {
    let clean = crate::record::clean(text);
    let cut: String = clean.chars().take(40).collect();
    if cut.len() < clean.len() { cut + "…" } else { cut }
}

/// The clock of a logger.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(try_from = "String")]
pub enum Zone {
    /// As the clocks of the site: put forward and back.
    Site,
    /// Never put forward or back.
    Fixed(FixedOffset),
    /// As the clocks of another place.
    Named(Tz),
}

impl FromStr for Zone {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let text = text.trim();
        if text == "site" {
            return Ok(Self::Site);
        }
        let offset = text.len() == 6 && text.as_bytes().get(3) == Some(&b':');
        if let (true, Ok(offset)) = (offset, text.parse()) {
            return Ok(Self::Fixed(offset));
        }
        text.parse().map(Self::Named).ok().ok_or_else(|| {
            let text = short(text);
            format!("'{text}' is not a zone; give site, UTC, an offset such as -05:00, or an IANA name such as America/New_York")
        })
    }
}

impl TryFrom<String> for Zone {
    type Error = String;
    fn try_from(text: String) -> Result<Self, String> {
        text.parse()
    }
}

/// How the days of a logger are divided.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Deserialize)]
#[serde(try_from = "String")]
pub enum DayHours {
    /// Sunrise to sunset.
    #[default]
    Sun,
    /// From one time of the site's clock to another.
    Hours(NaiveTime, NaiveTime),
}

impl FromStr for DayHours {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let text = text.trim();
        if text == "sun" {
            return Ok(Self::Sun);
        }
        let time = |text: &str| NaiveTime::parse_from_str(text.trim(), "%H:%M").ok();
        let hours = text.split_once('-').and_then(|(from, to)| Some((time(from)?, time(to)?)));
        match hours {
            Some((from, to)) if from < to => Ok(Self::Hours(from, to)),
            _ => Err(format!("'{}' is not a day; give sun, or hours such as 06:00-18:00", short(text))),
        }
    }
}

impl TryFrom<String> for DayHours {
    type Error = String;
    fn try_from(text: String) -> Result<Self, String> {
        text.parse()
    }
}

/// The column of temperatures.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TemperatureColumn {
    /// The column.
    pub column: Column,
    /// Its unit.
    pub unit: TemperatureUnit,
}

/// The column of humidity, percent.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HumidityColumn {
    /// The column.
    pub column: Column,
}

/// The column of light.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LightColumn {
    /// The column.
    pub column: Column,
    /// Its unit.
    pub unit: LightUnit,
    /// Where the light comes from; needed with lux and foot-candles.
    pub source: Option<SourceName>,
    /// The part of it that reaches the plants, where the sensor hangs outside: 0.01 to 1.
    pub share: Option<f64>,
}

impl LightColumn {
    /// What is wrong with it, and what would be right.
    fn fault(&self) -> Option<String> {
        if self.share.is_some_and(|share| !(0.01..=1.0).contains(&share)) {
            return Some(
                "light: the share is the part of the light that the roof lets through; give 0.01 to 1".to_owned(),
            );
        }
        let seen = matches!(self.unit, LightUnit::Lux | LightUnit::Klux | LightUnit::FootCandles);
        match (seen, self.source) {
            (true, None) => Some(format!(
                "light: in {} the source is needed, as plants and eyes see light differently; give source = \"sun\", sky, \
                 sodium, metal-halide, cool-white or incandescent",
                self.unit.text()
            )),
            (false, Some(_)) => {
                Some(format!("light: a source goes with lux, klux and fc, not with {}", self.unit.text()))
            }
            _ => None,
        }
    }
}

/// A mapping as it is written, all or a part of it.
#[derive(Debug, Clone, PartialEq, Default, Deserialize)]
#[serde(deny_unknown_fields)]
#[expect(missing_docs, reason = "as the fields of `Mapping`")]
pub struct RawMapping {
    pub name: Option<String>,
    pub house: Option<String>,
    pub bench: Option<String>,
    pub time: Option<Columns>,
    pub time_format: Option<TimeFormat>,
    pub zone: Option<Zone>,
    pub temperature: Option<TemperatureColumn>,
    pub humidity: Option<HumidityColumn>,
    pub light: Option<LightColumn>,
    pub missing: Option<Vec<String>>,
    pub decimal: Option<Decimal>,
    pub separator: Option<Separator>,
    pub day: Option<DayHours>,
    pub folder: Option<PathBuf>,
}

impl RawMapping {
    /// This one, with what another says in its place.
    #[must_use]
    pub fn with(self, over: Self) -> Self {
        let moved = over.house.is_some() || over.bench.is_some();
        Self {
            name: over.name.or(self.name),
            house: if moved { over.house } else { self.house },
            bench: if moved { over.bench } else { self.bench },
            time: over.time.or(self.time),
            time_format: over.time_format.or(self.time_format),
            zone: over.zone.or(self.zone),
            temperature: over.temperature.or(self.temperature),
            humidity: over.humidity.or(self.humidity),
            light: over.light.or(self.light),
            missing: over.missing.or(self.missing),
            decimal: over.decimal.or(self.decimal),
            separator: over.separator.or(self.separator),
            day: over.day.or(self.day),
            folder: over.folder.or(self.folder),
        }
    }
}

impl From<Mapping> for RawMapping {
    fn from(mapping: Mapping) -> Self {
        let (house, bench) = match mapping.place {
            Place::Bench(bench) => (None, Some(bench.to_string())),
            Place::House(house) | Place::Lot(house) => (Some(house.to_string()), None),
        };
        Self {
            name: Some(mapping.name),
            house,
            bench,
            time: Some(Columns(mapping.time)),
            time_format: mapping.time_format,
            zone: mapping.zone,
            temperature: mapping.temperature,
            humidity: mapping.humidity,
            light: mapping.light,
            missing: Some(mapping.missing),
            decimal: Some(mapping.decimal),
            separator: mapping.separator,
            day: Some(mapping.day),
            folder: mapping.folder,
        }
    }
}

/// What the columns of a logger's file are, and what its readings are readings of.
#[derive(Debug, Clone, PartialEq)]
pub struct Mapping {
    /// The name of the logger, 1 to 8 characters: it is the writer of its entries, so that it does not matter who imports.
    pub name: String,
    /// The house or bench where it hangs.
    pub place: Place,
    /// The columns of the time, joined by a blank.
    pub time: Vec<Column>,
    /// How times are written; `None`: as in RFC 3339.
    pub time_format: Option<TimeFormat>,
    /// Its clock; `None` where every time has its own offset.
    pub zone: Option<Zone>,
    /// The column of temperatures.
    pub temperature: Option<TemperatureColumn>,
    /// The column of humidity, percent.
    pub humidity: Option<HumidityColumn>,
    /// The column of light.
    pub light: Option<LightColumn>,
    /// What stands in a cell that holds no reading.
    pub missing: Vec<String>,
    /// The decimal sign.
    pub decimal: Decimal,
    /// What stands between cells; `None`: as in the header.
    pub separator: Option<Separator>,
    /// How its days are divided.
    pub day: DayHours,
    /// The folder that is looked into while the screens are idle.
    pub folder: Option<PathBuf>,
}

/// Cells that hold no reading where nothing else is said.
const MISSING: [&str; 4] = ["", "-", "--", "NaN"];

impl TryFrom<RawMapping> for Mapping {
    type Error = String;

    fn try_from(raw: RawMapping) -> Result<Self, String> {
        let name = name(raw.name)?;
        let own = |text: &str| format!("logger {name}: {text}");
        let place = match (raw.house, raw.bench) {
            (Some(house), None) => Place::House(house.into()),
            (None, Some(bench)) => Place::Bench(bench.into()),
            (Some(_), Some(_)) => return Err(own("hangs in a house or at a bench; give one of the two")),
            (None, None) => return Err(own("house is missing; give house = \"…\", or bench = \"…\" for one bench")),
        };
        let time =
            raw.time.ok_or_else(|| own("time is missing; give the column of the time, such as time = \"Date\""))?.0;
        let has_offset = raw.time_format.as_ref().is_none_or(TimeFormat::has_offset);
        if !has_offset && raw.zone.is_none() {
            return Err(own(
                "zone is missing; give \"site\" for a clock that is put forward and back as at the site, \"-05:00\" for one \
                 that never is, \"UTC\", or an IANA name",
            ));
        }
        if raw.temperature.is_none() && raw.humidity.is_none() && raw.light.is_none() {
            return Err(own(
                "no column of readings is named; give temperature = { column = \"…\", unit = \"F\" }, humidity or light",
            ));
        }
        if let Some(fault) = raw.light.as_ref().and_then(LightColumn::fault) {
            return Err(own(&fault));
        }
        if let Some(folder) = raw.folder.as_ref().filter(|folder| !folder.is_absolute()) {
            let folder = short(&folder.display().to_string());
            return Err(own(&format!(
                "folder: '{folder}' is not a full path; give one that starts at the root, such as '/home/me/loggers'"
            )));
        }
        let mapping = Self {
            place,
            time,
            time_format: raw.time_format,
            zone: raw.zone.filter(|_| !has_offset),
            temperature: raw.temperature,
            humidity: raw.humidity,
            light: raw.light,
            missing: raw.missing.unwrap_or_else(|| MISSING.map(str::to_owned).to_vec()),
            decimal: raw.decimal.unwrap_or(Decimal::Point),
            separator: raw.separator,
            day: raw.day.unwrap_or_default(),
            folder: raw.folder,
            name,
        };
        match mapping.fault() {
            Some(fault) => Err(format!("logger {}: {fault}", mapping.name)),
            None => Ok(mapping),
        }
    }
}

/// The name of a logger, by the rule of the one who writes.
fn name(name: Option<String>) -> Result<String, String> {
    let name = name.ok_or_else(|| format!("a logger needs a name of {NAME}; give name = \"…\""))?;
    let fault = schema::ENTRY.field("by").and_then(|field| rules::check_value(field, &Value::Text(name.clone())));
    match fault {
        Some(fault) => Err(format!("logger '{}': its name {}", short(&name), fault.text)),
        None => Ok(name),
    }
}

impl Mapping {
    /// The columns of readings, in their order in messages.
    pub(super) fn read_columns(&self) -> impl Iterator<Item = &Column> {
        let temperature = self.temperature.as_ref().map(|t| &t.column);
        let humidity = self.humidity.as_ref().map(|h| &h.column);
        temperature.into_iter().chain(humidity).chain(self.light.as_ref().map(|l| &l.column))
    }

    /// All columns.
    pub(super) fn columns(&self) -> impl Iterator<Item = &Column> {
        self.time.iter().chain(self.read_columns())
    }

    /// What it reads first of all.
    pub fn lead(&self) -> Lead {
        if self.temperature.is_some() {
            Lead::Air
        } else if self.humidity.is_some() {
            Lead::Humidity
        } else {
            Lead::Light
        }
    }

    /// What does not fit together.
    fn fault(&self) -> Option<String> {
        let mut seen: Vec<&Column> = Vec::new();
        for column in self.columns() {
            if seen.contains(&column) {
                return Some(format!("'{}' is named for two things", short(&column.text())));
            }
            seen.push(column);
        }
        if self.separator.is_none() && !seen.iter().any(|column| matches!(column, Column::Named(_))) {
            let text = "where every column is given by its number there is no header to see the separator by; give \
                        separator = \",\", \";\" or \"tab\"";
            return Some(text.to_owned());
        }
        if self.decimal == Decimal::Comma && self.separator == Some(Separator::Comma) {
            return Some("the decimal sign and the separator are both a comma; one of them is another sign".to_owned());
        }
        None
    }
}
