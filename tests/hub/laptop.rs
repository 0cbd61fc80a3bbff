//! Laptops with season files, and their lines.

use benchwalk::exchange::{Batches, Carrier, Exchanged, Stopped, exchange};
use benchwalk::journal;
use benchwalk::record::{Line, codec};
use benchwalk::store::{Store, StoreError};
use std::collections::BTreeSet;
use tempfile::TempDir;
use uuid::Uuid;

pub(crate) const SEASON: Uuid = Uuid::from_u128(0x0199_a000_0000_7000_8000_0000_0000_0001);

pub(crate) fn line(text: &str) -> Line {
    codec::decode(text, codec::VERSION).unwrap_or_else(|faults| panic!("{text}: {faults:?}"))
}

/// A site with as many benches, the lot that stands on them.
pub(crate) fn plan(benches: usize) -> Vec<Line> {
    let mut texts = vec![
        r#"{"type":"site","name":"Wrenby Hill","latitude":44.1,"longitude":-70.21,"time_zone":"America/New_York","units":"us"}"#.to_owned(),
        r#"{"type":"lot","lot":"R6","cultivar":"mid red","container":"6.5 in","cuttings_per_pot":1,"pots":24000,"planted":"2026-08-17","pinch":"soft","response_weeks":9.5,"nights":"natural","ready_by":"2026-11-27"}"#.to_owned(),
    ];
    for n in 1..=benches {
        texts.push(format!(r#"{{"type":"bench","bench":"E{n}","house":"East","order":{n}}}"#));
    }
    texts.iter().map(|text| line(text)).collect()
}

/// A water score of a bench; the number says which.
pub(crate) fn water(bench: usize, id: u128, note: &str) -> Line {
    let (minute, level, id) = ((id >> 8) % 40_000, 1 + (id >> 8) % 5, Uuid::from_u128(id));
    let (day, hour, minute) = (1 + minute / 1440 % 28, minute / 60 % 24, minute % 60);
    let note = if note.is_empty() { String::new() } else { format!(r#","note":"{note}""#) };
    line(&format!(
        r#"{{"type":"entry","id":"{id}","at":"2026-10-{day:02}T{hour:02}:{minute:02}:00-04:00","by":"kt","bench":"E{bench}","kind":"water","level":{level}{note}}}"#
    ))
}

pub(crate) struct Laptop {
    pub(crate) store: Store,
    _folder: TempDir,
}

impl Laptop {
    /// One that begins with these lines, or joins with none.
    pub(crate) fn new(seat: u8, name: &str, lines: &[Line]) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let (mut store, _) = Store::create_with(&folder.path().join("season.db"), lines, Some(SEASON)).unwrap();
        store.share([seat; 16], name).unwrap();
        Self { store, _folder: folder }
    }

    /// One exchange, and how it ended.
    pub(crate) fn exchange_by(
        &mut self,
        carrier: &mut dyn Carrier,
        batches: Batches,
    ) -> (Exchanged, Result<(), Stopped<StoreError>>) {
        let mut did = Exchanged::default();
        let done = exchange(&mut self.store, carrier, SEASON, batches, &mut did);
        (did, done)
    }

    /// One exchange that comes to its end.
    pub(crate) fn exchange(&mut self, carrier: &mut dyn Carrier) -> Exchanged {
        let (did, done) = self.exchange_by(carrier, Batches::default());
        if let Err(stopped) = done {
            panic!("{stopped:?}");
        }
        did
    }

    /// The lines that are in the file, as they stand in streams.
    pub(crate) fn texts(&self) -> BTreeSet<String> {
        let (plan, entries) = self.store.load().unwrap();
        plan.lines().into_iter().chain(entries.into_iter().map(Line::Entry)).map(|l| codec::line_text(&l)).collect()
    }

    pub(crate) fn export(&self) -> String {
        let (plan, entries) = self.store.load().unwrap();
        journal::write(self.store.season_id().unwrap(), &plan, &entries)
    }
}

/// Each of them exchanges once.
pub(crate) fn all_exchange(laptops: &mut [Laptop], carrier: &mut dyn Carrier) {
    for laptop in laptops {
        laptop.exchange(carrier);
    }
}
