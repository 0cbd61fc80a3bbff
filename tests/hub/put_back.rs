//! A hub that is put back from a copy, or whose answer is lost.

use crate::laptop::{Laptop, SEASON, all_exchange, plan, water};
use crate::server::{open, shared};
use benchwalk::exchange::{Carrier, Chain, Linked, Piece, Stream};
use uuid::Uuid;

fn write(laptop: &mut Laptop, from: u128, many: u128) {
    let lines: Vec<_> = (from..from + many).map(|n| water(1, n << 8, "")).collect();
    laptop.store.append(&lines).unwrap();
}

#[test]
fn a_hub_restored_from_a_dump_is_healed_by_one_exchange() {
    let Some(server) = shared() else { return };
    let database = server.hub();
    let mut hub = open(&server.words(&database, "ann"), "ann");
    hub.begin(SEASON, "Wrenby Hill").unwrap();
    let mut laptops: Vec<Laptop> = (0..3)
        .map(|n| Laptop::new(n + 1, &format!("laptop-{n}"), &if n == 0 { plan(1) } else { Vec::new() }))
        .collect();
    let lines = || server.sql(&database, "SELECT count(*), count(DISTINCT stream) FROM benchwalk.line");
    for (n, laptop) in (0..).zip(&mut laptops) {
        laptop.exchange(hub.as_mut());
        write(laptop, n * 1_000, 100);
        laptop.exchange(hub.as_mut());
    }
    let folder = tempfile::tempdir().unwrap();
    let dump = folder.path().join("hub.dump").display().to_string();
    server.tool("pg_dump", &["-Fc", "-f", &dump, &database]);
    for (n, laptop) in (0..).zip(&mut laptops) {
        write(laptop, n * 1_000 + 100, 50);
        laptop.exchange(hub.as_mut());
    }
    all_exchange(&mut laptops, hub.as_mut());
    assert_eq!(lines(), "453|3");
    server.sql("postgres", &format!("DROP DATABASE {database} WITH (FORCE)"));
    server.sql("postgres", &format!("CREATE DATABASE {database} TEMPLATE template0"));
    server.tool("pg_restore", &["-d", &database, &dump]);
    assert_eq!(lines(), "303|3");
    // The connection that was cut is made again without a word, and one laptop gives the lines of all.
    let did = laptops[1].exchange(hub.as_mut());
    assert_eq!((did.given, did.taken, did.came_back, did.written_again), (150, 0, 0, 0));
    assert_eq!(lines(), "453|3");
    for laptop in &mut laptops {
        let did = laptop.exchange(hub.as_mut());
        assert_eq!((did.given, did.taken, did.came_back, did.written_again), (0, 0, 0, 0));
    }
    // Also there nothing is changed or removed.
    assert_eq!(
        server.says(&database, "hub", "DELETE FROM benchwalk.line"),
        "ERROR:  lines are written once and never changed or removed | CONTEXT:  PL/pgSQL function benchwalk.frozen() line 3 at RAISE"
    );
}

fn linked(texts: &[&str]) -> Vec<Linked> {
    let mut chain = Chain::START;
    let link = |text: &&str| {
        chain = chain.link(text);
        Linked { text: (*text).to_owned(), chain }
    };
    texts.iter().map(link).collect()
}

#[test]
fn where_the_answer_was_lost_giving_again_changes_nothing() {
    let Some(server) = shared() else { return };
    let database = server.hub();
    let mut hub = open(&server.words(&database, "ann"), "ann");
    hub.begin(SEASON, "Wrenby Hill").unwrap();
    let (stream, lines) = (Stream(Uuid::from_u128(9)), linked(&["{\"a\":1}", "{\"b\":2}", "{\"c\":3}"]));
    let piece = |after: usize, to: usize| Piece {
        stream,
        laptop: Some("ann-2"),
        after: after as u64,
        before: after.checked_sub(1).map_or(Chain::START, |n| lines[n].chain),
        lines: &lines[after..to],
    };
    let whole = |hub: &mut dyn Carrier| {
        let head = hub.heads(SEASON).unwrap().remove(0);
        assert_eq!((head.last, head.chain, head.laptop.as_deref()), (3, lines[2].chain, Some("ann-2")));
        assert!(head.seen.is_some());
    };
    assert_eq!(hub.give(SEASON, &piece(0, 3)).unwrap().last, 3);
    whole(hub.as_mut());
    // The same again, a part of it, and what would go on from elsewhere: the head is given, and nothing else happens.
    for (after, to) in [(0, 3), (0, 1), (1, 2), (2, 3)] {
        let head = hub.give(SEASON, &piece(after, to)).unwrap();
        assert_eq!((head.last, head.chain), (3, lines[2].chain));
    }
    let other = linked(&["{\"other\":1}", "{\"other\":2}", "{\"other\":3}", "{\"other\":4}"]);
    let fork = Piece { stream, laptop: None, after: 3, before: other[2].chain, lines: &other[3..] };
    assert_eq!(hub.give(SEASON, &fork).unwrap().last, 3);
    whole(hub.as_mut());
    assert_eq!(hub.read(stream, 1, 9).unwrap(), lines[1..]);
    assert_eq!(hub.read(stream, 0, 2).unwrap(), lines[..2]);
    assert_eq!(hub.read(stream, 3, 9).unwrap(), []);
    assert_eq!(hub.chain_at(stream, 2).unwrap(), Some(lines[1].chain));
    assert_eq!(hub.chain_at(stream, 0).unwrap(), Some(Chain::START));
    assert_eq!(hub.chain_at(stream, 4).unwrap(), None);
    let arrival = hub.arrival(stream, 2).unwrap().unwrap();
    assert_eq!((arrival.login.as_str(), arrival.laptop.as_deref()), ("ann", Some("ann-2")));
    assert_eq!(hub.arrival(stream, 4).unwrap(), None);
}

#[test]
fn lines_that_do_not_fit_their_chain_are_not_taken() {
    let Some(server) = shared() else { return };
    let database = server.hub();
    let mut hub = open(&server.words(&database, "ann"), "ann");
    hub.begin(SEASON, "Wrenby Hill").unwrap();
    let stream = Stream(Uuid::from_u128(9));
    let mut lines = linked(&["{\"a\":1}", "{\"b\":2}", "{\"c\":3}"]);
    lines[1].text = "{\"b\":3}".to_owned();
    let piece = Piece { stream, laptop: None, after: 0, before: Chain::START, lines: &lines };
    assert_eq!(
        hub.give(SEASON, &piece).unwrap_err().to_string(),
        format!("could not do it: lines after 0 of stream {stream} do not fit their chain (22023)")
    );
    assert_eq!(hub.heads(SEASON).unwrap(), []);
}

#[test]
fn of_many_that_give_one_stream_at_once_each_line_is_taken_once() {
    let Some(server) = shared() else { return };
    let database = server.hub();
    let words = server.words(&database, "ann");
    open(&words, "ann").begin(SEASON, "Wrenby Hill").unwrap();
    let texts: Vec<String> = (0..400).map(|n| format!("{{\"n\":{n}}}")).collect();
    let lines = linked(&texts.iter().map(String::as_str).collect::<Vec<_>>());
    let stream = Stream(Uuid::from_u128(9));
    let taken: usize = std::thread::scope(|scope| {
        let give = |_| {
            scope.spawn(|| {
                let mut hub = open(&words, "ann");
                let (mut at, mut taken) = (0, 0);
                while at < lines.len() {
                    let before = at.checked_sub(1).map_or(Chain::START, |n| lines[n].chain);
                    let piece =
                        Piece { stream, laptop: None, after: at as u64, before, lines: &lines[at..(at + 10).min(400)] };
                    at = hub.give(SEASON, &piece).unwrap().last as usize;
                    taken += 1;
                    // A reader meanwhile sees no line without all before it.
                    let seen = hub.read(stream, 0, 1_000).unwrap();
                    assert_eq!(seen, lines[..seen.len()]);
                }
                taken
            })
        };
        let threads: Vec<_> = (0..6).map(give).collect();
        threads.into_iter().map(|thread| thread.join().unwrap()).sum()
    });
    assert!(taken >= 40, "{taken} calls");
    assert_eq!(server.sql(&database, "SELECT count(*), min(n), max(n) FROM benchwalk.line"), "400|1|400");
    assert_eq!(open(&words, "ann").read(stream, 0, 1_000).unwrap(), lines);
}
