//! A large season stays quick. Bounds are wide (a debug build on a busy machine); `cargo test --release -- --nocapture speed`
//! prints what it takes.

use crate::make::{at, bench, bench_line, day, entry, house, lot, moved, placement, plan, water};
use benchwalk::record::Kind;
use benchwalk::season::Season;
use std::time::{Duration, Instant};

/// 500 benches in ten houses; every day of 100 a water reading, weekly roots, heights and pests; half of the benches filled
/// from another in week 4.
fn large() -> Season {
    let mut p = plan();
    p.benches.clear();
    p.placements.clear();
    p.lots = vec![lot("A")];
    let mut entries = Vec::new();
    let mut id = 0u128;
    for n in 0..500u32 {
        let (code, h) = (format!("B{n}"), format!("H{}", n / 50));
        p.benches.push(bench_line(&code, &h, n));
        if n % 2 == 0 {
            p.placements.push(placement(&code, "A", 100, day(8, 17)));
        }
        for d in 0..100i64 {
            let when =
                at(8, 17, 7, n % 60) + chrono::TimeDelta::days(d) + chrono::TimeDelta::seconds(i64::from(n / 60));
            let mut add = |kind| {
                id += 1;
                entries.push(entry(id, when, bench(&code), kind));
            };
            add(water(3));
            if d % 7 == 0 {
                add(Kind::Roots { score: 0, pots: None, bad: None, signs: vec![], reach: None });
                add(Kind::Height { cm: vec![20.0, 21.0] });
                add(Kind::Note);
            }
            if d == 28 && n % 2 == 0 {
                add(moved(&format!("B{}", n + 1), 50));
            }
            if n % 50 == 0 {
                id += 1;
                entries.push(entry(
                    id,
                    when,
                    house(&h),
                    Kind::Climate { day_c: Some(24.0), night_c: None, humidity_percent: None },
                ));
            }
        }
    }
    Season::new(p, entries)
}

#[test]
fn speed() {
    let t = Instant::now();
    let mut s = large();
    let built = t.elapsed();
    let on = day(11, 20);
    let t = Instant::now();
    let n: usize = (0..500).map(|n| s.history(&format!("B{n}"), on).all().len()).sum();
    let first = t.elapsed();
    let t = Instant::now();
    let again: usize = (0..500).map(|n| s.history(&format!("B{n}"), on).all().len()).sum();
    let one = t.elapsed() / 500;
    assert_eq!(n, again);
    let t = Instant::now();
    for i in 0..100u32 {
        s.insert(entry(1_000_000 + u128::from(i), at(11, 20, 20, i % 60), bench("B7"), water(2)));
        let _ = s.history("B7", on);
    }
    let insert = t.elapsed() / 100;
    let t = Instant::now();
    s.insert(entry(2_000_000, at(9, 20, 20, 0), bench("B7"), water(2)));
    let back = t.elapsed();
    let t = Instant::now();
    s.insert(entry(2_000_001, at(11, 20, 21, 0), bench("B8"), Kind::Losses { pots: 1, cause: None }));
    let _ = s.history("B8", on);
    let pots = t.elapsed();
    let t = Instant::now();
    let closed = (0..500).filter(|n| s.closed_on(&format!("B{n}"), on).is_some()).count();
    let closing = t.elapsed() / 500;
    println!(
        "{} entries built in {built:?}; 500 histories at first {first:?}, one {one:?}; insert and history {insert:?}; \
         insert far back {back:?}; losses and history {pots:?}; closed_on {closing:?} ({closed})",
        s.entries().len()
    );
    // House rule: a fifth of a millisecond a history in a release build; a debug build on a shared machine gets 25 times that.
    let slack = if cfg!(debug_assertions) { 25 } else { 2 };
    assert!(one < Duration::from_micros(200) * slack, "one history took {one:?}");
    assert!(insert < Duration::from_micros(400) * slack, "one insert took {insert:?}");
}
