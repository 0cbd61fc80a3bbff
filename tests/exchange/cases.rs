//! What two or three laptops make of one another's lines.

use crate::hub::Hub;
use crate::lines::{Laptop, SEASON, chained, line, on_bench, plan, water};
use benchwalk::exchange::{Batches, Replica, Stream};
use benchwalk::record::{Line, codec};
use benchwalk::season::Season;
use benchwalk::store::{Heard, Saved, Store, StoreError};
use std::collections::BTreeMap;
use uuid::Uuid;

fn id(line: &Line) -> Uuid {
    line.id()
}

#[test]
fn two_laptops_take_one_anothers_lines_and_say_who_wrote_them() {
    let (mut ann, mut bob, mut hub) = (Laptop::new(1, "ann", &plan()), Laptop::new(2, "bob", &plan()), Hub::default());
    ann.append(&[water(101, 1, 3), water(102, 2, 4)]);
    bob.append(&[water(201, 3, 5)]);
    assert_eq!(ann.store().to_send(&hub.all_heads()).unwrap(), 6, "the plan and two entries");
    assert_eq!((ann.exchange(&mut hub).given, ann.store().to_send(&hub.all_heads()).unwrap()), (6, 0));
    let did = bob.exchange(&mut hub);
    assert_eq!((did.taken, did.held, did.given), (2, 0, 5), "the plan was here");
    assert_eq!(bob.store().to_send(&hub.all_heads()).unwrap(), 0);
    assert_eq!(ann.exchange(&mut hub).taken, 1);
    assert_eq!(ann.export(), bob.export());
    let states = ann.store().laptops().unwrap();
    let said: Vec<_> = states.iter().map(|l| (l.name.as_deref().unwrap(), l.own, l.lines)).collect();
    assert_eq!(said, [("ann", true, 6), ("bob", false, 5)]);
    assert_eq!(states[1].known_to.unwrap().to_rfc3339(), "2026-10-01T00:03:00-04:00");
    assert_eq!(ann.store().own_lines().unwrap(), 6);
    let who = ann.store().who(id(&water(201, 3, 5))).unwrap().unwrap();
    assert_eq!((who.laptop.as_deref(), who.own, who.number, who.stream), (Some("bob"), false, 5, states[1].stream));
    let who = ann.store().who(id(&water(102, 2, 4))).unwrap().unwrap();
    assert_eq!((who.laptop.as_deref(), who.own, who.number), (Some("ann"), true, 6));
    assert_eq!(ann.store().who(Uuid::from_u128(9)).unwrap(), None);
    // The plan was written on both: it is nobody else's. What came is given once.
    let mut heard = Heard::default();
    let came = ann.store().origins(&mut heard, 10).unwrap();
    assert_eq!(came.iter().map(|c| (c.line, &*c.laptop)).collect::<Vec<_>>(), [(id(&water(201, 3, 5)), "bob")]);
    assert_eq!(ann.store().origins(&mut heard, 10).unwrap(), []);
    bob.append(&[water(202, 5, 2), water(203, 6, 2)]);
    bob.exchange(&mut hub);
    ann.exchange(&mut hub);
    let mut next = || ann.store().origins(&mut heard, 1).unwrap().into_iter().map(|c| c.line).collect::<Vec<_>>();
    assert_eq!(
        (next(), next(), next()),
        (vec![id(&water(202, 5, 2))], vec![id(&water(203, 6, 2))], Vec::new()),
        "one at a time"
    );
}

#[test]
fn nothing_new_changes_nothing_and_the_same_save_again_is_no_second_line() {
    let (mut ann, mut hub) = (Laptop::new(1, "ann", &plan()), Hub::default());
    ann.append(&[water(101, 1, 3)]);
    ann.exchange(&mut hub);
    let before = (ann.heads(), hub.clone());
    assert_eq!(ann.store().append(&[water(101, 1, 3)]).unwrap(), Saved { new: 0, known: 1 });
    let did = ann.exchange(&mut hub);
    assert_eq!((did.taken, did.given, did.written_again), (0, 0, 0));
    assert_eq!((ann.heads(), hub), before);
}

#[test]
fn what_was_written_before_sharing_began_is_all_in_the_stream_the_plan_first() {
    let mut ann = Laptop::new(1, "ann", &[]);
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("season.db");
    let mut store = Store::create(&path).unwrap();
    store.append(&plan()).unwrap();
    // By a clock that was put back in between.
    store.append(&[water(102, 9, 3)]).unwrap();
    store.append(&[water(101, 1, 4)]).unwrap();
    assert!(!store.is_shared().unwrap());
    store.share([5; 16], "eve").unwrap();
    assert!(store.is_shared().unwrap());
    let branch = store.branches().unwrap().remove(0);
    assert!(branch.own && branch.laptop.as_deref() == Some("eve"));
    let texts: Vec<String> = store.read(branch.id, 0, 100).unwrap().into_iter().map(|l| l.text).collect();
    let wanted: Vec<String> = [water(102, 9, 3), water(101, 1, 4)].iter().map(codec::line_text).collect();
    assert_eq!((texts.len(), &texts[4..]), (6, wanted.as_slice()));
    assert!(texts[..4].iter().all(|text| !text.contains(r#""type":"entry""#)));
    // Asked for once more it changes nothing.
    store.share([5; 16], "eve").unwrap();
    assert_eq!(store.branches().unwrap(), [branch]);
    // A file that is not shared has no streams to exchange.
    let mut other = Store::create(&folder.path().join("other.db")).unwrap();
    assert!(matches!(other.own(), Err(StoreError::Refused { .. })));
    assert_eq!(ann.store().season_id().unwrap(), Some(SEASON), "a file begun for what others hold");
}

#[test]
fn of_one_id_with_two_contents_the_same_one_counts_everywhere_and_both_are_kept() {
    let lot = |pots: u32| {
        let known = r#""cultivar":"white","container":"5 in","cuttings_per_pot":1,"planted":"2026-08-20","pinch":"none","response_weeks":8,"nights":"natural","ready_by":"2026-12-01""#;
        line(&format!(
            r#"{{"type":"lot","lot":"L1",{known},"pots":{pots},"id":"0199a000-0000-7000-8000-000000000103","at":"2026-10-09T08:00:00-04:00","by":"ab"}}"#
        ))
    };
    for (one, other) in [(water(7, 1, 3), water(7, 1, 4)), (lot(10), lot(20))] {
        let less = [codec::line_text(&one), codec::line_text(&other)].into_iter().min().unwrap();
        for [first, second] in [[&one, &other], [&other, &one]] {
            let (mut ann, mut bob, mut hub) =
                (Laptop::new(1, "ann", &plan()), Laptop::new(2, "bob", &plan()), Hub::default());
            ann.append(std::slice::from_ref(first));
            bob.append(std::slice::from_ref(second));
            ann.exchange(&mut hub);
            bob.exchange(&mut hub);
            ann.exchange(&mut hub);
            assert_eq!(ann.export(), bob.export());
            for laptop in [&mut ann, &mut bob] {
                assert!(laptop.texts().contains(&less), "{less}");
                assert_eq!(laptop.texts().len(), 5);
                // Both are known: a journal of either side may be taken in again.
                assert_eq!(laptop.store().append(&[one.clone(), other.clone()]).unwrap(), Saved { new: 0, known: 2 });
                let salvaged = laptop.store().salvage().unwrap();
                let (plan, entries) = laptop.store().load().unwrap();
                assert_eq!(salvaged.plan.lines().len(), plan.lines().len());
                assert_eq!(salvaged.entries.into_iter().map(|(_, entry)| entry).collect::<Vec<_>>(), entries);
            }
            // A third laptop gets both, in whatever order.
            let mut cyd = Laptop::new(3, "cyd", &[]);
            cyd.exchange(&mut hub);
            assert_eq!(cyd.export(), ann.export());
            assert_eq!(hub.texts().iter().filter(|text| text.contains(&id(&one).to_string())).count(), 2);
        }
    }
}

#[test]
fn an_entry_may_come_before_its_bench() {
    let (mut ann, mut bob) = (Laptop::new(1, "ann", &plan()), Laptop::new(2, "bob", &plan()));
    let bench =
        line(r#"{"type":"bench","bench":"M9","house":"North","order":9,"at":"2026-10-01T06:00:00-04:00","by":"ann"}"#);
    let moved = line(
        r#"{"type":"entry","id":"0199a000-0000-7000-8000-000000000900","at":"2026-10-02T09:00:00-04:00","by":"ann","bench":"E1","kind":"moved","to":"M9","pots":10}"#,
    );
    let house = line(
        r#"{"type":"entry","id":"0199a000-0000-7000-8000-000000000901","at":"2026-10-02T10:00:00-04:00","by":"ann","house":"North","kind":"climate","night_c":17}"#,
    );
    ann.append(&[bench, on_bench("M9", 900, 700, 3), moved.clone(), house.clone()]);
    // As a carrier has them that got them in another stream than the bench.
    let texts = [on_bench("M9", 900, 700, 3), moved, house].map(|l| codec::line_text(&l));
    let lines = chained(&texts);
    let early = BTreeMap::from([(Stream(Uuid::from_u128(5)), (Some("cyd".to_owned()), lines))]);
    let mut hub = Hub { log: early, ..Hub::default() };
    assert_eq!(bob.exchange(&mut hub).taken, 3);
    let (plan, entries) = bob.store().load().unwrap();
    assert_eq!(entries.len(), 3);
    let season = Season::new(plan, entries);
    assert!(season.bench("M9").is_none() && season.bench("E1").is_some());
    bob.store().check().unwrap();
    assert!(bob.export().contains("M9"));
    // Here it is written down as ever, and comes as a line of its own to the other.
    ann.exchange(&mut hub);
    bob.exchange(&mut hub);
    assert_eq!(ann.export(), bob.export());
    let (plan, entries) = bob.store().load().unwrap();
    assert!(Season::new(plan, entries).bench("M9").is_some());
}

#[test]
fn a_step_of_an_exchange_is_one_transaction() {
    let (mut ann, mut hub) = (Laptop::new(1, "ann", &plan()), Hub::default());
    ann.append(&(0..40).map(|n| water(1_000 + n, 1, 3)).collect::<Vec<_>>());
    ann.exchange(&mut hub);
    let mut bob = Laptop::new(2, "bob", &[]);
    let batches = Batches { take: 7, give: 7 };
    for calls in 0..4 {
        hub.left = Some(calls);
        assert!(!bob.exchange_by(&mut hub, batches).1, "cut after {calls} calls");
        hub.left = None;
        let last = bob.store().branches().unwrap().into_iter().map(|b| b.last).max().unwrap();
        assert_eq!(last % 7, 0, "whole batches: {last}");
        let client = rusqlite::Connection::open(bob.path()).unwrap();
        let count = |sql: &str| client.query_row(sql, [], |row| row.get::<_, i64>(0)).unwrap().unsigned_abs();
        assert_eq!(count("SELECT count(*) FROM log"), last);
        assert_eq!(count("SELECT count(*) FROM entry"), last.saturating_sub(4));
    }
    // While another program writes nothing is taken, and nothing is left half done.
    let mut client = rusqlite::Connection::open(bob.path()).unwrap();
    let held = client.transaction_with_behavior(rusqlite::TransactionBehavior::Immediate).unwrap();
    let before = bob.heads();
    let branch = bob.store().branches().unwrap().into_iter().find(|b| !b.own).unwrap();
    let (_, lines) = hub.log.values().next().unwrap();
    let more = &lines[usize::try_from(branch.last).unwrap()..];
    let error = bob.store().take(branch.id, branch.last, more).unwrap_err();
    assert!(matches!(error, StoreError::Busy { .. }), "{error:?}");
    drop(held);
    assert_eq!(bob.heads(), before);
    // Nor are lines taken that follow another number than the last.
    let taken = bob.store().take(branch.id, branch.last + 1, &more[1..]).unwrap();
    assert_eq!((taken.new, taken.known), (0, 0));
    bob.exchange_by(&mut hub, batches);
    assert_eq!(bob.export(), ann.export());
}
