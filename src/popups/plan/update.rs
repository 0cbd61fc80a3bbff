//! Key handling of the plan's forms.

use super::{State, difference, offers, save};
use crate::controls::Input;
use crate::dates::Tz;
use crate::input::{Code, Key};
use crate::keys::Command;
use crate::model::{Effect, Go, Model, Msg, PlanAsk, Response, go};
use crate::popups::fields::About;
use crate::popups::pots;
use crate::record::Line;
use crate::record::schema::FieldKind;
use crate::report::doubts;

/// Handles a message.
pub fn update(state: &mut State, model: &mut Model, msg: &Msg) -> Response {
    match msg {
        Msg::Type(key) => typed(state, model, key),
        Msg::Paste(text) => {
            if let Some(name) = state.fields.paste(text) {
                changed(state, model, name);
            }
        }
        // All that is said of a field stands above its cautions: there is nothing to page through here.
        Msg::Do(Command::PageDown | Command::PageUp) => {}
        Msg::Do(Command::FieldAfter) => go(state, model, true),
        Msg::Do(Command::FieldBefore) => go(state, model, false),
        Msg::Do(Command::Back) => {
            state.leave(model);
            return Some(vec![Effect::Go(Go::Back)]);
        }
        Msg::Do(Command::Accept) => {
            if !matches!(state.ask, PlanAsk::History(_)) {
                state.after = None;
            }
            return Some(accept(state, model));
        }
        Msg::Do(Command::Another) => {
            let again = matches!(state.ask, PlanAsk::NewLot | PlanAsk::Benches | PlanAsk::SetDown | PlanAsk::NewOrder);
            if again {
                state.after = Some(state.ask.clone());
            }
            return Some(accept(state, model));
        }
        _ => return None,
    }
    Some(Vec::new())
}

/// Handles a key; the first one typed over a suggestion, a number or a day replaces it.
fn typed(state: &mut State, model: &Model, key: &Key) {
    let Some((name, is_text)) = state.fields.marked().map(|row| (row.name, matches!(row.input, Input::Text(_)))) else {
        return;
    };
    let free = name.field().is_some_and(|f| matches!(f.kind, FieldKind::Text { most: 21.. } | FieldKind::Texts { .. }));
    let free = free && !matches!(name.name(), "codes" | "benches");
    let over = state.fresh && (state.offered.contains_key(name.name()) || !free);
    state.fresh = false;
    let at_end = matches!(key.code, Code::Right) && !key.ctrl;
    if name.name() == "time_zone" && at_end {
        take_zone(state, model);
        return;
    }
    if over && key.typed().is_some() && is_text {
        state.fields.set(name, "");
    }
    if state.fields.key(key).is_some() {
        changed(state, model, name);
    }
}

/// A field was edited: clears its error until the next validation, and updates the suggestions that depend on it.
fn changed(state: &mut State, model: &Model, name: About) {
    state.touched = true;
    state.difference = None;
    state.own.insert(name.name());
    state.offered.remove(name.name());
    state.fields.clear(|other| other == name);
    if matches!(name, About::Near) {
        // Picking a city overwrites the coordinates.
        let place = |name: About| matches!(name.name(), "latitude" | "longitude" | "time_zone");
        state.own.retain(|name| !matches!(*name, "latitude" | "longitude" | "time_zone"));
        state.fields.clear(place);
    }
    offers::offer(state, model);
}

/// Zones with these letters in their name, those that begin a part of it first.
pub(super) fn zones(text: &str) -> Vec<&'static str> {
    let wanted = text.trim().replace(' ', "_").to_lowercase();
    if wanted.is_empty() {
        return Vec::new();
    }
    let found = |zone: &'static str| {
        let name = zone.to_lowercase();
        let begins = name.split('/').any(|part| part.starts_with(&wanted));
        name.contains(&wanted).then_some((!begins, name.len()))
    };
    let mut all: Vec<_> = Tz::names().filter_map(|zone| Some((found(zone)?, zone))).collect();
    all.sort_unstable();
    all.into_iter().map(|(_, name)| name).collect()
}

/// Completes the field with the first matching zone.
fn take_zone(state: &mut State, model: &Model) {
    let first = zones(&state.text("time_zone")).first().copied();
    let name = state.fields.marked().map(|row| row.name);
    if let (Some(zone), Some(name)) = (first, name) {
        state.fields.set(name, zone);
        changed(state, model, name);
    }
}

/// Moves the focus to the next or previous field, wrapping at the ends. A zone of which only one fits is spelled out.
fn go(state: &mut State, model: &Model, onward: bool) {
    if state.fields.marked().is_some_and(|row| row.name.name() == "time_zone")
        && let [_] = zones(&state.text("time_zone")).as_slice()
    {
        take_zone(state, model);
    }
    state.fields.step(onward);
    state.fresh = true;
}

/// Saves; or focuses the first invalid field; or first shows what saving does to the warnings.
fn accept(state: &mut State, model: &mut Model) -> Vec<Effect> {
    let lines = match save::lines(state, model) {
        Ok(lines) => lines,
        Err(faults) => {
            state.blame(faults);
            return Vec::new();
        }
    };
    if lines.is_empty() {
        state.forget(model);
        model.say("No change.");
        let after = state.after.take().map(|ask| Effect::popup(go::Popup::Plan(ask)));
        return std::iter::once(Effect::Go(Go::Back)).chain(after).collect();
    }
    if state.difference.is_none() {
        let asked = over_lot(model, &lines).into_iter().chain(over_room(model, &lines));
        let said: Vec<String> = asked.chain(difference::difference(model, &lines)).collect();
        if !said.is_empty() {
            state.difference = Some(said.join(" "));
            state.fresh = true;
            return Vec::new();
        }
    }
    state.forget(model);
    vec![Effect::KeepPlan(lines)]
}

/// The first lot of which more pots are placed than it has.
fn over_lot(model: &Model, lines: &[Line]) -> Option<String> {
    let new = || lines.iter().filter_map(|line| if let Line::Placement(p) = line { Some(p) } else { None });
    let lot = &new().next()?.lot;
    let kept = model.season.all_placements().into_iter();
    let kept = kept.filter(|p| !new().any(|n| n.bench == p.bench && n.from == p.from));
    let pots = kept.chain(new()).filter(|p| p.lot == *lot).map(|p| p.pots).fold(0, u32::saturating_add);
    doubts::more_than_lot(&model.season, lot, pots).map(|text| format!("{text}."))
}

/// The first bench on which more pots are placed than fit.
fn over_room(model: &Model, lines: &[Line]) -> Option<String> {
    lines.iter().find_map(|line| {
        let Line::Placement(p) = line else { return None };
        pots::over_room(model, &p.bench, &p.lot, p.pots)
    })
}

#[cfg(test)]
mod tests {
    use super::zones;

    #[test]
    fn zones_are_found_by_a_part_of_their_name() {
        assert_eq!(zones("new york"), ["America/New_York"]);
        assert_eq!(zones("Lima").first(), Some(&"America/Lima"));
        assert_eq!(zones("america/new_york"), ["America/New_York"]);
        assert!(zones(" ").is_empty());
        assert!(zones("atlantis").is_empty());
    }
}
