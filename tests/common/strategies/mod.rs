//! Made-up records for property tests: every kind and line with every field of the field table, and whole seasons whose
//! records agree with each other. Taken in by `#[path = "../common/strategies/mod.rs"] mod strategies;`.
#![allow(dead_code, reason = "each test takes what it needs")]

mod season;

pub(crate) use season::season;

use benchwalk::dates::Tz;
use benchwalk::record::schema::{self, Field, FieldKind};
use benchwalk::record::{Entry, Kind, KindName, Line, Part, Place, Term, Value, Values, clean, codec};
use chrono::{DateTime, Days, FixedOffset, NaiveDate, TimeZone};
use proptest::prelude::*;
use proptest::sample::{select, subsequence};
use std::sync::Arc;
use uuid::Uuid;

/// Day 0 of made-up seasons.
pub(crate) fn first_day() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 8, 17).unwrap()
}

fn text(most: usize) -> BoxedStrategy<String> {
    let most = most.min(30);
    prop_oneof![3 => "[a-z][a-z0-9 ,.;=+@\"\\\\/-]{0,20}", 1 => "\\PC{1,30}"]
        .prop_map(move |t| clean(&clean(&t).chars().take(most).collect::<String>()))
        .prop_filter("not empty", |t| !t.is_empty())
        .boxed()
}

/// A number as people type it, and now and then any at all.
fn number(least: f64, most: f64) -> BoxedStrategy<f64> {
    let typed = (least..=most).prop_map(move |n| ((n * 100.0).round() / 100.0).clamp(least, most));
    prop_oneof![typed, least..=most, Just(least), Just(most)].prop_map(|n| n + 0.0).boxed()
}

fn day() -> BoxedStrategy<NaiveDate> {
    (0u64..36_890).prop_map(|d| NaiveDate::from_ymd_opt(2000, 1, 1).unwrap() + Days::new(d)).boxed()
}

/// An instant on a day, in an offset that need not be the site's.
pub(crate) fn instant(days: std::ops::Range<u64>) -> BoxedStrategy<DateTime<FixedOffset>> {
    let offset = select(vec![-4 * 3600, -5 * 3600, 0, 5 * 3600 + 1800, 14 * 3600, -9 * 3600]);
    (days, 0u32..86_400, offset)
        .prop_map(|(day, second, offset)| {
            let at = (first_day() + Days::new(day)).and_hms_opt(second / 3600, second / 60 % 60, second % 60).unwrap();
            FixedOffset::east_opt(offset).unwrap().from_local_datetime(&at).single().unwrap()
        })
        .boxed()
}

/// A value of a field, in its form and range.
pub(crate) fn value(field: &Field) -> BoxedStrategy<Value> {
    match field.kind {
        FieldKind::Text { most } => text(most).prop_map(Value::Text).boxed(),
        FieldKind::Code => "[A-Za-z0-9.-]{1,16}".prop_map(Value::Text).boxed(),
        FieldKind::Plot => "[A-Za-z0-9-]{1,10}[.][1-9][0-9]{0,3}".prop_map(Value::Text).boxed(),
        FieldKind::By => "[a-zé]{1,8}".prop_map(Value::Text).boxed(),
        FieldKind::Count { least, most } | FieldKind::Level { least, most } => {
            (least..=most).prop_map(Value::Count).boxed()
        }
        FieldKind::Number { least, most } => number(least, most).prop_map(Value::Number).boxed(),
        FieldKind::Day => day().prop_map(Value::Day).boxed(),
        FieldKind::Instant => instant(0..100).prop_map(Value::At).boxed(),
        FieldKind::Zone => {
            select(Tz::names().collect::<Vec<_>>()).prop_map(|name| Value::Zone(name.parse().unwrap())).boxed()
        }
        FieldKind::Term(known) => select(known.codes()).prop_map(Value::Term).boxed(),
        FieldKind::Terms(known) => {
            let known = known.codes();
            let most = known.len();
            subsequence(known, 0..=most)
                .prop_shuffle()
                .prop_map(|w| Value::List(w.into_iter().map(Value::Term).collect()))
                .boxed()
        }
        FieldKind::Texts { most } => prop::collection::btree_set(text(most), 0..3)
            .prop_map(|t| Value::List(t.into_iter().map(Value::Text).collect()))
            .boxed(),
        FieldKind::Numbers { least, most } => prop::collection::vec(number(least, most), 1..8)
            .prop_map(|n| Value::List(n.into_iter().map(Value::Number).collect()))
            .boxed(),
        FieldKind::Parts => prop::collection::vec((text(80), number(0.0, 10_000.0)), 1..4)
            .prop_map(|p| Value::List(p.into_iter().map(|(ai, ppm)| Value::Part(Part { ai, ppm })).collect()))
            .boxed(),
        FieldKind::YesNo => any::<bool>().prop_map(Value::YesNo).boxed(),
        FieldKind::Id => any::<u128>().prop_map(|n| Value::Id(Uuid::from_u128(n))).boxed(),
        FieldKind::Ids => prop::collection::btree_set(any::<u128>(), 0..3)
            .prop_map(|n| Value::List(n.into_iter().map(|n| Value::Id(Uuid::from_u128(n))).collect()))
            .boxed(),
    }
}

/// Values of these fields: the required ones always, the others at times; `always` names further ones that must be there.
fn values(fields: &[&'static Field], always: &[&str]) -> BoxedStrategy<Values> {
    let names: Vec<&'static str> = fields.iter().map(|f| f.name).collect();
    let one = |f: &&Field| {
        if f.required || always.contains(&f.name) {
            value(f).prop_map(Some).boxed()
        } else {
            prop::option::of(value(f)).boxed()
        }
    };
    fields
        .iter()
        .map(one)
        .collect::<Vec<_>>()
        .prop_map(move |found| {
            let mut values = Values::new();
            for (name, value) in names.iter().zip(found) {
                if let Some(v) = value {
                    values.set(name, v);
                }
            }
            values
        })
        .boxed()
}

/// `part` made no more than `whole`.
fn within(values: &mut Values, part: &'static str, whole: &'static str) {
    if let (Some(a), Some(b)) = (values.take::<u32>(part), values.take::<u32>(whole)) {
        values.set(part, Value::Count(a.min(b)));
    }
}

/// Any record of a kind, alone.
pub(crate) fn kind(name: KindName) -> BoxedStrategy<Kind> {
    let fields: Vec<&'static Field> = schema::kind_table(name).fields.iter().collect();
    let some = |names: &'static [&'static str]| -> Vec<&'static Field> {
        fields.iter().copied().filter(|f| names.contains(&f.name)).collect()
    };
    let made = match name {
        KindName::Pests => prop_oneof![
            values(&some(&["pest", "inspected", "infested"]), &["inspected", "infested"]),
            values(&some(&["pest", "cards", "count", "days"]), &["cards", "count", "days"]),
            values(&some(&["pest", "larvae"]), &["larvae"]),
        ]
        .boxed(),
        KindName::Roots => {
            prop_oneof![values(&fields, &["pots"]), values(&some(&["score", "pots", "signs", "reach"]), &[])].boxed()
        }
        KindName::RootZone => prop_oneof![values(&fields, &["ph"]), values(&fields, &["ec_ms_cm"])].boxed(),
        KindName::FeedCheck => values(&fields, &["mg_ppm"]),
        KindName::Greenness => prop_oneof![values(&fields, &["class"]), values(&fields, &["spad"])].boxed(),
        KindName::Climate => values(&fields, &["night_c", "humid_over"]),
        KindName::Job => values(&fields, &["why"]),
        _ => values(&fields, &[]),
    };
    made.prop_map(move |mut values| {
        within(&mut values, "bad", "pots");
        within(&mut values, "infested", "inspected");
        if let (Some(low), Some(high)) = (values.take::<f64>("low_c"), values.take::<f64>("high_c")) {
            values.set("low_c", Value::Number(low.min(high)));
        }
        codec::kind_from_values(name, &values).unwrap_or_else(|f| panic!("{name:?} {values:?}: {f:?}"))
    })
    .boxed()
}

/// Any kind.
pub(crate) fn any_kind() -> BoxedStrategy<Kind> {
    select(KindName::ALL.to_vec()).prop_flat_map(kind).boxed()
}

fn settle(mut entry: Entry, ahead: u64) -> Entry {
    let day = entry.day();
    match Arc::make_mut(&mut entry.kind) {
        Kind::PutOff { until, .. } => *until = day + Days::new(ahead),
        Kind::Moved { to, .. } if !matches!(&entry.place, Place::Bench(b) if **b != **to) => {
            entry.place = Place::Bench("no-other".into());
        }
        Kind::Note {} => {
            entry.note.get_or_insert_with(|| "looked".into());
        }
        _ => {}
    }
    entry
}

fn by() -> BoxedStrategy<String> {
    select(vec!["kt", "ab", "jörg", "r.d"]).prop_map(str::to_owned).boxed()
}

/// Any entry, alone: it may speak of benches that are nowhere.
pub(crate) fn entry() -> BoxedStrategy<Entry> {
    let code = || "[A-Za-z0-9.-]{1,6}".prop_map(Arc::from);
    let name = text(24).prop_map(Arc::from);
    let place = prop_oneof![code().prop_map(Place::Bench), name.prop_map(Place::House), code().prop_map(Place::Lot)];
    let plot = prop::option::of("T[0-9]{1,2}[.][1-9][0-9]?");
    (any_kind(), instant(0..150), by(), place, plot, prop::option::of(text(200)), any::<u128>(), 0u64..30)
        .prop_map(|(kind, at, by, place, plot, note, id, ahead)| {
            let id = Uuid::from_u128(id);
            let plot = plot.filter(|_| matches!(place, Place::Bench(_)));
            settle(
                Entry {
                    id,
                    at,
                    by: by.into(),
                    place,
                    plot: plot.map(Into::into),
                    kind: kind.into(),
                    note: note.map(Into::into),
                },
                ahead,
            )
        })
        .boxed()
}

/// Any plan line, alone.
pub(crate) fn plan_line() -> BoxedStrategy<Line> {
    let table = select(schema::plan_tables().to_vec());
    table
        .prop_flat_map(|table| {
            (Just(table), values(&table.fields.iter().collect::<Vec<_>>(), &["rev", "region"]), 0u64..200)
        })
        .prop_map(|(table, mut v, days)| {
            let planted = v.take::<NaiveDate>("planted").unwrap_or_else(first_day).min(first_day());
            if table.name == "lot" {
                v = lot_values(&v, planted, days);
            }
            if table.name == "history" {
                // A day, and which one, go with work that was done.
                for work in ["pinch", "feed", "magnesium", "molybdenum", "regulator"] {
                    v.set(work, Value::Term("done"));
                }
            }
            if table.name == "trial" {
                v = trial_values(&v);
            }
            if table.name == "plot" {
                v.set("plot", Value::Text("T1.7".to_owned()));
                v.set("trial", Value::Text("T1".to_owned()));
            }
            if v.take::<u32>("pots") == Some(0) {
                v.set("pots", Value::Count(1));
            }
            codec::line_from_values(table, &v).unwrap_or_else(|f| panic!("{v:?}: {f:?}"))
        })
        .boxed()
}

/// A trial's values made to agree with each other: what goes with rates, a control and a draw stays only with them.
fn trial_values(v: &Values) -> Values {
    let mut trial = Values::new();
    let treatments = ["0 g", "4 g", "8 g"].map(str::to_owned).to_vec();
    let (rated, drawn) = (v.has("rates"), v.get("design") != Some(&Value::Term("as-laid")));
    for (name, value) in v.iter() {
        let value = match name {
            "trial" => Value::Text("T1".to_owned()),
            "treatments" => Value::List(treatments.iter().cloned().map(Value::Text).collect()),
            "control" => Value::Text("4 g".to_owned()),
            "rates" => Value::List([0.0, 4.5, 8.0].map(Value::Number).to_vec()),
            "reads" if *value == Value::List(Vec::new()) => Value::List(vec![Value::Term("height")]),
            "rate_unit" if !rated => continue,
            "drawn" | "seed" if !drawn => continue,
            "until" | "ended_because" => continue,
            _ => value.clone(),
        };
        trial.set(name, value);
    }
    if rated {
        trial.set("rate_unit", Value::Text("g per pot".to_owned()));
    }
    if drawn {
        trial.set("seed", Value::Text("48213907".to_owned()));
    }
    if let (Some(from), true) = (v.take::<NaiveDate>("from"), v.has("until")) {
        trial.set("until", Value::Day(from + Days::new(28)));
        if v.has("ended_because") {
            trial.set("ended_because", Value::Text("pots sold".to_owned()));
        }
    }
    trial
}

/// A lot's values made to agree with each other.
fn lot_values(v: &Values, planted: NaiveDate, days: u64) -> Values {
    let mut lot = Values::new();
    for (name, value) in
        v.iter().filter(|(n, _)| !["blackout_from", "lights_until"].contains(n) && !n.starts_with("program_"))
    {
        lot.set(name, value.clone());
    }
    if v.has("program_n_ppm") {
        // The parts of a feed program go together.
        lot.set("program_from", Value::Day(planted));
        for part in ["program_n_ppm", "program_bag", "program_days", "program_clear"] {
            if let Some(value) = v.get(part) {
                lot.set(part, value.clone());
            }
        }
    }
    let later = |n: u64| Value::Day(planted + Days::new(1 + n));
    lot.set("planted", Value::Day(planted));
    lot.set("ready_by", later(days));
    match lot.get("nights") {
        Some(Value::Term("blackout")) => lot.set("blackout_from", later(days / 2)),
        Some(Value::Term("lights")) => lot.set("lights_until", later(days / 3)),
        _ => {}
    }
    if let (Some(a), Some(b)) = (lot.take::<f64>("height_low_cm"), lot.take::<f64>("height_high_cm")) {
        lot.set("height_low_cm", Value::Number(a.min(b)));
        lot.set("height_high_cm", Value::Number(a.max(b)));
    }
    lot
}

/// Any line.
pub(crate) fn line() -> BoxedStrategy<Line> {
    prop_oneof![3 => entry().prop_map(Line::Entry), 1 => plan_line()].boxed()
}
