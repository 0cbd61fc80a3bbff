//! What was done to a lot before its record began: what the plan says of it, and what nobody said.
//!
//! Work that was due before the record began may have been done without being logged. Unless the plan says that it was, or was
//! not, the rules that look for it keep quiet, and the review says why ([`not_known`]).

use super::BenchDay;
use super::rules::{first_molybdenum, last_magnesium};
use crate::dates::add_days;
use crate::record::{Before, KindName, LotHistory, Pinch};
use chrono::NaiveDate;
use std::collections::BTreeMap;

/// Work that may have been done before the record began.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum EarlierWork {
    /// The pinch.
    Pinch,
    /// Any feeding.
    Feeding,
    /// Magnesium.
    Magnesium,
    /// Molybdenum.
    Molybdenum,
}

impl EarlierWork {
    /// All of it, in the order it is due.
    const ALL: [Self; 4] = [Self::Pinch, Self::Feeding, Self::Magnesium, Self::Molybdenum];

    /// In one word.
    pub const fn text(self) -> &'static str {
        match self {
            Self::Pinch => "pinch",
            Self::Feeding => "feeding",
            Self::Magnesium => "magnesium",
            Self::Molybdenum => "molybdenum",
        }
    }

    /// What the plan says of it.
    fn said(self, history: &LotHistory) -> (Option<Before>, Option<NaiveDate>) {
        match self {
            Self::Pinch => (history.pinch, history.pinched_on),
            Self::Feeding => (history.feed, history.fed_last),
            Self::Magnesium => (history.magnesium, history.magnesium_on),
            Self::Molybdenum => (history.molybdenum, history.molybdenum_on),
        }
    }

    /// The day after planting on which it is first due.
    fn first_due(self, bench: &BenchDay<'_>) -> NaiveDate {
        let limits = bench.limits();
        let days = match self {
            Self::Pinch => limits.growth.pinch_due,
            Self::Feeding => limits.feed.unfed_first,
            Self::Magnesium | Self::Molybdenum => limits.feed.magnesium_shown,
        };
        add_days(bench.lot.planted, days)
    }
}

/// What is known of work that was never logged.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Earlier {
    /// It was done before the record began; on this day where that was said.
    Done(Option<NaiveDate>),
    /// It was not done.
    NotDone,
    /// It was due before the record began, and nobody said whether it was done.
    NotKnown,
}

impl BenchDay<'_> {
    /// What is known of work that was never logged.
    pub(super) fn earlier(&self, work: EarlierWork) -> Earlier {
        let history = self.context.season.lot_history(&self.lot.lot);
        match history.map(|h| work.said(h)) {
            Some((Some(Before::Done), on)) => Earlier::Done(on),
            Some((Some(Before::NotDone), _)) => Earlier::NotDone,
            Some((None, _)) | None if work.first_due(self) < self.begins() => Earlier::NotKnown,
            Some((None, _)) | None => Earlier::NotDone,
        }
    }

    /// The last day of work done before the record began: as the plan says, or at the latest the day it began.
    pub(super) fn done_earlier(&self, work: EarlierWork) -> Option<NaiveDate> {
        match self.earlier(work) {
            Earlier::Done(on) => Some(on.unwrap_or_else(|| self.begins())),
            Earlier::NotDone | Earlier::NotKnown => None,
        }
    }

    /// The day of the pinch: as logged, else as the plan says of the time before the record.
    pub(super) fn pinch_day(&self) -> Option<NaiveDate> {
        let earlier = || match self.earlier(EarlierWork::Pinch) {
            Earlier::Done(on) => on,
            Earlier::NotDone | Earlier::NotKnown => None,
        };
        self.pinched().map(crate::record::Entry::day).or_else(earlier)
    }

    /// True while a pinch that the plan wants may still be made: none is logged or said, and where the record began after it
    /// was due, short days have not begun either.
    pub(super) fn awaits_pinch(&self) -> bool {
        let open = match self.earlier(EarlierWork::Pinch) {
            Earlier::Done(_) | Earlier::NotKnown => false,
            Earlier::NotDone => {
                let late = self.begins() > self.lot.planted;
                !(late && self.short_days().is_some_and(|start| start <= self.day()))
            }
        };
        self.lot.pinch != Pinch::None && self.pinched().is_none() && open
    }
}

/// What is not known of a lot, and what follows from it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NotKnown {
    /// The lot.
    pub lot: String,
    /// The day its record begins.
    pub since: NaiveDate,
    /// Work due before that day of which nobody said whether it was done.
    pub work: Vec<EarlierWork>,
    /// True where heights are not asked for, as the day of the pinch is not known.
    pub without_heights: bool,
}

/// What is not known of lots, by lot, from what is not known by each of their benches; lots after their sale are left out.
pub fn not_known(benches: impl Iterator<Item = NotKnown>) -> Vec<NotKnown> {
    let mut lots: BTreeMap<String, NotKnown> = BTreeMap::new();
    for bench in benches {
        match lots.get_mut(&bench.lot) {
            Some(lot) => {
                lot.without_heights |= bench.without_heights;
                lot.work.extend(bench.work);
                lot.work.sort_unstable();
                lot.work.dedup();
            }
            None => drop(lots.insert(bench.lot.clone(), bench)),
        }
    }
    lots.into_values().collect()
}

/// What is not known of the lot of a bench as far as this bench goes.
pub(super) fn of_bench(bench: &BenchDay<'_>) -> Option<NotKnown> {
    if bench.past_sale() {
        return None;
    }
    let (work, without_heights) = (not_known_of(bench), waits_for_the_pinch(bench));
    let (lot, since) = (bench.lot.lot.clone(), bench.begins());
    (without_heights || !work.is_empty()).then_some(NotKnown { lot, since, work, without_heights })
}

/// What nobody said of one bench.
pub(super) fn not_known_of(bench: &BenchDay<'_>) -> Vec<EarlierWork> {
    EarlierWork::ALL.into_iter().filter(|work| is_open(bench, *work)).collect()
}

/// True where a rule keeps quiet for work that may have been done earlier.
fn is_open(bench: &BenchDay<'_>, work: EarlierWork) -> bool {
    let limits = &bench.limits().feed;
    let lot = bench.lot;
    let over = bench.days_to_sale() < limits.magnesium_until;
    let settled = match work {
        EarlierWork::Pinch => lot.pinch == Pinch::None || bench.pinched().is_some(),
        EarlierWork::Feeding => {
            lot.feed_n_ppm.is_some_and(|n| n > 0.0) || bench.has_slow_release() || bench.last(KindName::Fed).is_some()
        }
        EarlierWork::Magnesium => {
            over || lot.feed_mg_ppm.is_some_and(|ppm| ppm >= limits.magnesium_feed_ppm)
                || last_magnesium(bench).is_some()
        }
        EarlierWork::Molybdenum => {
            over || lot.feed_mo_ppm.is_some_and(|ppm| ppm >= limits.molybdenum_ppm) || first_molybdenum(bench).is_some()
        }
    };
    !settled && bench.earlier(work) == Earlier::NotKnown
}

/// True where heights would be asked for if the day of the pinch were known, and no warning asks for the pinch any more.
fn waits_for_the_pinch(bench: &BenchDay<'_>) -> bool {
    let wanted = bench.lot.height_low_cm.or(bench.lot.height_high_cm).is_some() && bench.lot.pinch != Pinch::None;
    let began = bench.short_days().is_some_and(|start| start <= bench.day());
    wanted && bench.pinch_day().is_none() && (began || bench.earlier(EarlierWork::Pinch) != Earlier::NotDone)
}
