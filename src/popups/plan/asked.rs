//! The fields of each form of the plan, in the order they are asked.

use super::cities::CITIES;
use crate::controls::{Choice, Input, Row};
use crate::model::{Model, PlanAsk};
use crate::popups::fields::{About, own};
use crate::record::schema::{self, Field, FieldKind, RecordSchema};
use crate::record::{Before, Nights, Pinch, Region, Term};
use crate::units::System;

/// A field that is in no record: the form makes records of it.
const fn made(name: &'static str, kind: FieldKind, required: bool, meaning: &'static str) -> Field {
    if required { Field::need(name, kind, "", meaning) } else { Field::may(name, kind, "", meaning) }
}

static CODES: Field = made("codes", FieldKind::Text { most: 500 }, true, "a row such as M1-M8, or single codes");
static BENCHES: Field =
    made("benches", FieldKind::Text { most: 500 }, true, "codes separated by spaces, a row such as E1-E6, or a house");

const SITE: &[&str] =
    &["latitude", "longitude", "time_zone", "units", "region", "low_light_houses", "emergency", "no_temperature"];
/// After the code, which only a new lot is asked for.
const LOT: &[&str] = &[
    "cultivar",
    "container",
    "rim_cm",
    "pot_height_cm",
    "pinch",
    "cuttings_per_pot",
    "pots",
    "ready_by",
    "response_weeks",
    "response_c",
    "planted",
    "nights",
    "blackout_from",
    "lights_until",
    "height_low_cm",
    "height_high_cm",
    "feed_n_ppm",
    "feed_mg_ppm",
    "feed_mo_ppm",
    "slow_release_g",
    "calcium",
    "program_n_ppm",
    "program_bag",
    "program_from",
    "program_days",
    "program_clear",
    "next_release_g",
    "next_release_basis",
];

/// Not asked of a lot that is not to be pinched.
const PINCH: [&str; 2] = ["pinch", "pinched_on"];

/// The table of the lines a form writes.
pub(super) fn table(ask: &PlanAsk) -> Option<&'static RecordSchema> {
    schema::plan_table(match ask {
        PlanAsk::Site => "site",
        PlanAsk::NewLot | PlanAsk::Lot(_) => "lot",
        PlanAsk::History(_) => "history",
        PlanAsk::Benches | PlanAsk::Bench(_) => "bench",
        PlanAsk::SetDown | PlanAsk::Placement(..) => "placement",
        PlanAsk::NewOrder | PlanAsk::Order(..) => "order",
    })
}

/// A change counts from now on.
pub(super) const FROM_NOW: &str = "now";
/// A change counts for every day.
pub(super) const EVERY_DAY: &str = "every";

/// From when on a change counts; asked where a kept line is changed.
fn holds() -> Row<About> {
    let choice = |code: &str, text: &str| Choice { code: code.to_owned(), text: text.to_owned() };
    let all = vec![
        choice("each", "past facts for every day, the rest from today on"),
        choice(FROM_NOW, "from today on: until now it was as before"),
        choice(EVERY_DAY, "a correction: it was always so"),
    ];
    let mut row = Row::new(About::Holds, "applies", false, Input::one(all));
    row.set("each");
    row
}

/// The rows of a form, empty.
pub(super) fn rows(ask: &PlanAsk, model: &Model) -> Vec<Row<About>> {
    let mut rows = own_rows(ask, model);
    rows.push(holds());
    rows
}

fn own_rows(ask: &PlanAsk, model: &Model) -> Vec<Row<About>> {
    let Some(table) = table(ask) else { return Vec::new() };
    let labeled = |name: &str, label: &'static str| table.field(name).map(|field| row(field, label, model));
    let named = |names: &[&str]| -> Vec<Row<About>> {
        names.iter().filter_map(|name| table.field(name)).map(|field| row(field, field.label, model)).collect()
    };
    match ask {
        PlanAsk::Site => {
            let mut rows = named(&["name"]);
            rows.push(near());
            rows.extend(named(SITE));
            rows
        }
        PlanAsk::NewLot => {
            let code = table.field("lot").map(|field| own(field, field.label));
            code.into_iter().chain(named(LOT)).collect()
        }
        PlanAsk::Lot(_) => named(LOT),
        PlanAsk::History(code) => {
            let unpinched = model.season.lot(code).is_some_and(|lot| lot.pinch == Pinch::None);
            let asked = table.fields.iter().filter(|f| f.name != "lot" && !(unpinched && PINCH.contains(&f.name)));
            asked.map(|field| row(field, field.label, model)).collect()
        }
        PlanAsk::Benches => {
            let mut rows = vec![own(&CODES, "benches")];
            rows.extend(named(&["house"]));
            rows.extend(labeled("area_m2", "area per bench"));
            rows
        }
        PlanAsk::Bench(_) => named(&["house", "order", "area_m2"]),
        PlanAsk::SetDown => {
            let mut rows = named(&["lot"]);
            rows.push(own(&BENCHES, "benches"));
            rows.extend(labeled("pots", "pots per bench"));
            rows.extend(named(&["from"]));
            rows
        }
        PlanAsk::Placement(..) => named(&["lot", "pots"]),
        PlanAsk::NewOrder => named(&["lot", "date", "pots"]),
        PlanAsk::Order(..) => named(&["pots"]),
    }
}

fn row(field: &'static Field, label: &'static str, model: &Model) -> Row<About> {
    let row = own(field, label);
    let from = |all| Row::new(About::Own(field), label, field.required, Input::one(all));
    if let (FieldKind::Term(_), "pinch" | "feed" | "magnesium" | "molybdenum" | "regulator") = (field.kind, field.name)
        && !field.required
    {
        return from(words::<Before>());
    }
    match field.name {
        "units" => from(words::<System>()),
        "region" => from(words::<Region>()),
        "pinch" => from(words::<Pinch>()),
        "nights" => from(words::<Nights>()),
        "lot" => {
            let each = model.season.lots().into_iter();
            let lot = |l: &crate::record::Lot| Choice {
                code: l.lot.clone(),
                text: format!("{} {}, {}", l.lot, l.cultivar, l.container),
            };
            from(each.map(lot).collect())
        }
        _ => row,
    }
}

fn words<T: Term>() -> Vec<Choice> {
    T::ALL.iter().map(|w| Choice { code: w.code().to_owned(), text: w.text().to_owned() }).collect()
}

fn near() -> Row<About> {
    let all = CITIES.iter().map(|c| Choice { code: c.name.to_owned(), text: c.name.to_owned() }).collect();
    Row::new(About::Near, "near", false, Input::one(all))
}
