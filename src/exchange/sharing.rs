//! What is known of a shared season: its carriers, and the laptops that write it.

use super::{CarrierError, Exchanged, Stream};
use chrono::{DateTime, FixedOffset, Utc};
use uuid::Uuid;

/// A carrier of the season, and how the last exchange with it went.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CarrierState {
    /// Its name in the settings, such as `stick` or `office`.
    pub name: String,
    /// Where it is: the folder, or the host and database.
    pub place: String,
    /// When an exchange with it last came to its end.
    pub shared: Option<DateTime<Utc>>,
    /// Why it failed since, and when it failed first; `None` where the last exchange came to its end.
    pub failed: Option<(CarrierError, DateTime<Utc>)>,
    /// Lines of this laptop that it has not yet.
    pub to_send: usize,
    /// When it is tried again by itself; `None` where only on command.
    pub next: Option<DateTime<Utc>>,
    /// What the last exchange did; nothing before the first in this run.
    pub did: Exchanged,
    /// Lines that had been here before and were given again, because it had less than before.
    pub given_again: usize,
}

/// A laptop that writes the season: one stream.
#[derive(Debug, Clone, PartialEq)]
pub struct LaptopState {
    /// Its stream.
    pub stream: Stream,
    /// As it calls itself; `None` where that is not known.
    pub name: Option<String>,
    /// True of this laptop.
    pub own: bool,
    /// Lines of it here.
    pub lines: u64,
    /// The instant of the newest line of it here: up to then its entries are known.
    pub known_to: Option<DateTime<FixedOffset>>,
    /// When it was last heard of by a carrier with a clock of its own.
    pub seen: Option<DateTime<Utc>>,
}

/// All that is known of a shared season.
#[derive(Debug, Clone, PartialEq)]
pub struct Sharing {
    /// The season.
    pub season: Uuid,
    /// What this laptop calls itself.
    pub laptop: String,
    /// Its carriers, in the order of the settings.
    pub carriers: Vec<CarrierState>,
    /// The laptops, this one first, then by name.
    pub laptops: Vec<LaptopState>,
    /// Lines of a newer program that are kept but not understood here.
    pub held: usize,
}

impl Sharing {
    /// Lines of this laptop that no carrier has yet.
    pub fn unsent(&self) -> usize {
        self.carriers.iter().map(|carrier| carrier.to_send).min().unwrap_or(0)
    }

    /// Counts lines that were written here since this was found out: no carrier has them.
    pub fn add_written(&mut self, lines: usize) {
        for carrier in &mut self.carriers {
            carrier.to_send = carrier.to_send.saturating_add(lines);
        }
        for laptop in self.laptops.iter_mut().filter(|laptop| laptop.own) {
            laptop.lines = laptop.lines.saturating_add(u64::try_from(lines).unwrap_or(0));
        }
    }
}
