//! The keys of a job: done, done otherwise, not needed, put to the next day, and a tick taken back.

use super::{Item, State};
use crate::model::{Effect, FormRequest, JobTick, Model, answers_of, go, job_form};
use crate::record::{Entry, JobOutcome};
use crate::report::words;
use crate::review::{Job, Review, Ticked};
use crate::warnings::Warning;
use std::sync::Arc;
use uuid::Uuid;

/// Said of a ticked job.
const TICKED: &str = "This job is ticked: u takes the tick back.";

/// The job at the cursor with its review; says why where none is there.
fn at_cursor<'s>(state: &'s State, model: &mut Model, problem: &str) -> Option<(&'s Job, &'s Review)> {
    let found = match state.cursor() {
        Some(Item::Job(job)) => Ok(job),
        Some(Item::Ticked(_)) => Err(TICKED),
        Some(Item::Problem(..)) => Err(problem),
        None => return None,
    };
    match found {
        Ok(job) => Some((job, state.review.as_ref()?)),
        Err(text) => {
            model.say(text);
            None
        }
    }
}

/// Ticks the job as done: at once, or by the form of its work where figures go with it.
pub(super) fn done(state: &mut State, model: &mut Model) -> Vec<Effect> {
    let Some((job, review)) = at_cursor(state, model, "A warning has no tick: w opens the form that responds to it.")
    else {
        return Vec::new();
    };
    if job.benches.is_empty() {
        let text = format!("Nothing to do yet: {}", job.text());
        model.say(text);
        return Vec::new();
    }
    let tick = JobTick::of(job, review, JobOutcome::Done);
    match job_form(job, model) {
        Some(ask) => vec![Effect::popup(go::Popup::Form(Box::new(ask.ticking(tick))))],
        None => write(state, model, &tick),
    }
}

/// Opens the form of what was done instead.
pub(super) fn otherwise(state: &State, model: &mut Model) -> Vec<Effect> {
    let Some((job, review)) = at_cursor(state, model, "") else { return Vec::new() };
    let asks = |w: &&Warning| job.names.contains(&w.name) && job.all().any(|bench| w.benches.contains(bench));
    let parts: Vec<Warning> = review.warnings.iter().filter(asks).cloned().collect();
    if answers_of(&parts, &model.season).is_empty() {
        model.say("No form goes with this job: d ticks it, - says why it is not needed.");
        return Vec::new();
    }
    vec![Effect::popup(go::Popup::Answer(parts, Some(JobTick::of(job, review, JobOutcome::Otherwise))))]
}

/// Asks why the job is not needed.
pub(super) fn not_needed(state: &State, model: &mut Model) -> Vec<Effect> {
    let text = "A warning is not skipped: p postpones it until a day.";
    let Some((job, review)) = at_cursor(state, model, text) else { return Vec::new() };
    let tick = JobTick::of(job, review, JobOutcome::NotNeeded);
    let ask = FormRequest::not_needed(tick, job.names.first().copied());
    ask.map(|ask| Effect::popup(go::Popup::Form(Box::new(ask)))).into_iter().collect()
}

/// Puts the job to the day after the one it is listed for.
pub(super) fn postpone(state: &mut State, model: &mut Model) -> Vec<Effect> {
    let Some((job, review)) = at_cursor(state, model, "") else { return Vec::new() };
    let tick = JobTick::of(job, review, JobOutcome::Postponed);
    let next = words::day_after(review);
    let effects = write(state, model, &tick);
    if !effects.is_empty() {
        model.say(format!("Put to {next}: it is on that day's list."));
    }
    effects
}

/// Writes a tick; the job is shown as ticked at once. Where nobody is named yet, asks who writes first.
fn write(state: &mut State, model: &mut Model, tick: &JobTick) -> Vec<Effect> {
    if model.by.is_empty() {
        return vec![Effect::popup(go::Popup::Who)];
    }
    let each = tick.kinds(None).into_iter();
    let entries: Vec<Entry> = each.map(|(place, kind)| model.entry(place, kind, None)).collect();
    let ids = entries.iter().map(|entry| entry.id).collect();
    let effects = model.record_or_say(entries);
    if !effects.is_empty() {
        show_ticked(state, tick.outcome, ids);
    }
    effects
}

/// Moves the job at the cursor to the ticked ones, until the review is put together again.
fn show_ticked(state: &mut State, outcome: JobOutcome, entries: Vec<Uuid>) {
    let at = state.list.cursor();
    state.stale = true;
    let Some(review) = state.review.as_mut().filter(|review| at < review.jobs.len()).map(Arc::make_mut) else { return };
    let Job { act, step, benches, place, .. } = review.jobs.remove(at);
    review.ticked.push(Ticked { act: Some(act), step: step.to_owned(), outcome, why: None, benches, place, entries });
}

/// Takes back the tick at the cursor, where it is not what was logged last: the usual undo does that.
pub(super) fn take_back(state: &mut State, model: &mut Model) -> Option<Vec<Effect>> {
    let Some(Item::Ticked(ticked)) = state.cursor() else { return None };
    let is_last = |next: Vec<Entry>| next.iter().any(|entry| ticked.entries.contains(&entry.id));
    if model.next_undo().is_some_and(is_last) {
        return None;
    }
    let ticks: Vec<Entry> = ticked.entries.iter().filter_map(|id| model.season.entry(*id).cloned()).collect();
    state.stale = true;
    if ticks.iter().any(|tick| model.season.origin(tick.id).is_some()) {
        // Another laptop's ticks are voided by the form that says whose they are.
        let ids: Vec<Uuid> = ticks.iter().map(|tick| tick.id).collect();
        let form = model.strike_form(&ids).map(|ask| Effect::popup(go::Popup::Form(Box::new(ask))));
        return Some(form.into_iter().collect());
    }
    Some(model.take_out(&ticks))
}
