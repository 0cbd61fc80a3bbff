//! Rules across lines: each fault names its line and field and says what would be right.

use crate::season::{at, bench, date, entry, house, lot, lot_place, moved, placement, plan, season, strike, water};
use benchwalk::record::{Kind, Line, Order, Place, Plan, Revision};
use benchwalk::season::Season;
use std::fmt::Write;

fn lines(kept: &Season, new: &[Line]) -> String {
    let mut text = String::new();
    for f in kept.check(new) {
        writeln!(text, "{} {}: {}", f.index, f.field.as_deref().unwrap_or("-"), f.text).unwrap();
    }
    text
}

fn e(id: u128, d: u32, hour: u32, place: Place, kind: Kind) -> Line {
    Line::Entry(entry(id, at(9, d, hour, 0), place, kind))
}

#[test]
fn good_lines_pass_in_any_order() {
    let new = vec![
        e(3, 3, 9, bench("E1"), strike(1, false)),
        e(2, 2, 9, bench("E2"), Kind::Sold { pots: 40 }),
        e(4, 2, 8, bench("E1"), moved("E2", 40)),
        e(1, 1, 9, bench("E1"), water(4)),
        Line::Placement(placement("W1", "C", 10, date(8, 17))),
        Line::Lot(lot("C")),
    ];
    assert_eq!(lines(&season(vec![]), &new), "");
    let mut turned = new;
    turned.reverse();
    assert_eq!(lines(&season(vec![]), &turned), "");
}

#[test]
fn unknown_names() {
    let new = vec![
        e(1, 1, 9, bench("E9"), water(4)),
        e(2, 1, 9, house("Far"), water(4)),
        e(3, 1, 9, lot_place("X"), water(4)),
        e(4, 1, 9, bench("E1"), moved("E8", 5)),
        Line::Placement(placement("E7", "Y", 5, date(8, 17))),
        Line::Order(Order { lot: "Z".to_owned(), date: date(12, 1), pots: 5, revision: Revision::number(1) }),
    ];
    insta::assert_snapshot!(lines(&season(vec![]), &new), @r#"
    0 bench: "E9" is not a bench of this season; known: E1, E2, W1, W2
    1 house: "Far" is not a house of this season; known: East, West
    2 lot: "X" is not a lot of this season; known: A, B
    3 to: "E8" is not a bench of this season; known: E1, E2, W1, W2
    4 bench: "E7" is not a bench of this season; known: E1, E2, W1, W2
    4 lot: "Y" is not a lot of this season; known: A, B
    5 lot: "Z" is not a lot of this season; known: A, B
    "#);
}

#[test]
fn a_first_import_needs_a_site() {
    let new = [Line::Lot(lot("A"))];
    insta::assert_snapshot!(lines(&Season::new(Plan::default(), vec![]), &new), @r#"
    0 -: no site line; a season needs one: name, latitude, longitude, time_zone, units
    "#);
}

#[test]
fn strikes() {
    let kept = season(vec![
        entry(1, at(9, 1, 7, 0), bench("E1"), water(4)),
        entry(2, at(9, 1, 8, 0), bench("E1"), strike(1, false)),
    ]);
    let new = vec![
        e(5, 2, 9, bench("E1"), strike(99, false)),
        e(6, 2, 9, bench("E1"), strike(2, false)),
        e(7, 2, 9, bench("E2"), strike(1, false)),
        e(8, 2, 9, house("East"), strike(1, false)),
    ];
    insta::assert_snapshot!(lines(&kept, &new), @r#"
    0 entry: 00000000-0000-0000-0000-000000000063 is not an entry of this season; give the id of an entry that is
    1 entry: 00000000-0000-0000-0000-000000000002 is itself a strike, and a strike cannot be struck; write the entry again instead
    2 entry: 00000000-0000-0000-0000-000000000001 is an entry of bench E1; give its own bench, "bench":"E1"
    3 entry: 00000000-0000-0000-0000-000000000001 is an entry of bench E1; give its own bench, "bench":"E1"
    "#);
}

#[test]
fn more_moved_or_sold_than_stand() {
    let new = vec![e(1, 2, 9, bench("E1"), moved("E2", 101)), e(2, 3, 9, bench("W1"), Kind::Sold { pots: 1 })];
    insta::assert_snapshot!(lines(&season(vec![]), &new), @r#"
    0 pots: 101 moved off bench E1 on 2026-09-02, but 100 are there; give 100 at most, or log a count first
    1 pots: 1 sold from bench W1 on 2026-09-03, but 0 are there; first log how pots came there (a placement or a move)
    "#);
}

#[test]
fn a_line_that_breaks_what_was_kept() {
    let kept = season(vec![
        entry(1, at(9, 1, 9, 0), bench("E1"), moved("E2", 50)),
        entry(2, at(9, 10, 9, 0), bench("E2"), Kind::Sold { pots: 50 }),
    ]);
    assert_eq!(lines(&kept, &[e(4, 12, 9, bench("E1"), Kind::Sold { pots: 50 })]), "");
    let new = [e(3, 11, 9, bench("E1"), water(3)), e(4, 12, 9, bench("E1"), strike(1, false))];
    insta::assert_snapshot!(lines(&kept, &new), @r#"
    1 -: with this line pots no longer add up: 50 sold from bench E2 on 2026-09-10, but 0 are there; first log how pots came there (a placement or a move)
    "#);
    let mut fewer = placement("E1", "A", 30, date(8, 17));
    fewer.revision.rev = 2;
    insta::assert_snapshot!(lines(&kept, &[Line::Placement(fewer)]), @r#"
    0 -: with this line pots no longer add up: 50 moved off bench E1 on 2026-09-01, but 30 are there; give 30 at most, or log a count first
    0 -: with this line pots no longer add up: 50 sold from bench E2 on 2026-09-10, but 30 are there; give 30 at most, or log a count first
    "#);
}

#[test]
fn what_was_wrong_before_is_not_held_against_new_lines() {
    let kept = season(vec![entry(1, at(9, 1, 9, 0), bench("E1"), Kind::Sold { pots: 500 })]);
    assert_eq!(lines(&kept, &[e(2, 2, 9, bench("E1"), Kind::Losses { pots: 1, cause: None })]), "");
    assert_eq!(lines(&kept, &[e(3, 2, 9, bench("E1"), water(3))]), "");
}

#[test]
fn two_lots_on_one_bench() {
    let mut p = plan();
    p.placements.push(placement("W1", "B", 40, date(8, 17)));
    let kept = Season::new(p, vec![]);
    let new = vec![e(1, 2, 9, bench("E1"), moved("W1", 10)), Line::Placement(placement("E1", "B", 10, date(9, 5)))];
    insta::assert_snapshot!(lines(&kept, &new), @r#"
    0 to: W1 already holds lot B, and lot A cannot join it; give an empty bench or one of lot A, or enter a shared bench as two benches
    1 bench: E1 still holds lot A on 2026-09-05, and lot B cannot join it; move or sell those pots first, or enter a shared bench as two benches
    "#);
    // Emptied on the same day, it may be filled by the other lot.
    let new =
        vec![e(1, 5, 9, bench("E1"), Kind::Sold { pots: 100 }), Line::Placement(placement("E1", "B", 10, date(9, 5)))];
    assert_eq!(lines(&kept, &new), "");
}

#[test]
fn one_key_and_revision_is_one_content() {
    let mut other = lot("A");
    other.response_weeks = 8.0;
    let mut wide = crate::season::bench_line("E1", "East", 1);
    wide.area_m2 = Some(10.0);
    let mut site = crate::season::site();
    site.name = "Elsewhere".to_owned();
    let new = vec![
        Line::Lot(lot("A")),
        Line::Lot(other.clone()),
        Line::Bench(wide),
        Line::Site(site),
        Line::Placement(placement("E1", "B", 90, date(8, 17))),
        Line::Order(Order { lot: "A".to_owned(), date: date(11, 27), pots: 95, revision: Revision::number(1) }),
    ];
    insta::assert_snapshot!(lines(&season(vec![]), &new), @r#"
    1 rev: 1 of lot A is known with other content; leave that line as it was, or give the change a higher rev
    2 rev: 1 of bench E1 is known with other content; leave that line as it was, or give the change a higher rev
    3 rev: 1 of the site is known with other content; leave that line as it was, or give the change a higher rev
    4 rev: 1 of the placement on bench E1 from 2026-08-17 is known with other content; leave that line as it was, or give the change a higher rev
    5 rev: 1 of the order of lot A for 2026-11-27 is known with other content; leave that line as it was, or give the change a higher rev
    "#);
    other.revision.rev = 2;
    assert_eq!(lines(&season(vec![]), &[Line::Lot(other)]), "");
}

#[test]
fn a_known_id_is_one_entry() {
    let kept = season(vec![entry(1, at(9, 1, 7, 0), bench("E1"), water(4))]);
    assert_eq!(lines(&kept, &[e(1, 1, 7, bench("E1"), water(4))]), "");
    let new =
        vec![e(1, 1, 7, bench("E1"), water(3)), e(2, 1, 7, bench("E1"), water(3)), e(2, 1, 7, bench("E1"), water(5))];
    insta::assert_snapshot!(lines(&kept, &new), @r#"
    0 id: 00000000-0000-0000-0000-000000000001 is known as another entry (water on E1 at 2026-09-01T07:00:00-04:00); entries are never changed: strike that one out and write a new one without an id
    2 id: 00000000-0000-0000-0000-000000000002 is known as another entry (water on E1 at 2026-09-01T07:00:00-04:00); entries are never changed: strike that one out and write a new one without an id
    "#);
}

#[test]
fn pots_are_sold_and_counted_by_bench() {
    let new =
        vec![e(1, 1, 7, lot_place("A"), Kind::Sold { pots: 5 }), e(2, 1, 7, house("East"), Kind::Counted { pots: 5 })];
    insta::assert_snapshot!(lines(&season(vec![]), &new), @r#"
    0 lot: cannot take sold, pots are tracked by bench; give bench instead, one line for each
    1 house: cannot take counted, pots are tracked by bench; give bench instead, one line for each
    "#);
}
