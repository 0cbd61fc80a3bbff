//! Pots standing.

use crate::season::{at, bench, date, entry, moved, placement, plan, season};
use benchwalk::record::Kind;
use benchwalk::season::Season;

fn pots(s: &Season, bench: &str, month: u32, d: u32) -> u32 {
    s.standing(bench, date(month, d)).map_or(0, |x| x.pots)
}

#[test]
fn set_down_moved_lost_dumped_and_sold() {
    let s = season(vec![
        entry(1, at(9, 1, 9, 0), bench("E1"), Kind::Losses { pots: 3, cause: None }),
        entry(2, at(9, 2, 9, 0), bench("E1"), moved("E2", 50)),
        entry(3, at(9, 3, 9, 0), bench("E1"), Kind::Grade { sell: 40, second: 3, dump: 4 }),
        entry(4, at(9, 4, 9, 0), bench("E1"), Kind::Sold { pots: 10 }),
    ]);
    let e1: Vec<u32> = (1..=4).map(|d| pots(&s, "E1", 9, d)).collect();
    assert_eq!(e1, [97, 47, 43, 33]);
    assert_eq!((pots(&s, "E2", 9, 1), pots(&s, "E2", 9, 4)), (0, 50));
    assert_eq!((pots(&s, "E1", 8, 16), pots(&s, "E1", 8, 17)), (0, 100));
}

#[test]
fn a_count_replaces_the_reckoned_number() {
    let s = season(vec![
        entry(1, at(9, 1, 9, 0), bench("E1"), Kind::Losses { pots: 3, cause: None }),
        entry(2, at(9, 2, 9, 0), bench("E1"), Kind::Counted { pots: 90 }),
        entry(3, at(9, 3, 9, 0), bench("E1"), Kind::Sold { pots: 10 }),
    ]);
    assert_eq!([pots(&s, "E1", 9, 1), pots(&s, "E1", 9, 2), pots(&s, "E1", 9, 3)], [97, 90, 80]);
}

#[test]
fn a_count_after_all_were_sold_shows_that_some_never_left() {
    let s = season(vec![
        entry(1, at(9, 1, 9, 0), bench("E1"), Kind::Sold { pots: 100 }),
        entry(2, at(9, 2, 9, 0), bench("E1"), Kind::Counted { pots: 4 }),
        entry(3, at(9, 3, 9, 0), bench("E2"), Kind::Counted { pots: 4 }),
    ]);
    assert_eq!([pots(&s, "E1", 9, 1), pots(&s, "E1", 9, 2)], [0, 4]);
    assert_eq!(s.standing("E1", date(9, 2)).map(|x| x.since), Some(date(8, 17)));
    assert_eq!(pots(&s, "E2", 9, 3), 0, "pots of no known lot");
}

#[test]
fn more_taken_than_stands_leaves_nothing() {
    let s = season(vec![entry(1, at(9, 1, 9, 0), bench("E1"), moved("E2", 400))]);
    assert_eq!((pots(&s, "E1", 9, 1), pots(&s, "E2", 9, 1)), (0, 100));
}

#[test]
fn a_placement_taken_back_and_one_added() {
    let mut p = plan();
    let mut back = placement("E1", "A", 0, date(8, 17));
    back.revision.rev = 2;
    p.placements.push(back);
    p.placements.push(placement("W1", "A", 20, date(8, 17)));
    p.placements.push(placement("W1", "A", 15, date(8, 19)));
    let s = Season::new(p, vec![]);
    assert_eq!((pots(&s, "E1", 9, 1), pots(&s, "W1", 8, 18), pots(&s, "W1", 8, 19)), (0, 20, 35));
}
