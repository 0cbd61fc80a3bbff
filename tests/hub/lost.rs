//! A laptop that was lost or sold.

use crate::laptop::{Laptop, SEASON, plan, water};
use crate::server::{failure, open, shared};
use benchwalk::exchange::{Batches, Stopped};

#[test]
fn the_login_of_a_lost_laptop_ends_and_what_it_brought_stays() {
    let Some(server) = shared() else { return };
    let database = server.hub();
    server.sql("postgres", "CREATE ROLE eve LOGIN PASSWORD 'pw-eve'; GRANT wrenby_hill TO eve");
    let words = server.words(&database, "eve");
    let (mut ann, mut eve) = (open(&server.words(&database, "ann"), "ann"), open(&words, "eve"));
    ann.begin(SEASON, "Wrenby Hill").unwrap();
    let (mut first, mut lost) = (Laptop::new(1, "ann-2", &plan(1)), Laptop::new(2, "eve-1", &[]));
    first.exchange(ann.as_mut());
    lost.exchange(eve.as_mut());
    lost.store.append(&[water(1, 256, "sent"), water(1, 512, "sent too")]).unwrap();
    lost.exchange(eve.as_mut());
    // What the comments of the script say, as the keeper runs it.
    server.sql(
        &database,
        "ALTER ROLE eve NOLOGIN; SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE usename = 'eve'",
    );
    lost.store.append(&[water(1, 768, "not sent")]).unwrap();
    let (_, done) = lost.exchange_by(eve.as_mut(), Batches::default());
    let Err(Stopped::Carrier(error)) = done else { panic!("{done:?}") };
    assert_eq!(
        error.to_string(),
        "does not let eve log in (role \"eve\" is not permitted to log in); ask the keeper of the hub"
    );
    assert_eq!(failure(open(&words, "eve").seasons()), error.to_string());
    // The others know how far it was heard of, and when.
    let did = first.exchange(ann.as_mut());
    assert_eq!(did.taken, 2);
    let head = did.heads.iter().find(|head| head.laptop.as_deref() == Some("eve-1")).unwrap();
    assert_eq!(head.last, 2);
    assert!(head.seen.is_some());
    assert_eq!(
        server.sql(&database, "SELECT laptop, last, seen IS NOT NULL FROM benchwalk.stream WHERE begun_by = 'eve'"),
        "eve-1|2|t"
    );
    // Its name is free for another one.
    let mut next = Laptop::new(3, "eve-1", &[]);
    assert_eq!(next.exchange(ann.as_mut()).given, 0);
    next.store.append(&[water(1, 1024, "another")]).unwrap();
    assert_eq!(next.exchange(ann.as_mut()).given, 1);
}
