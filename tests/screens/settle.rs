//! What several laptops leave to settle: keys in, state and picture out.

use crate::desk::{COLOR, Desk, Keeping, PLAIN, same_in_every_dress};
use benchwalk::exchange::{LaptopState, Sharing, Stream};
use benchwalk::input::Look;
use benchwalk::journal;
use benchwalk::keys::Context;
use benchwalk::model::Outcome;
use benchwalk::record::{Entry, Kind, Line, Lot, Place, Revision};
use benchwalk::season::{Origins, Season, Unsettled};
use chrono::DateTime;
use uuid::Uuid;

const BOB: &str = "bob-2";

fn id(n: u128) -> Uuid {
    Uuid::from_u128(0x0198_0000_0000_7000_8000_0000_0000_0000 | n)
}

/// The season of the desk, shared, with lines of this laptop and of bob's.
fn shared(lines: &[(Line, bool)]) -> Season {
    let mut season = Season::of(journal::read(&crate::season::journal()).unwrap());
    let mut origins = Origins::default();
    origins.set_held(0);
    for (line, bobs) in lines {
        if *bobs {
            origins.add(line.id(), BOB);
        }
        season.revise(line.clone());
    }
    season.add_origins(&origins);
    season
}

fn desk(lines: &[(Line, bool)]) -> Desk {
    Desk::of(&shared(lines), COLOR, (80, 24))
}

fn entry(n: u128, at: &str, by: &str, place: Place, kind: Kind) -> Line {
    let at = DateTime::parse_from_rfc3339(at).unwrap();
    Line::Entry(Entry { id: id(n), at, by: by.to_owned().into(), place, plot: None, kind: kind.into(), note: None })
}

fn bench(code: &str) -> Place {
    Place::Bench(code.into())
}

/// The same sale on both laptops.
fn sold_twice() -> Vec<(Line, bool)> {
    let sold = || Kind::Sold { pots: 20 };
    vec![
        (entry(1, "2026-10-12T06:40:00-04:00", "kt", bench("E1"), sold()), false),
        (entry(2, "2026-10-12T06:45:00-04:00", "bob", bench("E1"), sold()), true),
    ]
}

/// A lot revised on both laptops: each changed a field of its own, and both the magnesium of the feed.
fn lot_twice() -> Vec<(Line, bool)> {
    let season = Season::of(journal::read(&crate::season::journal()).unwrap());
    let before = Line::Lot(season.lot("L1").unwrap().clone()).id();
    let revised = |n: u128, at: &str, by: &str, change: &dyn Fn(&mut Lot)| {
        let mut lot = season.lot("L1").unwrap().clone();
        change(&mut lot);
        lot.revision = Revision {
            id: Some(id(n)),
            at: Some(DateTime::parse_from_rfc3339(at).unwrap()),
            by: Some(by.to_owned()),
            replaces: Some(vec![before]),
            ..Revision::default()
        };
        Line::Lot(lot)
    };
    let here = revised(11, "2026-10-11T09:12:00-04:00", "kt", &|lot| {
        lot.ready_by = "2026-11-20".parse().unwrap();
        lot.feed_mg_ppm = Some(35.0);
    });
    let there = revised(12, "2026-10-11T10:40:00-04:00", "bob", &|lot| {
        lot.height_high_cm = Some(38.1);
        lot.feed_mg_ppm = Some(40.0);
    });
    vec![(here, false), (there, true)]
}

/// The form of a line of the plan, and that of what is chosen from.
pub(crate) fn every_state() -> Vec<Desk> {
    let mut all = vec![desk(&lot_twice()), desk(&sold_twice())];
    for desk in &mut all {
        desk.keys("!");
    }
    all
}

fn lots(desk: &Desk) -> Vec<Lot> {
    let of = |line: &Line| if let Line::Lot(lot) = line { Some(lot.clone()) } else { None };
    desk.kept.iter().filter_map(of).collect()
}

#[test]
fn the_sides_of_a_line_of_the_plan_stand_beside_each_other() {
    for (size, name) in [((80, 24), "narrow"), ((120, 40), "wide")] {
        let mut desk = Desk::of(&shared(&lot_twice()), COLOR, size);
        desk.keys("!");
        assert_eq!(desk.app.context(), Context::Settle);
        insta::assert_snapshot!(format!("settle_plan_{name}"), desk.dump());
    }
}

#[test]
fn what_one_side_changed_is_filled_in_and_a_digit_takes_a_side() {
    let mut desk = desk(&lot_twice());
    assert_eq!(desk.app.model.to_settle_count(), 1);
    desk.keys("!{Enter}");
    assert!(lots(&desk).is_empty(), "magnesium is open\n{}", desk.text());
    assert!(desk.text().contains("is open; 1 kt's, 2 bob (bob-2)'s, or type a value"), "{}", desk.text());
    desk.keys("2{Enter}");
    let [lot] = &lots(&desk)[..] else { panic!("{:?}\n{}", desk.kept, desk.text()) };
    assert_eq!(lot.ready_by.to_string(), "2026-11-20", "only kt changed it");
    assert_eq!(lot.height_high_cm, Some(38.1), "only bob changed it, kept exactly");
    assert_eq!(lot.feed_mg_ppm, Some(40.0), "bob's was chosen");
    assert_eq!(lot.revision.replaces, Some(vec![id(11), id(12)]), "it takes the place of both");
    assert_eq!((desk.app.model.to_settle_count(), desk.app.popups.len()), (0, 0), "{}", desk.text());
}

#[test]
fn all_of_one_side_is_taken_by_one_key_on_the_last_row() {
    for (side, ready, high) in [("1", "2026-11-20", None), ("2", "2026-11-27", Some(38.1))] {
        let mut desk = desk(&lot_twice());
        let before = desk.app.model.season.lot("L1").unwrap().clone();
        desk.keys("!");
        while !desk.text().lines().any(|line| line.starts_with("▸ all of them")) {
            desk.keys("{Down}");
        }
        desk.keys(side).keys("{Enter}");
        let [lot] = &lots(&desk)[..] else { panic!("{}", desk.text()) };
        assert_eq!(lot.ready_by.to_string(), ready);
        if high.is_some() {
            assert_eq!(lot.height_high_cm, high);
        } else {
            assert_ne!(lot.height_high_cm, before.height_high_cm, "what held was bob's");
        }
    }
}

#[test]
fn another_value_is_typed_and_one_that_begins_with_a_side_after_backspace() {
    let mut first = desk(&lot_twice());
    first.keys("!38{Enter}");
    assert_eq!(lots(&first)[0].feed_mg_ppm, Some(38.0), "{}", first.text());
    let mut second = desk(&lot_twice());
    second.keys("!{Backspace}21{Enter}");
    assert_eq!(lots(&second)[0].feed_mg_ppm, Some(21.0), "{}", second.text());
    // What is refused stays as it was typed.
    let mut wrong = desk(&lot_twice());
    wrong.keys("!much{Enter}");
    assert!(lots(&wrong).is_empty() && wrong.text().contains("much"), "{}", wrong.text());
    wrong.keys("{Esc}");
    assert_eq!((wrong.app.model.to_settle_count(), wrong.app.popups.len()), (1, 0), "Esc leaves it for later");
}

#[test]
fn a_line_that_the_file_refuses_stays_to_be_settled_as_it_was_filled_in() {
    let mut desk = desk(&lot_twice());
    desk.keeping = Keeping::Refusing;
    desk.keys("!2{Enter}");
    assert_eq!(desk.app.context(), Context::Settle, "{}", desk.text());
    assert!(desk.text().contains("NOT SAVED"), "{}", desk.text());
    desk.keeping = Keeping::Well;
    desk.keys("{Enter}");
    assert_eq!(lots(&desk)[0].feed_mg_ppm, Some(40.0));
}

#[test]
fn work_logged_twice_is_voided_on_one_side_or_noted_as_right() {
    let mut looked = desk(&sold_twice());
    looked.keys("!");
    insta::assert_snapshot!("settle_twins", looked.dump());

    let mut voided = desk(&sold_twice());
    assert_eq!(voided.app.model.season.standing("E1", voided.app.model.day).unwrap().pots, 40);
    voided.keys("!2{Enter}");
    assert_eq!(voided.written(), ["E1 voided an entry: logged twice"], "{}", voided.text());
    let Line::Entry(of) = &voided.kept[0] else { panic!() };
    let Kind::Strike { entry, reopen, .. } = &*of.kind else { panic!() };
    assert_eq!((*entry, *reopen), (id(2), false), "bob's, and nothing is reopened");
    assert_eq!(voided.app.model.season.standing("E1", voided.app.model.day).unwrap().pots, 60);
    assert_eq!(voided.app.model.to_settle_count(), 0);

    let mut right = desk(&sold_twice());
    right.keys("!3{Enter}");
    let note = format!("E1 note: both right: {} {}", id(1), id(2));
    assert_eq!(right.written(), [note], "{}", right.text());
    assert_eq!(right.app.model.to_settle_count(), 0);
    // Undone, it is asked about again.
    right.keys("u");
    assert_eq!(right.app.model.to_settle_count(), 1);
}

#[test]
fn the_next_one_follows_and_page_down_leaves_one_for_later() {
    let mut all = sold_twice();
    all.extend(lot_twice());
    let mut desk = desk(&all);
    assert_eq!(desk.app.model.to_settle_count(), 2);
    desk.keys("!");
    assert!(desk.text().contains("To settle, 1 of 2: lot L1 was written twice"), "{}", desk.text());
    desk.keys("{PgDn}");
    assert!(desk.text().contains("To settle, 2 of 2: E1: logged twice?"), "{}", desk.text());
    desk.keys("{PgUp}2{Enter}");
    assert!(desk.text().contains("To settle, 1 of 1: E1: logged twice?"), "{}", desk.text());
    desk.keys("1{Enter}");
    assert_eq!(desk.app.popups.len(), 0, "{}", desk.text());
    desk.keys("!");
    assert!(desk.text().contains("Nothing is to settle."), "{}", desk.text());
}

#[test]
fn pots_that_do_not_add_up_are_voided_on_one_side_or_counted() {
    let moved = |pots| Kind::Moved { to: "W3".to_owned(), pots };
    let all = [
        (entry(1, "2026-10-12T06:40:00-04:00", "kt", bench("E1"), moved(80)), false),
        (entry(2, "2026-10-12T06:45:00-04:00", "bob", bench("E1"), moved(60)), true),
    ];
    let mut looked = desk(&all);
    looked.keys("!");
    insta::assert_snapshot!("settle_pots", looked.dump());
    looked.keys("1{Enter}");
    let Line::Entry(of) = &looked.kept[0] else { panic!() };
    let Kind::Strike { entry, .. } = &*of.kind else { panic!() };
    assert_eq!(*entry, id(2), "the one that moves more than stands comes first\n{}", looked.text());
    let mut counted = desk(&all);
    counted.keys("!3{Enter}");
    assert_eq!(counted.app.context(), Context::Form);
    assert!(counted.text().contains("counted"), "{}", counted.text());
}

#[test]
fn what_is_mended_elsewhere_says_what_to_do_and_writes_nothing() {
    let water = Kind::Water { level: 3, base: None };
    let all = [
        (entry(1, "2026-10-10T06:40:00-04:00", "bob", bench("E9"), water.clone()), true),
        (entry(2, "2026-10-12T12:00:00-04:00", "bob", bench("E1"), water), true),
    ];
    let mut desk = desk(&all);
    let mut origins = Origins::default();
    origins.set_held(3);
    desk.app.model.add_origins(&origins);
    desk.settle();
    assert_eq!(desk.app.model.to_settle_count(), 3);
    desk.keys("!");
    insta::assert_snapshot!("settle_not_there", desk.text());
    desk.keys("{Enter}");
    insta::assert_snapshot!("settle_clock", desk.text());
    desk.keys("{Enter}");
    assert!(desk.text().contains("3 lines of a newer program are not understood here"), "{}", desk.text());
    assert!(desk.written().is_empty());
    // Once the clock here has passed it, the other clock is no more ahead.
    desk.keys("{Esc}").pass(chrono::Duration::hours(5)).settle();
    assert_eq!(desk.app.model.to_settle_count(), 2);
}

#[test]
fn twins_of_a_closed_bench_are_settled_while_it_is_closed() {
    let spray = || crate::season::sprayed("spinosad", 12.0);
    let all = [
        (entry(1, "2026-10-12T06:40:00-04:00", "kt", Place::House("East".into()), spray()), false),
        (entry(2, "2026-10-12T06:50:00-04:00", "bob", Place::House("East".into()), spray()), true),
    ];
    for key in ["1", "2", "3"] {
        let mut desk = desk(&all);
        desk.keys("!").keys(key).keys("{Enter}");
        assert_eq!(desk.kept.len(), 1, "{}", desk.text());
        assert_eq!(desk.app.model.to_settle_count(), 0, "{}", desk.text());
        let until = desk.app.model.closed_until("E1").unwrap();
        // A void of here opens nothing: the later end stands.
        assert_eq!(until.format("%H:%M").to_string(), "18:50", "{key}");
    }
}

#[test]
fn it_says_the_same_in_every_dress() {
    for lines in [lot_twice(), sold_twice()] {
        same_in_every_dress("to settle", |look: Look| {
            let mut desk = Desk::of(&shared(&lines), look, (80, 24));
            desk.keys("!");
            desk
        });
    }
}

#[test]
fn a_row_that_comes_into_sight_takes_the_cursor_along() {
    let mut desk = Desk::of(&shared(&lot_twice()), PLAIN, (80, 24));
    desk.keys("!");
    let mut seen = Vec::new();
    for _ in 0..4 {
        let (_, cursor) = desk.draw();
        let row = usize::from(cursor.unwrap().y);
        assert!(desk.text().lines().nth(row).unwrap().starts_with('▸'), "{}", desk.text());
        seen.push(row);
        desk.keys("{Down}");
    }
    seen.sort_unstable();
    seen.dedup();
    assert_eq!(seen.len(), 4, "each field has its row");
}

#[test]
fn the_evening_lists_it_before_the_jobs() {
    let mut all = sold_twice();
    all.extend(lot_twice());
    let mut desk = desk(&all);
    desk.keys("e");
    insta::assert_snapshot!("settle_evening", desk.text());
    assert!(desk.app.model.to_settle.iter().any(|one| matches!(one, Unsettled::Twins(_))));
    // A wide window says the key, too.
    for (columns, rows) in [(120, 40), (190, 50)] {
        let text = desk.resize(columns, rows).text();
        assert!(text.contains("TO SETTLE  ! opens the first"), "{text}");
    }
}

fn bobs_water(n: u128, at: &str) -> (Line, bool) {
    (entry(n, at, "bob", bench("E1"), Kind::Water { level: 4, base: None }), true)
}

#[test]
fn a_score_made_again_voids_only_what_was_scored_here() {
    let mut desk = desk(&[bobs_water(1, "2026-10-12T06:40:00-04:00")]);
    desk.keys("f");
    while !desk.text().contains("E1") || !desk.text().starts_with("Walk") {
        desk.keys("{Tab}");
    }
    // The water of the morning is there; back to it, and scored again.
    desk.keys("bbbb3");
    assert_eq!(desk.written(), ["E1 water 3"], "bob's score is not voided\n{}", desk.text());
    assert!(desk.text().contains("bob (bob-2) 06:40 logged it too; both stay."), "{}", desk.text());
    desk.keys("bbbb2");
    assert_eq!(desk.written()[1..], ["E1 voided an entry: scored again", "E1 water 2"], "{}", desk.text());
    let Line::Entry(of) = &desk.kept[1] else { panic!() };
    let Kind::Strike { entry, .. } = &*of.kind else { panic!() };
    assert_ne!(*entry, id(1), "the own one");
}

#[test]
fn undo_reaches_only_what_was_logged_here() {
    let mut desk = desk(&sold_twice());
    desk.keys("u");
    assert!(desk.written().is_empty(), "{}", desk.text());
    assert!(desk.text().contains("Nothing left to undo in this session."), "{}", desk.text());
}

#[test]
fn an_entry_of_another_laptop_is_voided_by_the_form_that_names_its_writer() {
    let mut desk = desk(&[bobs_water(1, "2026-10-12T06:40:00-04:00")]);
    desk.keys("{Enter}{PgDn}");
    assert!(desk.text().contains("water 4 (on bob-2)"), "the log names the laptop\n{}", desk.text());
    desk.keys("x");
    assert!(desk.text().contains("water 4 (on bob-2)"), "{}", desk.text());
    desk.keys("{Enter}");
    assert_eq!(desk.app.context(), Context::Form);
    let said = desk.text().split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("Logged by bob (bob-2) Mon Oct 12 06:40: it is voided on every laptop."), "{}", desk.text());
    assert!(desk.written().is_empty());
}

/// What is known of the season: bob heard last on the evening of October 10.
fn sharing() -> Sharing {
    let laptop = |name: &str, own, known_to: &str| LaptopState {
        stream: Stream(id(90 + u128::from(own))),
        name: Some(name.to_owned()),
        own,
        lines: 1,
        known_to: Some(DateTime::parse_from_rfc3339(known_to).unwrap()),
        seen: None,
    };
    let laptops =
        vec![laptop("kt-1", true, "2026-10-12T07:00:00-04:00"), laptop(BOB, false, "2026-10-10T18:02:00-04:00")];
    Sharing { season: id(99), laptop: "kt-1".to_owned(), carriers: Vec::new(), laptops, held: 0 }
}

#[test]
fn a_closure_from_another_laptop_counts_at_once_and_says_how_old_the_knowledge_is() {
    let mut desk = desk(&[]);
    desk.app.model.set_sharing(sharing(), "2026-10-12T11:10:00Z".parse().unwrap());
    desk.keys("w");
    assert_eq!(desk.app.context(), Context::Walk, "{}", desk.text());
    let spray = entry(
        1,
        "2026-10-12T07:05:00-04:00",
        "bob",
        Place::House("East".into()),
        crate::season::sprayed("spinosad", 12.0),
    );
    let Line::Entry(spray) = spray else { panic!() };
    let mut origins = Origins::default();
    origins.add(spray.id, BOB);
    desk.app.model.add_origins(&origins);
    let plan = desk.app.model.season.plan().clone();
    desk.answer(Outcome::Joined { plan, entries: vec![spray] });
    assert_eq!(desk.app.context(), Context::WalkShut, "{}", desk.text());
    let said = desk.text().split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("CLOSED UNTIL Mon Oct 12 19:05"), "{}", desk.text());
    let known = "(by this log, bob-2 heard last Sat Oct 10 18:02; follow the posted sign)";
    assert!(said.contains(known), "{}", desk.text());
    desk.keys("3");
    let said = desk.text().split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("E1 is closed until 19:05 (by this log, bob-2 heard last"), "{}", desk.text());
    desk.keys("e");
    let said = desk.text().split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains(&format!("until Mon Oct 12 19:05 {known}")), "{}", desk.text());
    assert!(desk.written().is_empty());
}

#[test]
fn another_laptops_clock_that_is_ahead_does_not_say_that_this_one_is_wrong() {
    let water = |n, at, bobs| (entry(n, at, "kt", bench("E1"), Kind::Water { level: 3, base: None }), bobs);
    let theirs = desk(&[water(1, "2026-10-12T12:00:00-04:00", true)]);
    assert!(!theirs.text().contains("This laptop's clock says"), "{}", theirs.text());
    let own = desk(&[water(1, "2026-10-12T12:00:00-04:00", false)]);
    assert!(own.text().contains("This laptop's clock says"), "{}", own.text());
}
