//! What goes in comes out.

use super::{season, small, strategies, water};
use benchwalk::record::{Entry, Line, Plan};
use benchwalk::store::{Saved, Store};
use benchwalk::{journal, record};
use proptest::prelude::*;

/// Every record of a season as lines.
fn lines(plan: &Plan, entries: &[Entry]) -> Vec<Line> {
    let mut all: Vec<Line> = entries.iter().cloned().map(Line::Entry).collect();
    all.extend(plan.sites.iter().cloned().map(Line::Site));
    all.extend(plan.placements.iter().cloned().map(Line::Placement));
    all.extend(plan.orders.iter().cloned().map(Line::Order));
    all.extend(plan.lots.iter().cloned().map(Line::Lot));
    all.extend(plan.benches.iter().cloned().map(Line::Bench));
    all
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

    #[test]
    fn every_kind_of_entry_comes_back_as_it_was(entry in strategies::entry()) {
        let (_folder, _path, mut store) = season();
        let entry = Entry { place: record::Place::Bench("E1".to_owned()), ..entry };
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
