//! The pages, a folder each: state, message handling, view.
//!
//! To add a page: its folder here, its variant in [`Screen`] with an arm in each function below, its way in
//! [`crate::model::go`], its context and rows in `keys`.

pub mod bench;
mod chart_view;
pub mod first;
pub mod mixing;
pub mod plots;
pub mod review;
pub mod round;
pub mod season;
pub mod set_up;
pub mod share;
pub mod trial;
pub mod walk;

use crate::keys::Context;
use crate::model::{Model, Msg, Response, go};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};

/// The page shown, with its state.
#[derive(Debug, Clone)]
pub enum Screen {
    /// The benches in walking order.
    Round(round::State),
    /// One bench and what is due on it.
    Walk(walk::State),
    /// The flagged benches, and tomorrow's work.
    Review(review::State),
    /// Everything known of a bench.
    Bench(bench::State),
    /// What to measure out.
    Mixing(mixing::State),
    /// Calendar, nights and pots of the season.
    Season(season::State),
    /// No season yet.
    First(first::State),
    /// The plan, and its forms a key away.
    SetUp(set_up::State),
    /// The laptops that keep the season, and what lies between them.
    Share(share::State),
    /// The plots of a trial, read by single keys.
    Plots(plots::State),
    /// The list of trials, or what a trial is.
    Trials(trial::list::State),
    /// A trial on the benches.
    Trial(Box<trial::State>),
}

impl Screen {
    /// The Round.
    pub fn round(model: &Model) -> Self {
        Self::Round(round::State::new(model))
    }

    /// The first-run page.
    pub fn first() -> Self {
        Self::First(first::State::default())
    }

    /// The page of the only trial; the list of several, or what a trial is where there is none.
    fn trials(model: &Model) -> Self {
        match model.season.trials().as_slice() {
            [only] => Self::Trial(Box::new(trial::State::new(&only.trial, model))),
            _ => Self::Trials(trial::list::State::default()),
        }
    }

    /// Opens a page; `None` where that is not possible now (the status line says why).
    pub fn open(page: go::Page, model: &mut Model) -> Option<Self> {
        Some(match page {
            go::Page::Round => Self::round(model),
            go::Page::Walk(from) => Self::Walk(walk::State::open(from.as_deref(), model)?),
            go::Page::Review => Self::Review(review::State::new()),
            go::Page::Bench(code) => Self::Bench(bench::State::new(&code, model)),
            go::Page::Mixing(mixing) => Self::Mixing(mixing::State::open(&mixing, model)),
            go::Page::Season => Self::Season(season::State::new(model)),
            go::Page::Share => Self::Share(share::State::default()),
            go::Page::SetUp => Self::SetUp(set_up::State::default()),
            go::Page::Plots(trial, bench) => Self::Plots(plots::State::open(&trial, bench, model)?),
            go::Page::Trials => Self::trials(model),
            go::Page::Trial(code) => Self::Trial(Box::new(trial::State::new(&code, model))),
        })
    }

    /// The key context.
    pub fn context(&self, model: &Model) -> Context {
        match self {
            Self::Round(_) => Context::Round,
            Self::Walk(state) => state.context(model),
            Self::Review(_) => Context::Review,
            Self::Mixing(_) => Context::Mixing,
            Self::Bench(state) => state.context(),
            Self::Season(_) => Context::Season,
            Self::First(_) => Context::First,
            Self::Share(_) => Context::Share,
            Self::SetUp(_) => Context::SetUp,
            Self::Plots(state) => state.context(model),
            Self::Trials(_) => Context::Trials,
            Self::Trial(state) => state.context(),
        }
    }

    /// True when slow work of the page waits for [`Msg::Quiet`].
    pub fn waits(&self) -> bool {
        match self {
            Self::Review(state) => state.waits(),
            Self::Trial(state) => state.waits(),
            Self::Season(state) => state.waits(),
            _ => false,
        }
    }

    /// True where a key logs something.
    pub const fn writes(&self) -> bool {
        matches!(self, Self::Walk(_) | Self::Mixing(_) | Self::Plots(_))
    }

    /// The bench of the page, or under its cursor.
    pub fn bench(&self, model: &Model) -> Option<String> {
        match self {
            Self::Round(state) => state.cursor(model),
            Self::Walk(state) => Some(state.bench().to_owned()),
            Self::Review(state) => state.bench(),
            Self::Bench(state) => Some(state.bench().to_owned()),
            Self::Mixing(state) => state.bench(),
            Self::First(_) | Self::Season(_) | Self::Share(_) | Self::Trials(_) => None,
            Self::Trial(state) => state.bench(),
            Self::SetUp(state) => state.bench(model),
            Self::Plots(state) => state.bench(model),
        }
    }

    /// Passes a message to the page; returns the effects.
    pub fn update(&mut self, model: &mut Model, msg: &Msg) -> Response {
        match self {
            Self::Round(state) => round::update(state, model, msg),
            Self::Walk(state) => walk::update(state, model, msg),
            Self::Review(state) => review::update(state, model, msg),
            Self::Bench(state) => bench::update(state, model, msg),
            Self::Mixing(state) => mixing::update(state, model, msg),
            Self::Season(state) => season::update(state, model, msg),
            Self::First(_) => first::update(msg),
            Self::Share(state) => share::update(state, model, msg),
            Self::SetUp(state) => set_up::update(state, model, msg),
            Self::Plots(state) => plots::update(state, model, msg),
            Self::Trials(state) => trial::list::update(state, model, msg),
            Self::Trial(state) => trial::update(state, model, msg),
        }
    }

    /// Its title.
    pub fn title(&self) -> String {
        match self {
            Self::Round(_) => "Round".to_owned(),
            Self::Walk(state) => format!("Walk  {}", state.bench()),
            Self::Review(_) => "Evening review".to_owned(),
            Self::Season(state) => format!("Season  {}", state.part().text()),
            Self::Bench(state) => format!("Bench {}", state.bench()),
            Self::Mixing(_) => "Mixing".to_owned(),
            Self::First(_) => "Benchwalk".to_owned(),
            Self::SetUp(_) => "Setup".to_owned(),
            Self::Plots(state) => state.title(),
            Self::Share(_) => "Share".to_owned(),
            Self::Trials(_) => "Trials".to_owned(),
            Self::Trial(state) => state.title(),
        }
    }

    /// Draws it, and returns the position of the terminal cursor.
    pub fn view(&self, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
        match self {
            Self::Round(state) => round::view(state, model, frame, area),
            Self::Walk(state) => walk::view(state, model, frame, area),
            Self::Review(state) => review::view(state, model, frame, area),
            Self::Bench(state) => bench::view(state, model, frame, area),
            Self::Mixing(state) => mixing::view(state, model, frame, area),
            Self::Season(state) => season::view(state, model, frame, area),
            Self::First(state) => first::view(state, model, frame, area),
            Self::Share(state) => share::view(state, model, frame, area),
            Self::SetUp(state) => set_up::view(state, model, frame, area),
            Self::Plots(state) => plots::view(state, model, frame, area),
            Self::Trials(state) => trial::list::view(state, model, frame, area),
            Self::Trial(state) => trial::view(state, model, frame, area),
        }
    }
}
