//! Every lot's calendar: from planting to the sale, what is done, due, late or to be expected.

use super::steps;
use crate::limits::Limits;
use crate::season::Season;
use crate::warnings::{BenchView, bench_view};
use chrono::{Days, NaiveDate};

/// How a step of the calendar stands. Shapes and words tell these apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum State {
    /// Done, or come.
    Done,
    /// To be done now.
    Due,
    /// Should have been done, or will come too late.
    Late,
    /// To be expected by reckoning.
    Forecast,
    /// Planned for later.
    Planned,
    /// A time in which something may be done goes on.
    Open,
    /// That time is over.
    Over,
}

impl State {
    /// Every state.
    pub const ALL: &'static [Self] =
        &[Self::Done, Self::Due, Self::Late, Self::Forecast, Self::Planned, Self::Open, Self::Over];

    /// In one word.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Done => "done",
            Self::Due => "DUE",
            Self::Late => "LATE",
            Self::Forecast => "forecast",
            Self::Planned => "planned",
            Self::Open => "open",
            Self::Over => "over",
        }
    }

    /// The sign a bar of days is made of; plain ASCII.
    pub const fn sign(self) -> char {
        match self {
            Self::Done => '#',
            Self::Due => '!',
            Self::Late => 'X',
            Self::Forecast => '~',
            Self::Planned => '-',
            Self::Open => '=',
            Self::Over => '.',
        }
    }
}

/// One step of a lot's calendar.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Step {
    /// What it is.
    pub name: &'static str,
    /// First day.
    pub from: NaiveDate,
    /// Last day.
    pub to: NaiveDate,
    /// How it stands.
    pub state: State,
    /// Days on which it was done, or that are promised.
    pub marks: Vec<NaiveDate>,
    /// How it stands, in a few words.
    pub words: String,
}

/// The calendar of one lot.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LotCalendar {
    /// The lot.
    pub lot: String,
    /// Cultivar and container.
    pub title: String,
    /// Its steps, in the order of the crop.
    pub steps: Vec<Step>,
}

/// The first planting and the last sale or order of the season; `None` without lots.
pub fn season_days(season: &Season) -> Option<(NaiveDate, NaiveDate)> {
    let lots = season.lots();
    let first = lots.iter().map(|l| l.planted).min()?;
    let orders = lots.iter().flat_map(|l| season.orders(&l.lot)).filter(|o| o.pots > 0).map(|o| o.date);
    let last = lots.iter().map(|l| l.ready_by).chain(orders).max()?;
    // A slip of the year must not make a chart of a century.
    let most = first.checked_add_days(Days::new(400)).unwrap_or(first);
    Some((first, last.clamp(first, most)))
}

/// The calendars of all lots as of a day, by lot.
pub fn calendar(season: &Season, on: NaiveDate, limits: &Limits) -> Vec<LotCalendar> {
    let one = |lot: &crate::record::Lot| {
        let benches = stood(season, &lot.lot, on, limits);
        LotCalendar {
            lot: lot.lot.clone(),
            title: format!("{}, {}", lot.cultivar, lot.container),
            steps: steps::of(season, lot, &benches, on, limits),
        }
    };
    season.lots().into_iter().map(one).collect()
}

/// What the rules see of the lot's benches on the day; of a lot that is gone, on the last day it stood within four months.
fn stood<'a>(season: &'a Season, lot: &str, on: NaiveDate, limits: &Limits) -> Vec<BenchView<'a>> {
    let back = (0..120_u64).filter_map(|n| on.checked_sub_days(Days::new(n)));
    let last = back.map(|d| (d, season.benches_of_lot(lot, d))).find(|(_, benches)| !benches.is_empty());
    let (day, benches) = last.unwrap_or((on, Vec::new()));
    benches.into_iter().filter_map(|b| bench_view(season, b, day, limits)).collect()
}
