//! What the readings card does.

use super::work::Work;
use super::{Asked, State, reading, since};
use crate::controls::{Field, Verdict};
use crate::input::{Code, Key};
use crate::keys::Command;
use crate::model::walk_order::{self, Shut};
use crate::model::{Effect, Go, Model, Msg, Response, Undone, fault_text, go};
use crate::record::{Entry, FieldFault, Kind, Plot, Term, TrialReading};
use crate::report::{doubts, words};
use crate::trials;

/// Handles a message.
pub fn update(state: &mut State, model: &mut Model, msg: &Msg) -> Response {
    if let Some(why) = state.shut(model)
        && let Some(response) = shut(state, model, msg, why)
    {
        return response;
    }
    let asks_lost = std::mem::take(&mut state.asks_lost);
    match msg {
        Msg::Do(Command::Done) => return Some(lost(state, model, asks_lost)),
        Msg::Do(command) => return act(state, model, *command),
        Msg::Type(key) => {
            state.line.key(key);
            state.fault = None;
        }
        Msg::Paste(text) => {
            if asks_line(state, model) {
                state.line.paste(text);
                state.fault = None;
            }
        }
        Msg::NewDay => new_day(state, model),
        Msg::Changed | Msg::Quiet => {
            state.asks_lost = asks_lost;
            return None;
        }
        Msg::Found(code) => return found(state, model, code),
        Msg::Ask(_) => return None,
    }
    Some(Vec::new())
}

/// The card of a bench that was closed or emptied meanwhile: it takes no reading and says until when.
fn shut(state: &State, model: &mut Model, msg: &Msg, why: Shut) -> Option<Response> {
    Some(Some(match msg {
        Msg::Do(Command::Accept | Command::Back) => leave(state, model),
        Msg::Type(_) | Msg::Paste(_) => {
            let bench = state.bench(model).unwrap_or_default();
            model.trouble(format!("Not logged: {}", why.text(model, &bench)));
            Vec::new()
        }
        Msg::Do(_) => return Some(None),
        Msg::NewDay | Msg::Changed | Msg::Quiet | Msg::Found(_) | Msg::Ask(_) => return None,
    }))
}

fn act(state: &mut State, model: &mut Model, command: Command) -> Response {
    Some(match command {
        Command::Digit(digit) => pressed(state, model, digit),
        Command::Accept => accept(state, model),
        Command::NotNow => skip(state, model),
        Command::CheckBefore => back(state, model),
        Command::BenchAfter | Command::ViewAfter => beside(state, model, true),
        Command::BenchBefore | Command::ViewBefore => beside(state, model, false),
        Command::Undo => undo(state, model),
        Command::Redo => redo(state, model),
        Command::More => other_way(state, model),
        Command::Note => of_plot(state, model, |plot| go::Popup::PlotNote(plot.bench, plot.plot)),
        Command::Strikes => of_plot(state, model, |plot| go::Popup::WrittenOfPlot(plot.plot)),
        Command::Back => leave(state, model),
        _ => return None,
    })
}

/// Back to where the card was opened from; what was typed is kept.
fn leave(state: &State, model: &mut Model) -> Vec<Effect> {
    state.keep_line(model);
    vec![Effect::Go(Go::Back)]
}

/// The plot and the reading that are asked.
fn asked(state: &State, model: &Model) -> Option<(Plot, TrialReading)> {
    let asked = state.asked.as_ref()?;
    Some((model.season.plot(&asked.plot)?.clone(), asked.reading))
}

/// True where a number is typed.
fn asks_line(state: &State, model: &Model) -> bool {
    asked(state, model).is_some_and(|(plot, of)| reading::digits(of, &plot, state.ways).is_none())
}

/// A digit: a score, or the first of a number.
fn pressed(state: &mut State, model: &mut Model, digit: u8) -> Vec<Effect> {
    let Some((plot, of)) = asked(state, model) else {
        model.say("Every plot is read: Enter returns, the arrows go to a plot.");
        return Vec::new();
    };
    let Some(digits) = reading::digits(of, &plot, state.ways) else {
        // A digit dropped here would leave another number: only one that is held down is.
        if state.guard.is_held(digit, model.now.ms) {
            model.say(format!("{digit} is held down: ignored."));
        } else {
            state.line.key(&Key::new(Code::Char(char::from(b'0'.saturating_add(digit)))));
            state.fault = None;
        }
        return Vec::new();
    };
    match state.guard.judge(digit, model.now.ms) {
        Verdict::Take => {}
        Verdict::JustChanged => {
            model.say(format!("{digit} ignored: now at plot {}. Press again if you meant it.", plot.number()));
            return Vec::new();
        }
        Verdict::Held => {
            model.say(format!("{digit} is held down: ignored. u undoes."));
            return Vec::new();
        }
    }
    let Some(kind) = reading::of_digit(of, &plot, state.ways, digit) else {
        let (least, most) = (digits.first().map_or(0, |d| d.0), digits.last().map_or(9, |d| d.0));
        model.trouble(format!("{} is {least} to {most}; {digit} was ignored.", of.text()));
        return Vec::new();
    };
    match record(model, (&plot, of), kind) {
        Ok(effect) => [vec![effect], onward(state, model)].concat(),
        Err(faults) => {
            model.refuse(&faults);
            Vec::new()
        }
    }
}

/// Enter: saves the line and goes on; where every plot is read it leaves the card.
fn accept(state: &mut State, model: &mut Model) -> Vec<Effect> {
    let Some((plot, of)) = asked(state, model) else { return leave(state, model) };
    if !asks_line(state, model) || state.line.is_blank() {
        model.say("Nothing to save yet: - skips this reading.");
        return Vec::new();
    }
    let left = plot.pots.saturating_sub(trials::pots_lost(&model.season, &plot, model.day));
    let read = reading::of_line(of, (&plot, left), state.ways, (state.line.text(), model.system()));
    // What fits no sane crop is asked about once; the same line again is meant.
    let made = read.clone().ok().map(|kind| model.plot_entry((&plot.bench, &plot.plot), kind, None));
    if let Some((_, doubt)) = made.and_then(|entry| doubts::doubt(&model.season, &entry, model.system()))
        && state.fault.as_ref() != Some(&doubt)
    {
        state.fault = Some(doubt);
        return Vec::new();
    }
    match read.and_then(|kind| record(model, (&plot, of), kind)) {
        Ok(effect) => {
            state.line = Field::default();
            [vec![effect], onward(state, model)].concat()
        }
        Err(faults) => {
            let named = |fault: &FieldFault| match fault.field.as_str() {
                "bench" | "plot" => fault_text(fault),
                _ => format!("{}: {}", of.text(), fault.text),
            };
            state.fault = faults.first().map(named);
            Vec::new()
        }
    }
}

/// Records a reading. One made again voids what was read of it on that plot today, so that the new one counts.
///
/// # Errors
/// Every fault, by field; nothing is recorded then.
fn record(model: &mut Model, (plot, of): (&Plot, TrialReading), kind: Kind) -> Result<Effect, Vec<FieldFault>> {
    let today = model.season.plot_entries(&plot.plot, model.day).filter(|e| e.day() == model.day);
    let old: Vec<Entry> = today.filter(|e| trials::is_of(&e.kind, of)).cloned().collect();
    let note = old.last().and_then(|entry| entry.note.as_deref().map(str::to_owned));
    let kind = reading::completed(kind, old.last().map(|entry| &*entry.kind));
    let entry = model.plot_entry((&plot.bench, &plot.plot), kind, note);
    model.replace_own(&old, "read again", entry)
}

/// To the next reading that is missing; back where none is.
fn onward(state: &mut State, model: &mut Model) -> Vec<Effect> {
    let work = Work::of(state, model);
    let (next, (read, all)) = (work.next(state.asked.as_ref()), work.count());
    if next.is_some() {
        state.turn_to(model, next);
        return Vec::new();
    }
    let on = state.bench.as_ref().map_or_else(String::new, |bench| format!(" on {bench}"));
    let of = &state.trial;
    model.say(if read == all {
        format!("All {} of {of}{on} are read.", words::plots(all))
    } else {
        format!("{read} of {all} plots of {of}{on} are read; the others are on closed benches.")
    });
    state.turn_to(model, None);
    vec![Effect::Go(Go::Back)]
}

/// Leaves what is asked open, and goes on to what else is missing.
fn skip(state: &mut State, model: &mut Model) -> Vec<Effect> {
    let next = Work::of(state, model).next(state.asked.as_ref());
    if next.is_none() || next == state.asked {
        model.say("Nothing else is left; Esc returns.");
    } else {
        state.turn_to(model, next);
    }
    Vec::new()
}

/// To the reading before, made or not.
fn back(state: &mut State, model: &mut Model) -> Vec<Effect> {
    match Work::of(state, model).before(state.asked.as_ref()) {
        Some(before) => state.turn_to(model, Some(before)),
        None => model.say("This is the first reading."),
    }
    Vec::new()
}

/// To the plot before or after.
fn beside(state: &mut State, model: &mut Model, onward: bool) -> Vec<Effect> {
    match Work::of(state, model).beside(state.asked.as_ref(), onward) {
        Some(next) => state.turn_to(model, Some(next)),
        None => model.say(if onward { "This is the last plot." } else { "This is the first plot." }),
    }
    Vec::new()
}

/// To a plot by its code: its first missing reading, or its first. `None` where the card has no such plot.
fn found(state: &mut State, model: &mut Model, code: &str) -> Response {
    let work = Work::of(state, model);
    let one = work.one(code)?;
    let (bench, lost, asked) = (one.plot.bench.clone(), one.lost, work.first_of(one));
    match walk_order::shut(model, &bench) {
        Some(why) => model.trouble(why.text(model, &bench)),
        None if lost => model.say(format!("{code} is lost: nothing is read of it.")),
        None => state.turn_to(model, asked),
    }
    Some(Vec::new())
}

/// Asks whether the plot is lost; asked already, writes its pots off and goes on.
fn lost(state: &mut State, model: &mut Model, is_asked: bool) -> Vec<Effect> {
    let Some((plot, _)) = asked(state, model) else {
        model.say("Go to a plot first: the arrows do.");
        return Vec::new();
    };
    if !is_asked {
        state.asks_lost = true;
        return Vec::new();
    }
    let pots = plot.pots.saturating_sub(trials::pots_lost(&model.season, &plot, model.day));
    let entry = model.plot_entry((&plot.bench, &plot.plot), Kind::Losses { pots, cause: None }, None);
    match model.record(vec![entry]) {
        Ok(effect) => {
            state.line = Field::default();
            [vec![effect], onward(state, model)].concat()
        }
        Err(faults) => {
            model.refuse(&faults);
            Vec::new()
        }
    }
}

/// Reads greenness, or the EC, in another way.
fn other_way(state: &mut State, model: &mut Model) -> Vec<Effect> {
    match state.asked.as_ref().map(|asked| asked.reading) {
        Some(TrialReading::Greenness) => state.ways.meter = !state.ways.meter,
        Some(TrialReading::RootZone) => state.ways.method = reading::next_method(state.ways.method),
        _ => model.say("This is read in one way only."),
    }
    Vec::new()
}

/// Opens what is about the plot that is asked.
fn of_plot(state: &State, model: &mut Model, popup: impl FnOnce(Plot) -> go::Popup) -> Vec<Effect> {
    let Some((plot, _)) = asked(state, model) else {
        model.say("Go to a plot first: the arrows do.");
        return Vec::new();
    };
    vec![Effect::popup(popup(plot))]
}

/// Voids what was recorded last; where that is a reading of the card, asks it again.
fn undo(state: &mut State, model: &mut Model) -> Vec<Effect> {
    match model.undo() {
        Undone::Changed { entries, effect } => {
            if let [entry] = entries.as_slice() {
                return_to(state, model, entry);
            }
            return vec![effect];
        }
        Undone::Asks(form) => return vec![Effect::popup(go::Popup::Form(form))],
        Undone::Nothing => model.say("Nothing left to undo in this session."),
        Undone::Refused(faults) => model.refuse(&faults),
    }
    Vec::new()
}

/// Brings back what was voided last, and goes to what is missing after it.
fn redo(state: &mut State, model: &mut Model) -> Vec<Effect> {
    let before = model.pending.len();
    let effects = model.redo_and_say();
    let brought = model.pending.iter().skip(before).filter_map(|id| model.season.entry(*id)).next_back().cloned();
    if let Some(entry) = brought {
        return_to(state, model, &entry);
        let next = Work::of(state, model).next(state.asked.as_ref());
        state.turn_to(model, next);
    }
    effects
}

/// Asks what an entry of the card answers: its reading, or the first of a plot that is not lost after all.
fn return_to(state: &mut State, model: &mut Model, entry: &Entry) {
    let work = Work::of(state, model);
    let Some(one) = entry.plot.as_deref().and_then(|plot| work.one(plot)) else { return };
    let of = work.readings.iter().find(|reading| trials::is_of(&entry.kind, **reading)).or_else(|| {
        let missing = one.read.iter().position(Option::is_none).unwrap_or(0);
        work.readings.get(missing)
    });
    let asked = of.map(|of| Asked { plot: one.plot.plot.clone(), reading: *of });
    if asked.is_some() {
        state.turn_to(model, asked);
    }
}

/// Another day: what is missing since then is asked, from where the card is.
fn new_day(state: &mut State, model: &mut Model) {
    state.keep_line(model);
    state.since = since(model, &state.trial);
    if state.asked.is_none() {
        let next = Work::of(state, model).next(None);
        state.turn_to(model, next);
    }
}
