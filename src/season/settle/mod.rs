//! What two laptops' records leave open when they are joined. Everything written is kept; a person settles it by a new line:
//! a revision made after seeing both, a strike, a count, or a note that both are right.
//!
//! The list is the same on every laptop that holds the same lines, in the same order: who wrote a line may read as another
//! laptop or as this one, but what is listed never depends on it.

mod clocks;
mod missing;
mod plan;
mod pots;
mod twins;

pub use clocks::ClockAhead;
pub use missing::{Missing, NotThere};
pub use plan::Contradiction;
pub use pots::PotsLeft;
pub use twins::{Twins, both_right, names_as_right};

use super::Season;
use crate::record::{Entry, Line};
use chrono::{DateTime, FixedOffset, NaiveDate, Utc};

/// Something to settle.
#[derive(Debug, Clone, PartialEq)]
#[expect(clippy::large_enum_variant, reason = "a list of a few")]
pub enum Unsettled {
    /// Lines of the plan that contradict each other.
    Plan(Contradiction),
    /// Pots that do not add up: more moved or sold than stand, or two lots on one bench.
    Pots(PotsLeft),
    /// Work that two laptops logged with the same numbers on the same day: once, or twice?
    Twins(Twins),
    /// Entries that name a bench, a lot or an entry that is not there, for a day and more.
    NotThere(NotThere),
    /// A laptop whose lines are later than now.
    Clock(ClockAhead),
    /// So many lines of a newer program are kept and not understood here.
    Held(usize),
}

/// Who wrote a line, when, and on which laptop.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Writer {
    /// The initials; `None` where a line of the plan does not say.
    pub by: Option<String>,
    /// When; `None` where a line of the plan does not say.
    pub at: Option<DateTime<FixedOffset>>,
    /// The laptop; `None` for this one.
    pub laptop: Option<String>,
}

impl Season {
    /// What is to settle, as known on the season's day: the plan by key, then pots by day and bench, twins, what is not there,
    /// lines not understood. Clocks are judged only by a clock: [`Season::to_settle_at`].
    pub fn to_settle(&self) -> Vec<Unsettled> {
        self.to_settle_at(None)
    }

    /// The same as read at an instant; laptops whose lines are later than that are among it.
    pub fn to_settle_at(&self, now: Option<DateTime<Utc>>) -> Vec<Unsettled> {
        let mut all = self.contradictions();
        all.extend(self.pots_left());
        if self.origins.is_shared() {
            all.extend(self.twins());
            all.extend(self.not_there(now));
            all.extend(now.into_iter().flat_map(|now| self.clocks_ahead(now)));
        }
        all.extend(Some(self.origins.held()).filter(|held| *held > 0).map(Unsettled::Held));
        all
    }

    /// The day up to whose end entries count.
    fn settled_on(&self) -> NaiveDate {
        self.as_of.unwrap_or(NaiveDate::MAX)
    }

    /// Who wrote an entry.
    pub fn writer(&self, entry: &Entry) -> Writer {
        let laptop = self.origin(entry.id).map(ToOwned::to_owned);
        Writer { by: Some(entry.by.to_string()), at: Some(entry.at), laptop }
    }

    /// Who wrote a line of the plan.
    pub fn writer_of_line(&self, line: &Line) -> Writer {
        if let Line::Entry(entry) = line {
            return self.writer(entry);
        }
        let revision = line.revision();
        Writer {
            by: revision.and_then(|r| r.by.clone()),
            at: revision.and_then(|r| r.at),
            laptop: self.origin(line.id()).map(ToOwned::to_owned),
        }
    }
}
