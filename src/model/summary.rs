//! The summary of a bench on a day, computed once and shown many times.

use crate::crop::Estimate;
use crate::crop::color::Temperatures;
use crate::crop::dry_down::Drying;
use crate::crop::height::Target;
use crate::limits::Limits;
use crate::record::{Entry, Kind, KindName};
use crate::season::{History, Season, Standing};
use crate::stats::mean;
use crate::warnings::{BenchNow, Check, NotKnown, Warning, benches_now, is_walk};
use chrono::{Days, NaiveDate};

/// Progress of the round on a bench.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Walked {
    /// Nothing seen today.
    No,
    /// This many of the due checks are done.
    Part(usize, usize),
    /// Everything due is done.
    Yes,
}

/// The last measured height against the window of its day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeightNow {
    /// Mean of the plants, cm.
    pub mean_cm: f64,
    /// The day it was measured.
    pub day: NaiveDate,
    /// How far outside the window of that day, cm: above positive, below negative, 0 inside; `None` where no window is known.
    pub beyond_cm: Option<f64>,
}

/// The summary of a bench on a day.
#[derive(Debug, Clone, PartialEq)]
pub struct Summary {
    /// The pots on it; `None` when empty.
    pub standing: Option<Standing>,
    /// The first water reading of today and of each of the six days before, newest first.
    pub week: [Option<u8>; 7],
    /// The last roots score and its day.
    pub roots: Option<(u8, NaiveDate)>,
    /// The last bract stage and its day.
    pub bracts: Option<(u8, NaiveDate)>,
    /// The last height.
    pub height: Option<HeightNow>,
    /// When its bracts are expected in full color; the day itself where that was seen.
    pub full_color: Option<Estimate<NaiveDate>>,
    /// What of the temperatures that goes by.
    pub color_by: Option<Temperatures>,
    /// How fast it dries down.
    pub drying: Drying,
    /// The checks due today, in the order of the Walk card.
    pub due: Vec<Check>,
    /// The warnings of the bench, highest severity first.
    pub warnings: Vec<Warning>,
    /// What is not known of its lot as far as this bench goes.
    pub not_known: Option<NotKnown>,
    /// It was walked today: a finding of its own was written, other than a note.
    pub seen: bool,
    /// The last day that it was; `None` before the first.
    pub last_seen: Option<NaiveDate>,
}

impl Summary {
    /// Computes the summaries of some benches, in their order.
    pub fn of_all(season: &Season, benches: &[String], day: NaiveDate, limits: &Limits) -> Vec<Self> {
        let season = &season.on(day);
        benches_now(season, benches, day, limits).into_iter().map(|now| Self::of(now, day)).collect()
    }

    fn of(now: BenchNow<'_>, day: NaiveDate) -> Self {
        let BenchNow { history, outlook, due, mut warnings, not_known } = now;
        let last_seen = history.all().iter().rev().find(|e| is_walk(e)).map(|e| e.day());
        warnings.sort_by_key(|w| std::cmp::Reverse(w.level));
        Self {
            week: week(&history, day),
            roots: last(&history, KindName::Roots, |k| match k {
                Kind::Roots { score, .. } => Some(*score),
                _ => None,
            }),
            bracts: last(&history, KindName::Bracts, |k| match k {
                Kind::Bracts { stage } => Some(*stage),
                _ => None,
            }),
            height: height(&history, outlook.target.as_ref()),
            full_color: outlook.full_color,
            color_by: outlook.color_by,
            drying: outlook.drying,
            due,
            warnings,
            not_known,
            seen: last_seen == Some(day),
            last_seen,
            standing: history.standing,
        }
    }

    /// Progress of the round.
    pub fn walked(&self) -> Walked {
        let done = self.due.iter().filter(|c| c.done).count();
        match (done, self.due.len()) {
            (_, 0) if !self.seen => Walked::No,
            (0, _) if !self.seen => Walked::No,
            (done, all) if done >= all => Walked::Yes,
            (done, all) => Walked::Part(done, all),
        }
    }
}

/// The first water reading of each day, today's first.
pub fn week<const N: usize>(history: &History<'_>, day: NaiveDate) -> [Option<u8>; N] {
    let mut digits = [None; N];
    for (back, digit) in digits.iter_mut().enumerate() {
        let that = u64::try_from(back).ok().and_then(|n| day.checked_sub_days(Days::new(n)));
        *digit = that.and_then(|d| history.on(d).find_map(water));
    }
    digits
}

fn water(entry: &Entry) -> Option<u8> {
    match *entry.kind {
        Kind::Water { level, .. } => Some(level),
        _ => None,
    }
}

fn last<T>(history: &History<'_>, kind: KindName, get: impl Fn(&Kind) -> Option<T>) -> Option<(T, NaiveDate)> {
    let entry = history.last(kind)?;
    Some((get(&entry.kind)?, entry.day()))
}

fn height(history: &History<'_>, target: Option<&Target>) -> Option<HeightNow> {
    let (mean_cm, day) = last(history, KindName::Height, |k| match k {
        Kind::Height { cm } => mean(cm),
        _ => None,
    })?;
    let window = target.map(|t| t.window(day));
    Some(HeightNow { mean_cm, day, beyond_cm: window.map(|w| w.beyond_cm(mean_cm)) })
}
