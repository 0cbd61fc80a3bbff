//! Lines of a small season, laptops with a file of it, and what a file holds.

use crate::hub::Hub;
use benchwalk::exchange::{Batches, Chain, Exchanged, Linked, Replica, Stopped, exchange};
use benchwalk::journal;
use benchwalk::record::{Line, codec};
use benchwalk::store::Store;
use std::collections::BTreeSet;
use std::path::PathBuf;
use tempfile::TempDir;
use uuid::Uuid;

pub(crate) const SEASON: Uuid = Uuid::from_u128(0x0199_a000_0000_7000_8000_0000_0000_0001);

pub(crate) fn line(text: &str) -> Line {
    codec::decode(text, codec::VERSION).unwrap_or_else(|faults| panic!("{text}: {faults:?}"))
}

/// The plan that every laptop begins with.
pub(crate) fn plan() -> Vec<Line> {
    [
        r#"{"type":"site","name":"Wrenby Hill","latitude":44.1,"longitude":-70.21,"time_zone":"America/New_York","units":"us","at":"2026-08-01T08:00:00-04:00","by":"ann","replaces":[]}"#,
        r#"{"type":"lot","lot":"R6","cultivar":"mid red","container":"6.5 in","cuttings_per_pot":1,"pots":240,"planted":"2026-08-17","pinch":"soft","response_weeks":9.5,"nights":"natural","ready_by":"2026-11-27","at":"2026-08-01T08:00:00-04:00","by":"ann","replaces":[]}"#,
        r#"{"type":"bench","bench":"E1","house":"East","order":1}"#,
        r#"{"type":"placement","bench":"E1","lot":"R6","pots":80,"from":"2026-08-17"}"#,
    ]
    .map(line)
    .to_vec()
}

/// A water score of E1; number and minute say which.
pub(crate) fn water(id: u128, minute: u32, level: u32) -> Line {
    on_bench("E1", id, minute, level)
}

pub(crate) fn on_bench(bench: &str, id: u128, minute: u32, level: u32) -> Line {
    let (day, hour, minute) = (1 + minute / 1440 % 28, minute / 60 % 24, minute % 60);
    let id = Uuid::from_u128(id);
    line(&format!(
        r#"{{"type":"entry","id":"{id}","at":"2026-10-{day:02}T{hour:02}:{minute:02}:00-04:00","by":"kt","bench":"{bench}","kind":"water","level":{level}}}"#
    ))
}

/// Texts as the lines of a stream.
pub(crate) fn chained(texts: &[String]) -> Vec<Linked> {
    let mut chain = Chain::START;
    let link = |text: &String| {
        chain = chain.link(text);
        Linked { text: text.clone(), chain }
    };
    texts.iter().map(link).collect()
}

/// The lines of a file that count, as they stand in streams.
pub(crate) fn texts(store: &Store) -> BTreeSet<String> {
    let (plan, entries) = store.load().unwrap();
    plan.lines().into_iter().chain(entries.into_iter().map(Line::Entry)).map(|line| codec::line_text(&line)).collect()
}

/// A laptop with a season file.
pub(crate) struct Laptop {
    pub(crate) folder: TempDir,
    pub(crate) seat: [u8; 16],
    pub(crate) name: String,
    /// Closed while the file is copied.
    pub(crate) open: Option<Store>,
}

impl Laptop {
    /// One that begins the season, or a part of it, with these lines and shares it.
    pub(crate) fn new(seat: u8, name: &str, lines: &[Line]) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let (mut store, _) = Store::create_with(&folder.path().join("season.db"), lines, Some(SEASON)).unwrap();
        store.share([seat; 16], name).unwrap();
        Self { folder, seat: [seat; 16], name: name.to_owned(), open: Some(store) }
    }

    /// One that was given a copy of a season file.
    pub(crate) fn with_file(seat: u8, name: &str, bytes: &[u8]) -> Self {
        let folder = tempfile::tempdir().unwrap();
        std::fs::write(folder.path().join("season.db"), bytes).unwrap();
        Self { folder, seat: [seat; 16], name: name.to_owned(), open: None }
    }

    pub(crate) fn path(&self) -> PathBuf {
        self.folder.path().join("season.db")
    }

    pub(crate) fn store(&mut self) -> &mut Store {
        let (path, seat) = (self.path(), self.seat);
        self.open.get_or_insert_with(|| {
            let mut store = Store::open(&path).unwrap();
            store.sit(seat, &self.name);
            store
        })
    }

    /// The file as it lies there when the program has quit.
    pub(crate) fn file(&mut self) -> Vec<u8> {
        self.quit();
        std::fs::read(self.path()).unwrap()
    }

    pub(crate) fn quit(&mut self) {
        if let Some(store) = self.open.take() {
            store.close().unwrap();
        }
    }

    pub(crate) fn put_back(&mut self, bytes: &[u8]) {
        self.quit();
        std::fs::write(self.path(), bytes).unwrap();
    }

    pub(crate) fn append(&mut self, lines: &[Line]) {
        self.store().append(lines).unwrap();
    }

    /// One exchange; what it did, and whether it came to its end.
    pub(crate) fn exchange_by(&mut self, hub: &mut Hub, batches: Batches) -> (Exchanged, bool) {
        let mut did = Exchanged::default();
        match exchange(self.store(), hub, SEASON, batches, &mut did) {
            Ok(()) => (did, true),
            Err(Stopped::Carrier(_)) => (did, false),
            Err(Stopped::Replica(error)) => panic!("{error}"),
        }
    }

    pub(crate) fn exchange(&mut self, hub: &mut Hub) -> Exchanged {
        let (did, whole) = self.exchange_by(hub, Batches::default());
        assert!(whole, "the carrier was cut");
        did
    }

    pub(crate) fn export(&mut self) -> String {
        let store = self.store();
        let (plan, entries) = store.load().unwrap();
        journal::write(store.season_id().unwrap(), &plan, &entries)
    }

    /// The lines that count, as they stand in streams.
    pub(crate) fn texts(&mut self) -> BTreeSet<String> {
        texts(self.store())
    }

    /// Every line of every stream, those too that do not count because another one of their id does.
    pub(crate) fn logged(&mut self) -> BTreeSet<String> {
        let store = self.store();
        let branches = Replica::branches(store).unwrap();
        let lines = branches.iter().flat_map(|branch| Replica::read(store, branch.id, 0, usize::MAX).unwrap());
        lines.map(|line| line.text).collect()
    }

    pub(crate) fn heads(&mut self) -> Vec<(u64, String)> {
        let branches = Replica::branches(self.store()).unwrap();
        branches.into_iter().map(|branch| (branch.last, branch.chain.to_string())).collect()
    }
}
