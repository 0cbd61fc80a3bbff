//! The treatments of which a record is required: growth regulators and sprays, one a treatment, however many benches it was
//! logged for.

use super::{Season, places};
use crate::record::{Application, Entry, Kind, Place};
use chrono::{DateTime, NaiveDate, Utc};

/// One treatment: what was put on in one go, at the places it was logged for.
#[derive(Debug, Clone)]
pub struct Treatment<'a> {
    /// Its entries, alike but for their places; never empty.
    entries: Vec<&'a Entry>,
}

impl<'a> Treatment<'a> {
    /// The entry of its first place.
    pub fn entry(&self) -> Option<&'a Entry> {
        self.entries.first().copied()
    }

    /// What the label and the person who applied it give; `None` for no kind of entry listed here.
    pub fn application(&self) -> Option<&'a Application> {
        match &*self.entry()?.kind {
            Kind::GrowthRegulator { application, .. } | Kind::Sprayed { application, .. } => Some(application),
            _ => None,
        }
    }

    /// When everybody may enter again by its restricted-entry interval; `None` where that is of no hours.
    pub fn open_from(&self) -> Option<DateTime<Utc>> {
        let entry = self.entry()?;
        super::closes_until(entry.instant(), entry.kind.re_entry_h()?)
    }

    /// The lots treated, each once.
    pub fn lots(&self, season: &Season) -> Vec<String> {
        let mut lots: Vec<String> = Vec::new();
        for entry in &self.entries {
            let of: Vec<String> = match &entry.place {
                Place::House(_) => {
                    let benches = season.benches_at(&entry.place, entry.day()).into_iter();
                    benches.filter_map(|bench| Some(season.standing(bench, entry.day())?.lot)).collect()
                }
                Place::Bench(_) | Place::Lot(_) => season.lot_of(entry).into_iter().collect(),
            };
            lots.extend(of);
        }
        lots.sort_unstable();
        lots.dedup();
        lots
    }

    /// Where it was: `benches M1-M4`, `house Mill`, `plots T1.3 T1.7 on M2`.
    pub fn site(&self, season: &Season) -> String {
        let plots: Vec<&str> = self.entries.iter().filter_map(|entry| entry.plot.as_deref()).collect();
        let benches: Vec<String> = (self.entries.iter())
            .filter_map(|entry| match &entry.place {
                Place::Bench(bench) => Some(bench.to_string()),
                Place::House(_) | Place::Lot(_) => None,
            })
            .collect();
        let mut parts: Vec<String> = (self.entries.iter())
            .filter(|entry| !matches!(entry.place, Place::Bench(_)))
            .map(|entry| format!("{} {}", entry.place.field(), entry.place.code()))
            .collect();
        let houses = || {
            let of = |code: &String| season.bench(code).map(|bench| bench.house.clone());
            let mut houses: Vec<String> = benches.iter().filter_map(of).collect();
            houses.sort_unstable();
            houses.dedup();
            houses.join(", ")
        };
        if !benches.is_empty() {
            let word = if benches.len() == 1 { "bench" } else { "benches" };
            let mut text = format!("{word} {} (house {})", places::short(season, &benches), houses());
            if !plots.is_empty() {
                text = format!("plots {} on {text}", plots.join(" "));
            }
            parts.push(text);
        }
        parts.join(", ")
    }
}

impl Season {
    /// The treatments that ended from one day to another, both included, as the record stands at the end of a day: those voided
    /// by then are left out. In the order of their ends.
    pub fn treatments(&self, (from, to): (NaiveDate, NaiveDate), day: NaiveDate) -> Vec<Treatment<'_>> {
        let recorded = |entry: &&Entry| matches!(*entry.kind, Kind::GrowthRegulator { .. } | Kind::Sprayed { .. });
        let asked = |entry: &&Entry| entry.day() >= from && entry.day() <= to.min(day);
        let mut all: Vec<Treatment<'_>> = Vec::new();
        for entry in self.entries().iter().filter(asked).filter(recorded).filter(|entry| !self.is_struck(entry, day)) {
            let same = |treatment: &&mut Treatment<'_>| treatment.entry().is_some_and(|first| is_one(first, entry));
            match all.iter_mut().rev().take_while(|t| t.entry().is_some_and(|e| e.at == entry.at)).find(same) {
                Some(treatment) => treatment.entries.push(entry),
                None => all.push(Treatment { entries: vec![entry] }),
            }
        }
        all
    }

    /// When a bench was opened last, by the restricted-entry intervals of all that was put on it by a moment; `None` where nothing
    /// ever closed it.
    pub fn opened_last(&self, bench: &str, at: DateTime<Utc>) -> Option<DateTime<Utc>> {
        let history = self.history(bench, self.day_of(at));
        let ends = history.all().iter().filter_map(|e| super::closes_until(e.instant(), e.kind.re_entry_h()?));
        ends.filter(|end| *end <= at).max()
    }
}

/// True of two entries that one form wrote for two places.
fn is_one(one: &Entry, other: &Entry) -> bool {
    one.at == other.at && one.by == other.by && one.kind == other.kind && one.note == other.note
}
