//! What is said when a hub cannot be used: the words tell what to do.

use crate::laptop::{Laptop, SEASON, plan};
use crate::server::{clock, failure, knows, open, shared};
use benchwalk::exchange::{Batches, CarrierError, Remark, Stopped};
use benchwalk::hub::{self, Surroundings};
use chrono::TimeDelta;
use std::net::TcpListener;
use std::os::unix::fs::PermissionsExt;

fn seasons(words: &str, around: Surroundings) -> String {
    failure(hub::open(words, around, clock(TimeDelta::zero())).and_then(|mut hub| hub.seasons()))
}

#[test]
fn a_hub_that_is_not_there() {
    let folder = tempfile::tempdir().unwrap();
    let words = format!("host={} dbname=green user=ann", folder.path().display());
    assert_eq!(
        seasons(&words, Surroundings::default()),
        format!("cannot be reached ({}/.s.PGSQL.5432: there is no such socket)", folder.path().display())
    );
    let port = TcpListener::bind("127.0.0.1:0").unwrap().local_addr().unwrap().port();
    assert_eq!(
        seasons(&format!("host=127.0.0.1 port={port} user=ann sslmode=disable"), Surroundings::default()),
        format!("cannot be reached (127.0.0.1:{port}: connection refused)")
    );
    assert_eq!(
        seasons("host=no-such-machine.invalid user=ann sslmode=disable", Surroundings::default()),
        "cannot be reached (no-such-machine.invalid:5432: no machine of that name is known)"
    );
}

/// A machine that takes the connection and says nothing holds nobody up for good.
#[test]
fn a_hub_that_is_silent() {
    let silent = TcpListener::bind("127.0.0.1:0").unwrap();
    let port = silent.local_addr().unwrap().port();
    let words = format!("host=127.0.0.1 port={port} user=ann sslmode=disable connect_timeout=1");
    assert_eq!(
        seasons(&words, Surroundings::default()),
        format!("cannot be reached (127.0.0.1:{port}: no answer in 11 s)")
    );
}

#[test]
fn passwords() {
    let Some(server) = shared() else { return };
    let (database, port, at) = (server.hub(), server.port, server.socket_folder().display());
    let words = server.words(&database, "ann");
    assert_eq!(seasons(&words, knows("bob")), "the password for ann was not taken; look at the variable PGPASSWORD");
    let home = tempfile::tempdir().unwrap();
    let around = || Surroundings::of([("HOME", home.path().as_os_str().to_owned())]);
    let line = format!("the line for {at}:{port}:{database}:ann in ~/.pgpass");
    assert_eq!(seasons(&words, around()), format!("the server asks for a password for ann; write one into {line}"));
    let file = home.path().join(".pgpass");
    let write = |text: &str, mode: u32| {
        std::fs::write(&file, text).unwrap();
        std::fs::set_permissions(&file, std::fs::Permissions::from_mode(mode)).unwrap();
    };
    write(&format!("{at}:{port}:*:ann:made-up\n"), 0o600);
    assert_eq!(seasons(&words, around()), format!("the password for ann was not taken; look at {line}"));
    write(&format!("{at}:{port}:*:ann:pw-ann\n"), 0o644);
    assert_eq!(seasons(&words, around()), "others can read the password file ~/.pgpass; run: chmod 600 ~/.pgpass");
    write(&format!("{at}:{port}:*:ann:pw-ann\n"), 0o600);
    let service = home.path().join(".pg_service.conf");
    std::fs::write(&service, format!("[benchwalk]\nhost={at}\nport={port}\ndbname={database}\nuser=ann\n")).unwrap();
    let mut hub = hub::open("service=benchwalk", around(), clock(TimeDelta::zero())).unwrap();
    assert_eq!(hub.seasons().unwrap(), []);
    assert_eq!(hub::place("service=benchwalk", &around()).unwrap(), format!("{database} at {at}/.s.PGSQL.{port}"));
    std::fs::write(&service, format!("[benchwalk]\nhost={at}\nport={port}\ndbname=none\nuser=ann\n")).unwrap();
    assert_eq!(seasons("benchwalk", around()), "no database 'none'; look at dbname in the service 'benchwalk'");
}

#[test]
fn what_is_no_hub_or_a_newer_one() {
    let Some(server) = shared() else { return };
    assert_eq!(
        seasons(&server.words("postgres", "ann"), knows("ann")),
        "not a Benchwalk hub (no schema 'benchwalk'); 'benchwalk share hub-sql' prints what its owner runs"
    );
    let database = server.hub();
    let words = server.words(&database, "dan");
    assert_eq!(
        seasons(&words, knows("dan")),
        "dan may not use this hub; its keeper lets it in with: GRANT bw_user TO dan"
    );
    let words = server.words(&database, "ann");
    server.sql(&database, "UPDATE benchwalk.about SET format = 2");
    assert_eq!(
        seasons(&words, knows("ann")),
        "made by a newer Benchwalk (format 2, this program knows 1); nothing was sent or taken"
    );
    server.sql(&database, "UPDATE benchwalk.about SET format = 1");
    server.sql("postgres", &format!("REVOKE CONNECT ON DATABASE {database} FROM PUBLIC"));
    assert_eq!(
        seasons(&words, knows("ann")),
        format!("does not let ann log in (permission denied for database \"{database}\"); ask the keeper of the hub")
    );
}

#[test]
fn a_copy_that_follows_another_server_is_read_but_not_given_to() {
    let Some(server) = shared() else { return };
    let database = server.hub();
    let words = server.words(&database, "ann");
    let mut first = Laptop::new(1, "ann-2", &plan(1));
    let mut hub = open(&words, "ann");
    hub.begin(SEASON, "Wrenby Hill").unwrap();
    first.exchange(hub.as_mut());
    server.sql("postgres", &format!("ALTER DATABASE {database} SET default_transaction_read_only = on"));
    let mut other = Laptop::new(2, "bob-1", &plan(2));
    let (did, done) = other.exchange_by(open(&words, "ann").as_mut(), Batches::default());
    let Err(Stopped::Carrier(error)) = done else { panic!("{done:?}") };
    assert_eq!(
        error.to_string(),
        "can only be read: it is a copy that follows another server; name that one as host in the line 'hub' of config.toml"
    );
    assert!(did.given == 0 && did.heads.len() == 1);
}

#[test]
fn what_is_said_although_the_exchange_went_on() {
    let Some(server) = shared() else { return };
    let database = server.hub();
    let words = server.words(&database, "ann");
    open(&words, "ann").begin(SEASON, "Wrenby Hill").unwrap();
    let remarks = |later: TimeDelta| {
        let mut hub = hub::open(&words, knows("ann"), clock(later)).unwrap();
        hub.heads(SEASON).unwrap();
        hub.remarks()
    };
    assert_eq!(remarks(TimeDelta::seconds(100)), []);
    for hours in [3, -3] {
        let [Remark::ClockOff(off)] = remarks(TimeDelta::hours(hours))[..] else { panic!("the clock is off") };
        assert_eq!((off - TimeDelta::hours(hours)).num_minutes(), 0);
    }
    server.sql(&database, "UPDATE benchwalk.about SET least_program = '99.0.0'");
    assert_eq!(remarks(TimeDelta::zero()), [Remark::Advised("99.0.0".to_owned())]);
}

#[test]
fn a_connection_that_went_while_nobody_asked_is_made_again() {
    let Some(server) = shared() else { return };
    let database = server.hub();
    let mut hub = open(&server.words(&database, "ann"), "ann");
    hub.begin(SEASON, "Wrenby Hill").unwrap();
    server.sql(
        &database,
        "SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE datname = current_database() AND usename = 'ann'",
    );
    assert_eq!(hub.heads(SEASON).unwrap(), []);
    server.sql(
        &database,
        "SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE datname = current_database() AND usename = 'ann'",
    );
    // In the middle of an exchange it is a failure: the next one goes on.
    let cut = hub.read(benchwalk::exchange::Stream(uuid::Uuid::nil()), 0, 1).unwrap_err();
    assert!(matches!(cut, CarrierError::Cut(_)), "{cut}");
    let cut = cut.to_string();
    assert!(
        [
            "terminating connection due to administrator command",
            "the connection was closed",
            "it closed the connection"
        ]
        .iter()
        .any(|why| cut == format!("was cut off ({why})")),
        "{cut}"
    );
    assert_eq!(hub.heads(SEASON).unwrap(), []);
}
