//! A mirror takes all that lies at a carrier, gives nothing, and is read only for everybody else.

use crate::hub::Hub;
use crate::lines::{self, Laptop, SEASON, plan, water};
use benchwalk::exchange::{Batches, Exchanged, Stopped, take_only};
use benchwalk::store::{Mirror, Store, StoreError};
use std::collections::BTreeSet;
use std::path::Path;

/// Brings a mirror up to date; false where the carrier was cut.
fn update(mirror: &mut Mirror, hub: &mut Hub, did: &mut Exchanged) -> bool {
    match take_only(mirror, hub, SEASON, Batches { take: 3, give: 3 }, did) {
        Ok(()) => true,
        Err(Stopped::Carrier(_)) => false,
        Err(Stopped::Replica(error)) => panic!("{error}"),
    }
}

/// The lines of a file, as they stand in streams.
fn texts(path: &Path) -> BTreeSet<String> {
    lines::texts(&Store::open_read_only(path).unwrap())
}

/// Two laptops that wrote and gave all to a hub.
fn two() -> (Laptop, Laptop, Hub) {
    let mut hub = Hub::default();
    let mut ann = Laptop::new(1, "ann", &plan());
    let mut bob = Laptop::new(2, "bob", &plan());
    ann.append(&[water(1, 10, 4), water(2, 20, 3), water(3, 30, 2)]);
    bob.append(&[water(4, 40, 4)]);
    ann.exchange(&mut hub);
    bob.exchange(&mut hub);
    ann.exchange(&mut hub);
    (ann, bob, hub)
}

#[test]
fn a_mirror_has_all_lines_and_gives_none_wherever_it_is_cut() {
    let (mut ann, mut bob, mut hub) = two();
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("mirror.db");
    let mut mirror = Mirror::create(&path, SEASON).unwrap();
    let (before, mut whole, mut did) = (hub.log.clone(), false, Exchanged::default());
    for calls in 0..40 {
        hub.left = Some(calls);
        whole = update(&mut mirror, &mut hub, &mut did);
        if whole {
            break;
        }
    }
    hub.left = None;
    assert!(whole && hub.log == before, "it gave something");
    assert_eq!((did.taken, did.given), (ann.texts().len(), 0));
    mirror.close().unwrap();
    assert_eq!(texts(&path), ann.texts());
    // What is new comes the next time, and only that.
    bob.append(&[water(5, 50, 5)]);
    bob.exchange(&mut hub);
    let (before, mut did) = (hub.log.clone(), Exchanged::default());
    let mut mirror = Mirror::open(&path).unwrap();
    assert_eq!(mirror.season_id().unwrap(), Some(SEASON));
    assert!(update(&mut mirror, &mut hub, &mut did) && hub.log == before);
    mirror.close().unwrap();
    assert_eq!(did.taken, 1);
    assert_eq!(texts(&path), bob.texts());
    let store = Store::open_read_only(&path).unwrap();
    assert!(!store.is_shared().unwrap(), "it has no stream of its own");
    let known: Vec<_> = store.laptops().unwrap().into_iter().map(|l| (l.name.unwrap(), l.own, l.known_to)).collect();
    assert_eq!(known.len(), 2);
    assert!(known.iter().all(|(_, own, known_to)| !own && known_to.is_some()), "{known:?}");
}

#[test]
fn a_laptop_that_was_put_back_from_a_copy_is_mirrored_with_both_its_ways() {
    let (mut ann, _bob, mut hub) = two();
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("mirror.db");
    let copy = ann.file();
    ann.append(&[water(6, 60, 1), water(7, 70, 1)]);
    ann.exchange(&mut hub);
    let mut mirror = Mirror::create(&path, SEASON).unwrap();
    assert!(update(&mut mirror, &mut hub, &mut Exchanged::default()));
    ann.put_back(&copy);
    ann.append(&[water(8, 80, 2)]);
    ann.exchange(&mut hub);
    ann.exchange(&mut hub);
    assert!(update(&mut mirror, &mut hub, &mut Exchanged::default()));
    mirror.close().unwrap();
    assert_eq!(texts(&path), ann.texts());
}

#[test]
fn a_mirror_opens_for_reading_only_and_a_season_is_no_mirror() {
    let (mut ann, _bob, mut hub) = two();
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("mirror.db");
    let mut mirror = Mirror::create(&path, SEASON).unwrap();
    assert!(update(&mut mirror, &mut hub, &mut Exchanged::default()));
    mirror.close().unwrap();
    let bytes = std::fs::read(&path).unwrap();
    for refused in [Store::open(&path).map(drop), Store::open_beside(&path).map(drop)] {
        let error = refused.unwrap_err();
        assert!(matches!(error, StoreError::Mirror { .. }) && error.can_be_read(), "{error}");
        assert!(error.to_string().contains("a mirror of what the laptops of this season share, to be read only"));
    }
    assert!(matches!(Mirror::create(&path, SEASON), Err(StoreError::Exists { .. })));
    // A copy of a mirror is one.
    let copy = folder.path().join("copy.db");
    Store::open_read_only(&path).unwrap().backup(&copy).unwrap();
    assert!(matches!(Store::open(&copy), Err(StoreError::Mirror { .. })));
    assert!(std::fs::read(&path).unwrap() == bytes);
    let own = ann.file();
    assert!(matches!(Mirror::open(&ann.path()), Err(StoreError::NoMirror { .. })));
    assert!(ann.file() == own);
}
