//! What the Evening review does.

use super::{Item, State, job, view};
use crate::controls::List;
use crate::dates;
use crate::keys::Command;
use crate::model::{Effect, FormRequest, Go, MixingRequest, Model, Msg, Response, answers_of, go};
use crate::warnings::WarningName;

/// Handles a message.
pub fn update(state: &mut State, model: &mut Model, msg: &Msg) -> Response {
    let mut handled = true;
    match msg {
        Msg::Do(Command::Back) => return Some(vec![Effect::Go(Go::Back)]),
        Msg::Do(Command::Accept) => {
            return Some(state.bench().map(|b| Effect::page(go::Page::Bench(b))).into_iter().collect());
        }
        Msg::Do(Command::WalkHere) => {
            return Some(state.bench().map(|b| Effect::page(go::Page::Walk(Some(b)))).into_iter().collect());
        }
        Msg::Do(Command::Work) => return Some(answer(state, model)),
        Msg::Do(Command::Done) => return Some(job::done(state, model)),
        Msg::Do(Command::NotNow) => return Some(job::not_needed(state, model)),
        Msg::Do(Command::Undo) => return job::take_back(state, model),
        Msg::Do(Command::Mix) => return Some(vec![Effect::page(go::Page::Mixing(mixing(state, model)))]),
        Msg::Do(Command::PutOff) => return Some(put_off(state, model)),
        Msg::Do(Command::More) => state.basis = !state.basis,
        Msg::Do(command) => handled = turn(state, model, *command),
        Msg::NewDay | Msg::Changed => state.stale = true,
        Msg::Quiet => state.renew(model),
        // A problem may be of hundreds of benches: the one found is shown on its own page.
        Msg::Found(_) => return None,
        Msg::Type(_) | Msg::Paste(_) | Msg::Ask(_) => {}
    }
    let count = state.items().len();
    state.list.clamp(count);
    state.keep_rows(model);
    handled.then(Vec::new)
}

/// The Mixing page for the item at the cursor: for the benches that do not have to wait.
fn mixing(state: &State, model: &Model) -> MixingRequest {
    match (state.cursor(), &state.review) {
        (Some(Item::Job(job)), _) => MixingRequest::answering(&job.names, job.benches.clone()).with_known(model),
        (Some(Item::Problem(problem, _)), Some(review)) => {
            let names: Vec<WarningName> = problem.parts.iter().map(|part| part.name).collect();
            MixingRequest::answering(&names, review.ready(problem)).with_known(model)
        }
        (Some(Item::Ticked(_) | Item::Problem(..)) | None, _) => MixingRequest::default(),
    }
}

/// Opens the form that answers the problem at the cursor, filled in for all its benches; of a job, for what was done instead.
fn answer(state: &State, model: &mut Model) -> Vec<Effect> {
    let Some(Item::Problem(problem, _)) = state.cursor() else { return job::otherwise(state, model) };
    let parts = problem.parts.clone();
    if answers_of(&parts, &model.season).is_empty() {
        model.say("Walk the benches to clear this: Enter opens the bench, r the Round.");
        return Vec::new();
    }
    vec![Effect::popup(go::Popup::Answer(parts, None))]
}

/// Asks until when the problem at the cursor is postponed, and why; a job is put to the next day at once.
fn put_off(state: &mut State, model: &mut Model) -> Vec<Effect> {
    let Some(Item::Problem(problem, _)) = state.cursor() else { return job::postpone(state, model) };
    if let Some(until) = problem.put_off_until {
        model.say(format!("Already postponed until {}.", dates::weekday(until)));
        return Vec::new();
    }
    FormRequest::put_off(&problem.parts).map(|ask| Effect::popup(go::Popup::Form(Box::new(ask)))).into_iter().collect()
}

/// Moves the cursor, and what is seen with it: a line moves on by items, a page by rows.
fn turn(state: &mut State, model: &Model, command: Command) -> bool {
    if matches!(command, Command::PageDown | Command::PageUp) {
        let rest = view::panel_rest(state, model);
        if rest > 0 {
            return state.panel.scroll(command, rest, usize::from(model.size.1 / 2).max(1));
        }
    }
    let before = state.list.cursor();
    let handled = moved(state, model, command);
    if state.list.cursor() != before {
        state.panel = List::default();
    }
    handled
}

/// Moves the cursor, or what is seen of the list.
fn moved(state: &mut State, model: &Model, command: Command) -> bool {
    let (rows, height) = (state.rows(model), view::room(state, model));
    let count = rows.len();
    let last = count.saturating_sub(height);
    let heads: Vec<usize> = rows.iter().enumerate().filter(|(_, r)| r.item.is_some()).map(|(i, _)| i).collect();
    drop(rows);
    if matches!(command, Command::PageDown | Command::PageUp) {
        state.list.scroll(command, last, height.saturating_sub(2));
        let seen = state.list.top()..state.list.top().saturating_add(height);
        if let Some(at) = heads.iter().position(|row| seen.contains(row)) {
            state.list.set(at);
        }
        return true;
    }
    if !state.list.step(command, state.items().len(), height) {
        return false;
    }
    let at = state.list.cursor();
    if at == 0 && matches!(command, Command::First | Command::Up) {
        state.list.scroll(Command::First, last, height);
        return true;
    }
    // An item takes some rows below its head.
    let row = |at: usize| heads.get(at).copied();
    let block = row(at).unwrap_or(0)..row(at.saturating_add(1)).unwrap_or(count);
    state.list.reveal(&block, height, last);
    true
}
