//! Records to values and back, field by field, under the journal's names.

use super::super::value::{Value, Values};
use super::super::{Entry, Kind, KindName, Line, PestCount, Place};
use uuid::Uuid;

/// `r#where` is the field `where`.
macro_rules! named {
    ($field:ident) => {{
        const NAME: &str = stringify!($field);
        NAME.strip_prefix("r#").unwrap_or(NAME)
    }};
}

macro_rules! kinds {
    ($($kind:ident { $($field:ident),* }),+ $(,)?) => {
        /// The own fields of a kind.
        pub fn kind_values(kind: &Kind) -> Values {
            let mut values = Values::new();
            match kind {
                $(Kind::$kind { $($field),* } => { $(values.set_some(named!($field), $field);)* })+
                Kind::Note => {}
                Kind::Pests { pest, count } => {
                    values.set_some("pest", pest);
                    pest_count(&mut values, count);
                }
            }
            values
        }

        pub(super) fn kind(name: KindName, values: &Values) -> Option<Kind> {
            Some(match name {
                $(KindName::$kind => Kind::$kind { $($field: values.take(named!($field))?),* },)+
                KindName::Note => Kind::Note,
                KindName::Pests => Kind::Pests { pest: values.take("pest")?, count: counted(values)? },
            })
        }
    };
}

kinds! {
    Water { level, base },
    Roots { score, pots, bad, signs, reach },
    Bracts { stage },
    Height { cm },
    Leaves { signs, r#where },
    RootZone { method, ph, ec_ms_cm, pots },
    FeedCheck { ph, ec_ms_cm, alkalinity_ppm, mg_ppm },
    Climate { day_c, night_c, humidity_percent },
    NightLight { lux },
    Losses { pots, cause },
    Counted { pots },
    Grade { sell, second, dump },
    Watered { ml_per_pot },
    Fed { n_ppm, mg_ppm, mo_ppm, ml_per_pot },
    Topdressed { g_per_pot, n_percent },
    Nutrient { material, ppm, how, ml_per_pot },
    GrowthRegulator { parts, how, re_entry_h, ml_per_pot, product, rate },
    Sprayed { ai, against, how, re_entry_h, product, rate },
    Released { species, count },
    Pinched { how, nodes_left },
    Blackout { night, covered },
    Lights { night, on },
    Spaced { centers_cm },
    Moved { to, pots },
    Sold { pots },
    PutOff { warning, until, why },
    Strike { entry, why, reopen },
}

fn pest_count(values: &mut Values, count: &PestCount) {
    match count {
        PestCount::Plants { inspected, infested } => {
            values.set_some("inspected", inspected);
            values.set_some("infested", infested);
        }
        PestCount::Cards { cards, count, days } => {
            values.set_some("cards", cards);
            values.set_some("count", count);
            values.set_some("days", days);
        }
        PestCount::Wedge { larvae } => values.set_some("larvae", larvae),
    }
}

fn counted(values: &Values) -> Option<PestCount> {
    if let (Some(inspected), Some(infested)) = (values.take("inspected"), values.take("infested")) {
        Some(PestCount::Plants { inspected, infested })
    } else if let (Some(cards), Some(count), Some(days)) =
        (values.take("cards"), values.take("count"), values.take("days"))
    {
        Some(PestCount::Cards { cards, count, days })
    } else {
        values.take("larvae").map(|larvae| PestCount::Wedge { larvae })
    }
}

/// The fields of a line.
pub fn line_values(line: &Line) -> Values {
    match line {
        Line::Entry(entry) => entry_values(entry),
        line => line.plan_values(),
    }
}

/// All fields of an entry.
pub fn entry_values(entry: &Entry) -> Values {
    let mut values = Values::new();
    values.set_some("id", &entry.id);
    values.set_some("at", &entry.at);
    values.set_some("by", &entry.by);
    values.set(entry.place.field(), Value::Text(entry.place.code().to_owned()));
    values.set_some("kind", &entry.name());
    for (name, value) in kind_values(&entry.kind).iter() {
        values.set(name, value.clone());
    }
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
        kind: kind(name, values)?,
        note: values.take("note")?,
    })
}
