//! An entry written right: the form of its kind filled in with what it says, saved in its place.

use super::{State, treatment};
use crate::model::{Effect, Model};
use crate::popups::fields::About;
use crate::popups::when;
use crate::record::{Entry, FieldFault, Values};
use chrono::{DateTime, FixedOffset};

/// Why the entry it takes the place of is voided.
const WHY: &str = "written right";

/// The entry that is written right.
pub(super) fn entry<'m>(state: &State, model: &'m Model) -> Option<&'m Entry> {
    model.season.entry(state.ask.rights?)
}

/// Fills the form in with what the entry says. The REI is left to be typed: it is read off the label every time.
pub(super) fn fill(state: &mut State, model: &Model) {
    let Some(entry) = entry(state, model) else { return };
    let values = entry.kind.values();
    for row in state.fields.all_mut() {
        match row.name {
            About::When | About::Ended => row.set(&when::shown(entry.at, model)),
            About::Note => row.set(entry.note.as_deref().unwrap_or_default()),
            About::Own(field) if field.name != treatment::REI => {
                if let Some(value) = values.get(field.name) {
                    state.opened.fill(row, value, model);
                }
            }
            _ => {}
        }
    }
}

/// The values that no form asks for, as the entry has them.
pub(super) fn unasked(state: &State, model: &Model) -> Values {
    let mut values = Values::new();
    let Some(entry) = entry(state, model) else { return values };
    let asked = |name: &str| state.ask.kind.table().field(name).is_some_and(|field| field.asked);
    for (name, value) in entry.kind.values().iter().filter(|(name, _)| !asked(name)) {
        values.set(name, value.clone());
    }
    values
}

/// The moment of the entry, where that was not changed: to the second it was written.
pub(super) fn moment(state: &State, model: &Model) -> Option<DateTime<FixedOffset>> {
    entry(state, model).map(|entry| entry.at).filter(|at| state.text("at") == when::shown(*at, model))
}

/// Records the new entry in the place of the one that was wrong.
///
/// # Errors
/// Every fault, by field; nothing is recorded and nothing voided then.
pub(super) fn record(old: &Entry, new: Entry, model: &mut Model) -> Result<Effect, Vec<FieldFault>> {
    let new = Entry { plot: old.plot.clone(), ..new };
    model.replace(std::slice::from_ref(old), WHY, new)
}
