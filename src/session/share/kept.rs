//! What is kept between two runs of how exchanges went: only for what is said, never for what is sent. Where it is lost or damaged,
//! nothing is said of earlier exchanges.

use super::super::atomic_write::write_over;
use crate::exchange::{CarrierError, Chain, Head, Stream};
use crate::files::{self, FILE};
use chrono::{DateTime, Utc};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use uuid::Uuid;

/// The largest of these that is read.
const MOST: u64 = 4_000_000;

/// How exchanges with a carrier went.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub(super) struct KeptCarrier {
    /// When an exchange last came to its end.
    pub(super) shared: Option<DateTime<Utc>>,
    /// Why it failed since, and when first.
    pub(super) failed: Option<KeptFailure>,
    /// The heads of the carrier after that exchange.
    pub(super) heads: Vec<KeptHead>,
}

/// Why an exchange failed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub(super) struct KeptFailure {
    since: DateTime<Utc>,
    kind: FailureKind,
    place: String,
    why: String,
}

/// What the frame tells from other failures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
enum FailureKind {
    NotThere,
    Unreachable,
    Cut,
    Other,
}

impl KeptFailure {
    pub(super) fn of(error: &CarrierError, since: DateTime<Utc>) -> Self {
        let (kind, place, why) = match error {
            CarrierError::NotThere { place } => (FailureKind::NotThere, place.clone(), String::new()),
            CarrierError::Unreachable { place, why } => (FailureKind::Unreachable, place.clone(), why.clone()),
            CarrierError::Cut(why) => (FailureKind::Cut, String::new(), why.clone()),
            other => (FailureKind::Other, String::new(), other.to_string()),
        };
        Self { since, kind, place, why }
    }

    /// The failure in the words it had.
    pub(super) fn error(self) -> (CarrierError, DateTime<Utc>) {
        let Self { since, kind, place, why } = self;
        let error = match kind {
            FailureKind::NotThere => CarrierError::NotThere { place },
            FailureKind::Unreachable => CarrierError::Unreachable { place, why },
            FailureKind::Cut => CarrierError::Cut(why),
            FailureKind::Other => CarrierError::Service(why),
        };
        (error, since)
    }
}

/// A head.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub(super) struct KeptHead {
    stream: Uuid,
    last: u64,
    chain: String,
    laptop: Option<String>,
    seen: Option<DateTime<Utc>>,
}

impl KeptHead {
    pub(super) fn of(head: &Head) -> Self {
        let Head { stream, last, chain, laptop, seen } = head;
        Self { stream: stream.0, last: *last, chain: chain.to_string(), laptop: laptop.clone(), seen: *seen }
    }

    pub(super) fn head(self) -> Option<Head> {
        let Self { stream, last, chain, laptop, seen } = self;
        Some(Head { stream: Stream(stream), last, chain: Chain::parse(&chain)?, laptop, seen })
    }
}

/// Of each carrier of a season, by its name and place.
pub(super) type Kept = BTreeMap<String, KeptCarrier>;

/// The file of a season.
pub(super) fn path(state: &Path, season: Uuid) -> PathBuf {
    state.join("share").join(format!("{season}.json"))
}

/// Reads it; nothing where it is not there or not good.
pub(super) fn read(path: &Path) -> Kept {
    let text = files::text(path, MOST, FILE).unwrap_or_default();
    serde_json::from_str(&text).unwrap_or_default()
}

/// Writes it whole. Where that fails it is noted in the log: nothing depends on it.
pub(super) fn write(path: &Path, kept: &Kept) {
    let folder = path.parent().unwrap_or(Path::new(""));
    let written = files::private_folder(folder).map_err(|error| error.to_string()).and_then(|()| {
        let text = serde_json::to_string(kept).map_err(|error| error.to_string())?;
        write_over(path, text.as_bytes()).map_err(|error| error.to_string())
    });
    if let Err(error) = written {
        tracing::warn!(%error, "how exchanges went was not kept");
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_kept_comes_back_and_what_is_damaged_is_nothing() {
        let folder = tempfile::tempdir().unwrap();
        let path = path(folder.path(), Uuid::from_u128(1));
        assert_eq!(read(&path), Kept::new());
        let at: DateTime<Utc> = "2026-10-12T11:00:00Z".parse().unwrap();
        let head = Head {
            stream: Stream(Uuid::from_u128(2)),
            last: 3,
            chain: Chain::START.link("a"),
            laptop: Some("ann-2".to_owned()),
            seen: None,
        };
        let errors = [
            CarrierError::NotThere { place: "/media/BENCH".to_owned() },
            CarrierError::Unreachable { place: "localhost:5432".to_owned(), why: "refused".to_owned() },
            CarrierError::Cut("by the test".to_owned()),
            CarrierError::NoTls,
        ];
        for error in errors {
            let carrier = KeptCarrier {
                shared: Some(at),
                failed: Some(KeptFailure::of(&error, at)),
                heads: vec![KeptHead::of(&head)],
            };
            write(&path, &Kept::from([("stick".to_owned(), carrier.clone())]));
            let back = read(&path).remove("stick").unwrap();
            assert_eq!(back, carrier);
            let (again, since) = back.failed.unwrap().error();
            assert_eq!((again.to_string(), since), (error.to_string(), at));
            let heads: Vec<Head> = back.heads.into_iter().filter_map(KeptHead::head).collect();
            assert!(heads.iter().eq([&head]), "{heads:?}");
        }
        let text = std::fs::read_to_string(&path).unwrap();
        std::fs::write(&path, &text[..text.len() / 2]).unwrap();
        assert_eq!(read(&path), Kept::new());
    }
}
