//! Records to values and back, field by field, under the journal's names.
#![deny(clippy::wildcard_enum_match_arm)]

use super::value::{Value, Values};
use super::{Entry, Kind, KindName, Line, Place};
use uuid::Uuid;

/// The fields of a line.
pub fn line_values(line: &Line) -> Values {
    if let Line::Entry(entry) = line { entry_values(entry) } else { line.plan_values() }
}

/// All fields of an entry.
pub fn entry_values(entry: &Entry) -> Values {
    let mut values = Values::with_room(12);
    values.set_some("id", &entry.id);
    values.set_some("at", &entry.at);
    values.set_some("by", &entry.by);
    values.set(entry.place.field(), Value::Text(entry.place.code().to_owned()));
    values.set_some("plot", &entry.plot);
    values.set_some("kind", &entry.name());
    values.extend(entry.kind.values());
    values.set_some("note", &entry.note);
    values
}

/// The entry of these values; its id is nil where they have none.
pub(super) fn entry(name: KindName, values: &Values) -> Option<Entry> {
    let place = if let Some(code) = values.take("bench") {
        Place::Bench(code)
    } else if let Some(code) = values.take("house") {
        Place::House(code)
    } else {
        Place::Lot(values.take("lot")?)
    };
    Some(Entry {
        id: values.take::<Option<Uuid>>("id")?.unwrap_or_default(),
        at: values.take("at")?,
        by: values.take("by")?,
        place,
        plot: values.take("plot")?,
        kind: Kind::of(name, values)?.into(),
        note: values.take("note")?,
    })
}
