//! A season that several laptops keep: what the frame says of it on each page, and the Share page.

use crate::desk::{COLOR, Desk, all_drawn_at_every_size, same_in_every_dress};
use crate::season;
use benchwalk::exchange::{CarrierError, CarrierState, LaptopState, Remark, Sharing, Stream};
use benchwalk::input::Look;
use benchwalk::model::{Effect, Outcome};
use benchwalk::record::{Entry, Kind, Place};
use benchwalk::season::Origins;
use chrono::{DateTime, TimeDelta, Utc};
use uuid::Uuid;

fn now() -> DateTime<Utc> {
    season::NOW.parse().unwrap()
}

fn laptop(n: u128, name: &str, lines: u64, known_to: TimeDelta) -> LaptopState {
    let known_to = Some((now() - known_to).fixed_offset());
    let seen = (n > 1).then(|| now() - known_to.map_or(TimeDelta::zero(), |at| now() - at.to_utc()) / 2);
    LaptopState { stream: Stream(Uuid::from_u128(n)), name: Some(name.into()), own: n == 1, lines, known_to, seen }
}

fn carriers(to_send: usize) -> Vec<CarrierState> {
    let at = |minutes| Some(now() - TimeDelta::minutes(minutes));
    let office = CarrierState {
        name: "office".into(),
        place: "localhost:5432, database benchwalk".into(),
        shared: at(2),
        to_send,
        next: Some(now() + TimeDelta::minutes(3)),
        ..CarrierState::default()
    };
    let place = "/media/STICK/season".to_owned();
    let failed = Some((CarrierError::NotThere { place: place.clone() }, now()));
    let stick = CarrierState { name: "stick".into(), place, shared: at(7_000), to_send: 211, failed, ..office.clone() };
    vec![office, CarrierState { next: None, ..stick }]
}

fn sharing(carriers: Vec<CarrierState>) -> Sharing {
    let laptops = vec![
        laptop(1, "ann-2", 1204, TimeDelta::minutes(1)),
        laptop(2, "bob", 988, TimeDelta::minutes(40)),
        laptop(3, "far-house", 87, TimeDelta::days(6)),
    ];
    Sharing { season: Uuid::from_u128(9), laptop: "ann-2".into(), carriers, laptops, held: 0 }
}

/// A desk at which this is known.
fn shared(look: Look, size: (u16, u16), sharing: Sharing) -> Desk {
    let mut desk = Desk::with(&season::journal(), look, size);
    desk.app.model.set_sharing(sharing, now());
    desk
}

/// The office cut for two hours, a piece of the stick damaged, a clock that is off, lines of a newer program.
fn troubled() -> Sharing {
    let mut carriers = carriers(14);
    let why = CarrierError::Unreachable { place: "localhost:5432".into(), why: "connection refused".into() };
    carriers[0].failed = Some((why, now() - TimeDelta::minutes(125)));
    carriers[0].shared = Some(now() - TimeDelta::hours(30));
    carriers[1].failed = None;
    carriers[1].did.remarks =
        vec![Remark::Cut { laptop: Some("bob".into()), pieces: 1 }, Remark::ClockOff(TimeDelta::minutes(-182))];
    Sharing { held: 3, ..sharing(carriers) }
}

#[test]
fn the_share_page() {
    let page = |size, sharing| {
        let mut desk = shared(COLOR, size, sharing);
        desk.keys("@");
        desk.dump()
    };
    insta::assert_snapshot!("share_80x24", page((80, 24), sharing(carriers(0))));
    insta::assert_snapshot!("share_troubled_80x24", page((80, 24), troubled()));
    insta::assert_snapshot!("share_troubled_120x40", page((120, 40), troubled()));
    insta::assert_snapshot!("share_190x50", page((190, 50), sharing(carriers(14))));
    let mut alone = Desk::new();
    alone.keys("@");
    insta::assert_snapshot!("share_alone_80x24", alone.dump());
}

#[test]
fn it_says_the_same_in_every_dress() {
    same_in_every_dress("share", |look| {
        let mut desk = shared(look, (80, 24), troubled());
        desk.keys("@");
        desk
    });
    same_in_every_dress("the Round of a shared season", |look| shared(look, (80, 24), troubled()));
}

#[test]
fn it_is_drawn_at_every_size() {
    let at = |keys: &str, sharing| {
        let mut desk = shared(COLOR, (80, 24), sharing);
        desk.keys(keys);
        desk
    };
    all_drawn_at_every_size([
        ("share", at("@", troubled())),
        ("round shared", at("", troubled())),
        ("walk shared", at("w", troubled())),
    ]);
}

#[test]
fn enter_exchanges_and_esc_goes_back() {
    let mut desk = shared(COLOR, (80, 24), sharing(carriers(0)));
    desk.keys("e@{Enter}");
    assert_eq!(desk.outside, [Effect::Share]);
    desk.app.model.set_exchanging(true);
    assert!(desk.text().contains("Exchanging now; walking and saving go on."), "{}", desk.text());
    desk.keys("@{Esc}");
    assert!(desk.text().starts_with("Evening review"), "{}", desk.text());
    let mut alone = Desk::new();
    alone.keys("@{Enter}");
    assert!(alone.outside.is_empty());
    assert!(alone.text().contains("not shared: there is nothing to exchange with"), "{}", alone.text());
    let mut none = Desk::empty(COLOR, (80, 24));
    none.keys("s{Esc}@");
    assert!(!none.text().starts_with("Share"), "{}", none.text());
}

#[test]
fn what_does_not_fit_is_scrolled_to() {
    let mut desk = shared(COLOR, (80, 14), troubled());
    desk.keys("@");
    assert!(!desk.text().contains("far-house"), "{}", desk.text());
    desk.keys("{End}");
    assert!(desk.text().contains("far-house") && desk.text().contains("3 lines of a newer program"), "{}", desk.text());
    desk.keys("{Home}");
    assert!(desk.text().contains("This laptop is ann-2."), "{}", desk.text());
}

#[test]
fn every_page_says_it_and_none_where_nothing_is_shared() {
    let cut = "office cut 2 h, 14 to send";
    for (keys, row) in [("", 2), ("w", 0), ("e", 0), ("{Enter}", 0), ("s", 0), ("g", 0), ("@", 0)] {
        for size in [(80, 24), (120, 40), (190, 50)] {
            let mut desk = shared(COLOR, size, troubled());
            desk.keys(keys);
            let text = desk.text();
            let line = text.lines().nth(row).unwrap();
            assert!(line.contains(cut), "{keys} at {size:?}: {line:?}\n{text}");
            assert!(row == 0 || line.ends_with(cut), "right on its row: {line:?}");
            let mut alone = Desk::with(&season::journal(), COLOR, size);
            alone.keys(keys);
            assert!(!alone.text().contains("to send") && !alone.text().contains("office"), "{}", alone.text());
        }
    }
    // A save is counted at once; a minute later the age is another.
    let mut desk = shared(COLOR, (80, 24), sharing(carriers(0)));
    assert!(desk.text().contains("shared 2 min ago"), "{}", desk.text());
    desk.pass(TimeDelta::minutes(1));
    assert!(desk.text().contains("shared 3 min ago"), "{}", desk.text());
    desk.app.model.add_unsent(1);
    assert!(desk.text().contains("1 to send"), "{}", desk.text());
    // In a window with no room for it the title comes first.
    let mut narrow = shared(COLOR, (50, 24), troubled());
    narrow.keys("w");
    assert!(!narrow.text().contains("cut"), "{}", narrow.text());
}

#[test]
fn what_arrives_is_named_by_its_laptop() {
    let mut desk = shared(COLOR, (80, 24), sharing(carriers(0)));
    let entry = |n: u128| Entry {
        id: Uuid::from_u128(n),
        at: season::NOW.parse().unwrap(),
        by: "bob".into(),
        place: Place::Bench("E1".into()),
        plot: None,
        kind: Kind::Note {}.into(),
        note: Some("a drip".into()),
    };
    let mut arrives = |n: u128, laptop: Option<&str>| {
        let mut origins = Origins::default();
        if let Some(laptop) = laptop {
            origins.add(Uuid::from_u128(n), laptop);
        }
        desk.app.model.add_origins(&origins);
        let plan = desk.app.model.season.plan().clone();
        desk.answer(Outcome::Joined { plan, entries: vec![entry(n)] });
        desk.text()
    };
    assert!(arrives(71, Some("bob")).contains("1 entry from bob loaded."));
    assert!(arrives(72, None).contains("1 entry from another program loaded."));
}
