//! What a treatment does where it is put on: the last safe days of the lots it meets, and until when their places stay closed.
//!
//! The days are those of the Mixing page, the end of the hours is the season's own: one source for each.

use super::place::{benches, places};
use super::{BelowLine, State, Tone, when};
use crate::crop::growth_regulator::Ingredient;
use crate::dates;
use crate::mix::LotDates;
use crate::mix::cautions::KEEP_OUT;
use crate::model::Model;
use crate::record::{FieldFault, Place};
use crate::report::mix::last_words;
use crate::season::closes_until;
use crate::terms::Method;
use crate::warnings::{last_safe_rules, short_days};
use chrono::{DateTime, Datelike, FixedOffset, Utc};

/// The field of the restricted-entry interval, hours.
pub(super) const REI: &str = "rei_h";

/// Why a form is not saved the first time that 0 hours are typed.
const ZERO: &str = "is 0: that means the label states no restricted entry. Read the label; type 0 again to save";

/// The fault of an REI of 0 hours that was not typed again yet.
pub(super) fn zero(state: &State, model: &Model) -> Option<FieldFault> {
    let zero = state.number(model, REI).is_some_and(|hours| hours <= 0.0) && !state.zero_asked;
    zero.then(|| FieldFault::new(REI, ZERO))
}

/// When the application ended, as typed; `None` while it is not, or not understood.
fn ended(state: &State, model: &Model) -> Option<DateTime<FixedOffset>> {
    let text = state.text("at");
    if text.trim().is_empty() {
        return None;
    }
    Some(when::read(&text, model, true).ok()?.unwrap_or(model.now.at))
}

/// The last safe day of an ingredient for each lot that stands on the places chosen; past it, that it was comes first.
pub(super) fn last_safe(state: &State, model: &Model, ingredient: Ingredient, method: Method) -> Vec<BelowLine> {
    let on = ended(state, model).map_or(model.day, |at| at.date_naive());
    let mut lots: Vec<String> =
        benches(state, model).iter().filter_map(|b| Some(model.season.standing(b, model.day)?.lot)).collect();
    lots.sort_unstable();
    lots.dedup();
    let rules = last_safe_rules(&model.season, on, &model.limits);
    let mut lines = Vec::new();
    for lot in lots.iter().filter_map(|code| model.season.lot(code)) {
        let Some(short_days) = short_days(&model.season, lot, on, &model.limits) else { continue };
        let dates = LotDates { lot: lot.lot.clone(), short_days, sale: lot.ready_by };
        let last = dates.last_day((ingredient, method), rules, Some(on));
        if last.late {
            let text = format!("! {}: past the last safe day for {}, see below.", ingredient.name(), lot.lot);
            lines.push((Tone::Alarm, text));
        }
        lines.push((Tone::Reference, format!("Last safe day, {}, {}.", ingredient.name(), last_words(&last))));
    }
    lines
}

/// Until when the places stay closed by this entry, and which benches stay closed longer by an earlier one.
pub(super) fn stays_closed(state: &State, model: &Model) -> Vec<BelowLine> {
    let Some(at) = ended(state, model) else { return Vec::new() };
    let Some(hours) = state.number(model, REI) else { return Vec::new() };
    let now = model.now.at.to_utc();
    let end = closes_until(at.to_utc(), hours).filter(|end| *end > now);
    let where_: Vec<String> = places(state, model).iter().map(named).collect();
    let closed = match end {
        Some(end) => format!("Closed until {}: {}. {}.", day_and_time(model, end), where_.join(" "), sentence()),
        None if hours > 0.0 => "This REI is already over; nothing is closed.".to_owned(),
        None => "! 0 h: no bench is closed. It means the label states no restricted entry.".to_owned(),
    };
    let mut lines = vec![(if hours > 0.0 { Tone::Sum } else { Tone::Alarm }, closed)];
    let longer = benches(state, model).into_iter().filter_map(|code| {
        let until =
            model.closed_until(&code).map(|until| until.to_utc()).filter(|until| end.is_none_or(|end| *until > end))?;
        Some((
            Tone::Alarm,
            format!("! {code} stays closed until {} by an earlier treatment.", day_and_time(model, until)),
        ))
    });
    lines.extend(longer);
    lines
}

fn named(place: &Place) -> String {
    match place {
        Place::Bench(code) => code.to_string(),
        Place::House(name) => format!("house {name}"),
        Place::Lot(code) => format!("lot {code}"),
    }
}

fn day_and_time(model: &Model, until: DateTime<Utc>) -> String {
    let until = model.local(until);
    let day = until.date_naive();
    let day = if day.year() == model.day.year() { dates::weekday(day) } else { dates::long(day) };
    format!("{day} {}", dates::time(&until))
}

/// What one laptop knows is not all, as a sentence.
fn sentence() -> String {
    let mut text = KEEP_OUT.to_owned();
    if let Some(first) = text.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    text
}
