//! Twins: the same work with the same numbers on the same day at the same place, from two laptops. Both count until a person
//! voids one, or notes that both are right.
//!
//! The note is an entry of the kind `note` at their place, for every program to show:
//! `both right: <id of the one> <id of the other>`. More than two ids may stand in it. Voided, it says nothing.

use super::{Unsettled, Writer};
use crate::record::{Entry, Kind, Part, Place};
use crate::season::Season;
use crate::season::index::Position;
use chrono::NaiveDate;
use std::collections::BTreeMap;
use std::sync::Arc;
use uuid::Uuid;

/// How a note begins that names entries which look like one logged twice and are not.
const BOTH_RIGHT: &str = "both right:";

/// The text of the note that says of entries that each of them is right.
pub fn both_right(entries: &[Uuid]) -> String {
    entries.iter().fold(BOTH_RIGHT.to_owned(), |text, id| format!("{text} {id}"))
}

/// The entries that a note says are all right; none where it says something else.
pub fn names_as_right(entry: &Entry) -> Vec<Uuid> {
    let Kind::Note {} = *entry.kind else { return Vec::new() };
    let names = entry.note.as_deref().and_then(|text| text.trim().strip_prefix(BOTH_RIGHT));
    let ids: Option<Vec<Uuid>> = names.map(|names| names.split_whitespace().map_while(|id| id.parse().ok()).collect());
    ids.unwrap_or_default()
}

/// The same work of one day, logged by two laptops at some places.
#[derive(Debug, Clone, PartialEq)]
pub struct Twins {
    /// What was done, as the first of them says it.
    pub kind: Arc<Kind>,
    /// The day.
    pub day: NaiveDate,
    /// The places, each with the entries that may be one, in their order.
    pub places: Vec<(Place, Vec<Uuid>)>,
    /// Who logged them: the first of each laptop and person, in the order of these.
    pub writers: Vec<Writer>,
}

impl Twins {
    /// The entries of one of those who logged them.
    pub fn of(&self, season: &Season, writer: &Writer) -> Vec<Uuid> {
        let same = |entry: &Entry| {
            let of = season.writer(entry);
            (of.by, of.laptop) == (writer.by.clone(), writer.laptop.clone())
        };
        let all = self.places.iter().flat_map(|(_, ids)| ids);
        all.filter(|id| season.entry(**id).is_some_and(same)).copied().collect()
    }
}

/// Twins of several places: what they are, the first entry, and by laptop and person who logged them.
type Together<'a> = (Twins, &'a Entry, Vec<(Option<&'a str>, &'a str)>);

/// Entries of one place that may be one.
struct Found<'a> {
    place: &'a Place,
    entries: Vec<&'a Entry>,
}

impl Season {
    /// The twins by day, kind and first entry; those of several places are one where the same people logged them.
    pub(super) fn twins(&self) -> Vec<Unsettled> {
        let mut found: Vec<Found<'_>> = Vec::new();
        for (_, list) in self.index.places() {
            self.twins_among(list, |_| true, &mut found);
        }
        for (_, list) in self.index.plots() {
            // What closes or takes pots stands in the list of its place as well.
            self.twins_among(list, |entry| !entry.is_of_whole_place(), &mut found);
        }
        found.sort_by_cached_key(|one| one.entries.first().map(|e| (e.day(), e.name(), e.order())));
        let mut together: Vec<Together<'_>> = Vec::new();
        for one in found {
            let Some(first) = one.entries.first().copied() else { continue };
            let sides = self.sides(&one.entries);
            let who: Vec<(Option<&str>, &str)> = sides.keys().copied().collect();
            let ids = one.entries.iter().map(|e| e.id).collect();
            let same = |(twins, of, known): &&mut Together<'_>| {
                twins.day == first.day() && *known == who && same_numbers(&of.kind, &first.kind)
            };
            let mut of_day = together.iter_mut().rev().take_while(|(twins, ..)| twins.day == first.day());
            if let Some((twins, ..)) = of_day.find(same) {
                twins.places.push((one.place.clone(), ids));
                continue;
            }
            let mut writers: Vec<&Entry> = sides.into_values().collect();
            writers.sort_by_key(|e| e.order());
            let writers = writers.into_iter().map(|e| self.writer(e)).collect();
            let places = vec![(one.place.clone(), ids)];
            together.push((Twins { kind: Arc::clone(&first.kind), day: first.day(), places, writers }, first, who));
        }
        together.into_iter().map(|(twins, ..)| Unsettled::Twins(twins)).collect()
    }

    /// By laptop and person the first entry.
    fn sides<'a>(&'a self, entries: &[&'a Entry]) -> BTreeMap<(Option<&'a str>, &'a str), &'a Entry> {
        let mut sides = BTreeMap::new();
        for entry in entries {
            sides.entry((self.origin(entry.id), entry.by.as_ref())).or_insert(*entry);
        }
        sides
    }

    /// The twins among the entries of one place or plot, which are in their order.
    fn twins_among<'a>(&'a self, list: &[Position], of: impl Fn(&Entry) -> bool, found: &mut Vec<Found<'a>>) {
        let day = self.settled_on();
        let all = list.iter().filter_map(|at| self.at(*at));
        let mut work: Vec<(NaiveDate, &Entry)> =
            all.filter(|e| can_be_twin(e) && of(e)).map(|e| (e.day(), e)).collect();
        work.sort_by_key(|(day, _)| *day);
        for of_day in work.chunk_by(|a, b| a.0 == b.0).filter(|of_day| of_day.len() > 1) {
            if of_day.first().is_none_or(|(on, _)| *on > day) {
                continue;
            }
            let mut alike: Vec<Vec<&Entry>> = Vec::new();
            for (_, entry) in of_day.iter().filter(|(_, e)| !self.strikes.struck(e, day)) {
                let same = |known: &&mut Vec<&Entry>| {
                    known.first().is_some_and(|e| e.plot == entry.plot && same_numbers(&e.kind, &entry.kind))
                };
                match alike.iter_mut().find(same) {
                    Some(known) => known.push(entry),
                    None => alike.push(vec![entry]),
                }
            }
            for entries in alike {
                let entries = self.still_open(&entries);
                if let Some(first) = entries.first() {
                    found.push(Found { place: &first.place, entries });
                }
            }
        }
    }

    /// The entries of which one from another laptop may be the same, and no note says that both are right.
    fn still_open<'a>(&self, alike: &[&'a Entry]) -> Vec<&'a Entry> {
        let laptop = |entry: &Entry| self.origin(entry.id);
        if alike.iter().all(|e| alike.first().is_some_and(|first| laptop(first) == laptop(e))) {
            return Vec::new();
        }
        let said = alike.first().map(|first| self.said_right(first)).unwrap_or_default();
        let both = |a: &Entry, b: &Entry| said.iter().any(|ids| ids.contains(&a.id) && ids.contains(&b.id));
        let open = |a: &&Entry| alike.iter().any(|b| laptop(a) != laptop(b) && !both(a, b));
        alike.iter().copied().filter(open).collect()
    }

    /// What the notes at the place of an entry say of entries that are all right.
    fn said_right(&self, entry: &Entry) -> Vec<Vec<Uuid>> {
        let list = entry.plot.as_deref().map_or_else(|| self.index.at(&entry.place), |plot| self.index.of_plot(plot));
        let notes = list.iter().filter_map(|at| self.at(*at));
        let notes = notes.filter(|e| !self.strikes.struck(e, self.settled_on()));
        notes.map(names_as_right).filter(|ids| ids.len() > 1).collect()
    }
}

/// True for work that is not done twice with the same numbers on one day as a rule.
fn can_be_twin(entry: &Entry) -> bool {
    matches!(
        *entry.kind,
        Kind::Sold { .. }
            | Kind::Losses { .. }
            | Kind::Moved { .. }
            | Kind::Grade { .. }
            | Kind::Fed { .. }
            | Kind::Watered { .. }
            | Kind::Topdressed { .. }
            | Kind::Nutrient { .. }
            | Kind::GrowthRegulator { .. }
            | Kind::Sprayed { .. }
            | Kind::Released { .. }
    )
}

/// True where two entries say the same work with the same numbers. How a person words a cause, a product or a species is no
/// number; which ingredient it was decides.
fn same_numbers(a: &Kind, b: &Kind) -> bool {
    match (a, b) {
        (Kind::Losses { pots, .. }, Kind::Losses { pots: others, .. }) => pots == others,
        (
            Kind::GrowthRegulator { parts, how, rei_h, ml_per_pot, .. },
            Kind::GrowthRegulator { parts: b_parts, how: b_how, rei_h: b_rei, ml_per_pot: b_ml, .. },
        ) => same_parts(parts, b_parts) && (how, rei_h, ml_per_pot) == (b_how, b_rei, b_ml),
        (Kind::Sprayed { ai, how, rei_h, .. }, Kind::Sprayed { ai: b_ai, how: b_how, rei_h: b_rei, .. }) => {
            same_word(ai, b_ai) && (how, rei_h) == (b_how, b_rei)
        }
        (Kind::Released { species, count }, Kind::Released { species: b_species, count: b_count }) => {
            same_word(species, b_species) && count == b_count
        }
        _ => a == b,
    }
}

fn same_word(a: &str, b: &str) -> bool {
    a.trim().to_lowercase() == b.trim().to_lowercase()
}

fn same_parts(a: &[Part], b: &[Part]) -> bool {
    let sorted = |parts: &[Part]| {
        let mut parts: Vec<(String, u64)> =
            parts.iter().map(|p| (p.ai.trim().to_lowercase(), p.ppm.to_bits())).collect();
        parts.sort();
        parts
    };
    sorted(a) == sorted(b)
}
