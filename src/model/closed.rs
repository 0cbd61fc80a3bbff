//! What a closed bench takes: treatments, what takes entries back, and what comes there without anybody entering. Everything
//! else needs a person at the bench, so it is not logged of a moment at which the bench was closed.
#![deny(clippy::wildcard_enum_match_arm)]

use super::Model;
use crate::record::{Entry, FieldFault, KindName, Place};
use crate::season::names_as_right;
use chrono::{DateTime, FixedOffset};

/// True for what is seen or done by a person at the bench who is no applicator.
const fn needs_access(kind: KindName) -> bool {
    match kind {
        KindName::Water
        | KindName::Roots
        | KindName::Bracts
        | KindName::Height
        | KindName::Leaves
        | KindName::Pests
        | KindName::RootZone
        | KindName::FeedCheck
        | KindName::Losses
        | KindName::Counted
        | KindName::Grade
        | KindName::Note
        | KindName::Greenness
        | KindName::BractWidth
        | KindName::Topdressed
        | KindName::Released
        | KindName::Pinched
        | KindName::Spaced
        | KindName::Moved
        | KindName::Sold => true,
        // Lines water and feed by themselves; sensors, lamps and cloth work without anybody at the bench.
        KindName::Watered
        | KindName::Fed
        | KindName::Climate
        | KindName::NightLight
        | KindName::Blackout
        | KindName::Lights => false,
        KindName::Nutrient
        | KindName::GrowthRegulator
        | KindName::Sprayed
        | KindName::PutOff
        | KindName::Job
        | KindName::Strike => false,
    }
}

/// The faults of entries that nobody can have made: their place was closed at that moment.
pub(super) fn faults(model: &Model, entries: &[Entry]) -> Vec<FieldFault> {
    // A note that entries are right is made of what is logged, not of what is seen at the bench.
    let seen = |entry: &&Entry| needs_access(entry.name()) && names_as_right(entry).is_empty();
    let shut = entries.iter().filter(seen).filter_map(|entry| {
        let until = closed_place(model, &entry.place, entry.at)?;
        let until = model.day_and_time(until);
        let code = entry.place.code();
        let text = format!("{code} is closed until {until}. If it was before that, type when it was");
        Some(FieldFault::new(entry.place.field(), text))
    });
    let mut faults: Vec<FieldFault> = Vec::new();
    for fault in shut {
        if !faults.contains(&fault) {
            faults.push(fault);
        }
    }
    faults
}

/// Until when a place is closed at a moment: a house or lot is when all of its benches are.
fn closed_place(model: &Model, place: &Place, at: DateTime<FixedOffset>) -> Option<DateTime<FixedOffset>> {
    let benches = model.season.benches_at(place, at.date_naive());
    benches.into_iter().map(|bench| model.closed_at(bench, at)).min().flatten()
}
