//! Lines that are not understood here: kept as they are, sent on, and read by a program that understands them.

use crate::hub::Hub;
use crate::lines::{Laptop, SEASON, chained, line, plan, water};
use benchwalk::exchange::{Replica, Stream};
use benchwalk::record::codec;
use benchwalk::store::Store;
use rusqlite::Connection;
use std::path::Path;
use uuid::Uuid;

/// Lines as a newer program writes them: a kind that is not known here, a field, a type of line.
const NEWER: [&str; 3] = [
    r#"{"at":"2026-10-12T07:10:00-04:00","bench":"E1","by":"cy","id":"0199a000-0000-7000-8000-0000000000c1","kind":"co2","ppm":800,"type":"entry"}"#,
    r#"{"at":"2026-10-12T07:11:00-04:00","bench":"E1","by":"cy","id":"0199a000-0000-7000-8000-0000000000c2","kind":"water","level":3,"shade":true,"type":"entry"}"#,
    r#"{"at":"2026-10-12T07:12:00-04:00","by":"cy","id":"0199a000-0000-7000-8000-0000000000c3","name":"spare","type":"boiler"}"#,
];

/// A carrier with a stream of these lines.
fn hub_of(texts: &[String]) -> Hub {
    let mut hub = Hub::default();
    hub.log.insert(Stream(Uuid::from_u128(7)), (Some("cyd".to_owned()), chained(texts)));
    hub
}

#[test]
fn lines_of_a_newer_program_are_counted_said_and_sent_on() {
    let mut texts: Vec<String> = NEWER.map(str::to_owned).to_vec();
    // Understood, but spelled in another way than this program spells it: something of it might be lost.
    texts.push(codec::encode(&water(300, 5, 3)));
    texts.push(codec::line_text(&water(301, 6, 4)));
    let (mut ann, mut bob, mut first) = (Laptop::new(1, "ann", &plan()), Laptop::new(2, "bob", &[]), hub_of(&texts));
    let did = ann.exchange(&mut first);
    assert_eq!((did.taken, did.held), (5, 4));
    assert_eq!((ann.store().held().unwrap(), ann.store().count().unwrap()), (4, 1));
    assert_eq!((ann.store().load().unwrap().1.len(), ann.store().left_out()), (1, 4), "an export says so");
    let mut second = Hub::default();
    ann.exchange(&mut second);
    bob.exchange(&mut second);
    assert_eq!(second.log[&Stream(Uuid::from_u128(7))].1, chained(&texts), "byte for byte");
    assert_eq!(bob.store().held().unwrap(), 4);
    assert_eq!(ann.export(), bob.export());
    // The same lines by another stream are no new ones.
    let mut third = Hub::default();
    third.log.insert(Stream(Uuid::from_u128(8)), (None, chained(&texts)));
    let did = bob.exchange(&mut third);
    assert_eq!((did.taken, did.held, bob.store().held().unwrap()), (0, 0, 4));
    let client = Connection::open(bob.path()).unwrap();
    let states = "SELECT group_concat(state, '') FROM log WHERE stream = (SELECT max(number) FROM stream)";
    assert_eq!(client.query_row(states, [], |row| row.get::<_, String>(0)).unwrap(), "11110");
}

/// Writes lines into a file as an older program, which did not understand them, has left them there.
fn hold(path: &Path, texts: &[String]) {
    let client = Connection::open(path).unwrap();
    let (id, _) = (Uuid::from_u128(7), SEASON);
    client
        .execute(
            "INSERT INTO stream (number, id, branch, laptop) VALUES (50, ?1, 1, 'cyd')",
            [id.as_bytes().as_slice()],
        )
        .unwrap();
    for (n, line) in (1..).zip(chained(texts)) {
        let sql = "INSERT INTO log (stream, n, chain, line, state) VALUES (50, ?1, ?2, ?3, 1)";
        client.execute(sql, (n, line.chain.as_bytes(), &line.text)).unwrap();
    }
}

#[test]
fn a_newer_program_reads_what_an_older_one_held_and_the_log_stays_as_it_was() {
    let bench =
        line(r#"{"type":"bench","bench":"M9","house":"North","order":9,"at":"2026-10-01T06:00:00-04:00","by":"cyd"}"#);
    let mut texts: Vec<String> = [water(300, 5, 3), bench, water(7, 1, 2)].iter().map(codec::line_text).collect();
    texts.push(NEWER[0].to_owned());
    let mut ann = Laptop::new(1, "ann", &plan());
    // One of them is known here with other content.
    ann.append(&[water(7, 1, 4)]);
    ann.quit();
    hold(&ann.path(), &texts);
    assert_eq!((ann.store().held().unwrap(), ann.store().count().unwrap()), (1, 2));
    assert!(texts[..3].iter().all(|text| ann.texts().contains(text)), "{:?}", ann.texts());
    let rows = |laptop: &mut Laptop| {
        laptop.quit();
        let client = Connection::open(laptop.path()).unwrap();
        let sql =
            "SELECT (SELECT count(*) FROM log WHERE state = 1) || ' ' || (SELECT count(*) FROM log_understood) || ' '
            || (SELECT count(*) FROM log_tried)";
        client.query_row(sql, [], |row| row.get::<_, String>(0)).unwrap()
    };
    assert_eq!(rows(&mut ann), "4 3 1");
    ann.store();
    assert_eq!(rows(&mut ann), "4 3 1", "tried once");
    // It is all the same as on a laptop that understood the lines when they came, and comes to rest.
    let (mut hub, mut bob) = (hub_of(&texts), Laptop::new(2, "bob", &plan()));
    for _ in 0..2 {
        ann.exchange(&mut hub);
        bob.exchange(&mut hub);
    }
    assert_eq!(ann.export(), bob.export());
    let before = (ann.heads(), bob.heads());
    let did = ann.exchange(&mut hub);
    assert_eq!((did.taken, did.given, did.written_again), (0, 0, 0));
    bob.exchange(&mut hub);
    assert_eq!((ann.heads(), bob.heads()), before);
}

#[test]
fn a_line_that_is_not_what_was_written_does_not_leave_the_file() {
    let mut ann = Laptop::new(1, "ann", &plan());
    ann.append(&[water(101, 1, 3)]);
    ann.quit();
    let client = Connection::open(ann.path()).unwrap();
    client.execute_batch("DROP TRIGGER entry_no_update; UPDATE entry SET fields = '{\"level\":4}'").unwrap();
    client.close().unwrap();
    let mut store = Store::open_read_only(&ann.path()).unwrap();
    let own = store.branches().unwrap().remove(0);
    let error = store.read(own.id, 0, 100).unwrap_err().to_string();
    assert!(error.contains("line 5 of stream 1 is not what was written"), "{error}");
    assert_eq!(store.read(own.id, 0, 4).unwrap().len(), 4);
}
