//! However the record came together, it reads the same.

use crate::season::{bench, date, entry, house, lot_place, moved, placement, plan, sprayed, strike, water};
use benchwalk::record::{Entry, Kind, KindName, Line, Place, Plan};
use benchwalk::season::Season;
use chrono::{DateTime, FixedOffset, NaiveDate, TimeDelta};
use proptest::prelude::*;

const BENCHES: [&str; 4] = ["E1", "E2", "W1", "W2"];

fn place() -> impl Strategy<Value = Place> {
    prop_oneof![
        6 => (0..4usize).prop_map(|i| bench(BENCHES[i])),
        1 => Just(house("East")),
        1 => Just(house("West")),
        1 => Just(lot_place("A")),
    ]
}

fn kind() -> impl Strategy<Value = Kind> {
    prop_oneof![
        4 => (1..=5u8).prop_map(water),
        3 => (0..4usize, 1..60u32).prop_map(|(i, n)| moved(BENCHES[i], n)),
        1 => (1..120u32).prop_map(|pots| Kind::Sold { pots }),
        1 => (1..9u32).prop_map(|pots| Kind::Losses { pots, cause: None }),
        1 => (0..90u32).prop_map(|pots| Kind::Counted { pots }),
        1 => (0..60u32).prop_map(|h| sprayed("soap", f64::from(h))),
        2 => (1..40u128, any::<bool>()).prop_map(|(id, reopen)| strike(id, reopen)),
    ]
}

/// An instant within ten days, now and then in another offset than the site's.
fn instant() -> impl Strategy<Value = DateTime<FixedOffset>> {
    (0..10 * 48i64, prop_oneof![5 => Just(-4i32), 1 => -11..12i32]).prop_map(|(half_hours, offset)| {
        let start = crate::season::at(8, 18, 0, 0);
        let zone = FixedOffset::east_opt(offset * 3600).unwrap();
        (start + TimeDelta::minutes(30 * half_hours)).with_timezone(&zone)
    })
}

fn entries() -> impl Strategy<Value = Vec<Entry>> {
    prop::collection::vec((instant(), place(), kind()), 0..40).prop_map(|list| {
        list.into_iter().enumerate().map(|(i, (at, place, kind))| entry(1 + i as u128, at, place, kind)).collect()
    })
}

/// Everything that can be asked, as text.
fn read(s: &Season) -> String {
    let mut text = format!("{:?}\n", s.entries().iter().map(|e| e.id.as_u128()).collect::<Vec<_>>());
    for bench in BENCHES {
        for d in 16..30 {
            let on = date(8, d);
            let h = s.history(bench, on);
            let ids: Vec<u128> = h.all().iter().map(|e| e.id.as_u128()).collect();
            let noon = on.and_hms_opt(16, 0, 0).unwrap().and_utc();
            text += &format!(
                "{bench} {d} {:?} {ids:?} {:?} {:?}\n",
                h.standing,
                s.closed_on(bench, on),
                s.keep_out(bench, noon)
            );
        }
        let written: Vec<_> = s.written(bench).iter().map(|w| (w.entry.id, w.struck_by.map(|e| e.id))).collect();
        text += &format!("{written:?}\n");
    }
    text
}

fn full_plan() -> Plan {
    let mut p = plan();
    p.placements.push(placement("W2", "B", 50, date(8, 19)));
    p.placements.push(placement("E2", "A", 30, date(8, 22)));
    p
}

fn plan_lines(p: &Plan) -> Vec<Line> {
    let mut lines: Vec<Line> = p.sites.iter().cloned().map(Line::Site).collect();
    lines.extend(p.lots.iter().cloned().map(Line::Lot));
    lines.extend(p.benches.iter().cloned().map(Line::Bench));
    lines.extend(p.placements.iter().cloned().map(Line::Placement));
    lines.extend(p.orders.iter().cloned().map(Line::Order));
    lines
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn one_by_one_is_the_same_as_at_once(entries in entries(), seed in any::<u64>()) {
        let at_once = Season::new(full_plan(), entries.clone());
        let mut lines = plan_lines(&full_plan());
        lines.extend(entries.iter().cloned().map(Line::Entry));
        // A shuffle by a small generator of its own, so that a failing case is told by its seed.
        let mut state = seed | 1;
        for i in (1..lines.len()).rev() {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            lines.swap(i, (state >> 33) as usize % (i + 1));
        }
        let mut season = Season::default();
        for (i, line) in lines.into_iter().enumerate() {
            season.revise(line);
            if i % 7 == 0 {
                // Questions in between must leave nothing stale behind.
                let _ = season.history("E2", date(8, 24));
            }
        }
        prop_assert_eq!(read(&season), read(&at_once));
        for entry in at_once.entries() {
            prop_assert_eq!(season.entry(entry.id), Some(entry), "found by its id wherever it was put in");
        }
        for e in entries {
            prop_assert!(!season.insert(e));
        }
    }

    #[test]
    fn later_entries_never_change_an_earlier_day(entries in entries(), d in 17..29u32) {
        let on = date(8, d);
        let until: Vec<Entry> = entries.iter().filter(|e| e.day() <= on).cloned().collect();
        let mut closing = entries.clone();
        let now = Season::new(full_plan(), entries);
        // What closes a bench goes by the site's own day, whatever offset the writer had.
        closing.retain(|e| e.day() <= on || now.day_of(e.instant()) <= on);
        let (then, closed) = (Season::new(full_plan(), until), Season::new(full_plan(), closing));
        for bench in BENCHES {
            let (a, b) = (then.history(bench, on), now.history(bench, on));
            prop_assert_eq!(&a.standing, &b.standing);
            prop_assert_eq!(a.all(), b.all());
            prop_assert_eq!(closed.closed_on(bench, on), now.closed_on(bench, on));
        }
    }

    #[test]
    fn a_part_of_a_history_is_that_part_of_the_whole(entries in entries()) {
        let s = Season::new(full_plan(), entries);
        let ids = |entries: &mut dyn Iterator<Item = &Entry>| entries.map(|e| e.id).collect::<Vec<_>>();
        for bench in BENCHES {
            for on in date(8, 16).iter_days().take(16) {
                let whole = s.history(bench, on);
                for kind in [KindName::Water, KindName::Moved, KindName::Counted, KindName::Strike] {
                    let of = s.history_of(bench, on, kind);
                    prop_assert_eq!(ids(&mut of.into_iter()), ids(&mut whole.of(kind)));
                    prop_assert_eq!(s.last_of(bench, on, kind), whole.last(kind));
                }
                prop_assert_eq!(ids(&mut s.written_on(bench, on)), ids(&mut whole.on(on).rev()));
            }
        }
    }

    #[test]
    fn without_moves_a_history_is_what_was_written_of_the_bench_its_lot_and_its_house(
        written in prop::collection::vec((instant(), place(), 1..=5u8), 0..40)
    ) {
        let all = written.into_iter().enumerate();
        let entries = all.map(|(i, (at, place, level))| entry(1 + i as u128, at, place, water(level))).collect();
        let plan = full_plan();
        let s = Season::new(plan.clone(), entries);
        for of in &plan.benches {
            let filled: Vec<_> = plan.placements.iter().filter(|p| p.bench == of.bench).collect();
            let Some(since) = filled.iter().map(|p| p.from).min() else { continue };
            for on in date(8, 16).iter_days().take(16) {
                let concerns = |e: &&Entry| match &e.place {
                    Place::Bench(code) => **code == *of.bench,
                    Place::House(name) => **name == *of.house,
                    Place::Lot(lot) => filled.iter().any(|p| **lot == *p.lot),
                };
                let counts = |e: &&Entry| (since..=on).contains(&e.day()) && concerns(e);
                let wanted: Vec<&Entry> = if since <= on { s.entries().iter().filter(counts).collect() } else { vec![] };
                let history = s.history(&of.bench, on);
                prop_assert_eq!(history.all(), wanted);
            }
        }
    }

    #[test]
    fn no_pots_come_from_nowhere(entries in entries(), d in 17..29u32) {
        // A count may find pots that were reckoned gone.
        let counted = |e: &Entry| matches!(*e.kind, Kind::Counted { .. });
        let s = Season::new(full_plan(), entries.into_iter().filter(|e| !counted(e)).collect());
        let all: u32 = BENCHES.iter().filter_map(|b| s.standing(b, date(8, d))).map(|x| x.pots).sum();
        prop_assert!(all <= 180);
    }

    #[test]
    fn a_checked_season_has_nothing_to_tell(entries in entries()) {
        let kept = Season::new(full_plan(), vec![]);
        let mut good = kept.clone();
        for e in entries {
            let line = [Line::Entry(e.clone())];
            if good.check(&line).is_empty() {
                good.insert(e);
            }
        }
        let all: Vec<Line> = good.entries().iter().cloned().map(Line::Entry).collect();
        prop_assert_eq!(kept.check(&all), vec![]);
    }
}

#[test]
fn an_odd_day_is_no_trouble() {
    let s = Season::new(full_plan(), vec![]);
    for on in [NaiveDate::MIN, NaiveDate::MAX] {
        assert!(s.closed_on("E1", on).is_none());
        let _ = s.history("E1", on);
    }
    assert!(s.history("nowhere", date(9, 1)).all().is_empty());
}
