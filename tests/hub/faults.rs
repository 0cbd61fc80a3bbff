//! Lines that are cut and a server that is killed: whatever was written is on the hub once, and on every laptop.

use crate::laptop::{Laptop, SEASON, all_exchange, line, plan, water};
use crate::proxy::{Proxy, Trouble};
use crate::rng::Rng;
use crate::server::{Server, open};
use benchwalk::exchange::{Batches, Stopped};
use benchwalk::record::codec;

const CUTS: usize = 70;
const KILLS: usize = 10;

#[test]
fn seventy_cuts_and_ten_kills_lose_and_double_nothing() {
    // A server of its own: it is killed.
    let Some(server) = Server::new() else { return };
    let database = server.hub();
    let proxy = Proxy::new(server.socket_folder(), server.port);
    let through = format!("host={} port={} dbname={database} user=ann", proxy.folder().display(), server.port);
    let direct = server.words(&database, "ann");
    let mut rng = Rng::new(7);
    let mut laptops: Vec<Laptop> = (0..4)
        .map(|n| Laptop::new(n + 1, &format!("laptop-{n}"), &if n == 0 { plan(3) } else { Vec::new() }))
        .collect();
    let mut hub = open(&direct, "ann");
    hub.begin(SEASON, "Wrenby Hill").unwrap();
    all_exchange(&mut laptops, hub.as_mut());
    let mut wrote = laptops[0].texts();
    assert_eq!(wrote.len(), 5);
    let (mut done, mut cut, mut killed) = (0, 0, 0);
    while cut < CUTS || killed < KILLS {
        let laptop = &mut laptops[rng.below(4)];
        let lines: Vec<_> = (0..=rng.below(25))
            .map(|_| {
                let note = "x".repeat(1 + rng.below(200));
                water(1 + rng.below(3), u128::from(rng.next()) << 8, &note)
            })
            .collect();
        laptop.store.append(&lines).unwrap();
        wrote.extend(lines.iter().map(codec::line_text));
        let kills = killed < KILLS && (done + cut + killed) % 8 == 7;
        proxy.set(Trouble {
            after: (kills || rng.chance(0.8))
                .then(|| if kills { 300 + rng.below(9_000) } else { 300 + rng.below(25_000) }),
            kill: kills.then(|| server.process()),
        });
        let most = [20, 200][rng.below(2)];
        let mut carrier = open(&through, "ann");
        match laptop.exchange_by(carrier.as_mut(), Batches { take: most, give: most }).1 {
            Ok(()) => done += 1,
            // A server that was killed is counted below.
            Err(Stopped::Carrier(_)) => cut += usize::from(!kills),
            Err(Stopped::Replica(error)) => panic!("{error}"),
        }
        drop(carrier);
        // Where the exchange was over before as many bytes went, it was not killed.
        if kills && proxy.set(Trouble::default()).kill.is_none() {
            killed += 1;
            server.start_again();
        }
        assert!(done + cut < 2_000, "{done} done, {cut} cut, {killed} kills");
    }
    for _ in 0..2 {
        for laptop in &mut laptops {
            laptop.exchange(open(&direct, "ann").as_mut());
        }
    }
    let counts = server.sql(&database, "SELECT count(*), count(DISTINCT body) FROM benchwalk.line");
    println!(
        "{done} exchanges done, {cut} cut, {killed} kills of the server; {} lines written; on the hub {counts}",
        wrote.len()
    );
    assert_eq!(counts, format!("{0}|{0}", wrote.len()));
    let first = laptops[0].export();
    for laptop in &laptops {
        assert!(laptop.texts() == wrote, "a laptop lacks lines, or has others");
        assert!(laptop.export() == first, "the laptops export the same");
    }
    // At rest: one more exchange has nothing to do.
    for laptop in &mut laptops {
        let did = laptop.exchange(open(&direct, "ann").as_mut());
        assert_eq!((did.taken, did.given, did.written_again), (0, 0, 0));
    }
    assert!(wrote.iter().all(|text| codec::line_text(&line(text)) == *text));
}
