//! What counts for a bench.

use crate::season::{
    at, bench, bench_line, date, entry, house, ids, lot, lot_place, moved, placement, plan, season, sprayed, strike,
    water,
};
use benchwalk::record::{Kind, KindName, Line};
use benchwalk::season::Season;

#[test]
fn an_entry_struck_out_counts_until_the_day_of_its_strike() {
    let s = season(vec![
        entry(1, at(9, 1, 7, 0), bench("E1"), water(5)),
        entry(2, at(9, 3, 7, 0), bench("E1"), strike(1, false)),
    ]);
    assert_eq!(ids(&s, "E1", date(9, 2)), [1]);
    assert_eq!(ids(&s, "E1", date(9, 3)), []);
    let written = s.written("E1");
    assert_eq!(written.len(), 2);
    assert_eq!(written[0].struck_by.map(|e| e.id.as_u128()), Some(2));
    assert!(written[1].struck_by.is_none());
}

#[test]
fn a_strike_written_before_noon_counts_from_that_morning_on() {
    let s = season(vec![
        entry(1, at(9, 3, 7, 0), bench("E1"), water(5)),
        entry(2, at(9, 3, 7, 1), bench("E1"), strike(1, false)),
    ]);
    assert_eq!(ids(&s, "E1", date(9, 3)), []);
}

#[test]
fn a_strike_of_another_place_or_of_a_strike_counts_for_nothing() {
    let s = season(vec![
        entry(1, at(9, 1, 7, 0), bench("E1"), water(5)),
        entry(2, at(9, 1, 8, 0), bench("E2"), strike(1, false)),
        entry(3, at(9, 2, 7, 0), bench("E1"), water(4)),
        entry(4, at(9, 2, 8, 0), bench("E1"), strike(3, false)),
        entry(5, at(9, 2, 9, 0), bench("E1"), strike(4, false)),
    ]);
    assert_eq!(ids(&s, "E1", date(9, 5)), [1]);
}

#[test]
fn an_entry_from_tomorrow_does_not_count_today() {
    let s = season(vec![
        entry(1, at(9, 1, 23, 59), bench("E1"), water(3)),
        entry(2, at(9, 2, 0, 0), bench("E1"), water(4)),
    ]);
    assert_eq!(ids(&s, "E1", date(9, 1)), [1]);
    assert_eq!(ids(&s, "E1", date(9, 2)), [1, 2]);
}

#[test]
fn an_entry_for_an_empty_bench_is_kept_but_speaks_of_no_pots() {
    let s = season(vec![entry(1, at(9, 1, 7, 0), bench("E2"), water(4))]);
    assert!(s.history("E2", date(9, 1)).standing.is_none());
    assert_eq!(ids(&s, "E2", date(9, 1)), []);
    assert_eq!(s.written("E2").len(), 1);
    // Pots that come later are not burdened with it.
    let s = season(vec![
        entry(1, at(9, 1, 7, 0), bench("E2"), water(4)),
        entry(2, at(9, 2, 7, 0), bench("E1"), moved("E2", 40)),
    ]);
    assert_eq!(ids(&s, "E2", date(9, 2)), [2]);
}

#[test]
fn two_entries_at_one_instant_stand_in_the_order_of_their_ids() {
    let (a, b) = (entry(8, at(9, 1, 7, 0), bench("E1"), water(2)), entry(3, at(9, 1, 7, 0), bench("E1"), water(4)));
    for entries in [vec![a.clone(), b.clone()], vec![b, a]] {
        let s = season(entries);
        assert_eq!(ids(&s, "E1", date(9, 1)), [3, 8]);
        assert_eq!(s.history("E1", date(9, 1)).last(KindName::Water).map(|e| e.id.as_u128()), Some(8));
    }
}

#[test]
fn pots_moved_half_way_take_their_history_along_up_to_that_instant() {
    let s = season(vec![
        entry(1, at(9, 1, 7, 0), bench("E1"), water(4)),
        entry(2, at(9, 14, 10, 0), bench("E1"), moved("W1", 40)),
        entry(3, at(9, 14, 11, 0), bench("E1"), water(2)),
        entry(4, at(9, 14, 12, 0), bench("W1"), water(3)),
        entry(5, at(9, 20, 10, 0), bench("W1"), moved("W2", 20)),
        entry(6, at(9, 21, 10, 0), bench("W1"), water(1)),
    ]);
    assert_eq!(ids(&s, "E1", date(9, 30)), [1, 2, 3]);
    assert_eq!(ids(&s, "W1", date(9, 30)), [1, 2, 4, 5, 6]);
    assert_eq!(ids(&s, "W2", date(9, 30)), [1, 2, 4, 5]);
    // Before the move nothing stands there.
    assert_eq!(ids(&s, "W1", date(9, 13)), []);
}

#[test]
fn a_struck_move_never_happened_from_the_strike_on() {
    let s = season(vec![
        entry(1, at(9, 1, 7, 0), bench("E1"), water(4)),
        entry(2, at(9, 14, 10, 0), bench("E1"), moved("W1", 40)),
        entry(3, at(9, 16, 10, 0), bench("E1"), strike(2, false)),
        entry(4, at(9, 16, 11, 0), bench("E1"), moved("W2", 40)),
    ]);
    assert_eq!(s.standing("W1", date(9, 15)).map(|x| x.pots), Some(40));
    assert_eq!(s.standing("W1", date(9, 16)), None);
    assert_eq!(s.standing("E1", date(9, 15)).map(|x| x.pots), Some(60));
    assert_eq!(s.standing("E1", date(9, 17)).map(|x| x.pots), Some(60));
    assert_eq!(ids(&s, "W2", date(9, 17)), [1, 4]);
}

#[test]
fn pots_moved_to_and_fro_are_read_once() {
    let mut entries = vec![entry(1, at(8, 18, 7, 0), bench("E1"), water(3))];
    for n in 0..60 {
        let (from, to) = if n % 2 == 0 { ("E1", "E2") } else { ("E2", "E1") };
        entries.push(entry(10 + u128::from(n), at(9, 1, n / 6, n % 6), bench(from), moved(to, 10)));
    }
    let s = season(entries);
    assert_eq!(ids(&s, "E1", date(9, 2)).len(), 61);
    assert_eq!(s.standing("E1", date(9, 2)).map(|x| x.pots), Some(100));
}

#[test]
fn a_house_entry_counts_only_for_benches_that_stand_with_pots_then() {
    let s = season(vec![
        entry(1, at(9, 1, 7, 0), house("West"), water(4)),
        entry(2, at(9, 1, 12, 0), bench("E1"), moved("W1", 40)),
        entry(3, at(9, 1, 18, 0), house("West"), water(3)),
        entry(4, at(9, 2, 18, 0), house("East"), water(3)),
    ]);
    assert_eq!(ids(&s, "W1", date(9, 2)), [2, 3]);
    assert_eq!(ids(&s, "E1", date(9, 2)), [2, 4]);
    // A house entry on the very day of the placement counts: pots set down by the plan stand from the day's beginning.
    let s = season(vec![
        entry(1, at(8, 17, 0, 5), house("East"), water(3)),
        entry(2, at(8, 16, 9, 0), house("East"), water(3)),
    ]);
    assert_eq!(ids(&s, "E1", date(8, 17)), [1]);
}

#[test]
fn a_house_entry_comes_along_with_moved_pots_but_once() {
    let s = season(vec![
        entry(1, at(9, 1, 7, 0), house("East"), water(4)),
        entry(2, at(9, 2, 12, 0), bench("E1"), moved("E2", 40)),
        entry(3, at(9, 3, 12, 0), bench("E2"), moved("E1", 10)),
    ]);
    assert_eq!(ids(&s, "E1", date(9, 5)), [1, 2, 3]);
    assert_eq!(ids(&s, "E2", date(9, 5)), [1, 2, 3]);
}

#[test]
fn a_lot_entry_counts_where_the_lot_stands_then() {
    let mut p = plan();
    p.placements.push(placement("W1", "B", 50, date(8, 20)));
    let s = Season::new(
        p,
        vec![
            entry(1, at(9, 1, 7, 0), lot_place("A"), water(4)),
            entry(2, at(9, 2, 7, 0), lot_place("B"), water(4)),
            entry(3, at(8, 19, 7, 0), lot_place("B"), water(4)),
        ],
    );
    assert_eq!(ids(&s, "E1", date(9, 5)), [1]);
    assert_eq!(ids(&s, "W1", date(9, 5)), [2]);
    assert_eq!(s.benches_of_lot("B", date(9, 5)), ["W1"]);
}

#[test]
fn a_bench_filled_again_starts_anew() {
    let mut p = plan();
    p.placements.push(placement("E1", "B", 60, date(10, 1)));
    let s = Season::new(
        p,
        vec![
            entry(1, at(9, 1, 7, 0), bench("E1"), water(4)),
            entry(2, at(10, 1, 8, 0), bench("E1"), Kind::Sold { pots: 100 }),
            entry(3, at(10, 2, 8, 0), bench("E1"), water(3)),
        ],
    );
    assert_eq!(ids(&s, "E1", date(9, 30)), [1]);
    assert_eq!(ids(&s, "E1", date(10, 2)), [3]);
    let now = s.standing("E1", date(10, 2)).unwrap();
    assert_eq!((now.lot.as_str(), now.pots, now.since), ("B", 60, date(10, 1)));
    // The bench's page shows both.
    assert_eq!(s.written("E1").len(), 3);
}

#[test]
fn a_second_batch_of_the_lot_joins_with_its_history() {
    let mut p = plan();
    p.placements.push(placement("E2", "A", 30, date(8, 17)));
    let s = Season::new(
        p,
        vec![
            entry(1, at(9, 1, 7, 0), bench("E1"), water(4)),
            entry(2, at(9, 1, 7, 1), bench("E2"), water(2)),
            entry(3, at(9, 5, 9, 0), bench("E2"), moved("E1", 30)),
        ],
    );
    assert_eq!(ids(&s, "E1", date(9, 5)), [1, 2, 3]);
    assert_eq!(s.standing("E1", date(9, 5)).map(|x| (x.pots, x.since)), Some((130, date(8, 17))));
    assert_eq!(s.standing("E2", date(9, 5)), None);
}

#[test]
fn a_lot_and_a_bench_revised_hold_for_every_day() {
    let mut s = season(vec![entry(1, at(9, 1, 7, 0), house("West"), water(4))]);
    assert_eq!(ids(&s, "E1", date(9, 1)), []);
    let mut late = lot("A");
    late.revision.rev = 2;
    late.ready_by = date(12, 4);
    s.revise(Line::Lot(late.clone()));
    s.revise(Line::Lot(late));
    assert_eq!(s.lot("A").map(|l| l.ready_by), Some(date(12, 4)));
    assert_eq!(s.plan().lots.len(), 3);
    let mut elsewhere = bench_line("E1", "West", 1);
    elsewhere.revision.rev = 2;
    s.revise(Line::Bench(elsewhere));
    assert_eq!(ids(&s, "E1", date(9, 1)), [1]);
    // A lower revision that comes late changes nothing.
    s.revise(Line::Lot(lot("A")));
    assert_eq!(s.lot("A").map(|l| l.ready_by), Some(date(12, 4)));
}

#[test]
fn the_walk_goes_by_order_then_code() {
    let mut p = plan();
    p.benches.push(bench_line("E0", "East", 2));
    let s = Season::new(p, vec![]);
    assert_eq!(s.benches().iter().map(|b| b.bench.as_str()).collect::<Vec<_>>(), ["E1", "E0", "E2", "W1", "W2"]);
    assert_eq!(s.houses(), ["East", "West"]);
}

#[test]
fn what_is_written_of_one_plot_says_nothing_of_its_bench_but_for_losses_and_what_closes_it() {
    let of_plot = |id: u128, minute: u32, kind: Kind| benchwalk::record::Entry {
        plot: Some("T1.7".into()),
        ..entry(id, at(9, 1, 8, minute), bench("E1"), kind)
    };
    let s = season(vec![
        of_plot(1, 0, water(5)),
        of_plot(2, 1, moved("W1", 10)),
        of_plot(3, 2, Kind::Sold { pots: 5 }),
        of_plot(4, 3, Kind::Counted { pots: 9 }),
        of_plot(5, 4, Kind::Grade { sell: 1, second: 1, dump: 1 }),
        of_plot(6, 5, Kind::Losses { pots: 2, cause: None }),
        of_plot(7, 6, sprayed("soap", 12.0)),
        entry(8, at(9, 1, 9, 0), bench("E1"), water(3)),
    ]);
    assert_eq!(ids(&s, "E1", date(9, 1)), [6, 7, 8]);
    assert_eq!(s.history("E1", date(9, 1)).on(date(9, 1)).count(), 3);
    assert_eq!(s.standing("E1", date(9, 1)).map(|x| x.pots), Some(98));
    assert!(s.standing("W1", date(9, 1)).is_none());
    assert!(s.closed_on("E1", date(9, 1)).is_some());
    let counting: Vec<u128> = s.counting(date(9, 1)).map(|e| e.id.as_u128()).collect();
    assert_eq!(counting, [6, 7, 8]);
    assert_eq!(s.entries().len(), 8, "all of it is kept");
}
