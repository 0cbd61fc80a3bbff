//! What the Walk card does.

use super::guard::Verdict;
use super::{State, checks, draft_name, scale};
use crate::keys::Command;
use crate::model::{Effect, Msg, Shared, To, closes, route};
use crate::record::{Entry, Kind, KindName, Place};
use crate::units::{Length, parse};
use crate::warnings::CheckName;

/// Takes what the card is told.
pub fn update(state: &mut State, shared: &mut Shared, msg: &Msg) -> Vec<Effect> {
    match msg {
        Msg::Do(command) => act(state, shared, *command),
        Msg::Type(key) => {
            state.line.key(key);
            Vec::new()
        }
        Msg::Paste(text) => {
            if state.check() == Some(CheckName::Height) {
                state.line.paste(text);
            }
            Vec::new()
        }
        Msg::Ask(check) => {
            ask(state, *check);
            Vec::new()
        }
        Msg::NewDay => {
            keep_line(state, shared);
            *state = State::card(&state.bench.clone(), shared, state.guard);
            Vec::new()
        }
        Msg::Changed | Msg::Quiet => Vec::new(),
    }
}

fn act(state: &mut State, shared: &mut Shared, command: Command) -> Vec<Effect> {
    let place = Place::Bench(state.bench.clone());
    match command {
        Command::Digit(digit) => return score(state, shared, digit),
        Command::Accept => return heights(state, shared),
        Command::Watered => return watered(state, shared),
        Command::Skip => return onward(state, shared),
        Command::CheckBefore => back(state, shared),
        Command::BenchAfter => turn(state, shared, true),
        Command::BenchBefore => turn(state, shared, false),
        Command::Undo => return undo(state, shared),
        Command::Note => return vec![Effect::Go(To::Note(place))],
        Command::Leaves => return vec![Effect::Go(To::Leaves(state.bench.clone()))],
        Command::Add => return vec![Effect::Go(To::Add(place, Vec::new()))],
        Command::More => return vec![Effect::Go(To::More(state.bench.clone()))],
        Command::BenchPage => return vec![Effect::Go(To::Bench(state.bench.clone()))],
        Command::Back => {
            keep_line(state, shared);
            return vec![Effect::Go(To::Round)];
        }
        _ => {}
    }
    Vec::new()
}

/// A digit: judged, written, and on to the next check or bench.
fn score(state: &mut State, shared: &mut Shared, digit: u8) -> Vec<Effect> {
    let ms = shared.stamp.ms;
    match state.guard.judge(digit, ms) {
        Verdict::Take => {}
        Verdict::JustChanged => {
            shared.say(format!("{digit} not taken: this is {} now. Press it again if it is meant.", state.bench));
            return Vec::new();
        }
        Verdict::Held => {
            shared.say(format!("The {digit} is held down: not taken again. u takes back what was not meant."));
            return Vec::new();
        }
    }
    let Some(check) = state.check() else {
        shared.say("Nothing is asked here now: m for more checks, Tab for the next bench.");
        return Vec::new();
    };
    if !checks::takes(check, digit) {
        let digits = scale(check).digits;
        let (least, most) = (digits.first().map_or(0, |d| d.0), digits.last().map_or(9, |d| d.0));
        shared.trouble(format!("{} is {least} to {most}; {digit} was not taken.", scale(check).name));
        return Vec::new();
    }
    let history = shared.season.history(&state.bench, shared.day);
    let today: Vec<&Entry> = history.on(shared.day).collect();
    let Some(kind) = checks::kind(check, digit, &today, &shared.limits) else {
        let first = if check == CheckName::Base { "the water" } else { "the roots" };
        shared.trouble(format!("Score {first} first."));
        return Vec::new();
    };
    let mut effects = take_out(state, shared, check);
    effects.push(shared.write(Place::Bench(state.bench.clone()), kind, None));
    effects.extend(onward(state, shared));
    effects
}

/// A check scored again: what was written for it today is struck out, so that the new score counts.
fn take_out(state: &State, shared: &mut Shared, check: CheckName) -> Vec<Effect> {
    let history = shared.season.history(&state.bench, shared.day);
    let again = |e: &&Entry| {
        let same = e.place == Place::Bench(state.bench.clone());
        let with = match check {
            // The base is written with the water level, how far the roots reach with their score.
            CheckName::Water | CheckName::Roots => e.name() == checks::kind_name(check),
            _ => checks::answers(e, check),
        };
        same && with
    };
    let old: Vec<Entry> = history.on(shared.day).filter(again).cloned().collect();
    old.into_iter()
        .map(|entry| {
            shared.trail.retain(|id| *id != entry.id);
            let why = "scored again".to_owned();
            shared.write(entry.place.clone(), Kind::Strike { entry: entry.id, why, reopen: false }, None)
        })
        .collect()
}

/// To the next check not done, or to the next bench.
fn onward(state: &mut State, shared: &mut Shared) -> Vec<Effect> {
    let done = |check| done_today(state, shared, check);
    let later = state.checks.iter().enumerate().skip(state.at.saturating_add(1));
    if let Some((at, _)) = later.into_iter().find(|(_, check)| !done(**check)) {
        state.at = at;
        return Vec::new();
    }
    keep_line(state, shared);
    let Some(next) = route::next_open(shared, Some(&state.bench)) else {
        let left = state.checks.iter().filter(|c| !done_today(state, shared, **c)).count();
        shared.say(match left {
            0 => "The round is done: every bench that can be walked is walked.".to_owned(),
            _ => format!("Only {} is left, with checks passed over.", state.bench),
        });
        return vec![Effect::Go(To::Round)];
    };
    let passed = route::closed_between(shared, &state.bench, &next);
    if !passed.is_empty() {
        shared.say(format!("{} closed: passed over.", passed.join(", ")));
    }
    *state = State::card(&next, shared, state.guard.on_next_bench(shared.stamp.ms));
    Vec::new()
}

/// True when something written today answers a check.
fn done_today(state: &State, shared: &Shared, check: CheckName) -> bool {
    let history = shared.season.history(&state.bench, shared.day);
    history.on(shared.day).any(|e| checks::answers(e, check))
}

/// The line of heights: saved and onward; an empty one passes the check over.
fn heights(state: &mut State, shared: &mut Shared) -> Vec<Effect> {
    if state.line.is_blank() {
        return onward(state, shared);
    }
    let system = shared.system();
    let typed = state.line.text().replace([';', ','], " ");
    let cm: Result<Vec<f64>, _> =
        typed.split_whitespace().map(|word| parse::<Length>(word, system).map(Length::cm)).collect();
    let cm = match cm {
        Ok(cm) => cm,
        Err(why) => {
            shared.trouble(why.to_string());
            return Vec::new();
        }
    };
    state.line = crate::model::Field::default();
    let mut effects = take_out(state, shared, CheckName::Height);
    effects.push(shared.write(Place::Bench(state.bench.clone()), Kind::Height { cm }, None));
    effects.extend(onward(state, shared));
    effects
}

fn watered(state: &State, shared: &mut Shared) -> Vec<Effect> {
    let history = shared.season.history(&state.bench, shared.day);
    if history.on(shared.day).any(|e| e.name() == KindName::Watered) {
        shared.say("Watered is written for today already. A second watering goes by m; u takes back the last entry.");
        return Vec::new();
    }
    vec![shared.write(Place::Bench(state.bench.clone()), Kind::Watered { ml_per_pot: None }, None)]
}

/// To the check before; from the first to the bench before.
fn back(state: &mut State, shared: &mut Shared) {
    keep_line(state, shared);
    if state.at > 0 {
        state.at = state.at.saturating_sub(1);
    } else if let Some(before) = route::neighbor(shared, &state.bench, false) {
        *state = State::card(&before, shared, state.guard);
        state.at = state.checks.len().saturating_sub(1);
    }
}

/// To the bench before or after in walking order.
fn turn(state: &mut State, shared: &mut Shared, onward: bool) {
    keep_line(state, shared);
    match route::neighbor(shared, &state.bench, onward) {
        Some(next) => *state = State::card(&next, shared, state.guard),
        None => shared.say(if onward { "This is the last bench." } else { "This is the first bench." }),
    }
}

/// Strikes out the last entry, and goes to where it was written.
fn undo(state: &mut State, shared: &mut Shared) -> Vec<Effect> {
    let last = shared.last_written();
    let shuts = |id: &uuid::Uuid| shared.season.entry(*id).is_some_and(|e| closes(&e.kind));
    if last.len() > 1 || last.iter().any(shuts) {
        return shared.take_back();
    }
    let Some((entry, effect)) = shared.undo() else {
        shared.say("Nothing of this walk is left to take back.");
        return Vec::new();
    };
    if let Place::Bench(code) = &entry.place {
        keep_line(state, shared);
        if *code != state.bench {
            *state = State::card(code, shared, state.guard);
        }
        let asked = checks::asked_by(&entry);
        if let Some(at) = state.checks.iter().position(|c| Some(*c) == asked) {
            state.at = at;
        }
    }
    vec![effect]
}

/// Asks a check at once, whether it is due or not.
fn ask(state: &mut State, check: CheckName) {
    if let Some(at) = state.checks.iter().position(|c| *c == check) {
        state.at = at;
    } else {
        let at = state.at.min(state.checks.len());
        state.checks.insert(at, check);
        state.at = at;
    }
}

fn keep_line(state: &State, shared: &mut Shared) {
    shared.keep_draft(&draft_name(&state.bench), &state.line);
}
