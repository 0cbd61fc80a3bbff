//! What the Setup page does.

use super::State;
use super::items::{Item, items};
use crate::controls::page;
use crate::keys::Command;
use crate::model::{Effect, Go, Model, Msg, PlanAsk, Response, go};

/// Handles a message.
pub fn update(state: &mut State, model: &mut Model, msg: &Msg) -> Response {
    let count = items(model).len();
    state.list.clamp(count);
    if let Msg::Found(code) = msg {
        state.list.set(items(model).iter().position(|item| *item == Item::Bench(code.clone()))?);
        return Some(Vec::new());
    }
    let Msg::Do(command) = msg else { return None };
    if state.list.step(*command, count, page(model.size.1)) {
        return Some(Vec::new());
    }
    match command {
        Command::Add => return Some(vec![Effect::popup(go::Popup::AddToPlan(state.bench(model), state.lot(model)))]),
        Command::Accept => return Some(open(state.cursor(model))),
        Command::Work if model.season.benches().is_empty() => model.say("No benches to walk yet."),
        Command::Work => return Some(vec![Effect::page(go::Page::Walk(None))]),
        Command::Back => return Some(vec![Effect::Go(Go::Back)]),
        _ => return None,
    }
    Some(Vec::new())
}

/// The form that changes a line.
fn open(item: Option<Item>) -> Vec<Effect> {
    if let Some(Item::Trial(code)) = item {
        return vec![Effect::popup(go::Popup::Trial(code))];
    }
    vec![Effect::popup(go::Popup::Plan(item.and_then(Item::ask).unwrap_or(PlanAsk::Site)))]
}
