//! States past their days: what was last found holds until a newer look of its kind.
//!
//! **Sees** findings that no longer count by their age. **Why** a finding that lapses by the calendar alone would clear a bench
//! that nobody looked at again. **Numbers** none of its own: the days are those of each finding. A carried warning keeps its
//! level and says since when nobody checked. Water is carried only while `not-walked` is silent of the bench: otherwise that
//! says it. **Ends** with a newer look of its kind, with the sale, or with the pots: other pots on the bench do not have their
//! history.

use super::bench_day::{BenchDay, Reading, ends, has_sign, score};
use super::rules::unwalked;
use super::{Evidence, Warning};
use crate::record::{Entry, Kind, KindName, LeafSign, PlantPart};

impl<'a> BenchDay<'a> {
    /// True while a finding that counts for so many days stands: by its age, or carried up to the sale.
    pub(super) fn stands(&self, entry: &Entry, counts: i64) -> bool {
        self.age(entry) <= counts || !self.past_sale()
    }

    /// The latest roots check, while it stands.
    pub(super) fn standing_roots(&self) -> Option<(&'a Entry, u8)> {
        let entry = self.root_looks().first()?.first().copied()?;
        self.stands(entry, self.limits().water.roots_days).then_some((entry, score(entry)?))
    }

    /// The latest water reading, while it stands.
    pub(super) fn standing_water(&self) -> Option<Reading<'a>> {
        let last = self.readings.last().copied().filter(|r| r.day <= self.day())?;
        let counts = self.age(last.entry) <= self.limits().water.reading_days;
        (counts || self.carries_water()).then_some(last)
    }

    /// True where water is carried past its days: before the sale, on a bench that is walked.
    pub(super) fn carries_water(&self) -> bool {
        !self.past_sale() && unwalked(self) < self.limits().round.not_walked_watch
    }

    /// The latest leaves entry with a sign that no later look is without, while it stands.
    pub(super) fn standing_sign(&self, sign: LeafSign) -> Option<&'a Entry> {
        self.standing_leaves(|e| has_sign(e, sign))
    }

    /// The same of a sign on one part of the plant.
    pub(super) fn standing_sign_on(&self, sign: LeafSign, part: PlantPart) -> Option<&'a Entry> {
        let is_on = |e: &Entry| matches!(&*e.kind, Kind::Leaves { plant_part: Some(at), .. } if *at == part);
        self.standing_leaves(|e| has_sign(e, sign) && is_on(e))
    }

    /// The latest leaves entry that names something that no later look is without, while it stands.
    fn standing_leaves(&self, names: impl Fn(&Entry) -> bool) -> Option<&'a Entry> {
        let looks = self.of(KindName::Leaves);
        let seen = looks.iter().rev().copied().find(|e| names(e))?;
        let ended = looks.iter().rev().take_while(|e| e.id != seen.id).any(|e| ends(e, seen));
        (!ended && self.stands(seen, self.limits().water.leaves_days)).then_some(seen)
    }
}

impl Warning {
    /// Says since when nobody checked, where a finding no longer counts by its age.
    #[must_use]
    pub(super) fn carried(self, bench: &BenchDay<'_>, seen: &Entry, counts: i64) -> Self {
        if bench.age(seen) <= counts {
            return self;
        }
        self.also(Evidence::NotChecked { kind: seen.name(), since: seen.day() })
    }

    /// Since when nobody checked what it says, where it is carried past the days of its finding.
    pub fn not_checked_since(&self) -> Option<chrono::NaiveDate> {
        self.evidence.iter().find_map(|piece| match piece {
            Evidence::NotChecked { since, .. } => Some(*since),
            Evidence::Entry(_)
            | Evidence::Missing { .. }
            | Evidence::Figure { .. }
            | Evidence::Forecast { .. }
            | Evidence::Color { .. }
            | Evidence::Warning(_) => None,
        })
    }
}
