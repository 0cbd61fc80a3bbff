//! What the charts show: of a bench its height, water, roots, bracts, root zone and climate; of the season every lot's
//! calendar, the nights and the pots. Drawn by the screens and, as SVG, by the reports.
//!
//! Windows, forecasts and ranges are those the warnings go by (`warnings::bench_view`); nothing is calculated a second time.

mod bench;
mod calendar;
mod climate;
mod height;
mod last_year;
mod nights;
mod pots;
mod root_zone;
mod steps;

pub use bench::{bench, days, every};
pub use calendar::{LotCalendar, calendar, calendar_of, season_days};
pub(in crate::report) use climate::has_own_logger;
pub use climate::{HouseClimate, climate};
pub use last_year::with_last_year;
pub use nights::{Nights, nights};
pub use pots::{LotPots, pots};

use crate::dates;
use crate::limits::Limits;
use crate::record::{Entry, KindName};
use crate::report::chart::{Chart, Layer, Reading, Stroke};
use crate::season::Season;
use crate::units::System;
use crate::warnings::BenchView;
use chrono::NaiveDate;

/// What a chart of a bench is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Topic {
    /// Heights against their window, with where they will end.
    Height,
    /// Water by day, with waterings.
    Water,
    /// Root scores.
    Roots,
    /// Bract stages against the forecast.
    Bracts,
    /// Root zone pH against its range.
    Ph,
    /// Root zone EC against its range.
    Salts,
    /// Day and night temperatures.
    Temperature,
    /// Humidity.
    Humidity,
    /// What a climate logger gave of each day.
    Climate,
}

impl Topic {
    /// Every topic, in the order they are stepped through.
    pub const ALL: &'static [Self] = &[
        Self::Height,
        Self::Water,
        Self::Roots,
        Self::Bracts,
        Self::Ph,
        Self::Salts,
        Self::Temperature,
        Self::Humidity,
        Self::Climate,
    ];

    /// In plain words.
    pub const fn text(self) -> &'static str {
        match self {
            Self::Height => "height",
            Self::Water => "water",
            Self::Roots => "roots",
            Self::Bracts => "bracts",
            Self::Ph => "root zone pH",
            Self::Salts => "root zone EC",
            Self::Temperature => "temperature",
            Self::Humidity => "humidity",
            Self::Climate => "climate",
        }
    }

    /// True where a chart shows something that was read, beside limits and forecasts.
    pub fn has_readings(self, chart: &Chart) -> bool {
        match self {
            Self::Climate => !chart.is_empty(),
            _ => chart.layers.iter().any(|layer| matches!(layer, Layer::Dots { points, .. } if !points.is_empty())),
        }
    }

    /// True where readings are steps of a scale, shown as digits.
    pub const fn is_scale(self) -> bool {
        matches!(self, Self::Water | Self::Roots | Self::Bracts)
    }
}

/// How much time a chart covers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Reach {
    /// Three weeks up to a day.
    ThreeWeeks,
    /// From planting to the sale.
    #[default]
    Season,
}

/// What every chart of a bench needs.
struct ChartInput<'a> {
    season: &'a Season,
    bench: &'a str,
    shown: Option<BenchView<'a>>,
    limits: &'a Limits,
    system: System,
    on: NaiveDate,
    days: (NaiveDate, NaiveDate),
}

impl ChartInput<'_> {
    /// A chart of layers, cut to the days it covers.
    fn chart(
        &self,
        topic: Topic,
        (axis, range): (&str, Option<(f64, f64)>),
        text: String,
        layers: Vec<Layer>,
    ) -> Chart {
        let layers = layers.into_iter().map(|l| l.within(self.days)).filter(|l| !l.is_empty()).collect();
        let mut title = format!("{} {}", self.bench, topic.text());
        if let Some(shown) = &self.shown {
            title.push_str(&format!(", lot {}", shown.lot.lot));
        }
        Chart { title, text, days: self.days, axis: axis.to_owned(), range, layers }
    }

    /// Readings of a kind with a number, oldest first.
    fn readings(&self, kind: KindName, number: impl Fn(&Entry) -> Option<f64>) -> Vec<Reading> {
        let entries = self.shown.iter().flat_map(|s| s.of(kind));
        entries.filter_map(|e| Some((e.day(), number(e)?, None))).collect()
    }
}

/// `last 4 on Oct 8`, or that nothing is logged.
fn last(readings: &[Reading], unit: &str) -> String {
    readings.last().map_or_else(
        || "Nothing logged yet.".to_owned(),
        |(d, value, _)| {
            let unit = if matches!(unit, "" | "%") { unit.to_owned() } else { format!(" {unit}") };
            format!("Last {}{unit} on {}; {} readings.", crate::units::plain(*value), dates::short(*d), readings.len())
        },
    )
}

/// A level across the whole chart.
fn level(days: (NaiveDate, NaiveDate), name: String, value: f64, stroke: Stroke) -> Layer {
    Layer::Line { name, points: vec![(days.0, value), (days.1, value)], stroke }
}

/// The state of a step of the calendar. Shapes and words distinguish them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum State {
    /// Done, or come.
    Done,
    /// To be done now.
    Due,
    /// Should have been done, or will come too late.
    Late,
    /// Expected by calculation.
    Forecast,
    /// Planned for later.
    Planned,
    /// A period in which something may be done is open.
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
            Self::Over => "past",
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
    /// Its state.
    pub state: State,
    /// Days on which it was done, or that are committed.
    pub marks: Vec<NaiveDate>,
    /// The day it is due again, of work that was done and comes back.
    pub next: Option<NaiveDate>,
    /// Its state, in a few words.
    pub words: String,
}

impl Step {
    /// True for work that every bench needs once: due from its first day, late from its last.
    pub fn is_work(&self) -> bool {
        matches!(self.name, "pinch" | "magnesium" | "molybdenum")
    }
}
