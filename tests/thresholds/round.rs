//! The round: walked, scouted, what a house shares, the count, put-offs, keep-out and what is due.

use crate::season::{ABSENT, ACT, Crop, URGENT, WATCH, day, holds, instant, planted};
use benchwalk::limits::Limits;
use benchwalk::record::{How, Kind, KindName, LeafSign, PestName, Pinch, Place, Reach};
use benchwalk::warnings::{CheckName, Evidence, WarningName as N, due};

const WALK: &str = "house rule: 2 days watch, 4 act";

fn three() -> Crop {
    ["E2", "E3"].iter().zip(2..).fold(Crop::new(), |c, (b, n)| c.bench_in(b, "East", n).filled(b, "L1", 100, 0))
}

#[test]
fn benches_not_walked() {
    let walked = || Crop::new().water(40, 3);
    holds(WALK, &walked(), 41, N::NotWalked, ABSENT);
    holds(WALK, &walked(), 42, N::NotWalked, WATCH);
    holds(WALK, &walked(), 43, N::NotWalked, WATCH);
    holds(WALK, &walked(), 44, N::NotWalked, ACT);
    holds("a note is no finding", &walked().finding(42, Kind::Note {}), 42, N::NotWalked, WATCH);
    holds("work is no finding", &walked().watered(42), 42, N::NotWalked, WATCH);
    let climate = Kind::Climate { day_c: Some(20.0), night_c: None, humidity_percent: None, log: Box::default() };
    let afar = walked().write_at(instant(42, (7, 0)), Place::House("East".into()), climate);
    holds("a climate reading of the house walks no bench", &afar, 42, N::NotWalked, WATCH);
    let water = Kind::Water { level: 3, base: None };
    let whole = walked().write_at(instant(42, (7, 0)), Place::House("East".into()), water);
    holds("water written of the whole house counts for its benches", &whole, 42, N::NotWalked, ABSENT);
}

#[test]
fn closed_days_do_not_count() {
    let spray = |hours: f64| {
        let kind = Kind::Sprayed {
            ai: "x".into(),
            against: "whitefly".into(),
            how: How::Spray,
            rei_h: hours,
            product: None,
            rate: None,
            application: Box::default(),
        };
        Crop::new().water(40, 3).work(40, kind)
    };
    holds("closed to day 42, 8:00", &spray(48.0), 42, N::NotWalked, ABSENT);
    holds("closed to day 42, 8:00", &spray(48.0), 43, N::NotWalked, ABSENT);
    holds("two open days", &spray(48.0), 44, N::NotWalked, WATCH);
    holds("four open days", &spray(48.0), 46, N::NotWalked, ACT);
    let wet = spray(48.0).leaves(40, &[LeafSign::Wilted], None).water(40, 5);
    let told = wet.warning(40, N::WiltingWet);
    assert!(told.is_none_or(|w| w.look_again >= day(42)), "no look before the keep-out ends");
    let roots = spray(48.0).roots(40, 3).warning(40, N::RootsFailing).expect("told");
    assert_eq!(roots.look_again, day(42), "no look before the keep-out ends");
}

#[test]
fn benches_not_scouted() {
    const SCOUT: &str = "Ontario 2018: half the benches, weekly; 8 and 15 days are house rules";
    let look = |crop: Crop, bench: &str, n| crop.on(bench).plants(n, PestName::Whitefly, 20, 0);
    holds(SCOUT, &Crop::new(), 8, N::Unscouted, ABSENT);
    holds(SCOUT, &Crop::new(), 9, N::Unscouted, WATCH);
    holds(SCOUT, &look(Crop::new(), "E1", 30), 38, N::Unscouted, ABSENT);
    holds(SCOUT, &look(Crop::new(), "E1", 30), 39, N::Unscouted, WATCH);
    let all = ["E1", "E2", "E3"].iter().fold(three(), |c, b| look(c, b, 30));
    let two = look(look(all.clone(), "E1", 38), "E2", 38);
    holds("two of three benches", &two, 40, N::Unscouted, ABSENT);
    holds("one of three benches", &look(all, "E1", 38), 40, N::Unscouted, WATCH);
    holds("one bench 14 days", &look(look(two.clone(), "E1", 44), "E2", 44), 44, N::Unscouted, ABSENT);
    let late = look(look(two, "E1", 44), "E2", 44).warning(45, N::Unscouted).expect("told");
    assert_eq!(late.benches, ["E3"], "one bench 15 days");
}

#[test]
fn a_trouble_of_the_house() {
    const HOUSE: &str = "house rule: the same trouble at act on 3 benches of a house";
    let failing = |crop: Crop, bench: &str| crop.on(bench).roots(40, 3);
    let two = failing(failing(three(), "E1"), "E2");
    holds(HOUSE, &two, 40, N::HouseTrouble, ABSENT);
    let all = failing(two, "E3");
    holds(HOUSE, &all, 40, N::HouseTrouble, ACT);
    let told = all.warning(40, N::HouseTrouble).expect("told");
    assert_eq!(told.benches, ["E1", "E2", "E3"]);
    assert!(told.evidence.contains(&Evidence::Warning(N::RootsFailing)));
    let watch = ["E1", "E2", "E3"].iter().fold(three(), |c, b| c.on(b).base(40, 3, 1));
    holds("watch is not act", &watch, 40, N::HouseTrouble, ABSENT);
    let far =
        ["E4", "E5"].iter().zip(4..).fold(Crop::new(), |c, (b, n)| c.bench_in(b, "West", n).filled(b, "L1", 50, 0));
    let spread = ["E1", "E4", "E5"].iter().fold(far, |c, b| failing(c, b));
    holds("two houses", &spread, 40, N::HouseTrouble, ABSENT);
}

#[test]
fn promised_and_standing() {
    const COUNT: &str = "common practice: what is promised must stand";
    holds(COUNT, &Crop::new().order(102, 100), 90, N::ShortCount, ABSENT);
    holds(COUNT, &Crop::new().order(102, 101), 90, N::ShortCount, ACT);
    holds("two orders", &Crop::new().order(100, 60).order(102, 41), 90, N::ShortCount, ACT);
    holds("lost pots", &Crop::new().order(102, 100).lost(50, 1, Some("dropped")), 90, N::ShortCount, ACT);
    let sold = Crop::new().order(100, 60).order(102, 40).work(100, Kind::Sold { pots: 60 });
    holds("sold pots are no longer promised", &sold, 100, N::ShortCount, ABSENT);
    let struck = Crop::new().order(102, 100).lost(50, 1, Some("dropped")).struck(51);
    holds("struck out", &struck, 90, N::ShortCount, ABSENT);
}

fn put_off(crop: Crop, n: i64, name: &str, until: i64) -> Crop {
    let kind = Kind::PutOff { warning: name.into(), until: day(until), why: "waiting".into() };
    crop.at(n, (18, 0), kind)
}

#[test]
fn put_off_until_a_day_or_worse() {
    let wet = |days: usize| Crop::new().waters(46, &vec![4; days]);
    let watch = put_off(wet(3), 48, "staying-wet", 52);
    let until = |crop: &Crop, n: i64| crop.warning(n, N::StayingWet).expect("told").put_off_until;
    assert_eq!(until(&watch, 48), Some(day(52)), "listed, with its day");
    let act = put_off(wet(5), 48, "staying-wet", 52);
    assert_eq!(until(&act, 50), None, "watch became act: worse");
    let same = put_off(wet(7), 50, "staying-wet", 52);
    assert_eq!(until(&same, 51), Some(day(52)), "act stayed act");
    assert_eq!(until(&same, 52), None, "its day has come");
    let other = put_off(wet(3), 48, "watered-wet", 52);
    assert_eq!(until(&other, 48), None, "another warning");
    let struck = watch.struck(48);
    assert_eq!(until(&struck, 48), None, "the put-off was struck out");
}

#[test]
fn put_off_for_a_house_or_lot() {
    let kind = Kind::PutOff { warning: "not-walked".into(), until: day(50), why: "holiday".into() };
    let crop = Crop::new().water(40, 3).write_at(instant(42, (18, 0)), Place::House("East".into()), kind);
    assert_eq!(crop.warning(43, N::NotWalked).expect("told").put_off_until, Some(day(50)));
    assert_eq!(crop.warning(44, N::NotWalked).expect("told").put_off_until, None, "act is worse than watch");
}

fn asked(crop: &Crop, n: i64) -> Vec<(CheckName, bool)> {
    due(&crop.season(), "E1", day(n), &Limits::default()).iter().map(|c| (c.what, c.done)).collect()
}

#[test]
fn what_is_due() {
    use CheckName::{Base, Bracts, Height, Reach as Far, Roots, Water, Whitefly};
    let open =
        |crop: &Crop, n| asked(crop, n).into_iter().filter(|(_, done)| !done).map(|(w, _)| w).collect::<Vec<_>>();
    let scouted = |n| Crop::new().plants(n, PestName::Whitefly, 20, 0);
    assert_eq!(open(&scouted(5), 9), [Water]);
    assert_eq!(open(&scouted(5), 10), [Water, Base, Roots, Far]);
    assert_eq!(open(&scouted(5), 12), [Water, Base, Roots, Far, Whitefly], "still due, and pests weekly");
    let checked = scouted(12).reach(12, Reach::Wall);
    assert_eq!(open(&checked, 18), [Water], "roots weekly");
    assert_eq!(open(&checked, 19), [Water, Base, Roots, Far, Whitefly]);
    let pinched = scouted(15).reach(12, Reach::Wall).pinched(14).heights(14, &[19.0]);
    assert_eq!(open(&pinched, 19), [Water, Base, Roots], "no reach after the pinch");
    assert_eq!(open(&pinched, 21), [Water, Base, Roots, Height], "heights weekly from the pinch");
    let grown = scouted(32).roots(32, 0).pinched(14).heights(30, &[19.0]).bracts(33, 1);
    assert_eq!(open(&grown, 33), [Water]);
    assert!(asked(&grown, 33).contains(&(Bracts, true)), "bracts from the start of short days");
    assert!(asked(&grown, 32).iter().all(|(w, _)| *w != Bracts), "not before");
    let whole = Crop::new().lot(|l| l.pinch = Pinch::None).plants(13, PestName::Whitefly, 20, 0);
    assert!(!open(&whole, 13).contains(&Height) && open(&whole, 14).contains(&Height), "unpinched: from day 14");
    assert!(!open(&whole, 14).contains(&Far), "no reach where no pinch is wanted");
    let empty = due(&Crop::new().season(), "E9", day(40), &Limits::default());
    assert!(empty.is_empty(), "no such bench");
    assert!(due(&Crop::new().season(), "E1", planted().pred_opt().unwrap(), &Limits::default()).is_empty());
}

#[test]
fn what_was_done_today_is_listed_as_done() {
    let crop = Crop::new().base(10, 3, 2).reach(10, Reach::Center).plants(10, PestName::Whitefly, 20, 0);
    assert!(asked(&crop, 10).iter().all(|(_, done)| *done), "{:?}", asked(&crop, 10));
    assert_eq!(asked(&crop, 10).len(), 5);
    let late = due(&crop.season(), "E1", day(14), &Limits::default());
    assert_eq!(late[0].since, Some(day(11)), "water not read since day 10");
    let first = due(&Crop::new().season(), "E1", day(10), &Limits::default());
    let roots = first.iter().find(|c| c.what == CheckName::Roots).expect("due");
    assert_eq!((roots.done, roots.since), (false, None), "due from today");
}

#[test]
fn nothing_speaks_for_an_empty_bench() {
    let crop = Crop::new().roots(40, 3).work(41, Kind::Sold { pots: 100 });
    holds("stands until it is sold", &crop, 40, N::RootsFailing, URGENT);
    assert!(crop.told(41).is_empty(), "{:?}", crop.told(41));
    let unknown = crop.season().entries().iter().filter(|e| e.name() == KindName::Roots).count();
    assert_eq!(unknown, 1);
    holds("never filled", &Crop::new().bench_in("E7", "West", 7), 40, N::Unscouted, WATCH);
    holds("watch", &Crop::new(), 2, N::NotWalked, WATCH);
}

/// The sale is day 102.
#[test]
fn nothing_is_asked_for_after_the_sale() {
    const SALE: &str = "house rule: after the sale nothing is asked for but to walk the bench";
    let crop = || {
        Crop::new()
            .lot(|l| (l.feed_n_ppm, l.slow_release_g, l.calcium) = (None, None, true))
            .pinched(14)
            .bracts(95, 3)
            .water(98, 3)
    };
    let asks = [
        (N::RootZoneUntested, WATCH),
        (N::Unmeasured, WATCH),
        (N::Unscouted, WATCH),
        (N::RootsUnchecked, ACT),
        (N::Unfed, ACT),
        (N::CalciumDue, WATCH),
    ];
    for (name, level) in asks {
        holds(SALE, &crop(), 102, name, level);
        holds(SALE, &crop(), 103, name, ABSENT);
    }
    holds(SALE, &crop(), 103, N::NotWalked, ACT);
    let asked: Vec<_> = asked(&crop(), 103).into_iter().map(|(what, _)| what).collect();
    assert_eq!(asked, [CheckName::Water]);
}
