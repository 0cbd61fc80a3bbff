//! A chart as data, drawn by the screens and by the reports.

use crate::dates;
use crate::units::plain;
use chrono::NaiveDate;
use std::collections::BTreeSet;

/// How a line is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stroke {
    /// Observed or intended values.
    Solid,
    /// A limit.
    Dashed,
    /// A forecast.
    Dotted,
    /// The same of last year.
    LastYear,
}

/// Day, value, and low and high where they are known.
pub type Reading = (NaiveDate, f64, Option<(f64, f64)>);

/// A layer of a chart.
#[derive(Debug, Clone, PartialEq)]
pub enum Layer {
    /// Between two curves.
    Band {
        /// What it is.
        name: String,
        /// Day, low, high.
        points: Vec<(NaiveDate, f64, f64)>,
    },
    /// A curve.
    Line {
        /// What it is.
        name: String,
        /// Day and value.
        points: Vec<(NaiveDate, f64)>,
        /// How it is drawn.
        stroke: Stroke,
    },
    /// Readings with their uncertainty.
    Dots {
        /// What they are.
        name: String,
        /// The readings.
        points: Vec<Reading>,
    },
    /// Days on which work was done.
    Marks {
        /// The work.
        name: String,
        /// The days.
        days: Vec<NaiveDate>,
    },
    /// A row below the picture with a scale of its own, shaded day by day: hours over a limit, a difference.
    Strip {
        /// What it is, with its unit.
        name: String,
        /// Day and value; below zero it is shown the other way round.
        points: Vec<(NaiveDate, f64)>,
        /// The value, above or below zero, at which it is shaded in full.
        full: f64,
    },
}

/// A chart over days.
#[derive(Debug, Clone, PartialEq)]
pub struct Chart {
    /// Its title.
    pub title: String,
    /// What it shows, in a sentence, for readers who cannot see it.
    pub text: String,
    /// First and last day.
    pub days: (NaiveDate, NaiveDate),
    /// What the vertical axis measures, with its unit.
    pub axis: String,
    /// A fixed vertical range, where the scale has one; otherwise it follows the data.
    pub range: Option<(f64, f64)>,
    /// The layers, bottom first.
    pub layers: Vec<Layer>,
}

/// A chart's content as a table, for readers who cannot see it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Table {
    /// The heads, `day` first.
    pub heads: Vec<String>,
    /// The rows, by day.
    pub rows: Vec<Vec<String>>,
}

impl Layer {
    /// What it is.
    pub fn name(&self) -> &str {
        match self {
            Self::Band { name, .. }
            | Self::Line { name, .. }
            | Self::Dots { name, .. }
            | Self::Marks { name, .. }
            | Self::Strip { name, .. } => name,
        }
    }

    /// True where it holds nothing.
    pub const fn is_empty(&self) -> bool {
        match self {
            Self::Band { points, .. } => points.is_empty(),
            Self::Line { points, .. } => points.is_empty(),
            Self::Dots { points, .. } => points.is_empty(),
            Self::Marks { days, .. } => days.is_empty(),
            Self::Strip { points, .. } => points.is_empty(),
        }
    }

    /// The part between two days, both included.
    #[must_use]
    pub fn within(self, (first, last): (NaiveDate, NaiveDate)) -> Self {
        let inside = |d: NaiveDate| first <= d && d <= last;
        match self {
            Self::Band { name, mut points } => {
                points.retain(|p| inside(p.0));
                Self::Band { name, points }
            }
            Self::Line { name, mut points, stroke } => {
                points.retain(|p| inside(p.0));
                Self::Line { name, points, stroke }
            }
            Self::Dots { name, mut points } => {
                points.retain(|p| inside(p.0));
                Self::Dots { name, points }
            }
            Self::Marks { name, mut days } => {
                days.retain(|d| inside(*d));
                Self::Marks { name, days }
            }
            Self::Strip { name, mut points, full } => {
                points.retain(|p| inside(p.0));
                Self::Strip { name, points, full }
            }
        }
    }

    /// Its text for a day; empty where it has none.
    fn on(&self, day: NaiveDate) -> String {
        let pair = |low: f64, high: f64| format!("{} to {}", plain(low), plain(high));
        match self {
            Self::Band { points, .. } => points.iter().find(|p| p.0 == day).map(|p| pair(p.1, p.2)),
            Self::Line { points, .. } | Self::Strip { points, .. } => {
                points.iter().find(|p| p.0 == day).map(|p| plain(p.1))
            }
            Self::Dots { points, .. } => points.iter().find(|p| p.0 == day).map(|p| match p.2 {
                Some((low, high)) => format!("{} ({})", plain(p.1), pair(low, high)),
                None => plain(p.1),
            }),
            Self::Marks { days, .. } => days.contains(&day).then(|| "yes".to_owned()),
        }
        .unwrap_or_default()
    }

    /// The days of the table: every reading and mark, those of last year too; of curves the first and the last.
    fn days(&self) -> Vec<NaiveDate> {
        let ends = |days: Vec<NaiveDate>| days.first().into_iter().chain(days.last()).copied().collect();
        match self {
            Self::Band { points, .. } => ends(points.iter().map(|p| p.0).collect()),
            Self::Line { points, stroke: Stroke::LastYear, .. } => points.iter().map(|p| p.0).collect(),
            Self::Line { points, .. } | Self::Strip { points, .. } => ends(points.iter().map(|p| p.0).collect()),
            Self::Dots { points, .. } => points.iter().map(|p| p.0).collect(),
            Self::Marks { days, .. } => days.clone(),
        }
    }
}

impl Chart {
    /// True where nothing is drawn.
    pub fn is_empty(&self) -> bool {
        self.layers.iter().all(Layer::is_empty)
    }

    /// Lowest and highest finite value, with a margin.
    pub fn extent(&self) -> (f64, f64) {
        let mut values: Vec<f64> = Vec::new();
        for layer in &self.layers {
            match layer {
                Layer::Band { points, .. } => values.extend(points.iter().flat_map(|p| [p.1, p.2])),
                Layer::Line { points, .. } => values.extend(points.iter().map(|p| p.1)),
                Layer::Dots { points, .. } => {
                    values
                        .extend(points.iter().flat_map(|p| [Some(p.1), p.2.map(|r| r.0), p.2.map(|r| r.1)]).flatten());
                }
                Layer::Marks { .. } | Layer::Strip { .. } => {}
            }
        }
        values.retain(|v| v.is_finite() && v.abs() < 1e9);
        let low = values.iter().copied().reduce(f64::min).unwrap_or(0.0);
        let high = values.iter().copied().reduce(f64::max).unwrap_or(1.0);
        let room = (high - low) * 0.06;
        (low - room, high + room)
    }

    /// What it shows, as a table by day.
    pub fn table(&self) -> Table {
        let days: BTreeSet<NaiveDate> = self.layers.iter().flat_map(Layer::days).collect();
        let row = |d: &NaiveDate| {
            std::iter::once(dates::short(*d)).chain(self.layers.iter().map(|layer| layer.on(*d))).collect()
        };
        Table {
            heads: std::iter::once("day".to_owned())
                .chain(self.layers.iter().map(|layer| layer.name().to_owned()))
                .collect(),
            rows: days.iter().map(row).collect(),
        }
    }
}

/// Steps of 1, 2 or 5 times a power of ten, about five of them.
pub fn ticks(low: f64, high: f64) -> Vec<f64> {
    let rough = (high - low) / 5.0;
    if !rough.is_finite() || rough <= 0.0 {
        return vec![low];
    }
    let power = 10f64.powf(rough.log10().floor());
    let step = [1.0, 2.0, 5.0, 10.0].iter().map(|m| m * power).find(|s| *s >= rough).unwrap_or(rough);
    let first = (low / step).ceil() * step;
    (0..12u8).map(|i| step.mul_add(f64::from(i), first)).take_while(|v| *v <= high + step * 1e-6).collect()
}

#[cfg(test)]
mod tests {
    use super::ticks;

    #[test]
    fn ticks_are_round_numbers_inside_the_range() {
        assert_eq!(ticks(0.0, 10.0), [0.0, 2.0, 4.0, 6.0, 8.0, 10.0]);
        assert_eq!(ticks(1.0, 5.0), [1.0, 2.0, 3.0, 4.0, 5.0]);
    }
}
