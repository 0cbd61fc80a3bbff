//! Hubs as the session opens them.

use crate::exchange::{Carrier, CarrierError};
use crate::hub::{self, Surroundings};
use chrono::{DateTime, Utc};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::Instant;

/// The present instant for a hub, which is compared with its own clock: the one an exchange began at, and what passed since.
#[derive(Debug, Clone, Default)]
pub(super) struct HubClock(Arc<Mutex<Option<Set>>>);

/// An instant, and when it was said.
type Set = (DateTime<Utc>, Instant);

impl HubClock {
    /// Sets it.
    pub(super) fn set(&self, now: DateTime<Utc>) {
        *self.0.lock().unwrap_or_else(PoisonError::into_inner) = Some((now, Instant::now()));
    }

    fn now(&self) -> DateTime<Utc> {
        let set = *self.0.lock().unwrap_or_else(PoisonError::into_inner);
        set.map(|(at, since)| at + since.elapsed()).unwrap_or_default()
    }
}

/// A hub by the key words that name it.
pub(super) fn open(words: &str, clock: &HubClock) -> Result<Box<dyn Carrier + Send>, CarrierError> {
    let clock = clock.clone();
    hub::open(words, Surroundings::of_process(), Box::new(move || clock.now()))
}

/// Database and host of a hub.
pub(super) fn place(words: &str) -> Result<String, CarrierError> {
    hub::place(words, &Surroundings::of_process())
}
