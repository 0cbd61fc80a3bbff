//! What the Walk card does.

use super::{State, checks, scale, shut, temperature};
use crate::controls::{Field, Verdict};
use crate::keys::Command;
use crate::model::{DraftKey, Effect, MixingRequest, Model, Msg, Response, Status, Undone, go, walk_order};
use crate::record::{Entry, FieldFault, Kind, KindName, Place, typed};
use crate::report::{doubts, sampling};
use crate::warnings::CheckName;

/// Handles a message.
pub fn update(state: &mut State, model: &mut Model, msg: &Msg) -> Response {
    if let Some(why) = state.shut(model)
        && let Some(response) = shut::update(state, model, msg, why)
    {
        return response;
    }
    match msg {
        Msg::Do(command) => act(state, model, *command),
        Msg::Type(key) => {
            state.typed_mut().key(key);
            state.fault = None;
            Some(Vec::new())
        }
        Msg::Paste(text) => {
            if state.is_typed() {
                state.typed_mut().paste(text);
                state.fault = None;
            }
            Some(Vec::new())
        }
        Msg::Found(code) => {
            found(state, model, code);
            Some(Vec::new())
        }
        Msg::Ask(check) => {
            ask(state, *check);
            Some(Vec::new())
        }
        Msg::NewDay => {
            keep_line(state, model);
            *state = State::card(&state.bench.clone(), model, state.guard);
            Some(Vec::new())
        }
        Msg::Changed | Msg::Quiet => None,
    }
}

fn act(state: &mut State, model: &mut Model, command: Command) -> Response {
    let place = Place::Bench(state.bench.as_str().into());
    match command {
        Command::Digit(digit) => return Some(score(state, model, digit)),
        Command::Accept if state.check() == Some(CheckName::Climate) => return Some(house(state, model)),
        Command::Accept if state.check() == Some(CheckName::Height) => return Some(heights(state, model)),
        Command::Accept => return Some(plots(state, model)),
        Command::Done => return Some(watered(state, model)),
        Command::NotNow if state.check().is_none() => return Some(next_bench(state, model)),
        Command::NotNow => return Some(onward(state, model)),
        Command::CheckBefore => back(state, model),
        Command::ViewAfter | Command::BenchAfter => turn(state, model, true),
        Command::ViewBefore | Command::BenchBefore => turn(state, model, false),
        Command::Undo => return Some(undo(state, model)),
        Command::Redo => return Some(redo(state, model)),
        Command::Note => return Some(vec![Effect::popup(go::Popup::Note(place))]),
        Command::Leaves => return Some(vec![Effect::popup(go::Popup::Leaves(state.bench.clone()))]),
        Command::Add => return Some(vec![Effect::popup(go::Popup::Add(place, Vec::new()))]),
        Command::More => return Some(vec![Effect::popup(go::Popup::More(state.bench.clone()))]),
        Command::Mix => {
            return Some(vec![Effect::page(go::Page::Mixing(MixingRequest::of(vec![state.bench.clone()])))]);
        }
        Command::Charts => return Some(vec![Effect::page(go::Page::Bench(state.bench.clone()))]),
        Command::Back => {
            keep_line(state, model);
            return Some(vec![Effect::page(go::Page::Round)]);
        }
        _ => return None,
    }
    Some(Vec::new())
}

/// A digit: judged, logged, and on to the next check or bench.
fn score(state: &mut State, model: &mut Model, digit: u8) -> Vec<Effect> {
    let ms = model.now.ms;
    match state.guard.judge(digit, ms) {
        Verdict::Take => {}
        Verdict::JustChanged => {
            model.say(format!("{digit} ignored: now at {}. Press again if you meant it.", state.bench));
            return Vec::new();
        }
        Verdict::Held => {
            model.say(format!("{digit} is held down: ignored. u undoes."));
            return Vec::new();
        }
    }
    let Some(check) = state.check() else {
        model.say("Nothing is due here now: m for more checks, Tab for the next bench.");
        return Vec::new();
    };
    if !checks::takes(check, digit) {
        let digits = scale(check).digits;
        let (least, most) = (digits.first().map_or(0, |d| d.0), digits.last().map_or(9, |d| d.0));
        model.trouble(format!("{} is {least} to {most}; {digit} was ignored.", scale(check).name));
        return Vec::new();
    }
    let history = model.season.history(&state.bench, model.day);
    let today: Vec<&Entry> = history.on(model.day).collect();
    let Some(kind) = checks::kind(check, digit, &today, &model.limits) else {
        let first = if check == CheckName::Base { "the water" } else { "the roots" };
        model.trouble(format!("Score {first} first."));
        return Vec::new();
    };
    let note = checks::scored(check, &today).and_then(|entry| entry.note.as_deref().map(str::to_owned));
    match record(state, model, check, (kind, note)) {
        Ok(effect) => {
            let more = say_more(model, check, digit);
            let then = onward(state, model);
            // What the way onward says comes after it.
            if let (Some(more), Some(Status::Info(said))) = (&more, &model.status)
                && more != said
            {
                let said = format!("{more} {said}");
                model.say(said);
            }
            [vec![effect], then].concat()
        }
        Err(faults) => {
            model.refuse(&faults);
            Vec::new()
        }
    }
}

/// Says how many more plants are to be checked for whitefly before the bench can be judged.
fn say_more(model: &mut Model, check: CheckName, digit: u8) -> Option<String> {
    let plants = model.limits.round.pests_plants;
    let more = sampling::more(&model.limits, plants, u32::from(digit)).filter(|_| check == CheckName::Whitefly)?;
    let text = format!("{plants} looked at, {digit}: {more} more.");
    model.say(text.clone());
    Some(text)
}

/// Records what answers a check. One scored again voids what was recorded for it today, so that the new score counts.
///
/// # Errors
/// Every fault, by field; nothing is recorded then.
fn record(
    state: &State,
    model: &mut Model,
    check: CheckName,
    (kind, note): (Kind, Option<String>),
) -> Result<Effect, Vec<FieldFault>> {
    let history = model.season.history(&state.bench, model.day);
    let again = |e: &&Entry| {
        let same = e.place == Place::Bench(state.bench.as_str().into());
        let with = match check {
            // The base is logged with the water level, how far the roots reach with their score.
            CheckName::Water | CheckName::Roots => e.name() == checks::kind_name(check),
            CheckName::Base
            | CheckName::Reach
            | CheckName::Bracts
            | CheckName::Whitefly
            | CheckName::Height
            | CheckName::Climate => checks::answers(e, check),
        };
        same && with
    };
    let old: Vec<Entry> = history.on(model.day).filter(again).cloned().collect();
    let entry = model.entry(Place::Bench(state.bench.as_str().into()), kind, note);
    model.replace_own(&old, "scored again", entry)
}

/// To the next check not done; then to the plots of a trial that are due here, which the card offers; then to the next bench.
fn onward(state: &mut State, model: &mut Model) -> Vec<Effect> {
    let done = |check| done_today(state, model, check);
    let later = state.checks.iter().enumerate().skip(state.at.saturating_add(1));
    if let Some((at, _)) = later.into_iter().find(|(_, check)| !done(**check)) {
        state.at = at;
        return Vec::new();
    }
    if state.plots_due(model).is_some() {
        state.at = state.checks.len();
        return Vec::new();
    }
    next_bench(state, model)
}

/// To the plots that are due on this bench.
fn plots(state: &State, model: &mut Model) -> Vec<Effect> {
    let Some((trial, _)) = state.plots_due(model) else {
        model.say(format!("No plots are due on {}.", state.bench));
        return Vec::new();
    };
    vec![Effect::page(go::Page::Plots(trial, Some(state.bench.clone())))]
}

/// To the next bench that can be walked and has a check due; to the Round where there is none.
pub(super) fn next_bench(state: &mut State, model: &mut Model) -> Vec<Effect> {
    keep_line(state, model);
    let Some(next) = walk_order::next_open(model, Some(&state.bench)) else {
        let left = state.checks.iter().filter(|c| !done_today(state, model, **c)).count();
        model.say(match left {
            1.. if state.shut(model).is_none() => format!("Only {} left, with skipped checks.", state.bench),
            _ => walk_order::all_walked(model, "The round is done: all"),
        });
        return vec![Effect::page(go::Page::Round)];
    };
    let passed = walk_order::closed_between(model, &state.bench, &next);
    if !passed.is_empty() {
        model.say(format!("{} closed: skipped.", passed.join(", ")));
    }
    *state = State::card(&next, model, state.guard.on_next(model.now.ms));
    Vec::new()
}

/// True when something logged today answers a check.
fn done_today(state: &State, model: &Model, check: CheckName) -> bool {
    if check == CheckName::Climate {
        return !model.asks_temperature(&state.bench);
    }
    let history = model.season.history(&state.bench, model.day);
    history.on(model.day).any(|e| checks::answers(e, check))
}

/// The line of the house's temperature: saved and onward, or skipped for the day.
fn house(state: &mut State, model: &mut Model) -> Vec<Effect> {
    let Some(effects) = temperature::accept(state, model) else { return Vec::new() };
    [effects, onward(state, model)].concat()
}

/// The line of heights: saved and onward; an empty one skips the check. One that is refused stays as it was typed, and
/// its fault is shown below it.
fn heights(state: &mut State, model: &mut Model) -> Vec<Effect> {
    if state.line.is_blank() {
        return onward(state, model);
    }
    let kind = typed::lengths(KindName::Height, state.line.text(), model.system());
    // What fits no sane crop is asked about once; the same line again is meant.
    let made = kind.clone().ok().map(|kind| model.entry(Place::Bench(state.bench.as_str().into()), kind, None));
    if let Some((_, doubt)) = made.and_then(|entry| doubts::doubt(&model.season, &entry, model.system())) {
        let asked = format!("heights: {doubt}");
        if state.fault.as_ref() != Some(&asked) {
            state.fault = Some(asked);
            return Vec::new();
        }
    }
    match kind.and_then(|kind| record(state, model, CheckName::Height, (kind, None))) {
        Ok(effect) => {
            state.line = Field::default();
            [vec![effect], onward(state, model)].concat()
        }
        Err(faults) => {
            state.fault = faults.first().map(|fault| format!("heights: {}", fault.text));
            Vec::new()
        }
    }
}

fn watered(state: &State, model: &mut Model) -> Vec<Effect> {
    let history = model.season.history(&state.bench, model.day);
    if history.on(model.day).any(|e| e.name() == KindName::Watered) {
        model.say("Already logged as watered today. For a second watering press m; u undoes.");
        return Vec::new();
    }
    let entry = model.entry(Place::Bench(state.bench.as_str().into()), Kind::Watered { ml_per_pot: None }, None);
    model.record_or_say(vec![entry])
}

/// To the check before; from the first to the bench before.
fn back(state: &mut State, model: &mut Model) {
    keep_line(state, model);
    if state.at > 0 {
        state.at = state.at.saturating_sub(1);
    } else if let Some(before) = walk_order::neighbor(model, &state.bench, false) {
        *state = State::card(&before, model, state.guard);
        state.at = state.checks.len().saturating_sub(1);
    }
}

/// To the bench before or after in walking order.
pub(super) fn turn(state: &mut State, model: &mut Model, onward: bool) {
    keep_line(state, model);
    match walk_order::neighbor(model, &state.bench, onward) {
        Some(next) => *state = State::card(&next, model, state.guard),
        None => model.say(if onward { "This is the last bench." } else { "This is the first bench." }),
    }
}

/// To the card of a bench that was found; one that cannot be walked says why.
pub(super) fn found(state: &mut State, model: &mut Model, code: &str) {
    keep_line(state, model);
    match walk_order::shut(model, code) {
        Some(why) => model.trouble(why.text(model, code)),
        None => *state = State::card(code, model, state.guard),
    }
}

/// Voids what was recorded last; where that is one entry, goes to where it was recorded.
fn undo(state: &mut State, model: &mut Model) -> Vec<Effect> {
    let (entries, effect) = match model.undo() {
        Undone::Changed { entries, effect } => (entries, effect),
        Undone::Asks(form) => return vec![Effect::popup(go::Popup::Form(form))],
        Undone::Nothing => {
            model.say("Nothing left to undo in this walk.");
            return Vec::new();
        }
        Undone::Refused(faults) => {
            model.refuse(&faults);
            return Vec::new();
        }
    };
    if let [entry] = entries.as_slice()
        && let Place::Bench(code) = &entry.place
    {
        keep_line(state, model);
        if **code != *state.bench {
            *state = State::card(code, model, state.guard);
        }
        let asked = checks::asked_by(entry);
        if let Some(at) = state.checks.iter().position(|c| Some(*c) == asked) {
            state.at = at;
        }
    }
    vec![effect]
}

/// Brings back what was voided last; goes to the check after it.
fn redo(state: &mut State, model: &mut Model) -> Vec<Effect> {
    let before = model.pending.len();
    let effects = model.redo_and_say();
    let brought = model.pending.iter().skip(before).filter_map(|id| model.season.entry(*id));
    let place = brought.map(|entry| entry.place.clone()).next_back();
    if let Some(Place::Bench(code)) = place {
        keep_line(state, model);
        *state = State::card(&code, model, state.guard);
    }
    effects
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

pub(super) fn keep_line(state: &State, model: &mut Model) {
    model.keep_draft_field(DraftKey::Heights(state.bench.clone()), &state.line);
    model.keep_draft_field(temperature::draft(&state.bench, model), &state.temperature);
}
