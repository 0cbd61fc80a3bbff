//! Files of climate loggers: text in, readings out. What each column is, is said by a [`Mapping`]; nothing of it is guessed.
//!
//! A file is read whole or not at all: every fault is named by line and column. What readings come to on a day is
//! `crop::climate::day`'s business.

mod header;
mod mapping;
mod number;
mod place_in_time;
mod read;
mod time_format;
mod toml_text;

pub use mapping::{
    Column, Columns, DayHours, Decimal, HumidityColumn, LightColumn, LightUnit, Mapping, NAME, RawMapping, Separator,
    SourceName, TemperatureColumn, TemperatureUnit, Zone,
};
pub use read::{Log, join, read};
pub use time_format::TimeFormat;
