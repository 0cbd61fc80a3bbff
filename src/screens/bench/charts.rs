//! Navigation of the charts: next chart, back and forth in time, three weeks or the season.

use super::State;
use crate::keys::Command;
use crate::model::{Model, Msg};
use crate::report::series::{Reach, Topic};
use chrono::{Days, NaiveDate};

/// Handles a command of the charts; false for any other.
pub(super) fn update(state: &mut State, model: &mut Model, msg: &Msg) -> bool {
    let Msg::Do(command) = msg else { return false };
    let count = Topic::ALL.len();
    match (command, state.charts) {
        (Command::Charts, _) => state.charts = !state.charts,
        (Command::ViewAfter | Command::Down, true) => state.topic = state.topic.saturating_add(1) % count,
        (Command::ViewBefore | Command::Up, true) => {
            state.topic = state.topic.saturating_add(count.saturating_sub(1)) % count;
        }
        (Command::Span, true) => {
            state.reach = match state.reach {
                Reach::Season => Reach::ThreeWeeks,
                Reach::ThreeWeeks => Reach::Season,
            };
        }
        (Command::Earlier, true) => step(state, model, false),
        (Command::Later, true) => step(state, model, true),
        (Command::Last, true) => state.end = None,
        (Command::First | Command::PageDown | Command::PageUp, true) => {}
        (Command::Back, true) => state.charts = false,
        _ => return false,
    }
    true
}

/// A week on or back, between the planting and the working day.
fn step(state: &mut State, model: &mut Model, onward: bool) {
    let now = state.end.unwrap_or(model.day);
    let week = Days::new(7);
    let to = if onward { now.checked_add_days(week) } else { now.checked_sub_days(week) };
    let first: Option<NaiveDate> = model.season.lots().iter().map(|l| l.planted).min();
    match to {
        Some(day) if day >= model.day => {
            if state.end.is_none() {
                model.say("This is the working day; nothing later.");
            }
            state.end = None;
        }
        Some(day) if first.is_none_or(|f| day >= f) => state.end = Some(day),
        _ => model.say("Nothing was planted before this."),
    }
}
