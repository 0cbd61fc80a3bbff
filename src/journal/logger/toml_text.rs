//! A mapping as the `[[logger]]` to keep in the config file.

use super::mapping::{Column, DayHours, Decimal, Mapping, Separator, Zone};
use crate::record::Place;

/// A text between quotes.
fn quoted(text: &str) -> String {
    toml::Value::String(text.to_owned()).to_string()
}

fn column(column: &Column) -> String {
    match column {
        Column::Named(name) => quoted(name),
        Column::Number(n) => n.to_string(),
    }
}

impl Mapping {
    /// As text for the config file, everything written out that was left out before.
    pub fn toml(&self) -> String {
        let mut out = "[[logger]]\n".to_owned();
        let mut line = |key: &str, value: String| out.push_str(&format!("{key} = {value}\n"));
        line("name", quoted(&self.name));
        match &self.place {
            Place::Bench(code) => line("bench", quoted(code)),
            place => line("house", quoted(place.code())),
        }
        match self.time.as_slice() {
            [one] => line("time", column(one)),
            several => line("time", format!("[{}]", several.iter().map(column).collect::<Vec<_>>().join(", "))),
        }
        if let Some(format) = &self.time_format {
            line("time_format", quoted(format.text()));
        }
        match self.zone {
            None => {}
            Some(Zone::Site) => line("zone", quoted("site")),
            Some(Zone::Fixed(offset)) => line("zone", quoted(&offset.to_string())),
            Some(Zone::Named(tz)) => line("zone", quoted(tz.name())),
        }
        if let Some(t) = &self.temperature {
            line("temperature", format!("{{ column = {}, unit = {} }}", column(&t.column), quoted(t.unit.text())));
        }
        if let Some(h) = &self.humidity {
            line("humidity", format!("{{ column = {} }}", column(&h.column)));
        }
        if let Some(l) = &self.light {
            let source = l.source.map(|source| format!(", source = {}", quoted(source.text()))).unwrap_or_default();
            let share = l.share.map(|share| format!(", share = {share:?}")).unwrap_or_default();
            line(
                "light",
                format!("{{ column = {}, unit = {}{source}{share} }}", column(&l.column), quoted(l.unit.text())),
            );
        }
        line("missing", format!("[{}]", self.missing.iter().map(|m| quoted(m)).collect::<Vec<_>>().join(", ")));
        line("decimal", quoted(if self.decimal == Decimal::Comma { "," } else { "." }));
        match self.separator {
            None => {}
            Some(Separator::Tab) => line("separator", quoted("tab")),
            Some(Separator::Semicolon) => line("separator", quoted(";")),
            Some(Separator::Comma) => line("separator", quoted(",")),
        }
        match self.day {
            DayHours::Sun => line("day", quoted("sun")),
            DayHours::Hours(from, to) => {
                line("day", quoted(&format!("{}-{}", from.format("%H:%M"), to.format("%H:%M"))));
            }
        }
        if let Some(folder) = &self.folder {
            line("folder", quoted(&folder.display().to_string()));
        }
        out
    }
}
