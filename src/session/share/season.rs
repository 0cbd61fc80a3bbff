//! The exchange of one season with all its carriers.

use super::hubs::HubClock;
use super::kept::{self, Kept, KeptCarrier, KeptFailure, KeptHead};
use super::settings::{CarrierPlace, CarrierSetting, Sharer};
use crate::exchange::{
    Arrival, Batches, Carrier, CarrierError, CarrierState, Exchanged, Gate, Gated, Head, Replica, Sharing, Stopped,
    Stream, exchange,
};
use crate::record::Line;
use crate::run::{Exchanger, Wanted};
use crate::session::SessionError;
use crate::store::{Store, StoreError};
use chrono::{DateTime, TimeDelta, Utc};
use std::collections::HashMap;
use std::path::{Path, PathBuf};
use uuid::Uuid;

/// Minutes until a carrier that failed is tried again: after the first failure, the second, and so on.
const AGAIN: [i64; 4] = [1, 2, 5, 10];

/// A shared season with its carriers.
pub struct SharedSeason {
    store: Store,
    season: Uuid,
    site: String,
    laptop: String,
    carriers: Vec<Open>,
    clock: HubClock,
    /// Where it is kept how exchanges went.
    kept: PathBuf,
    /// What was known last, for when the file cannot be read.
    last: Sharing,
}

/// A carrier that may have been opened.
struct Open {
    setting: CarrierSetting,
    carrier: Option<Box<dyn Carrier + Send>>,
    /// Its heads as they were found last.
    heads: Vec<Head>,
    /// How often it failed, one after the other.
    failures: usize,
    state: CarrierState,
}

impl SharedSeason {
    /// For a thread beside the screens; `None` where the season is not shared.
    ///
    /// # Errors
    /// As [`Store::open_beside`].
    pub fn beside(path: &Path, sharer: &Sharer) -> Result<Option<Self>, SessionError> {
        Self::of(Store::open_beside(path)?, sharer)
    }

    /// For a command; `None` where the season is not shared.
    ///
    /// # Errors
    /// As [`Store::open`].
    pub fn alone(path: &Path, sharer: &Sharer) -> Result<Option<Self>, SessionError> {
        Self::of(Store::open(path)?, sharer)
    }

    /// For a command that only looks; `None` where the season is not shared.
    ///
    /// # Errors
    /// As [`Store::open_read_only`].
    pub fn reading(path: &Path, sharer: &Sharer) -> Result<Option<Self>, SessionError> {
        Self::of(Store::open_read_only(path)?, sharer)
    }

    fn of(mut store: Store, sharer: &Sharer) -> Result<Option<Self>, SessionError> {
        let shared = if store.is_shared()? { store.season_id()? } else { None };
        let Some(season) = shared else { return Ok(None) };
        sharer.laptop.sit(&mut store)?;
        let site = site_of(&store)?;
        let kept = kept::path(&sharer.laptop.state, season);
        let mut before = kept::read(&kept);
        let carriers = sharer.of(season).into_iter().map(|setting| Open::of(setting, &mut before)).collect();
        let laptop = sharer.laptop.name.clone();
        let last = Sharing { season, laptop: laptop.clone(), carriers: Vec::new(), laptops: Vec::new(), held: 0 };
        Ok(Some(Self { store, season, site, laptop, carriers, clock: HubClock::default(), kept, last }))
    }

    /// The season.
    pub const fn id(&self) -> Uuid {
        self.season
    }

    /// The name of its site.
    pub fn site(&self) -> &str {
        &self.site
    }

    /// The season file.
    pub const fn store(&self) -> &Store {
        &self.store
    }

    /// How a line came to each hub of the season, by the hub's name; nothing of those that keep no record of it.
    pub fn arrivals(
        &mut self,
        (stream, n): (Stream, u64),
        now: DateTime<Utc>,
    ) -> Vec<(String, Result<Arrival, CarrierError>)> {
        self.clock.set(now);
        let mut all = Vec::new();
        for open in &self.carriers {
            if !matches!(open.setting.place, CarrierPlace::Hub(_)) {
                continue;
            }
            // Nothing is written there: it does not matter as which laptop.
            let opened = open.setting.place.open(stream, &self.clock);
            let asked = opened.and_then(|mut hub| {
                // Says which season is asked about.
                hub.heads(self.season)?;
                hub.arrival(stream, n)
            });
            all.extend(asked.transpose().map(|asked| (open.setting.name.clone(), asked)));
        }
        all
    }

    /// Closes the season file.
    ///
    /// # Errors
    /// As [`Store::close`].
    pub fn close(self) -> Result<(), StoreError> {
        self.store.close()
    }

    /// The stream that this laptop writes.
    fn own_stream(&mut self) -> Result<Stream, StoreError> {
        self.store.own()?;
        let own = self.store.branches()?.into_iter().find(|branch| branch.own);
        Ok(own.map_or(Stream(Uuid::nil()), |branch| branch.stream))
    }

    /// One exchange with one carrier.
    fn exchange_with(&mut self, at: usize, now: DateTime<Utc>, gate: &Gate) {
        self.clock.set(now);
        let own = {
            gate.pass();
            self.own_stream()
        };
        let Some(open) = self.carriers.get_mut(at) else { return };
        let mut did = Exchanged::default();
        let done = own.map_err(Stopped::Replica).and_then(|own| {
            let carrier = match &mut open.carrier {
                Some(carrier) => carrier,
                none => none.insert(open.setting.place.open(own, &self.clock)?),
            };
            if matches!(open.setting.place, CarrierPlace::Folder(_)) {
                // A stick may have been emptied since; what is there says of which site it is.
                carrier.begin(self.season, &self.site)?;
            }
            let mut replica = Gated { replica: &mut self.store, gate };
            exchange(&mut replica, carrier.as_mut(), self.season, Batches::default(), &mut did)?;
            let heads = if did.given == 0 { did.heads.clone() } else { carrier.heads(self.season)? };
            Ok(heads)
        });
        open.ended(did, done.map_err(of_carrier), now);
    }

    /// What is known now; `None` where the file cannot be read.
    fn known(&mut self) -> Result<Sharing, StoreError> {
        let mut laptops = self.store.laptops()?;
        let heads = self.carriers.iter().flat_map(|open| &open.heads);
        let seen: HashMap<Stream, DateTime<Utc>> = heads.fold(HashMap::new(), |mut seen, head| {
            let at = seen.get(&head.stream).copied().max(head.seen);
            seen.extend(at.map(|at| (head.stream, at)));
            seen
        });
        for laptop in &mut laptops {
            laptop.seen = seen.get(&laptop.stream).copied();
        }
        let mut carriers = Vec::with_capacity(self.carriers.len());
        for open in &mut self.carriers {
            open.state.to_send = self.store.to_send(&open.heads)?;
            carriers.push(open.state.clone());
        }
        let held = self.store.held()?;
        Ok(Sharing { season: self.season, laptop: self.laptop.clone(), carriers, laptops, held })
    }

    fn keep(&self) {
        // Another program may have exchanged with other carriers meanwhile.
        let mut all = kept::read(&self.kept);
        all.extend(self.carriers.iter().map(|open| (open.key(), open.kept())));
        kept::write(&self.kept, &all);
    }
}

impl Exchanger for SharedSeason {
    fn state(&mut self) -> Sharing {
        match self.known() {
            Ok(sharing) => self.last = sharing,
            Err(error) => {
                tracing::warn!(%error, "what is shared was not read");
                self.last.carriers = self.carriers.iter().map(|open| open.state.clone()).collect();
            }
        }
        self.last.clone()
    }

    fn exchange(&mut self, wanted: Wanted, now: DateTime<Utc>, gate: &Gate, tell: &dyn Fn(Sharing)) -> Sharing {
        let takes = |(at, open): (usize, &Open)| wanted.takes(&open.state, now).then_some(at);
        let mut order: Vec<usize> = self.carriers.iter().enumerate().filter_map(takes).collect();
        // What failed last or is in a network may be slow: the others do not wait for it.
        order.sort_by_key(|at| self.carriers.get(*at).map(Open::may_be_slow));
        let mut order = order.into_iter().peekable();
        while let Some(at) = order.next() {
            self.exchange_with(at, now, gate);
            self.keep();
            // How things stand after the last one is given back.
            if order.peek().is_some() {
                tell(self.state());
            }
        }
        self.state()
    }
}

impl Open {
    fn of(setting: CarrierSetting, before: &mut Kept) -> Self {
        // In a new run everything is tried at once.
        let next = (setting.every > 0).then_some(DateTime::UNIX_EPOCH);
        let state =
            CarrierState { name: setting.name.clone(), place: setting.place.shown(), next, ..CarrierState::default() };
        let mut open = Self { setting, carrier: None, heads: Vec::new(), failures: 0, state };
        if let Some(kept) = before.remove(&open.key()) {
            open.state.shared = kept.shared;
            open.state.failed = kept.failed.map(KeptFailure::error);
            open.heads = kept.heads.into_iter().filter_map(KeptHead::head).collect();
        }
        open
    }

    /// What it is kept under: another place under an old name is another carrier.
    fn key(&self) -> String {
        format!("{} {}", self.setting.name, self.setting.place)
    }

    fn kept(&self) -> KeptCarrier {
        KeptCarrier {
            shared: self.state.shared,
            failed: self.state.failed.as_ref().map(|(error, since)| KeptFailure::of(error, *since)),
            heads: self.heads.iter().map(KeptHead::of).collect(),
        }
    }

    fn may_be_slow(&self) -> (bool, bool) {
        (self.state.failed.is_some(), matches!(self.setting.place, CarrierPlace::Hub(_)))
    }

    /// Takes note of how an exchange ended.
    fn ended(&mut self, did: Exchanged, done: Result<Vec<Head>, CarrierError>, now: DateTime<Utc>) {
        let minutes = match done {
            Ok(heads) => {
                self.state.given_again = given_again(&self.heads, &did);
                (self.state.shared, self.state.failed, self.failures) = (Some(now), None, 0);
                self.heads = heads;
                i64::from(self.setting.every)
            }
            Err(error) => {
                let since = self.state.failed.take().map_or(now, |(_, since)| since);
                let absent = matches!(error, CarrierError::NotThere { .. });
                self.state.failed = Some((error, since));
                self.state.given_again = 0;
                // A stick is looked for often: that costs nothing.
                let at = if absent { 0 } else { self.failures };
                self.failures = self.failures.saturating_add(1);
                AGAIN.get(at).or(AGAIN.last()).copied().unwrap_or(1)
            }
        };
        self.state.did = did;
        self.state.next = (self.setting.every > 0).then(|| now + TimeDelta::minutes(minutes));
    }
}

/// Lines that had been at a carrier and were given again.
fn given_again(before: &[Head], did: &Exchanged) -> usize {
    let found: HashMap<Stream, u64> = did.heads.iter().map(|head| (head.stream, head.last)).collect();
    let less = |head: &Head| head.last.saturating_sub(found.get(&head.stream).copied().unwrap_or(0));
    let all: u64 = before.iter().map(less).sum();
    usize::try_from(all).unwrap_or(usize::MAX).min(did.given)
}

/// Why an exchange stopped, as it is said of the carrier.
fn of_carrier(stopped: Stopped<StoreError>) -> CarrierError {
    match stopped {
        Stopped::Carrier(error) => error,
        Stopped::Replica(error) => CarrierError::Failed(error.to_string()),
    }
}

/// The name of the site of a season file.
pub(super) fn site_of(store: &Store) -> Result<String, StoreError> {
    let plan = store.load_plan()?;
    let site = plan.sites.into_iter().map(Line::Site).max_by_key(Line::order);
    Ok(match site {
        Some(Line::Site(site)) => site.name,
        _ => String::new(),
    })
}
