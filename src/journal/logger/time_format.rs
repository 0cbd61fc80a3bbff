//! How a logger writes its times.

use super::mapping::short;
use chrono::format::{Item, Parsed, StrftimeItems, parse};
use chrono::{DateTime, FixedOffset, NaiveDateTime};
use serde::Deserialize;
use std::fmt::Write;
use std::str::FromStr;

/// A format of times, such as `%m/%d/%Y %I:%M:%S %p`.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(try_from = "String")]
pub struct TimeFormat {
    text: String,
    items: Vec<Item<'static>>,
    has_offset: bool,
}

/// A time as it stands in a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Written {
    /// By the logger's clock.
    Local(NaiveDateTime),
    /// With its own offset.
    Instant(DateTime<FixedOffset>),
}

/// A moment that no format writes the same as another one: an afternoon, and a day over 12.
const SAMPLE: &str = "2026-10-23T14:05:00-04:00";

impl FromStr for TimeFormat {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let own = |why: &str| format!("time_format '{}' {why}", short(text));
        let items = StrftimeItems::new(text)
            .parse_to_owned()
            .ok()
            .ok_or_else(|| own("holds a % sign with a letter that is not known; see benchwalk help loggers"))?;
        let mut format = Self { text: text.to_owned(), items, has_offset: false };
        let sample = DateTime::parse_from_rfc3339(SAMPLE).map_err(|error| own(&error.to_string()))?;
        let mut shown = String::new();
        let written = write!(shown, "{}", sample.format_with_items(format.items.iter()));
        written.ok().ok_or_else(|| own("cannot be written out; see benchwalk help loggers"))?;
        match format.parse(&shown) {
            Some(Written::Instant(at)) if at == sample => format.has_offset = true,
            Some(Written::Local(at)) if at == sample.naive_local() => {}
            _ => {
                return Err(own(
                    "does not hold a whole day and time: it needs year, month, day, hour (%H, or %I with %p) and minute",
                ));
            }
        }
        Ok(format)
    }
}

impl TryFrom<String> for TimeFormat {
    type Error = String;
    fn try_from(text: String) -> Result<Self, String> {
        text.parse()
    }
}

impl TimeFormat {
    /// As it was given.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// True where every time holds its own offset.
    pub fn has_offset(&self) -> bool {
        self.has_offset
    }

    /// Reads a time.
    pub(super) fn parse(&self, text: &str) -> Option<Written> {
        let mut parsed = Parsed::new();
        parse(&mut parsed, text, self.items.iter()).ok()?;
        if parsed.offset().is_some() {
            return parsed.to_datetime().ok().map(Written::Instant);
        }
        parsed.to_naive_datetime_with_offset(0).ok().map(Written::Local)
    }

    /// How a time looks, for a message.
    pub(super) fn example(&self) -> String {
        let sample = DateTime::parse_from_rfc3339(SAMPLE).ok();
        let mut shown = String::new();
        if let Some(sample) = sample {
            write!(shown, "{}", sample.format_with_items(self.items.iter())).ok();
        }
        // What stands between the parts is the user's own and may be no clean text.
        short(&shown)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::characters::hidden;

    #[test]
    fn an_example_is_clean_text() {
        let format: TimeFormat = "%Y-%m-%dT\u{feff}%H:%M:%S%z".parse().unwrap();
        let shown = format.example();
        assert!(shown.starts_with("2026-10-23T") && !shown.chars().any(hidden), "{shown:?}");
    }
}
