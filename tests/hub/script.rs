//! The script that makes a hub.

use crate::server::{open, shared};
use benchwalk::hub;
use uuid::Uuid;

#[test]
fn run_again_the_script_changes_nothing_and_says_so() {
    let Some(server) = shared() else { return };
    let database = server.hub();
    let again = server.psql(&database, "hub", hub::script());
    assert!(!again.status.success());
    let said = crate::server::said(&again);
    assert!(
        said.starts_with(
            "ERROR:  this database has a schema benchwalk already; nothing was changed | HINT:  If it is a hub, SELECT * FROM \
             benchwalk.about shows its format, and there is nothing to do."
        ),
        "{said}"
    );
    assert_eq!(server.sql(&database, "SELECT format, least_program FROM benchwalk.about"), "1|0.1.0");
}

#[test]
fn a_database_of_another_encoding_is_refused_and_left_as_it_was() {
    let Some(server) = shared() else { return };
    server.sql("postgres", "CREATE DATABASE latin ENCODING 'LATIN1' LC_COLLATE 'C' LC_CTYPE 'C' TEMPLATE template0");
    let said = server.says("latin", "hub", hub::script());
    assert!(said.contains("this database has the encoding LATIN1; a hub needs UTF8"), "{said}");
    assert_eq!(server.sql("latin", "SELECT count(*) FROM pg_namespace WHERE nspname = 'benchwalk'"), "0");
}

#[test]
fn the_owner_of_the_database_needs_no_more_than_to_make_roles() {
    let Some(server) = shared() else { return };
    server
        .sql("postgres", "CREATE ROLE keeper LOGIN CREATEROLE PASSWORD 'pw-keeper'; CREATE DATABASE kept OWNER keeper");
    let made = server.psql("kept", "keeper", hub::script());
    assert!(made.status.success(), "{}", crate::server::said(&made));
    let mut hub = open(&server.words("kept", "ann"), "ann");
    hub.begin(Uuid::from_u128(5), "Birch Flat").unwrap();
    assert_eq!(hub.seasons().unwrap().len(), 1);
}

/// With many seasons the heads of one are found by their index.
#[test]
fn heads_of_a_season_are_found_by_index() {
    let Some(server) = shared() else { return };
    let database = server.hub();
    server.sql(
        &database,
        "INSERT INTO benchwalk.season (season, name) SELECT gen_random_uuid(), 'site ' || n FROM generate_series(1, 500) n;
         INSERT INTO benchwalk.member SELECT season, 'ann', 'write' FROM benchwalk.season;
         INSERT INTO benchwalk.stream (stream, season, last, chain)
           SELECT gen_random_uuid(), season, 1, '\\x00' FROM benchwalk.season, generate_series(1, 10);
         ANALYZE benchwalk.season, benchwalk.stream, benchwalk.member",
    );
    let season = server.sql(&database, "SELECT season FROM benchwalk.season LIMIT 1");
    let plan = server.says(
        &database,
        "ann",
        &format!(
            "EXPLAIN SELECT t.stream FROM benchwalk.season s LEFT JOIN benchwalk.stream t ON t.season = s.season AND t.last > 0 \
             WHERE s.season = '{season}'"
        ),
    );
    assert!(plan.contains("stream_season") && plan.contains("season_pkey"), "{plan}");
    let mut hub = open(&server.words(&database, "ann"), "ann");
    assert_eq!(hub.seasons().unwrap().len(), 500);
}
