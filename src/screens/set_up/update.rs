//! What the Set-up page does.

use super::State;
use super::items::{Item, items};
use crate::controls::page;
use crate::keys::Command;
use crate::model::{Ask, Effect, Go, Model, Msg, PlanAsk, Response, go};
use crate::record::{KindName, Place};

/// Handles a message.
pub fn update(state: &mut State, shared: &mut Model, msg: &Msg) -> Response {
    let count = items(shared).len();
    state.list.clamp(count);
    let Msg::Do(command) = msg else { return None };
    if state.list.step(*command, count, page(shared.size.1)) {
        return Some(Vec::new());
    }
    match command {
        Command::EditSite => return Some(plan(PlanAsk::Site)),
        Command::NewLot => return Some(after_the_site(shared, PlanAsk::NewLot)),
        Command::NewBenches => return Some(after_the_site(shared, PlanAsk::Benches)),
        Command::SetDown => return Some(set_down(shared)),
        Command::NewOrder if shared.season.lots().is_empty() => shared.say("There is no lot yet: l."),
        Command::NewOrder => return Some(after_the_site(shared, PlanAsk::NewOrder)),
        Command::Change => return Some(change(state, shared)),
        Command::MovePots => return Some(work(state, shared, KindName::Moved)),
        Command::SpacePots => return Some(work(state, shared, KindName::Spaced)),
        Command::Walk if shared.season.benches().is_empty() => shared.say("There is no bench to walk to yet."),
        Command::Walk => return Some(vec![Effect::page(go::Page::Walk(None))]),
        Command::Back => return Some(vec![Effect::Go(Go::Back)]),
        _ => return None,
    }
    Some(Vec::new())
}

fn plan(ask: PlanAsk) -> Vec<Effect> {
    vec![Effect::popup(go::Popup::Plan(ask))]
}

fn after_the_site(shared: &mut Model, ask: PlanAsk) -> Vec<Effect> {
    if shared.season.site().is_some() {
        return plan(ask);
    }
    shared.say("The site comes first: s.");
    Vec::new()
}

fn set_down(shared: &mut Model) -> Vec<Effect> {
    match (shared.season.lots().is_empty(), shared.season.benches().is_empty()) {
        (true, _) => shared.say("There is no lot to set down yet: l."),
        (_, true) => shared.say("There is no bench to set it down on yet: b."),
        _ => return after_the_site(shared, PlanAsk::SetDown),
    }
    Vec::new()
}

fn change(state: &State, shared: &Model) -> Vec<Effect> {
    plan(state.cursor(shared).map_or(PlanAsk::Site, Item::ask))
}

/// A form for work done on the bench at the cursor.
fn work(state: &State, shared: &mut Model, kind: KindName) -> Vec<Effect> {
    let Some(bench) = state.bench(shared).filter(|b| shared.season.standing(b, shared.day).is_some()) else {
        shared.say("Mark a bench that stands with pots.");
        return Vec::new();
    };
    vec![Effect::popup(go::Popup::Form(Box::new(Ask::new(kind, Place::Bench(bench)))))]
}
