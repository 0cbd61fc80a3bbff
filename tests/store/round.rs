//! What goes in comes out.

use super::{season, small, strategies, water};
use benchwalk::record::{Entry, Line, Plan};
use benchwalk::store::{Saved, Store};
use benchwalk::{journal, record};
use proptest::prelude::*;

/// Every record of a season as lines.
fn lines(plan: &Plan, entries: &[Entry]) -> Vec<Line> {
    entries.iter().cloned().map(Line::Entry).chain(plan.lines()).collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]

    #[test]
    fn a_season_through_the_file_is_the_same_journal((plan, entries) in strategies::season()) {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("season.db");
        let mut store = Store::create(&path).unwrap();
        let all = lines(&plan, &entries);
        prop_assert_eq!(store.append(&all).unwrap(), Saved { new: all.len(), known: 0 });
        prop_assert_eq!(store.append(&all).unwrap(), Saved { new: 0, known: all.len() });
        store.close().unwrap();
        let read = Store::open_read_only(&path).unwrap();
        let (kept, written) = read.load().unwrap();
        prop_assert_eq!(journal::write(None, &kept, &written), journal::write(None, &plan, &entries));
    }

    /// Each laptop has a part of the season, some of it both; each takes in what the other has.
    #[test]
    fn two_laptops_parts_of_a_season_join_to_the_whole((plan, entries) in strategies::season(), parts in any::<u64>()) {
        let folder = tempfile::tempdir().unwrap();
        let all = lines(&plan, &entries);
        // The plan was there before the laptops parted.
        let has = |laptop: u64| {
            let mine = move |n: usize| (parts >> (n % 60)) & 3 != laptop;
            let mut n = 0;
            all.iter().filter(move |line| { n += 1; !matches!(line, Line::Entry(_)) || mine(n) }).cloned().collect::<Vec<_>>()
        };
        let mut stores = [(1, "one.db"), (2, "other.db")].map(|(laptop, name)| {
            let mut store = Store::create(&folder.path().join(name)).unwrap();
            store.append(&has(laptop)).unwrap();
            store
        });
        let export = |store: &Store| {
            let (plan, entries) = store.load().unwrap();
            (lines(&plan, &entries), journal::write(None, &plan, &entries))
        };
        let (one, other) = (export(&stores[0]).0, export(&stores[1]).0);
        stores[0].append(&other).unwrap();
        stores[1].append(&one).unwrap();
        let whole = journal::write(None, &plan, &entries);
        prop_assert_eq!(&export(&stores[0]).1, &whole);
        prop_assert_eq!(&export(&stores[1]).1, &whole);
    }

    #[test]
    fn every_kind_of_entry_comes_back_as_it_was(entry in strategies::entry()) {
        let (_folder, _path, mut store) = season();
        let entry = Entry { place: record::Place::Bench("E1".into()), ..entry };
        store.append(&[Line::Entry(entry.clone())]).unwrap();
        let (_, kept) = store.load().unwrap();
        prop_assert_eq!(&kept, &vec![entry.clone()]);
        prop_assert_eq!(kept[0].at.offset(), entry.at.offset());
    }
}

#[test]
fn two_laptops_records_merge_by_union() {
    let (_a, _, mut one) = season();
    let (_b, _, mut other) = season();
    one.append(&[water(1, 3), water(2, 4), water(3, 4)]).unwrap();
    other.append(&[water(2, 4), water(4, 5)]).unwrap();
    let of = |store: &Store| {
        let (plan, entries) = store.load().unwrap();
        lines(&plan, &entries)
    };
    let (ones, others) = (of(&one), of(&other));
    assert_eq!(one.append(&others).unwrap(), Saved { new: 1, known: small().len() + 1 });
    assert_eq!(other.append(&ones).unwrap(), Saved { new: 2, known: small().len() + 1 });
    let text = |store: &Store| {
        let (plan, entries) = store.load().unwrap();
        journal::write(None, &plan, &entries)
    };
    assert_eq!(text(&one), text(&other));
    assert_eq!(one.count().unwrap(), 4);
}

#[test]
fn slices_come_in_the_order_of_writing_and_see_what_others_wrote() {
    let (_folder, path, mut store) = season();
    // Written with the clock going back two days in between.
    store.append(&[water(9, 3)]).unwrap();
    store.append(&[water(7, 4)]).unwrap();
    let first = store.load_entries(0, 1).unwrap();
    assert_eq!((first.entries.len(), first.done), (1, false));
    assert_eq!(first.entries[0].day().to_string(), "2026-10-09");
    let rest = store.load_entries(first.last, 10).unwrap();
    assert_eq!((rest.entries.len(), rest.done), (1, true));
    let mut other = Store::open(&path).unwrap();
    other.append(&[water(8, 2)]).unwrap();
    let new = store.load_entries(rest.last, 10).unwrap();
    assert_eq!(new.entries[0].day().to_string(), "2026-10-08");
    let days: Vec<String> = store.load().unwrap().1.iter().map(|e| e.day().to_string()).collect();
    assert_eq!(days, ["2026-10-07", "2026-10-08", "2026-10-09"]);
}
