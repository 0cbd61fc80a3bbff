//! Cached assessments per bench, and which of them are stale.
//!
//! After a start or a new day all are stale, and each idle slice recomputes a few, on two threads. After a saved entry only the
//! benches it touches are.

use super::Summary;
use super::in_two::in_two;
use crate::crop::dry_down;
use crate::limits::Limits;
use crate::record::{Entry, Kind, KindName, Place};
use crate::report::words;
use crate::season::Season;
use crate::trials::{self, DueOn};
use crate::warnings::{
    Flagged, NotKnown, Severity, Shared, Slower, Warning, Whose, assess_group, groups_on, not_known, slower,
};
use chrono::NaiveDate;
use std::collections::{BTreeMap, BTreeSet, VecDeque};

/// Benches worked out in one step, on two threads: about a millisecond, so that no key waits for more.
const BENCHES: usize = 8;
/// Lots and houses in one step.
const GROUPS: usize = 4;

/// Cached assessments of the season.
#[derive(Debug, Clone, Default)]
pub struct Cache {
    benches: BTreeMap<String, Summary>,
    wide: Vec<Warning>,
    /// By bench the places of those that name it; made with `wide`.
    wide_of: BTreeMap<String, Vec<usize>>,
    /// What of the benches' warnings is a trouble of whole lots; made with `wide`.
    shared: Shared,
    /// How severe each bench's own trouble is: asked for every bench with every frame.
    own: BTreeMap<String, Severity>,
    /// Of each trouble of a lot or house the strongest warning, the strongest first; made with `wide`.
    troubles: Vec<Warning>,
    /// The plots of trials that are to be read; made with `wide`.
    plots_due: Vec<DueOn>,
    stale: VecDeque<String>,
    queued: BTreeSet<String>,
    /// The lots and houses that are being assessed; `None` when none is stale.
    groups_left: Option<GroupsLeft>,
    /// Lots and houses were assessed since everything became stale.
    whole: bool,
}

/// Lots and houses that are assessed one by one, so that a key never waits for all of them.
#[derive(Debug, Clone, Default)]
struct GroupsLeft {
    /// Those still to come; `None` before the first.
    places: Option<VecDeque<Place>>,
    /// The warnings of the others.
    found: Vec<Warning>,
}

impl Cache {
    /// An empty cache.
    pub fn of(season: &Season) -> Self {
        let mut cache = Self::default();
        cache.all_stale(season);
        cache
    }

    /// The last summary of a bench, possibly stale; `None` until computed.
    pub fn bench(&self, code: &str) -> Option<&Summary> {
        self.benches.get(code)
    }

    /// The summary of a bench, if it is not stale.
    pub fn fresh(&self, code: &str) -> Option<&Summary> {
        if self.queued.contains(code) { None } else { self.bench(code) }
    }

    /// Every trial with plots that are to be read.
    pub fn plots_due(&self) -> &[DueOn] {
        &self.plots_due
    }

    /// The warnings of lots and houses.
    pub fn wide(&self) -> &[Warning] {
        &self.wide
    }

    /// True when nothing is stale.
    pub fn is_fresh(&self) -> bool {
        self.stale.is_empty() && self.groups_left.is_none()
    }

    /// True when everything was recomputed at least once since everything became stale.
    pub const fn is_whole(&self) -> bool {
        self.whole
    }

    /// True when something was recomputed since everything became stale.
    pub fn is_begun(&self) -> bool {
        !self.benches.is_empty()
    }

    /// Every warning, those of benches in walking order first.
    pub fn warnings<'a>(&'a self, season: &'a Season) -> impl Iterator<Item = &'a Warning> {
        let benches = season.benches().iter().filter_map(|b| self.bench(&b.bench));
        benches.flat_map(|s| s.warnings.iter()).chain(&self.wide)
    }

    /// Whose trouble a warning is: the bench's own, its lot's or its house's.
    pub fn whose<'w>(&self, warning: &'w Warning) -> Whose<'w> {
        self.shared.whose(warning)
    }

    /// A bench's own warnings that are not postponed, the strongest first.
    pub fn own(&self, bench: &str) -> Vec<&Warning> {
        strongest(self.of_bench(bench).filter(|w| self.shared.is_own(w)))
    }

    /// What concerns a bench through its lot or house and is not postponed, the strongest first.
    pub fn not_own(&self, bench: &str) -> Vec<&Warning> {
        let places = self.wide_of.get(bench).map(Vec::as_slice).unwrap_or_default();
        let wide = places.iter().filter_map(|at| self.wide.get(*at)).filter(|w| w.put_off_until.is_none());
        strongest(self.of_bench(bench).filter(|w| !self.shared.is_own(w)).chain(wide))
    }

    /// The highest severity of what is a bench's own, not postponed and more than noted.
    pub fn own_worst(&self, bench: &str) -> Option<Severity> {
        self.own.get(bench).copied()
    }

    /// Of each trouble of a lot or house that is not postponed the strongest warning, the strongest first; as of the last rest.
    pub fn troubles(&self) -> &[Warning] {
        &self.troubles
    }

    fn keep_own(&mut self, bench: &str) {
        let worst = self.of_bench(bench).filter(|w| !w.noted && self.shared.is_own(w)).map(|w| w.level).max();
        match worst {
            Some(level) => self.own.insert(bench.to_owned(), level),
            None => self.own.remove(bench),
        };
    }

    /// Makes what is asked for with every frame, after the shared troubles were.
    fn keep_troubles(&mut self) {
        let codes: Vec<String> = self.benches.keys().cloned().collect();
        for code in codes {
            self.keep_own(&code);
        }
        let mut all: BTreeMap<(Whose<'_>, &'static str), &Warning> = BTreeMap::new();
        let found = self.benches.values().flat_map(|s| &s.warnings).chain(&self.wide);
        for warning in found.filter(|w| w.put_off_until.is_none()) {
            let whose = self.whose(warning);
            if !matches!(whose, Whose::Bench(_)) {
                let kept = all.entry((whose, warning.name.title())).or_insert(warning);
                if warning.level > kept.level {
                    *kept = warning;
                }
            }
        }
        self.troubles = strongest(all.into_values()).into_iter().cloned().collect();
    }

    /// Every warning found on a bench that is not postponed.
    fn of_bench(&self, bench: &str) -> impl Iterator<Item = &Warning> {
        let found = self.bench(bench).into_iter().flat_map(|s| &s.warnings);
        found.filter(|w| w.put_off_until.is_none())
    }

    /// The benches, lots and houses that are flagged among some benches, a trouble of a lot once.
    pub fn flagged(&self, benches: &BTreeSet<&str>) -> Flagged {
        let here = |w: &&Warning| w.benches.iter().any(|b| benches.contains(b.as_str()));
        let found = benches.iter().flat_map(|bench| self.of_bench(bench));
        let wide = self.wide.iter().filter(|w| w.put_off_until.is_none()).filter(here);
        let mut flagged = Flagged::default();
        for warning in found.chain(wide).filter(|w| w.level >= Severity::Act) {
            flagged.add(self.whose(warning));
        }
        flagged
    }

    /// How long the benches of a lot took to dry down last, days (median); `None` where none of them did lately.
    pub fn dry_down_of_lot(&self, lot: &str, on: NaiveDate) -> Option<f64> {
        let of_lot = |s: &&Summary| s.standing.as_ref().is_some_and(|standing| standing.lot == lot);
        dry_down::of_lot(self.benches.values().filter(of_lot).map(|s| &s.drying), on)
    }

    /// How fast a bench dries down, in words: `dries 5 to 2 in 4 days, its lot in 3; before 3, 3`. `None` where that is not known.
    pub fn dries(&self, bench: &str, on: NaiveDate) -> Option<String> {
        let summary = self.bench(bench)?;
        let lot = self.dry_down_of_lot(&summary.standing.as_ref()?.lot, on);
        words::dries(&summary.drying, lot, on)
    }

    /// The benches that dry slower than their lot, in walking order.
    pub fn slower(&self, season: &Season, on: NaiveDate) -> Vec<Slower> {
        let benches = season.benches();
        let known = benches.iter().filter_map(|b| {
            let summary = self.bench(&b.bench)?;
            Some((b.bench.as_str(), summary.standing.as_ref()?.lot.as_str(), &summary.drying))
        });
        slower(known, on)
    }

    /// How many benches with pots were walked.
    pub fn walked(&self) -> usize {
        self.benches.values().filter(|s| s.standing.is_some() && s.seen).count()
    }

    /// What is not known of the lots that stand, by lot.
    pub fn not_known(&self) -> Vec<NotKnown> {
        not_known(self.benches.values().filter_map(|s| s.not_known.clone()))
    }

    /// Drops everything.
    pub fn all_stale(&mut self, season: &Season) {
        self.benches.clear();
        self.wide.clear();
        self.wide_of.clear();
        self.shared = Shared::default();
        self.own.clear();
        self.troubles.clear();
        self.stale = season.benches().iter().map(|b| b.bench.clone()).collect();
        self.queued = self.stale.iter().cloned().collect();
        self.groups_left = Some(GroupsLeft::default());
        self.whole = false;
    }

    /// Marks the benches of an entry as stale, and the bench its pots went to.
    pub fn touched_by(&mut self, season: &Season, entry: &Entry) {
        if let Kind::Moved { to, .. } = &*entry.kind {
            self.touched(season, &Place::Bench(to.as_str().into()));
        }
        self.touched(season, &entry.place);
        // What one bench of a lot shows bears on the leaf signs of the others.
        if matches!(entry.name(), KindName::Leaves | KindName::Pests)
            && let Some(lot) = season.lot_of(entry)
        {
            let has_looks = |code: &&str| season.history(code, entry.day()).last(KindName::Leaves).is_some();
            for code in season.benches_of_lot(&lot, entry.day()).into_iter().filter(has_looks) {
                self.touched(season, &Place::Bench(code.into()));
            }
        }
    }

    /// Marks the benches of a place as stale.
    pub fn touched(&mut self, season: &Season, place: &Place) {
        let codes: Vec<String> = match place {
            Place::Bench(code) => vec![code.to_string()],
            Place::House(house) => {
                season.benches().iter().filter(|b| *b.house == **house).map(|b| b.bench.clone()).collect()
            }
            Place::Lot(_) => season.benches().iter().map(|b| b.bench.clone()).collect(),
        };
        for code in codes {
            if self.queued.insert(code.clone()) {
                self.stale.push_back(code);
            }
        }
        self.groups_left = Some(GroupsLeft::default());
    }

    /// Recomputes a bench at once, for the one a page is about to show.
    pub fn now(&mut self, season: &Season, bench: &str, day: NaiveDate, limits: &Limits) {
        if season.bench(bench).is_none() {
            return;
        }
        if self.queued.contains(bench) {
            self.stale.retain(|b| b != bench);
        } else if self.benches.contains_key(bench) {
            return;
        }
        self.assess(vec![bench.to_owned()], (season, day, limits));
    }

    fn assess(&mut self, codes: Vec<String>, (season, day, limits): (&Season, NaiveDate, &Limits)) {
        let summaries = in_two(&codes, |codes| Summary::of_all(season, codes, day, limits));
        for (code, summary) in codes.into_iter().zip(summaries) {
            self.queued.remove(&code);
            self.benches.insert(code.clone(), summary);
            self.keep_own(&code);
        }
    }

    /// Recomputes a few benches, or after the last a few lots and houses. False when nothing is stale.
    pub fn step(&mut self, season: &Season, day: NaiveDate, limits: &Limits) -> bool {
        self.step_benches(season, day, limits) || self.step_groups(season, day, limits)
    }

    /// Recomputes a few benches. False when none is stale.
    pub fn step_benches(&mut self, season: &Season, day: NaiveDate, limits: &Limits) -> bool {
        let codes: Vec<String> = self.stale.drain(..self.stale.len().min(BENCHES)).collect();
        let any = !codes.is_empty();
        self.assess(codes, (season, day, limits));
        any
    }

    /// Recomputes a few lots and houses; after the last, what they all share. False when none is stale.
    fn step_groups(&mut self, season: &Season, day: NaiveDate, limits: &Limits) -> bool {
        let Some(left) = &mut self.groups_left else { return false };
        let Some(places) = &mut left.places else {
            left.places = Some(groups_on(season, day).into());
            return true;
        };
        let next: Vec<Place> = places.drain(..places.len().min(GROUPS)).collect();
        if !next.is_empty() {
            let benches = &self.benches;
            let summary = |code: &str| Some((code.to_owned(), benches.get(code)?.warnings.clone()));
            let of_place = |place: &Place| {
                let per_bench = season.benches_at(place, day).into_iter().filter_map(summary).collect();
                assess_group(season, (place, day), limits, &per_bench)
            };
            let found = in_two(&next, |places| places.iter().flat_map(of_place).collect());
            left.found.extend(found);
            return true;
        }
        let mut found = std::mem::take(&mut left.found);
        found.sort_by_key(|w| w.name);
        self.groups_left = None;
        self.whole = true;
        self.wide_of = by_bench(&found);
        self.wide = found;
        self.shared = Shared::of(season, day, self.benches.values().flat_map(|s| &s.warnings));
        self.keep_troubles();
        self.plots_due = trials::due_on_benches(season, day);
        true
    }
}

/// The places of warnings by the benches they name.
fn by_bench(warnings: &[Warning]) -> BTreeMap<String, Vec<usize>> {
    let mut places: BTreeMap<String, Vec<usize>> = BTreeMap::new();
    for (at, warning) in warnings.iter().enumerate() {
        for bench in &warning.benches {
            let of_bench = places.entry(bench.clone()).or_default();
            if of_bench.last() != Some(&at) {
                of_bench.push(at);
            }
        }
    }
    places
}

fn strongest<'w>(warnings: impl Iterator<Item = &'w Warning>) -> Vec<&'w Warning> {
    let mut all: Vec<&Warning> = warnings.collect();
    all.sort_by_key(|w| std::cmp::Reverse(w.level));
    all
}
