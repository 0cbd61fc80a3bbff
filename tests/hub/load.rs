//! How much a hub carries: `.ci/load` runs this on a release build and prints its figures.

use crate::laptop::{Laptop, SEASON, all_exchange, plan, water};
use crate::server::{open, shared};
use benchwalk::exchange::Carrier;
use std::time::{Duration, Instant};
use uuid::Uuid;

const LAPTOPS: usize = 10;
const BENCHES: usize = 500;
const CHECKS: usize = 5;

/// The middle one of many runs.
fn middle(many: usize, mut run: impl FnMut()) -> Duration {
    let mut took: Vec<Duration> = (0..many)
        .map(|_| {
            let start = Instant::now();
            run();
            start.elapsed()
        })
        .collect();
    took.sort();
    took[many / 2]
}

fn held(what: &str, took: Duration, most: Duration) -> bool {
    let kept = took < most;
    println!(
        "{what}: {:.2} ms (wanted: under {} ms){}",
        took.as_secs_f64() * 1e3,
        most.as_millis(),
        if kept { "" } else { " MISSED" }
    );
    kept
}

/// Each laptop in a thread of its own.
fn all_at_once(laptops: &mut [Laptop], words: &str) -> Duration {
    let start = Instant::now();
    std::thread::scope(|scope| {
        for laptop in laptops {
            scope.spawn(move || laptop.exchange(open(words, "ann").as_mut()));
        }
    });
    start.elapsed()
}

#[test]
#[ignore = "measures: .ci/load runs it on a release build"]
fn ten_laptops_at_once_and_a_thousand_seasons() {
    let Some(server) = shared() else { return };
    let database = server.hub();
    let words = server.words(&database, "ann");
    let mut hub = open(&words, "ann");
    hub.begin(SEASON, "Wrenby Hill").unwrap();
    let mut laptops: Vec<Laptop> = (0..LAPTOPS)
        .map(|n| Laptop::new(n as u8 + 1, &format!("laptop-{n}"), &if n == 0 { plan(BENCHES) } else { Vec::new() }))
        .collect();
    all_exchange(&mut laptops, hub.as_mut());
    for (n, laptop) in laptops.iter_mut().enumerate() {
        let id = |check: usize| ((n * BENCHES * CHECKS + check) as u128 + 1) << 8;
        let lines: Vec<_> = (0..BENCHES * CHECKS).map(|check| water(1 + check / CHECKS, id(check), "")).collect();
        laptop.store.append(&lines).unwrap();
    }
    let first = all_at_once(&mut laptops, &words);
    let second = all_at_once(&mut laptops, &words);
    let lines = LAPTOPS * BENCHES * CHECKS;
    println!("{LAPTOPS} laptops, {BENCHES} benches, {CHECKS} checks each: {lines} lines");
    println!(
        "all exchange at once: {:.2} s, and once more for what came meanwhile: {:.2} s",
        first.as_secs_f64(),
        second.as_secs_f64()
    );
    let on_hub = lines + BENCHES + 2;
    assert_eq!(
        server.sql(&database, "SELECT count(*), count(DISTINCT body) FROM benchwalk.line"),
        format!("{on_hub}|{on_hub}")
    );
    assert!(laptops.iter().all(|laptop| laptop.texts().len() == on_hub), "all laptops hold all lines");
    let mut good = held("pushed and pulled by all", first + second, Duration::from_secs(15));
    let laptop = &mut laptops[0];
    good &= held(
        "nothing new, a whole exchange",
        middle(201, || drop(laptop.exchange(hub.as_mut()))),
        Duration::from_millis(10),
    );
    println!(
        "{} bytes a line on the hub, its index with it",
        server.sql(&database, "SELECT pg_total_relation_size('benchwalk.line') / count(*) FROM benchwalk.line",)
    );
    good &= many_seasons(hub.as_mut(), &database);
    assert!(good, "a figure was missed");
}

/// 999 seasons more, 10 laptops each.
fn many_seasons(hub: &mut dyn Carrier, database: &str) -> bool {
    let server = shared().unwrap();
    server.sql(
        database,
        "INSERT INTO benchwalk.season (season, name) SELECT gen_random_uuid(), 'site ' || n FROM generate_series(1, 999) n;
         INSERT INTO benchwalk.member SELECT season, 'wrenby_hill', 'write' FROM benchwalk.season ON CONFLICT DO NOTHING;
         INSERT INTO benchwalk.stream (stream, season, last, chain, laptop, seen)
           SELECT gen_random_uuid(), season, 40, decode(md5(season::text || n), 'hex'), 'laptop-' || n, now()
           FROM benchwalk.season, generate_series(1, 10) n WHERE name LIKE 'site %';
         INSERT INTO benchwalk.line (stream, n, chain, body)
           SELECT stream, n, decode(md5(stream::text || n), 'hex'), repeat('x', 180) FROM benchwalk.stream, generate_series(1, 40) n
           WHERE laptop IS NOT NULL AND last = 40;
         ANALYZE benchwalk.season, benchwalk.stream, benchwalk.member, benchwalk.line",
    );
    println!("{} seasons, streams, lines", server.sql(
        database,
        "SELECT (SELECT count(*) FROM benchwalk.season), (SELECT count(*) FROM benchwalk.stream), (SELECT count(*) FROM benchwalk.line)",
    ));
    let seasons: Vec<Uuid> = hub.seasons().unwrap().into_iter().map(|offered| offered.season).collect();
    assert_eq!(seasons.len(), 1_000);
    let limit = Duration::from_millis(100);
    let mut good = held("1,000 seasons: which there are", middle(21, || drop(hub.seasons().unwrap())), limit);
    let mut next = seasons.iter().cycle();
    good &=
        held("1,000 seasons: the heads of one", middle(101, || drop(hub.heads(*next.next().unwrap()).unwrap())), limit);
    let stream = hub.heads(SEASON).unwrap()[0].stream;
    good &=
        held("1,000 seasons: 200 lines of a stream", middle(101, || drop(hub.read(stream, 0, 200).unwrap())), limit);
    let all = middle(1, || seasons.iter().for_each(|season| drop(hub.heads(*season).unwrap())));
    println!("the heads of all 1,000, one season after the other: {:.2} s", all.as_secs_f64());
    good
}
