//! Text below the fields of a plan form: what the focused field takes, why it is asked, what follows from it.

use crate::controls::{Input, Row};
use crate::crop::calendar::Darkness;
use crate::dates::weekday;
use crate::model::{Model, PlanAsk};
use crate::popups::fields::{self, About};
use crate::popups::plan::update::zones;
use crate::popups::plan::{State, benches, offers};
use crate::record::schema::FieldKind;
use crate::record::{Pinch, Term, typed};
use crate::report::words::settle;
use crate::season::Unsettled;
use crate::season::places::{self, Meant};
use crate::ui::fields::{REPLACES, picks};
use crate::ui::{Role, wrap};

/// Most time zones listed.
const ZONES: usize = 6;

/// A line and how it is shown.
type Words = (String, Role);

/// The text below the fields, wrapped.
pub(super) fn below(state: &State, model: &Model, cells: usize) -> Vec<Words> {
    let mut lines = Vec::new();
    let mut tell = |text: &str, role: Role| lines.extend(wrap(text, cells).into_iter().map(|line| (line, role)));
    if let Some(row) = state.fields.marked() {
        if let Some(fault) = &row.fault {
            tell(&format!("! {} {fault}", row.label), Role::Act);
        }
        tell(&takes(row, model, cells), Role::Plain);
        if row.name.field().is_some_and(|field| matches!(field.kind, FieldKind::Day))
            && let Some(why) = state.offered.get(row.name.name()).filter(|why| !why.is_empty())
        {
            tell(&format!("Suggested: {why}."), Role::Plain);
        }
        tell(why(row.name.name()).unwrap_or_default(), Role::Plain);
        if state.fields.replaces() {
            tell(REPLACES, Role::Plain);
        }
        if row.name.name() == "time_zone" {
            let found = zones(&row.text());
            let listed = found.iter().take(ZONES).copied().collect::<Vec<_>>().join("  ");
            let more = if found.len() > ZONES { " ..." } else { "" };
            tell(&format!("Right arrow accepts the first: {listed}{more}"), Role::Plain);
        }
    }
    for fault in &state.stray {
        let field = if fault.field.is_empty() { String::new() } else { format!("{} ", fault.field) };
        tell(&format!("! {field}{}", fault.text), Role::Act);
    }
    if let Some(text) = to_settle(state, model) {
        tell(&format!("To settle: {text}"), Role::Act);
    }
    for text in follows(state, model) {
        tell(&text, Role::Good);
    }
    if let Some(text) = &state.difference {
        tell(&format!("{text} Enter again saves."), Role::Act);
    }
    lines.retain(|(line, _)| !line.is_empty());
    lines
}

/// What contradicts the line that is changed; saving it settles that.
fn to_settle(state: &State, model: &Model) -> Option<String> {
    let key = state.kept.as_ref()?.key();
    let found = model.season.contradiction(&key)?;
    Some(settle(&Unsettled::Plan(found), model.system()))
}

/// The unit and range next to a field, or why it is filled in.
pub(super) fn beside(state: &State, row: &Row<About>, model: &Model) -> String {
    match (state.offered.get(row.name.name()), row.name.field(), &row.input) {
        // A day that is being looked at says which day it is; its reason stands below.
        (_, Some(field), Input::Text(_))
            if matches!(field.kind, FieldKind::Day) && state.fields.is_marked(row.name) =>
        {
            fields::beside(row, field, model)
        }
        (Some(why), ..) if !why.is_empty() => format!("suggested: {why}"),
        (_, _, Input::One(..)) if matches!(state.ask, PlanAsk::History(_)) && row.is_empty() => "not known".to_owned(),
        (_, _, Input::One(..) | Input::Many(..)) => "press a letter".to_owned(),
        (_, Some(field), Input::Text(_)) => match field.kind {
            FieldKind::Day => fields::beside(row, field, model),
            FieldKind::Zone => "type part of it".to_owned(),
            FieldKind::Code => "letters, digits, - or .".to_owned(),
            FieldKind::Text { most } if most > 20 => String::new(),
            _ => typed::hint(field, model.system()),
        },
        (_, None, Input::Text(_)) => String::new(),
    }
}

/// What a field takes, in full.
fn takes(row: &Row<About>, model: &Model, cells: usize) -> String {
    let words = match row.name {
        About::Holds => "whether earlier days are reviewed by the plan as it was then, or as it is now",
        _ => row
            .name
            .field()
            .map_or("a city near the site; or skip it and type latitude and longitude", |field| field.meaning),
    };
    match (row.name.field(), &row.input) {
        (Some(field), Input::Text(_)) => format!("{words}: {}", fields::takes_text(field, model)),
        _ => picks(words, &row.input, cells).join("\n"),
    }
}

/// Why a field is asked, where that does not go without saying.
const fn why(name: &str) -> Option<&'static str> {
    Some(match name.as_bytes() {
        b"rim_cm" => {
            "Asked once per container: pot diameter decides the usual cuttings and spacing, and how long the mix holds water."
        }
        b"pot_height_cm" => {
            "Asked once per container: heights are measured from the bench, so the window starts at the top of the pot."
        }
        b"height_low_cm" | b"height_high_cm" => "Without both there is no height window and no height warning.",
        b"response_weeks" => "From the supplier, for this cultivar; every calendar date depends on it.",
        b"response_c" => {
            "The mean of day and night of the house that the weeks come from: the color forecast counts warmer and cooler days from there."
        }
        b"feed_mg_ppm" | b"feed_mo_ppm" => "If constant feed covers it, no extra is called for.",
        b"low_light_houses" => {
            "Separated by commas. Pots there dry slowly, so they may stay wet longer before a warning."
        }
        b"emergency" => "Shown with the cautions: whom to call, where the eyewash is.",
        _ => return None,
    })
}

/// What follows from what is filled in.
fn follows(state: &State, model: &Model) -> Vec<String> {
    match &state.ask {
        PlanAsk::NewLot => calendar(state, model),
        PlanAsk::Lot(code) => calendar(state, model).into_iter().chain(down_before(state, model, code)).collect(),
        PlanAsk::Benches => bench_row(state),
        PlanAsk::SetDown => set_down(state, model),
        PlanAsk::Placement(..) | PlanAsk::Order(..) => vec!["0 pots removes the line.".to_owned()],
        PlanAsk::Site if !state.text("near").is_empty() => {
            vec![
                "Rounded to 0.1 degree. For a site more than 60 miles (100 km) away type its own latitude and longitude."
                    .to_owned(),
            ]
        }
        PlanAsk::History(code) => vec![format!(
            "The record of {code} begins later than its crop. What is left open is not known: warnings that need it keep quiet."
        )],
        PlanAsk::Site | PlanAsk::Bench(_) | PlanAsk::NewOrder => Vec::new(),
    }
}

fn calendar(state: &State, model: &Model) -> Vec<String> {
    if state.text("pinch") == Pinch::None.code() {
        return vec!["There is no usual planting day for an unpinched lot: type it.".to_owned()];
    }
    let Some(back) = offers::back(state, model) else { return Vec::new() };
    let pinch = back.pinch.map(|day| format!(", pinch about {}", weekday(day))).unwrap_or_default();
    let mut lines = vec![format!(
        "Counted back from the sale: short days from {}{pinch}, planting {} (UF/IFAS 2004 and 2011).",
        weekday(back.short_days),
        weekday(back.planting),
    )];
    let nights = offers::nights(state, model, &back);
    lines.extend(nights.map(|darkness| match darkness {
        Darkness::Natural => "Nights here are long enough from that very day.".to_owned(),
        Darkness::LightUntil { last, days } => {
            format!(
                "Nights here are long enough {} sooner: lights until {}, or the crop is ready sooner.",
                counted(days),
                weekday(last)
            )
        }
        Darkness::CoverFrom { first, days } => {
            format!("Nights here are long enough only {} later: black cloth from {}.", counted(days), weekday(first))
        }
        Darkness::CoverAlways { first } => {
            format!("Nights here never get long enough naturally: black cloth from {}.", weekday(first))
        }
    }));
    lines
}

/// A number of days in words.
fn counted(days: i64) -> String {
    if days == 1 { "1 day".to_owned() } else { format!("{days} days") }
}

/// Pots cannot be on a bench before they are planted; the two lines are separate, so it is only a notice.
fn down_before(state: &State, model: &Model, lot: &str) -> Option<String> {
    let planted = offers::day(state, model, "planted")?;
    let placements = model.season.placements(lot);
    let first = placements.iter().find(|p| p.pots > 0 && p.from < planted)?;
    let (bench, from) = (&first.bench, weekday(first.from));
    Some(format!("Pots of it were placed on {bench} on {from}, before that planting: change those lines, too."))
}

fn bench_row(state: &State) -> Vec<String> {
    match benches::made(&state.text("codes")) {
        Ok(codes) => {
            let (first, last) = (codes.first().cloned().unwrap_or_default(), codes.last().cloned().unwrap_or_default());
            match codes.len() {
                1 => vec![format!("Makes {first}, last in the walk.")],
                n => vec![format!("Makes {n} benches, {first} to {last}, last in the walk.")],
            }
        }
        Err(_) => Vec::new(),
    }
}

fn set_down(state: &State, model: &Model) -> Vec<String> {
    let many = places::read(&model.season, &state.text("benches"), Meant::EveryBench).map_or(0, |codes| codes.len());
    let each = offers::number(state, model, "pots");
    let (Some(each), Some(left)) = (each, offers::left(model, &state.text("lot"))) else { return Vec::new() };
    let all = each * many as f64;
    let rest = f64::from(left) - all;
    if rest < 0.0 {
        return vec![format!("{many} benches with {each} pots: {all}, more than the {left} left to place.")];
    }
    vec![format!("{many} benches with {each} pots: {all}; then {rest} left to place.")]
}
