//! The charts of the page, worked out before they are drawn; their navigation: next chart, back and forth in time, three
//! weeks or the season.

use super::State;
use crate::keys::Command;
use crate::model::{Model, Msg};
use crate::report::chart::Chart;
use crate::report::series::{self, Reach, Topic};
use chrono::{Days, NaiveDate};
use std::borrow::Cow;

/// The charts of a bench, and what they were made of.
#[derive(Debug, Clone)]
pub(super) struct Drawn {
    /// The day they look back from, how much time they cover, the entries there were, and whether last year was known.
    of: (NaiveDate, Reach, usize, bool),
    days: (NaiveDate, NaiveDate),
    charts: Vec<(Topic, Chart)>,
}

impl Drawn {
    fn of(state: &State, model: &Model) -> Self {
        let on = state.end.unwrap_or(model.day);
        let season = &model.season.on(on);
        let days = series::days(season, &state.bench, (state.reach, on));
        let mut charts = series::every(season, &state.bench, on, days, &model.limits);
        if let Some(last) = &model.last_year {
            series::with_last_year(season, (&state.bench, on), last, &mut charts);
        }
        Self { of: key(state, model), days, charts }
    }

    /// The first and last day they cover.
    pub(super) const fn days(&self) -> (NaiveDate, NaiveDate) {
        self.days
    }

    /// The chart of a topic.
    pub(super) fn chart(&self, topic: Topic) -> Option<&Chart> {
        self.charts.iter().find(|(of, _)| *of == topic).map(|(_, chart)| chart)
    }
}

fn key(state: &State, model: &Model) -> (NaiveDate, Reach, usize, bool) {
    (state.end.unwrap_or(model.day), state.reach, model.season.entries().len(), model.last_year.is_some())
}

/// Calculates the charts where a page shows them and they are not those of now.
pub(super) fn prepare(state: &mut State, model: &Model) {
    let shown = state.charts || super::view::has_charts(model.size.0);
    if shown && state.drawn.as_ref().is_none_or(|drawn| drawn.of != key(state, model)) {
        state.drawn = Some(Drawn::of(state, model));
    }
}

/// The charts of now; worked out here only where the window has just grown.
pub(super) fn drawn<'s>(state: &'s State, model: &Model) -> Cow<'s, Drawn> {
    match &state.drawn {
        Some(drawn) if drawn.of == key(state, model) => Cow::Borrowed(drawn),
        _ => Cow::Owned(Drawn::of(state, model)),
    }
}

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
        (Command::Span, charts) => {
            state.reach = match state.reach {
                Reach::Season => Reach::ThreeWeeks,
                Reach::ThreeWeeks => Reach::Season,
            };
            if !charts {
                model.say(format!("Charts: {}.", reach(state)));
            }
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

/// How much time the charts cover, in words.
pub(super) const fn reach(state: &State) -> &'static str {
    match state.reach {
        Reach::Season => "full season",
        Reach::ThreeWeeks => "3 weeks",
    }
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
