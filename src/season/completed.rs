//! Entries that a later one completes: the base felt after the water of the same look, the reach after the score of the roots.
//! The later entry says everything the former does and more, so it alone is shown; voided, it leaves the former as it was.

use super::Season;
use crate::record::{Entry, Kind};
use chrono::NaiveDate;

/// True where an entry says all that a former one of the same place and day does, with the base or the reach besides.
fn completes(later: &Entry, former: &Entry) -> bool {
    let same_look = later.day() == former.day() && later.place == former.place && later.plot == former.plot;
    let same_note = former.note.is_none() || former.note == later.note;
    same_look
        && same_note
        && match (&*former.kind, &*later.kind) {
            (Kind::Water { level, base: None }, Kind::Water { level: again, base: Some(_) }) => level == again,
            (Kind::Roots { reach: None, .. }, Kind::Roots { reach: reach @ Some(_), .. }) => {
                let mut whole = Kind::clone(&former.kind);
                if let Kind::Roots { reach: open, .. } = &mut whole {
                    *open = *reach;
                }
                whole == *later.kind
            }
            _ => false,
        }
}

impl Season {
    /// True for an entry that the next one of its kind at its place completes.
    pub(super) fn is_completed(&self, entry: &Entry) -> bool {
        self.beside(entry, true).is_some_and(|later| completes(later, entry))
    }

    /// The entry that this one completes; `None` where it stands for itself.
    pub fn former(&self, entry: &Entry) -> Option<&Entry> {
        self.beside(entry, false).filter(|former| completes(entry, former))
    }

    /// The next entry of the same kind at the same place, or the one before; voided ones are passed over.
    fn beside(&self, entry: &Entry, later: bool) -> Option<&Entry> {
        let all = self.index.at(&entry.place).iter().filter_map(|at| self.at(*at));
        let mut same = all.filter(|e| e.name() == entry.name() && !self.is_struck(e, NaiveDate::MAX));
        if later {
            same.find(|e| e.order() > entry.order())
        } else {
            same.take_while(|e| e.order() < entry.order()).last()
        }
    }
}
