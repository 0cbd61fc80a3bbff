//! What the Setup page does.

use super::State;
use super::items::{Item, items};
use crate::controls::page;
use crate::keys::Command;
use crate::model::{Effect, FormRequest, Go, Model, Msg, PlanAsk, Response, go};
use crate::record::{KindName, Place};

/// Handles a message.
pub fn update(state: &mut State, model: &mut Model, msg: &Msg) -> Response {
    let count = items(model).len();
    state.list.clamp(count);
    let Msg::Do(command) = msg else { return None };
    if state.list.step(*command, count, page(model.size.1)) {
        return Some(Vec::new());
    }
    match command {
        Command::EditSite => return Some(plan(PlanAsk::Site)),
        Command::NewLot => return Some(after_the_site(model, PlanAsk::NewLot)),
        Command::NewBenches => return Some(after_the_site(model, PlanAsk::Benches)),
        Command::SetDown => return Some(set_down(model)),
        Command::NewOrder if model.season.lots().is_empty() => model.say("No lots yet: press l."),
        Command::NewOrder => return Some(after_the_site(model, PlanAsk::NewOrder)),
        Command::Change => return Some(change(state, model)),
        Command::MovePots => return Some(work(state, model, KindName::Moved)),
        Command::SpacePots => return Some(work(state, model, KindName::Spaced)),
        Command::Walk if model.season.benches().is_empty() => model.say("No benches to walk yet."),
        Command::Walk => return Some(vec![Effect::page(go::Page::Walk(None))]),
        Command::Back => return Some(vec![Effect::Go(Go::Back)]),
        _ => return None,
    }
    Some(Vec::new())
}

fn plan(ask: PlanAsk) -> Vec<Effect> {
    vec![Effect::popup(go::Popup::Plan(ask))]
}

fn after_the_site(model: &mut Model, ask: PlanAsk) -> Vec<Effect> {
    if model.season.site().is_some() {
        return plan(ask);
    }
    model.say("The site comes first: press s.");
    Vec::new()
}

fn set_down(model: &mut Model) -> Vec<Effect> {
    match (model.season.lots().is_empty(), model.season.benches().is_empty()) {
        (true, _) => model.say("No lots to place yet: press l."),
        (_, true) => model.say("No benches to place it on yet: press b."),
        _ => return after_the_site(model, PlanAsk::SetDown),
    }
    Vec::new()
}

fn change(state: &State, model: &Model) -> Vec<Effect> {
    plan(state.cursor(model).map_or(PlanAsk::Site, Item::ask))
}

/// A form for work done on the bench at the cursor.
fn work(state: &State, model: &mut Model, kind: KindName) -> Vec<Effect> {
    let Some(bench) = state.bench(model).filter(|b| model.season.standing(b, model.day).is_some()) else {
        model.say("Select a bench that has pots.");
        return Vec::new();
    };
    vec![Effect::popup(go::Popup::Form(Box::new(FormRequest::new(kind, Place::Bench(bench)))))]
}
