//! Keep-out. Where the record is unclear a bench reads as closed.

use crate::season::{at, bench, date, entry, house, lot_place, moved, season, sprayed, strike};
use chrono::{DateTime, Utc};

fn utc(month: u32, d: u32, hour: u32, minute: u32) -> DateTime<Utc> {
    at(month, d, hour, minute).to_utc()
}

#[test]
fn closed_from_the_end_of_the_application_for_the_typed_hours() {
    let s = season(vec![entry(1, at(9, 1, 15, 0), bench("E1"), sprayed("soap", 12.0))]);
    assert_eq!(s.keep_out("E1", utc(9, 1, 14, 59)), None);
    assert_eq!(s.keep_out("E1", utc(9, 1, 15, 0)), Some(utc(9, 2, 3, 0)));
    assert_eq!(s.keep_out("E1", utc(9, 2, 2, 59)), Some(utc(9, 2, 3, 0)));
    assert_eq!(s.keep_out("E1", utc(9, 2, 3, 0)), None);
    assert_eq!(s.keep_out("E2", utc(9, 1, 16, 0)), None);
    let on = |d| s.closed_on("E1", date(9, d));
    assert_eq!([on(1), on(2), on(3)], [Some(utc(9, 2, 3, 0)), Some(utc(9, 2, 3, 0)), None]);
}

#[test]
fn an_interval_that_ends_at_midnight_does_not_touch_the_next_day() {
    let s = season(vec![entry(1, at(9, 1, 12, 0), bench("E1"), sprayed("soap", 12.0))]);
    assert!(s.closed_on("E1", date(9, 1)).is_some());
    assert_eq!(s.closed_on("E1", date(9, 2)), None);
}

#[test]
fn a_later_treatment_only_extends() {
    let s = season(vec![
        entry(1, at(9, 1, 8, 0), bench("E1"), sprayed("soap", 48.0)),
        entry(2, at(9, 2, 8, 0), bench("E1"), sprayed("soap", 4.0)),
        entry(3, at(9, 2, 9, 0), bench("E1"), sprayed("soap", 0.0)),
    ]);
    assert_eq!(s.keep_out("E1", utc(9, 2, 10, 0)), Some(utc(9, 3, 8, 0)));
    let s = season(vec![
        entry(1, at(9, 1, 8, 0), bench("E1"), sprayed("soap", 4.0)),
        entry(2, at(9, 1, 9, 0), bench("E1"), sprayed("soap", 12.0)),
    ]);
    assert_eq!(s.keep_out("E1", utc(9, 1, 10, 0)), Some(utc(9, 1, 21, 0)));
}

#[test]
fn a_house_closes_all_its_benches_and_a_lot_where_it_stands() {
    let s = season(vec![entry(1, at(9, 1, 8, 0), house("East"), sprayed("soap", 4.0))]);
    assert!(s.keep_out("E1", utc(9, 1, 9, 0)).is_some());
    assert!(s.keep_out("E2", utc(9, 1, 9, 0)).is_some(), "an empty bench stands in the fog too");
    assert!(s.keep_out("W1", utc(9, 1, 9, 0)).is_none());
    let s = season(vec![entry(1, at(9, 1, 8, 0), lot_place("A"), sprayed("soap", 4.0))]);
    assert!(s.keep_out("E1", utc(9, 1, 9, 0)).is_some());
    assert!(s.keep_out("E2", utc(9, 1, 9, 0)).is_none());
}

#[test]
fn treated_pots_carry_their_interval_along() {
    let s = season(vec![
        entry(1, at(9, 1, 8, 0), bench("E1"), sprayed("soap", 24.0)),
        entry(2, at(9, 1, 12, 0), bench("E1"), moved("W1", 100)),
        entry(3, at(9, 1, 14, 0), bench("W1"), moved("W2", 10)),
    ]);
    let end = Some(utc(9, 2, 8, 0));
    assert_eq!(s.keep_out("W1", utc(9, 1, 11, 59)), None);
    assert_eq!(s.keep_out("W1", utc(9, 1, 12, 0)), end);
    assert_eq!(s.keep_out("W2", utc(9, 1, 15, 0)), end);
    assert_eq!(s.keep_out("E1", utc(9, 1, 15, 0)), end, "the bench they left stays closed");
    assert_eq!(s.closed_on("W2", date(9, 1)), end);
    assert_eq!(s.closed_on("W2", date(9, 2)), end);
    assert_eq!(s.closed_on("W2", date(9, 3)), None);
}

#[test]
fn pots_moved_after_the_interval_close_nothing() {
    let s = season(vec![
        entry(1, at(9, 1, 8, 0), bench("E1"), sprayed("soap", 4.0)),
        entry(2, at(9, 1, 13, 0), bench("E1"), moved("W1", 50)),
    ]);
    assert_eq!(s.keep_out("W1", utc(9, 1, 14, 0)), None);
    assert_eq!(s.closed_on("W1", date(9, 1)), None);
    assert_eq!(s.closed_on("E1", date(9, 1)), Some(utc(9, 1, 12, 0)));
}

#[test]
fn a_strike_does_not_open_unless_it_says_so() {
    let spray = entry(1, at(9, 1, 8, 0), bench("E1"), sprayed("soap", 24.0));
    let s = season(vec![spray.clone(), entry(2, at(9, 1, 10, 0), bench("E1"), strike(1, false))]);
    assert_eq!(s.keep_out("E1", utc(9, 1, 11, 0)), Some(utc(9, 2, 8, 0)));
    assert!(s.closed_on("E1", date(9, 1)).is_some());
    assert_eq!(s.history("E1", date(9, 1)).all().len(), 0, "the treatment itself no longer counts");
    let s = season(vec![spray, entry(2, at(9, 1, 10, 0), bench("E1"), strike(1, true))]);
    assert_eq!(s.keep_out("E1", utc(9, 1, 9, 59)), Some(utc(9, 2, 8, 0)), "closed as far as was known then");
    assert_eq!(s.keep_out("E1", utc(9, 1, 10, 0)), None);
    assert_eq!(s.closed_on("E1", date(9, 1)), None);
}

#[test]
fn a_treatment_entered_for_tomorrow_does_not_close_today() {
    let s = season(vec![entry(1, at(9, 2, 0, 30), bench("E1"), sprayed("soap", 4.0))]);
    assert_eq!(s.closed_on("E1", date(9, 1)), None);
    assert!(s.closed_on("E1", date(9, 2)).is_some());
}

#[test]
fn at_present_a_treatment_later_than_the_clock_closes_until_its_hours_are_over() {
    let s = season(vec![entry(1, at(9, 1, 20, 15), bench("E1"), sprayed("soap", 12.0))]);
    let end = Some(utc(9, 2, 8, 15));
    assert_eq!(s.keep_out("E1", utc(9, 1, 16, 0)), None);
    assert_eq!(s.keep_out_at_present("E1", utc(9, 1, 16, 0)), end);
    assert_eq!(s.keep_out_at_present("E1", utc(8, 1, 0, 0)), end);
    assert_eq!(s.keep_out_at_present("E1", utc(9, 2, 8, 14)), end);
    assert_eq!(s.keep_out_at_present("E1", utc(9, 2, 8, 15)), None);
    assert_eq!(s.keep_out_at_present("E2", utc(9, 1, 16, 0)), None);
    let s = season(vec![entry(1, at(9, 1, 20, 15), house("East"), sprayed("soap", 12.0))]);
    assert_eq!(s.keep_out_at_present("E2", utc(9, 1, 16, 0)), end);
    let s = season(vec![entry(1, at(9, 1, 20, 15), lot_place("A"), sprayed("soap", 12.0))]);
    assert_eq!(s.keep_out_at_present("E1", utc(9, 1, 16, 0)), end);
}

#[test]
fn at_present_moves_and_strikes_later_than_the_clock_count_too() {
    let spray = entry(1, at(9, 1, 20, 0), bench("E1"), sprayed("soap", 12.0));
    let moved = entry(2, at(9, 1, 21, 0), bench("E1"), moved("W1", 100));
    let s = season(vec![spray.clone(), moved.clone()]);
    assert_eq!(s.keep_out_at_present("W1", utc(9, 1, 16, 0)), Some(utc(9, 2, 8, 0)));
    let reopened = entry(3, at(9, 1, 22, 0), bench("E1"), strike(1, true));
    let s = season(vec![spray.clone(), moved, reopened]);
    assert_eq!(s.keep_out_at_present("E1", utc(9, 1, 16, 0)), None, "who reopened it saw the sign");
    assert_eq!(s.keep_out_at_present("W1", utc(9, 1, 16, 0)), None);
    let s = season(vec![spray, entry(3, at(9, 1, 22, 0), bench("E1"), strike(1, false))]);
    assert_eq!(s.keep_out_at_present("E1", utc(9, 1, 16, 0)), Some(utc(9, 2, 8, 0)));
}
