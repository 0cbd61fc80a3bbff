//! From entries to values: what was read of each plot of a trial, on which days.
//!
//! The value of a plot is the mean of what was read of its pots on a day; the last entry of a kind on a plot and day counts.

use super::data::{Data, Plot as PlotValue, Reading};
use super::refuse::{Caution, READ};
use crate::dates::{add_days, days_between};
use crate::record::{Entry, Kind, Plot, Trial, TrialReading};
use crate::season::Season;
use crate::stats::mean;
use chrono::NaiveDate;
use std::collections::BTreeSet;

/// A reading this many days before the first day of readings, or later, was made before the treatment (house rule).
const BEFORE: i64 = -14;

/// How the note of a plot begins that says that its treatment was given.
pub const GIVEN: &str = "treatment given";

/// Days read that a growth needs.
const GROWTH: usize = 3;

/// Which value of a plot is analyzed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Over {
    /// What was read on a day, or on it and the day before where neither alone has enough plots.
    Day(NaiveDate),
    /// Growth in a day: the slope of a straight line by least squares through all days read, three or more.
    Growth,
}

/// How many plots were read on a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DayRead {
    /// The day.
    pub day: NaiveDate,
    /// Plots read.
    pub read: usize,
    /// Plots that lived.
    pub living: usize,
}

impl DayRead {
    /// True where so many were read that the day can be analyzed.
    pub const fn is_full(self) -> bool {
        self.read > 0 && self.read * 100 >= self.living * READ
    }
}

/// A trial with what was read of its plots up to a day.
#[derive(Debug, Clone, PartialEq)]
pub struct Readings {
    /// The trial.
    pub trial: Trial,
    /// Its plots, by number.
    pub plots: Vec<Plot>,
    /// The day as of which it is read.
    pub day: NaiveDate,
    /// Of each plot the entries that count, by (instant, id).
    entries: Vec<Vec<Entry>>,
    /// Days in a row that are read as one, first and last: on neither alone enough plots were read.
    joined: Vec<(TrialReading, NaiveDate, NaiveDate)>,
    /// The first day on which a plot stood on another bench than before.
    moved: Option<NaiveDate>,
}

impl Readings {
    /// What was read of a trial up to the end of a day; `None` for a trial that is not known.
    pub fn of(season: &Season, trial: &str, day: NaiveDate) -> Option<Self> {
        let on = season.on(day);
        let trial = on.trial(trial)?.clone();
        let plots: Vec<Plot> = on.plots(&trial.trial).into_iter().cloned().collect();
        let entries = plots.iter().map(|plot| season.plot_entries(&plot.plot, day).cloned().collect()).collect();
        let moved = moved(season, &plots);
        let mut readings = Self { trial, plots, day, entries, joined: Vec::new(), moved };
        readings.joined = readings.trial.reads.iter().flat_map(|reading| readings.joined(*reading)).collect();
        Some(readings)
    }

    /// The days on which any plot was read, ascending, with how many were. Two days in a row on each of which too few plots were read
    /// are one, the later: the plots were begun on the one and finished on the other.
    pub fn days(&self, reading: TrialReading) -> Vec<DayRead> {
        let first = |day: &NaiveDate| self.joined.iter().any(|(of, first, _)| (*of, *first) == (reading, *day));
        self.each_day(reading).into_iter().filter(|day| !first(day)).map(|day| self.day_read(reading, day)).collect()
    }

    /// Every single day on which any plot was read, ascending.
    pub fn each_day(&self, reading: TrialReading) -> BTreeSet<NaiveDate> {
        let of = |entry: &Entry| is_of(&entry.kind, reading).then(|| entry.day());
        self.entries.iter().flatten().filter_map(of).collect()
    }

    /// The first of the days that are read as this one: the day itself, or the one before.
    pub fn begun(&self, reading: TrialReading, day: NaiveDate) -> NaiveDate {
        let joined = self.joined.iter().find(|(of, _, last)| (*of, *last) == (reading, day));
        joined.map_or(day, |(_, first, _)| *first)
    }

    /// How many plots were read on a day.
    fn day_read(&self, reading: TrialReading, day: NaiveDate) -> DayRead {
        let read = (0..self.plots.len()).filter(|n| self.value(*n, reading, day).is_some()).count();
        let living = (0..self.plots.len()).filter(|n| !self.is_lost(*n, day)).count();
        DayRead { day, read, living }
    }

    /// Pairs of days in a row of which neither has enough plots.
    fn joined(&self, reading: TrialReading) -> Vec<(TrialReading, NaiveDate, NaiveDate)> {
        let days: Vec<DayRead> = self.each_day(reading).into_iter().map(|day| self.day_read(reading, day)).collect();
        let mut pairs: Vec<(TrialReading, NaiveDate, NaiveDate)> = Vec::new();
        for pair in days.windows(2) {
            let [first, last] = pair else { continue };
            let in_a_row = days_between(first.day, last.day) == 1 && !first.is_full() && !last.is_full();
            if in_a_row && pairs.last().is_none_or(|(_, _, taken)| *taken != first.day) {
                pairs.push((reading, first.day, last.day));
            }
        }
        pairs
    }

    /// The last day on which nine of ten living plots or more were read: the day that is reported.
    pub fn reported(&self, reading: TrialReading) -> Option<NaiveDate> {
        self.days(reading).into_iter().rev().find(|day| day.is_full()).map(|day| day.day)
    }

    /// The values of one reading; `None` where nothing was read. `before` takes in what was read before the treatment, where every
    /// plot was read then.
    pub fn data(&self, reading: TrialReading, over: Over, before: bool) -> Option<Data> {
        let until = match over {
            Over::Day(day) => day,
            Over::Growth => self.day,
        };
        let baseline = if before { self.baseline(reading) } else { None };
        let plot = |(n, plot): (usize, &Plot)| {
            let value = match over {
                Over::Day(day) => self.value(n, reading, day),
                Over::Growth => self.growth(n, reading),
            };
            Some(PlotValue {
                number: plot.number(),
                treatment: self.trial.treatment(&plot.treatment)?,
                block: plot.block,
                bench: plot.bench.clone(),
                row: plot.row,
                column: plot.column,
                value,
                before: baseline.and_then(|day| self.value(n, reading, day)),
                lost: self.is_lost(n, until),
            })
        };
        let plots: Vec<PlotValue> = self.plots.iter().enumerate().filter_map(plot).collect();
        plots.iter().any(|plot| plot.value.is_some()).then(|| Data {
            treatments: self.trial.treatments.clone(),
            rates: self.trial.rates.clone(),
            control: self.trial.control.as_deref().and_then(|control| self.trial.treatment(control)),
            design: self.trial.design,
            reading: if over == Over::Growth { Reading::Measured } else { self.scale(reading, until) },
            plots,
        })
    }

    /// What is said beside every judgment of this trial.
    pub fn cautions(&self) -> Vec<Caution> {
        let moved = self.moved.filter(|day| *day <= self.day).map(Caution::Moved);
        let shared = self.trial.shared_feed.then_some(Caution::SharedFeed);
        let read = self.trial.reads.iter().filter(|reading| !self.days(**reading).is_empty()).count();
        moved.into_iter().chain(shared).chain((read > 1).then_some(Caution::Readings(read))).collect()
    }

    /// Of each plot what was written as given, g per pot; `None` where nothing is.
    pub fn given(&self) -> Vec<(&Plot, Option<f64>)> {
        let amount = |entry: &Entry| match *entry.kind {
            Kind::Topdressed { g_per_pot, .. } => Some(g_per_pot),
            _ => None,
        };
        let given = |entries: &Vec<Entry>| entries.iter().rev().find_map(amount);
        self.plots.iter().zip(self.entries.iter().map(given)).collect()
    }

    /// The plots whose treatment is not logged as given, neither by amount nor by a note; a rate of 0 is never given.
    pub fn not_given(&self) -> Vec<&Plot> {
        let is_given = |entry: &Entry| match &*entry.kind {
            Kind::Topdressed { .. } => true,
            Kind::Note {} => entry.note.as_ref().is_some_and(|note| note.starts_with(GIVEN)),
            _ => false,
        };
        let gets = |plot: &&Plot| self.trial.rate(&plot.treatment).is_none_or(|rate| rate > 0.0);
        let missing = self.plots.iter().zip(&self.entries).filter(|(_, entries)| !entries.iter().any(is_given));
        missing.map(|(plot, _)| plot).filter(gets).collect()
    }

    /// The last day before the treatment on which every plot was read; `None` where none was, or no treatment is written as given.
    pub fn baseline(&self, reading: TrialReading) -> Option<NaiveDate> {
        let given = |entry: &Entry| matches!(*entry.kind, Kind::Topdressed { .. }).then(|| entry.day());
        let treated = self.entries.iter().flatten().filter_map(given).min()?;
        let from = add_days(self.trial.from, BEFORE);
        let days = self.days(reading).into_iter().rev();
        let before = |day: &DayRead| day.day >= from && day.day < treated && day.read == self.plots.len();
        days.map(|day| (day.day, before(&day))).find_map(|(day, before)| before.then_some(day))
    }

    /// The value of a plot, by its place among them, on a day, or on the days that are read as one with it.
    pub fn value(&self, plot: usize, reading: TrialReading, day: NaiveDate) -> Option<f64> {
        self.value_from(plot, reading, (self.begun(reading, day), day))
    }

    /// The value of a plot on a single day.
    pub fn value_on(&self, plot: usize, reading: TrialReading, day: NaiveDate) -> Option<f64> {
        self.value_from(plot, reading, (day, day))
    }

    fn value_from(&self, plot: usize, reading: TrialReading, (first, last): (NaiveDate, NaiveDate)) -> Option<f64> {
        let entries = self.entries.get(plot)?.iter().filter(|entry| (first..=last).contains(&entry.day()));
        let meter = self.by_meter(reading, (first, last));
        entries.rev().find_map(|entry| value_of(&entry.kind, reading, meter))
    }

    /// True where all pots of a plot are lost by the end of a day.
    pub fn is_lost(&self, plot: usize, day: NaiveDate) -> bool {
        let pots = self.plots.get(plot).map_or(0, |plot| plot.pots);
        self.entries.get(plot).is_some_and(|entries| lost(entries.iter(), day) >= pots)
    }

    /// Growth in a day of a plot.
    fn growth(&self, plot: usize, reading: TrialReading) -> Option<f64> {
        let days = self.days(reading).into_iter();
        let read =
            |day: DayRead| Some((days_between(self.trial.from, day.day) as f64, self.value(plot, reading, day.day)?));
        let points: Vec<(f64, f64)> = days.filter_map(read).collect();
        if points.len() < GROWTH {
            return None;
        }
        let (x, y): (Vec<f64>, Vec<f64>) = points.iter().copied().unzip();
        let (middle, level) = (mean(&x)?, mean(&y)?);
        let below: f64 = x.iter().map(|x| (x - middle).powi(2)).sum();
        Some(points.iter().map(|(x, y)| (x - middle) * (y - level)).sum::<f64>() / below)
    }

    /// True where greenness was read by a meter on every plot read on these days: only then do the values go by the meter.
    fn by_meter(&self, reading: TrialReading, (first, last): (NaiveDate, NaiveDate)) -> bool {
        let greenness = |entry: &&Entry| (first..=last).contains(&entry.day()) && is_of(&entry.kind, reading);
        let meter = |entry: &Entry| matches!(*entry.kind, Kind::Greenness { spad: Some(_), .. });
        reading == TrialReading::Greenness && self.entries.iter().flatten().filter(greenness).all(meter)
    }

    /// What the values are.
    fn scale(&self, reading: TrialReading, day: NaiveDate) -> Reading {
        match reading {
            TrialReading::Height | TrialReading::BractWidth | TrialReading::RootZone => Reading::Measured,
            TrialReading::Greenness if self.by_meter(reading, (self.begun(reading, day), day)) => Reading::Measured,
            TrialReading::Greenness
            | TrialReading::Bracts
            | TrialReading::Roots
            | TrialReading::Water
            | TrialReading::Grade => Reading::Scored,
        }
    }
}

/// The first day on which a plot was written to stand on another bench than before.
fn moved(season: &Season, plots: &[Plot]) -> Option<NaiveDate> {
    let bench = |plot: &Plot, day: Option<NaiveDate>| season.on(day?).plot(&plot.plot).map(|plot| plot.bench.clone());
    let first = |plot: &Plot| {
        let lines = season.plan().plots.iter().filter(|line| line.plot == plot.plot);
        let days: BTreeSet<NaiveDate> = lines.filter_map(|line| line.revision.at).map(|at| at.date_naive()).collect();
        days.into_iter().find(|day| {
            let before = bench(plot, day.pred_opt());
            before.is_some() && before != bench(plot, Some(*day))
        })
    };
    plots.iter().filter_map(first).min()
}

/// Pots that a plot has lost by the end of a day.
pub fn pots_lost(season: &Season, plot: &Plot, day: NaiveDate) -> u32 {
    lost(season.plot_entries(&plot.plot, day), day)
}

/// True where a plot has lost all its pots by the end of a day.
pub fn is_lost(season: &Season, plot: &Plot, day: NaiveDate) -> bool {
    pots_lost(season, plot, day) >= plot.pots
}

fn lost<'a>(entries: impl Iterator<Item = &'a Entry>, day: NaiveDate) -> u32 {
    let pots = |entry: &Entry| match *entry.kind {
        Kind::Losses { pots, .. } => pots,
        _ => 0,
    };
    entries.filter(|entry| entry.day() <= day).map(pots).fold(0, u32::saturating_add)
}

/// True where an entry is a reading of this kind.
pub fn is_of(kind: &Kind, reading: TrialReading) -> bool {
    value_of(kind, reading, false).or_else(|| value_of(kind, reading, true)).is_some()
}

/// What an entry reads: a mean of what was measured, a score, or the percentage fit to sell. `meter` takes greenness by the meter.
fn value_of(kind: &Kind, reading: TrialReading, meter: bool) -> Option<f64> {
    match (reading, kind) {
        (TrialReading::Height, Kind::Height { cm }) | (TrialReading::BractWidth, Kind::BractWidth { cm }) => mean(cm),
        (TrialReading::Greenness, Kind::Greenness { spad, .. }) if meter => *spad,
        (TrialReading::Greenness, Kind::Greenness { class, .. }) => class.map(f64::from),
        (TrialReading::Bracts, Kind::Bracts { stage }) => Some(f64::from(*stage)),
        (TrialReading::Roots, Kind::Roots { score, .. }) => Some(f64::from(*score)),
        (TrialReading::RootZone, Kind::RootZone { ec_ms_cm, .. }) => *ec_ms_cm,
        (TrialReading::Water, Kind::Water { level, .. }) => Some(f64::from(*level)),
        (TrialReading::Grade, Kind::Grade { sell, second, dump }) => {
            let all = f64::from(*sell) + f64::from(*second) + f64::from(*dump);
            (all > 0.0).then(|| 100.0 * f64::from(*sell) / all)
        }
        _ => None,
    }
}
