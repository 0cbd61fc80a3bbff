//! How a lot went: what came when, what was measured by crop week, what became of its pots.

use crate::crop::color::Milestone;
use crate::dates::{add_days, days_between};
use crate::limits::Limits;
use crate::record::{Entry, Kind, Lot, Place, TestMethod};
use crate::season::Season;
use crate::stats::mean;
use crate::warnings::short_days;
use chrono::NaiveDate;
use std::collections::{BTreeMap, BTreeSet};

/// Days after planting that are read; pots left standing longer are no part of a season.
const LONGEST: i64 = 300;
/// Entries read in one step.
const ENTRIES: usize = 128;
/// Days of benches read in one step.
const DAYS: usize = 16;

/// What comes once to a lot.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Come {
    /// The planting.
    Planted,
    /// The first pinch logged.
    Pinched,
    /// The first spacing.
    Spaced,
    /// The first growth regulator.
    GrowthRegulator,
    /// The start of short days, by calculation.
    ShortDays,
    /// A stage of the color, first seen on any bench.
    Color(Milestone),
    /// The first pots sold.
    Sold,
}

impl Come {
    /// Every one, in the order of a crop.
    pub const ALL: [Self; 10] = [
        Self::Planted,
        Self::Pinched,
        Self::Spaced,
        Self::GrowthRegulator,
        Self::ShortDays,
        Self::Color(Milestone::FirstColor),
        Self::Color(Milestone::Cyathia),
        Self::Color(Milestone::FullColor),
        Self::Color(Milestone::FirstPollen),
        Self::Sold,
    ];
}

/// What is measured again and again.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Measure {
    /// Height, cm: the mean of the plants.
    Height,
    /// Water, 1 dry to 5 soaked.
    Water,
    /// Roots, 0 white to 5 brown.
    Roots,
    /// Bract stage, 1 to 7.
    Bracts,
    /// Root zone pH.
    Ph,
    /// Root zone EC by a method, mS/cm: what different methods read is not on one scale.
    Salts(TestMethod),
    /// Day temperature of its houses, °C.
    Day,
    /// Night temperature of its houses, °C.
    Night,
    /// Humidity of its houses, %.
    Humidity,
}

/// Pots that were lost.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lost {
    /// The day.
    pub day: NaiveDate,
    /// The bench.
    pub bench: String,
    /// How many.
    pub pots: u32,
    /// The cause as logged; `None` where none was. Pots dumped at grading have that as their cause.
    pub cause: Option<String>,
}

/// What became of the pots of a lot up to a day.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Pots {
    /// Set down on benches.
    pub placed: u64,
    /// Lost, or dumped at grading.
    pub lost: u64,
    /// Sold.
    pub sold: u64,
    /// Standing.
    pub standing: u64,
}

/// How often a lot was watered.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rate {
    /// Waterings, feedings among them, of single benches.
    pub waterings: u64,
    /// Days on which a bench of the lot stood, added up over its benches.
    pub bench_days: u64,
}

impl Rate {
    /// Waterings a bench in a week.
    pub fn a_week(self) -> f64 {
        7.0 * self.waterings as f64 / (self.bench_days.max(1)) as f64
    }
}

/// How one lot went, up to the day it was read.
#[derive(Debug, Clone, PartialEq)]
pub struct Course {
    /// The lot, as planned.
    pub lot: Lot,
    /// The day up to which it was read.
    pub until: NaiveDate,
    /// What came, and when.
    pub came: BTreeMap<Come, NaiveDate>,
    readings: BTreeMap<Measure, Vec<(NaiveDate, f64)>>,
    placed: Vec<(NaiveDate, u32)>,
    /// What was lost, by day.
    pub lost: Vec<Lost>,
    sold: Vec<(NaiveDate, u32)>,
    waterings: Vec<NaiveDate>,
    /// Benches and pots that stood, by day.
    stood: BTreeMap<NaiveDate, (u64, u64)>,
}

impl Course {
    fn of(season: &Season, lot: &Lot, until: NaiveDate, limits: &Limits) -> Self {
        let mut came = BTreeMap::new();
        if lot.planted <= until {
            came.insert(Come::Planted, lot.planted);
        }
        if let Some(start) = short_days(season, lot, until, limits).filter(|start| *start <= until) {
            came.insert(Come::ShortDays, start);
        }
        let placed = season.placements(&lot.lot).into_iter().filter(|p| p.from <= until).map(|p| (p.from, p.pots));
        Self {
            until: until.min(add_days(lot.planted, LONGEST)),
            came,
            readings: BTreeMap::new(),
            placed: placed.collect(),
            lost: Vec::new(),
            sold: Vec::new(),
            waterings: Vec::new(),
            stood: BTreeMap::new(),
            lot: lot.clone(),
        }
    }

    /// Days from planting to a day: its crop day. Negative before the planting.
    pub fn crop_day(&self, day: NaiveDate) -> i64 {
        days_between(self.lot.planted, day)
    }

    /// The day of a crop day.
    pub fn day(&self, crop_day: i64) -> NaiveDate {
        add_days(self.lot.planted, crop_day)
    }

    /// The readings of a measure by crop week, up to a day: the mean of each week, on the middle of the days it was read on.
    pub fn weekly(&self, measure: Measure, until: NaiveDate) -> Vec<(i64, NaiveDate, f64)> {
        let mut weeks: BTreeMap<i64, Vec<(i64, f64)>> = BTreeMap::new();
        for (day, value) in self.readings.get(&measure).into_iter().flatten().filter(|(day, _)| *day <= until) {
            let crop_day = self.crop_day(*day);
            weeks.entry(crop_day.div_euclid(7)).or_default().push((crop_day, *value));
        }
        let one = |(week, read): (i64, Vec<(i64, f64)>)| {
            let count = i64::try_from(read.len()).unwrap_or(1).max(1);
            let middle = read.iter().map(|(day, _)| day).sum::<i64>().div_euclid(count);
            let values: Vec<f64> = read.iter().map(|(_, value)| *value).collect();
            Some((week, self.day(middle), mean(&values)?))
        };
        weeks.into_iter().filter_map(one).collect()
    }

    /// The measures that were read.
    pub fn measures(&self) -> impl Iterator<Item = Measure> + '_ {
        self.readings.keys().copied()
    }

    /// The pots up to the end of a day.
    pub fn pots(&self, until: NaiveDate) -> Pots {
        let sum = |of: &[(NaiveDate, u32)]| -> u64 {
            of.iter().filter(|(day, _)| *day <= until).map(|(_, pots)| u64::from(*pots)).sum()
        };
        let lost = self.lost.iter().filter(|lost| lost.day <= until).map(|lost| u64::from(lost.pots)).sum();
        let standing = self.stood.range(..=until).next_back().filter(|(day, _)| **day == until.min(self.until));
        Pots { placed: sum(&self.placed), lost, sold: sum(&self.sold), standing: standing.map_or(0, |(_, s)| s.1) }
    }

    /// How often it was watered up to the end of a day; `None` before it stood.
    pub fn rate(&self, until: NaiveDate) -> Option<Rate> {
        let bench_days: u64 = self.stood.range(..=until).map(|(_, (benches, _))| *benches).sum();
        let waterings = self.waterings.iter().filter(|day| **day <= until).count();
        (bench_days > 0).then(|| Rate { waterings: u64::try_from(waterings).unwrap_or(0), bench_days })
    }

    /// Notes that something came on a day, where it is the first of its kind.
    fn came(&mut self, what: Come, day: NaiveDate) {
        let first = self.came.entry(what).or_insert(day);
        *first = (*first).min(day);
    }

    fn read(&mut self, measure: Measure, day: NaiveDate, value: f64) {
        self.readings.entry(measure).or_default().push((day, value));
    }

    /// Takes an entry of this lot.
    fn take(&mut self, entry: &Entry) {
        let day = entry.day();
        if day > self.until {
            return;
        }
        match &*entry.kind {
            Kind::Height { cm } => {
                if let Some(cm) = mean(cm) {
                    self.read(Measure::Height, day, cm);
                }
            }
            Kind::Water { level, .. } => self.read(Measure::Water, day, f64::from(*level)),
            Kind::Roots { score, .. } => self.read(Measure::Roots, day, f64::from(*score)),
            Kind::Bracts { stage } => {
                self.read(Measure::Bracts, day, f64::from(*stage));
                for milestone in Milestone::ALL.into_iter().filter(|milestone| milestone.stage() <= *stage) {
                    self.came(Come::Color(milestone), day);
                }
            }
            Kind::RootZone { method, ph, ec_ms_cm, .. } => {
                if let Some(ph) = ph {
                    self.read(Measure::Ph, day, *ph);
                }
                if let Some(ec) = ec_ms_cm {
                    self.read(Measure::Salts(*method), day, *ec);
                }
            }
            Kind::Climate { day_c, night_c, humidity_percent, .. } => {
                let read = [(Measure::Day, day_c), (Measure::Night, night_c), (Measure::Humidity, humidity_percent)];
                for (measure, value) in read {
                    if let Some(value) = value {
                        self.read(measure, day, *value);
                    }
                }
            }
            Kind::Watered { .. } | Kind::Fed { .. } => self.waterings.push(day),
            Kind::Pinched { .. } => self.came(Come::Pinched, day),
            Kind::Spaced { .. } => self.came(Come::Spaced, day),
            Kind::GrowthRegulator { .. } => self.came(Come::GrowthRegulator, day),
            Kind::Losses { pots, cause } => self.lose(entry, *pots, cause.clone()),
            Kind::Grade { dump, .. } if *dump > 0 => self.lose(entry, *dump, Some("dumped at grading".to_owned())),
            Kind::Sold { pots } => {
                self.sold.push((day, *pots));
                self.came(Come::Sold, day);
            }
            _ => {}
        }
    }

    fn lose(&mut self, entry: &Entry, pots: u32, cause: Option<String>) {
        self.lost.push(Lost { day: entry.day(), bench: entry.place.code().to_owned(), pots, cause });
    }
}

/// The courses of all lots of a season, read in small steps.
#[derive(Debug, Clone)]
pub struct Courses {
    season: Season,
    until: NaiveDate,
    lots: BTreeMap<String, Course>,
    entry: usize,
    /// The bench whose days are read, and the next of its days.
    bench: (usize, NaiveDate),
    first: NaiveDate,
}

impl Courses {
    /// Begins to read a season up to the end of a day.
    pub fn new(season: &Season, until: NaiveDate, limits: &Limits) -> Self {
        let season = season.on(until);
        let lots = season.lots();
        let read: BTreeMap<String, Course> =
            lots.iter().map(|lot| (lot.lot.clone(), Course::of(&season, lot, until, limits))).collect();
        let first = lots.iter().map(|lot| lot.planted).min().unwrap_or(until);
        let last = lots.iter().map(|lot| add_days(lot.planted, LONGEST)).max().unwrap_or(until);
        Self { until: until.min(last), lots: read, entry: 0, bench: (0, first), first, season }
    }

    /// Reads a piece; false when all is read.
    pub fn step(&mut self) -> bool {
        let season = self.season.clone();
        let entries = season.entries();
        if self.entry < entries.len() {
            let to = self.entry.saturating_add(ENTRIES).min(entries.len());
            for entry in entries.get(self.entry..to).into_iter().flatten() {
                self.take(&season, entry);
            }
            self.entry = to;
            return true;
        }
        self.step_bench(&season)
    }

    /// How far it got: pieces read, of so many.
    pub fn far(&self) -> (usize, usize) {
        let benches = self.season.benches().len();
        (self.entry.saturating_add(self.bench.0), self.season.entries().len().saturating_add(benches))
    }

    fn step_bench(&mut self, season: &Season) -> bool {
        let benches = season.benches();
        let Some(bench) = benches.get(self.bench.0) else { return false };
        for _ in 0..DAYS {
            let day = self.bench.1;
            if day > self.until {
                self.bench = (self.bench.0.saturating_add(1), self.first);
                return true;
            }
            if let Some(standing) = season.standing(&bench.bench, day)
                && let Some(course) = self.lots.get_mut(&standing.lot)
            {
                let (benches, pots) = course.stood.entry(day).or_default();
                *benches = benches.saturating_add(1);
                *pots = pots.saturating_add(u64::from(standing.pots));
            }
            self.bench.1 = add_days(day, 1);
        }
        true
    }

    fn take(&mut self, season: &Season, entry: &Entry) {
        if !season.counts(entry, self.until) {
            return;
        }
        if let Place::House(house) = &entry.place {
            let benches = season.benches().iter().filter(|bench| *bench.house == **house);
            let lots: BTreeSet<String> =
                benches.filter_map(|bench| Some(season.standing(&bench.bench, entry.day())?.lot)).collect();
            for lot in lots {
                if let Some(course) = self.lots.get_mut(&lot) {
                    course.take(entry);
                }
            }
        } else if let Some(course) = season.lot_of(entry).and_then(|lot| self.lots.get_mut(&lot)) {
            course.take(entry);
        }
    }

    /// The courses read, by lot; whole once [`Courses::step`] has answered false.
    pub fn read(self) -> Vec<Course> {
        self.lots.into_values().collect()
    }
}
