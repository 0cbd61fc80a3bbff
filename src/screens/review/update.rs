//! What the Evening review does.

use super::{State, view};
use crate::dates;
use crate::keys::Command;
use crate::model::{Ask, Effect, Go, Mixing, Model, Msg, answers_of, go};

/// Takes what the page is told.
pub fn update(state: &mut State, shared: &mut Model, msg: &Msg) -> Vec<Effect> {
    match msg {
        Msg::Do(Command::Back) => return vec![Effect::Go(Go::Back)],
        Msg::Do(Command::BenchPage) => {
            return state.bench().map(|b| Effect::page(go::Page::Bench(b))).into_iter().collect();
        }
        Msg::Do(Command::Answer) => return answer(state, shared),
        Msg::Do(Command::Mix) => {
            let problem = state.marked();
            let mixing = problem.map(|t| Mixing::answering(&t.parts, t.benches.clone())).unwrap_or_default();
            return vec![Effect::page(go::Page::Mixing(mixing))];
        }
        Msg::Do(Command::PutOff) => return put_off(state, shared),
        Msg::Do(Command::Undo) => return shared.undo_and_say(),
        Msg::Do(Command::Basis) => state.basis = !state.basis,
        Msg::Do(command) => turn(state, shared, *command),
        Msg::NewDay | Msg::Changed => state.stale = true,
        Msg::Quiet => state.renew(shared),
        Msg::Type(_) | Msg::Paste(_) | Msg::Ask(_) => {}
    }
    let count = state.problems().len();
    state.at = state.at.min(count.saturating_sub(1));
    Vec::new()
}

/// Opens the form that answers the problem marked, filled in for all its benches.
fn answer(state: &State, shared: &mut Model) -> Vec<Effect> {
    let Some(parts) = state.marked().map(|t| t.parts.clone()) else { return Vec::new() };
    if answers_of(&parts, &shared.season).is_empty() {
        shared.say("Walking the benches answers this: Enter shows the bench, r the Round.");
        return Vec::new();
    }
    vec![Effect::popup(go::Popup::Answer(parts))]
}

/// Asks until when the problem marked is put off, and why.
fn put_off(state: &State, shared: &mut Model) -> Vec<Effect> {
    let Some(problem) = state.marked() else { return Vec::new() };
    if let Some(until) = problem.put_off_until {
        shared.say(format!("It is put off already, until {}.", dates::weekday(until)));
        return Vec::new();
    }
    Ask::put_off(&problem.parts).map(|ask| Effect::popup(go::Popup::Form(Box::new(ask)))).into_iter().collect()
}

/// Moves the mark, and what is seen with it.
fn turn(state: &mut State, shared: &Model, command: Command) {
    let height = usize::from(shared.size.1.saturating_sub(4)).max(1);
    let last = state.problems().len().saturating_sub(1);
    match command {
        Command::Down => state.at = state.at.saturating_add(1).min(last),
        Command::Up => state.at = state.at.saturating_sub(1),
        Command::PageDown => state.top = state.top.saturating_add(height.saturating_sub(2)),
        Command::PageUp => state.top = state.top.saturating_sub(height.saturating_sub(2)),
        Command::First => (state.at, state.top) = (0, 0),
        Command::Last => state.at = last,
        _ => return,
    }
    let rows = view::rows(state, shared, usize::from(shared.size.0));
    let most = rows.len().saturating_sub(height);
    let heads: Vec<usize> = rows.iter().enumerate().filter(|(_, r)| r.problem.is_some()).map(|(i, _)| i).collect();
    match command {
        Command::PageDown | Command::PageUp => {
            state.top = state.top.min(most);
            if let Some(at) = heads.iter().position(|row| *row >= state.top && *row < state.top.saturating_add(height))
            {
                state.at = at;
            }
        }
        Command::Up if state.at == 0 => state.top = 0,
        Command::Up | Command::Down | Command::Last => {
            let row = heads.get(state.at).copied().unwrap_or(0);
            // A problem takes some rows below its head.
            let end = heads.get(state.at.saturating_add(1)).copied().unwrap_or(rows.len());
            if row < state.top || end > state.top.saturating_add(height) {
                state.top = row.saturating_sub(1).min(most);
            }
        }
        _ => {}
    }
}
