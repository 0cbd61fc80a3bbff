//! Who may what on a hub, and what is kept of it.

use crate::laptop::{Laptop, SEASON, plan, water};
use crate::server::{failure, open, shared};
use benchwalk::exchange::{Carrier, Chain, Piece, Remark, Stream};
use benchwalk::exchange::{Linked, Offered};
use uuid::Uuid;

const OTHER: Uuid = Uuid::from_u128(0x0199_a000_0000_7000_8000_0000_0000_0002);

fn names(hub: &mut dyn Carrier) -> Vec<(String, bool)> {
    let offered = |offered: Offered| (offered.name.unwrap(), offered.may_write);
    hub.seasons().unwrap().into_iter().map(offered).collect()
}

#[test]
fn members_see_their_seasons_and_nobody_writes_past_the_functions() {
    let Some(server) = shared() else { return };
    let database = server.hub();
    let [mut ann, mut bob, mut cyd] = ["ann", "bob", "cyd"].map(|login| open(&server.words(&database, login), login));
    ann.begin(SEASON, "Wrenby Hill").unwrap();
    ann.begin(SEASON, "Wrenby Hill").unwrap();
    cyd.begin(OTHER, "Birch Flat").unwrap();
    // What ann begins her group may write; cyd is in no group.
    let owned = |name: &str, may: bool| (name.to_owned(), may);
    assert_eq!(names(ann.as_mut()), [owned("Wrenby Hill", true)]);
    assert_eq!(names(bob.as_mut()), [owned("Wrenby Hill", true)]);
    assert_eq!(names(cyd.as_mut()), [owned("Birch Flat", true)]);
    assert_eq!(failure(cyd.heads(SEASON)), NO_SEASON);
    assert_eq!(
        failure(cyd.begin(SEASON, "Wrenby Hill")),
        "cyd may not read this season; ask the keeper of the hub (table member)"
    );
    let line = Linked { text: "{}".to_owned(), chain: Chain::START.link("{}") };
    let stream = Stream(Uuid::from_u128(3));
    let piece = Piece { stream, laptop: None, after: 0, before: Chain::START, lines: &[line] };
    ann.give(SEASON, &piece).unwrap();
    assert_eq!(cyd.read(stream, 0, 9).unwrap(), []);
    assert_eq!(cyd.chain_at(stream, 1).unwrap(), None);
    assert_eq!(cyd.arrival(stream, 1).unwrap(), None);
    assert_eq!(
        failure(cyd.give(SEASON, &piece)),
        "cyd may not write this season; ask the keeper of the hub (table member)"
    );
    // A stream stays in its season.
    assert_eq!(
        failure(cyd.give(OTHER, &piece)),
        format!("could not do it: stream {stream} belongs to another season (22023)")
    );
    let as_reader = "INSERT INTO benchwalk.member (season, role, may) SELECT season, 'cyd', 'read' FROM benchwalk.season \
                     WHERE name = 'Wrenby Hill'";
    server.sql(&database, as_reader);
    assert_eq!(names(cyd.as_mut()), [owned("Wrenby Hill", false), owned("Birch Flat", true)]);
    assert_eq!(cyd.read(stream, 0, 9).unwrap().len(), 1);
    assert_eq!(
        failure(cyd.give(SEASON, &piece)),
        "cyd may not write this season; ask the keeper of the hub (table member)"
    );
    server.sql(&database, "DELETE FROM benchwalk.member WHERE role = 'cyd' AND may = 'read'");
    assert_eq!(cyd.read(stream, 0, 9).unwrap(), []);
    for (login, sql, said) in [
        ("bob", "SELECT name FROM benchwalk.season", "Wrenby Hill"),
        ("cyd", "SELECT count(*) FROM benchwalk.line", "0"),
        ("cyd", "SELECT role FROM benchwalk.member", "cyd"),
        (
            "bob",
            "INSERT INTO benchwalk.line VALUES (gen_random_uuid(), 1, '', '')",
            "ERROR:  permission denied for table line",
        ),
        ("bob", "DELETE FROM benchwalk.line", "ERROR:  permission denied for table line"),
        ("bob", "UPDATE benchwalk.stream SET last = 0", "ERROR:  permission denied for table stream"),
        (
            "bob",
            "INSERT INTO benchwalk.member VALUES (gen_random_uuid(), 'bob', 'write')",
            "ERROR:  permission denied for table member",
        ),
        ("bob", "SET SESSION AUTHORIZATION ann", "ERROR:  permission denied to set session authorization \"ann\""),
        ("dan", "SELECT * FROM benchwalk.about", "ERROR:  permission denied for schema benchwalk"),
    ] {
        let answer = server.says(&database, login, sql);
        assert!(answer == said || answer.starts_with(&format!("{said} |")), "{login}: {sql}: {answer}");
    }
    for sql in ["DELETE FROM benchwalk.line", "UPDATE benchwalk.line SET body = ''", "TRUNCATE benchwalk.line"] {
        let answer = server.says(&database, "hub", sql);
        assert!(answer.starts_with("ERROR:  lines are written once and never changed or removed"), "{sql}: {answer}");
    }
}

const NO_SEASON: &str = "does not hold this season, or cyd may not read it; begin it there with 'benchwalk share on', or ask the \
                         keeper of the hub (table member)";

#[test]
fn who_may_only_read_gets_everything_and_gives_nothing_which_is_said() {
    let Some(server) = shared() else { return };
    let database = server.hub();
    let [mut ann, mut cyd] = ["ann", "cyd"].map(|login| open(&server.words(&database, login), login));
    ann.begin(SEASON, "Wrenby Hill").unwrap();
    server.sql(&database, "INSERT INTO benchwalk.member SELECT season, 'cyd', 'read' FROM benchwalk.season");
    let mut first = Laptop::new(1, "ann-2", &plan(2));
    let mut other = Laptop::new(2, "cyd-1", &[]);
    first.exchange(ann.as_mut());
    other.exchange(cyd.as_mut());
    assert!(other.texts() == first.texts());
    other.store.append(&[water(1, 256, "")]).unwrap();
    first.store.append(&[water(2, 512, "")]).unwrap();
    first.exchange(ann.as_mut());
    let did = other.exchange(cyd.as_mut());
    assert_eq!((did.taken, did.given), (1, 0));
    assert_eq!(did.remarks, [Remark::MayOnlyRead { role: "cyd".to_owned() }]);
    assert_eq!(other.store.to_send(&did.heads).unwrap(), 1);
    // The laptops that the heads name are those of the streams.
    assert_eq!(did.heads[0].laptop.as_deref(), Some("ann-2"));
    let wrote = other.store.who(Uuid::from_u128(512)).unwrap().unwrap();
    let arrival = cyd.arrival(wrote.stream, wrote.number).unwrap().unwrap();
    assert_eq!((arrival.login.as_str(), arrival.laptop.as_deref()), ("ann", Some("ann-2")));
}
