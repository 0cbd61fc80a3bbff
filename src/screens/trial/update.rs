//! What the Trial page does.

use super::{Part, State, view};
use crate::controls::List;
use crate::dates;
use crate::keys::Command;
use crate::model::{Effect, Go, Model, Msg, Response, go};
use crate::record::Term;
use crate::trials::Over;

/// Handles a message.
pub fn update(state: &mut State, model: &mut Model, msg: &Msg) -> Response {
    match msg {
        Msg::Quiet => state.work(model),
        Msg::Changed | Msg::NewDay => state.refresh(model),
        Msg::Do(command) => return act(state, model, *command),
        Msg::Found(_) => return None,
        Msg::Type(_) | Msg::Paste(_) | Msg::Ask(_) => {}
    }
    Some(Vec::new())
}

fn act(state: &mut State, model: &mut Model, command: Command) -> Response {
    let trial = state.trial.clone();
    match command {
        Command::Back => return Some(vec![Effect::Go(Go::Back)]),
        Command::Add => return Some(vec![Effect::popup(go::Popup::NewTrial)]),
        Command::ViewAfter => turn(state, true),
        Command::ViewBefore => turn(state, false),
        Command::Earlier => day(state, model, false),
        Command::Later => day(state, model, true),
        Command::View => reading(state, model),
        Command::Span => span(state, model),
        Command::Order => compare(state, model),
        Command::More => before(state, model),
        Command::BenchAfter => return Some(next(state, model, true)),
        Command::BenchBefore => return Some(next(state, model, false)),
        Command::Accept => return Some(vec![Effect::page(go::Page::Plots(trial, None))]),
        Command::Work => return Some(give(&trial, model)),
        Command::Done => return Some(use_rate(state, model)),
        Command::NotNow => return Some(end(state, model)),
        Command::Paper => return Some(paper(state, model)),
        Command::Strikes => return Some(void(state, model)),
        other => return scroll(state, model, other),
    }
    Some(Vec::new())
}

/// To the next part, from its top.
fn turn(state: &mut State, onward: bool) {
    state.part = state.part.turned(onward);
    state.list = List::default();
}

/// To the day read before or after the one shown. Of the entries to the first of the day before or after.
fn day(state: &mut State, model: &mut Model, onward: bool) {
    let (Some(readings), Some(over)) = (&state.readings, state.over()) else { return };
    let days: Vec<_> = readings.days(state.reading).into_iter().map(|read| read.day).collect();
    let Over::Day(shown) = over else {
        (state.growth, state.day) = (false, None);
        return;
    };
    let to = if onward { days.iter().find(|day| **day > shown) } else { days.iter().rfind(|day| **day < shown) };
    match to {
        Some(day) => state.day = Some(*day),
        None if days.is_empty() => model.say("Nothing is read yet."),
        None if onward => model.say("This is the last day read."),
        None => model.say("This is the first day read."),
    }
    if state.part == Part::Readings {
        let shown = state.day.unwrap_or(shown);
        let at = state.entries(model).iter().position(|entry| entry.day() <= shown);
        state.list.set(at.unwrap_or(0));
    }
}

/// To the next reading of the trial.
fn reading(state: &mut State, model: &mut Model) {
    let Some(readings) = &state.readings else { return };
    let all = &readings.trial.reads;
    let at = all.iter().position(|reading| *reading == state.reading).unwrap_or(0);
    match all.get(at.saturating_add(1)).or_else(|| all.first()) {
        Some(next) if *next != state.reading => {
            (state.reading, state.day) = (*next, None);
            model.say(format!("Reading: {}.", next.text()));
        }
        _ => model.say(format!("{} is the only reading of this trial.", state.reading.text())),
    }
}

/// Between a day and the growth over all days.
fn span(state: &mut State, model: &mut Model) {
    let many = state.readings.as_ref().is_some_and(|readings| readings.days(state.reading).len() > 2);
    if many {
        state.growth = !state.growth;
        model.say(if state.growth { "Growth over all days." } else { "One day." });
    } else {
        model.say("Growth needs three days of readings.");
    }
}

/// Between the comparisons of the trial's line and the other ones.
fn compare(state: &mut State, model: &mut Model) {
    let control = state.readings.as_ref().is_some_and(|readings| readings.trial.control.is_some());
    if control {
        state.other = !state.other;
        let own = if state.other { "Other comparisons than the trial's own." } else { "The trial's own comparisons." };
        model.say(own);
    } else {
        model.say("Without a control there are no other comparisons: all pairs are compared.");
    }
}

/// With or without what was read before the treatment.
fn before(state: &mut State, model: &mut Model) {
    let day = state.readings.as_ref().and_then(|readings| readings.baseline(state.reading));
    match day {
        Some(day) => {
            state.before = !state.before;
            let with = if state.before { "With" } else { "Without" };
            model.say(format!("{with} what was read before the treatment, on {}.", dates::short(day)));
        }
        None => model.say("No reading of every plot before the treatment."),
    }
}

/// To the next trial.
fn next(state: &mut State, model: &mut Model, onward: bool) -> Vec<Effect> {
    let codes: Vec<String> = model.season.trials().iter().map(|trial| trial.trial.clone()).collect();
    let at = codes.iter().position(|code| *code == state.trial).unwrap_or(0);
    let to = if onward { at.checked_add(1) } else { at.checked_sub(1) };
    match to.and_then(|to| codes.get(to)) {
        Some(code) => *state = State { part: state.part, ..State::new(code, model) },
        None => model.say(if onward { "This is the last trial." } else { "This is the first trial." }),
    }
    Vec::new()
}

/// Asks once before the treatments are logged as given.
fn give(trial: &str, model: &mut Model) -> Vec<Effect> {
    if model.not_given(trial).is_empty() {
        model.say("Every treatment is logged as given.");
        return Vec::new();
    }
    vec![Effect::popup(go::Popup::GiveTreatments(trial.to_owned()))]
}

/// Asks which rate is used next season.
fn use_rate(state: &State, model: &mut Model) -> Vec<Effect> {
    if !state.readings.as_ref().is_some_and(|readings| readings.trial.rates_are_grams()) {
        model.say("Only rates in g per pot can be kept as the lot's slow-release of next season.");
        return Vec::new();
    }
    vec![Effect::popup(go::Popup::UseRate(state.trial.clone()))]
}

/// Asks why the trial is ended early.
fn end(state: &State, model: &mut Model) -> Vec<Effect> {
    let Some(trial) = state.readings.as_ref().map(|readings| &readings.trial) else { return Vec::new() };
    match (trial.until, &trial.ended_because) {
        (Some(until), Some(_)) => model.say(format!("Ended on {} already.", dates::weekday(until))),
        (Some(until), None) if until < model.day => {
            model.say(format!("Its last day was {}: there is nothing to end.", dates::weekday(until)));
        }
        _ => return vec![Effect::popup(go::Popup::EndTrial(state.trial.clone()))],
    }
    Vec::new()
}

/// Asks for the file of the report.
fn paper(state: &State, model: &mut Model) -> Vec<Effect> {
    if state.readings.is_none() {
        model.say("No such trial.");
        return Vec::new();
    }
    vec![Effect::popup(go::Popup::TrialReport(state.trial.clone(), state.reading))]
}

/// The form that voids the entry under the cursor.
fn void(state: &mut State, model: &mut Model) -> Vec<Effect> {
    if state.part != Part::Readings {
        state.part = Part::Readings;
        state.list = List::default();
        model.say("Choose the entry to void, then x again.");
        return Vec::new();
    }
    let id = state.entries(model).get(state.list.cursor()).map(|entry| entry.id);
    let form = id.and_then(|id| model.strike_form(&[id]));
    if form.is_none() {
        model.say("Nothing is logged of the plots.");
    }
    form.map(|form| Effect::popup(go::Popup::Form(Box::new(form)))).into_iter().collect()
}

/// Moves the cursor over the entries, or what is seen of a text.
fn scroll(state: &mut State, model: &Model, command: Command) -> Response {
    let height = view::height(model);
    if state.part == Part::Readings {
        let count = state.entries(model).len();
        return state.list.step(command, count, height).then(Vec::new);
    }
    let last = view::longest(state, model).saturating_sub(height);
    state.list.scroll(command, last, height.saturating_sub(2)).then(Vec::new)
}
