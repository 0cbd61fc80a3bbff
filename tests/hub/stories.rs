//! Two laptops in two terminals that keep one season over a hub.

use crate::laptops::{self, Two};
use crate::server::{Server, shared};
use std::process::Command;

/// Two laptops, each with a login of its own, with this database of the server between them.
pub(crate) fn two(server: &Server, database: &str) -> Two {
    let password = |laptop: &str| vec![("PGPASSWORD".to_owned(), format!("pw-{laptop}"))];
    Two::over("office", |laptop| ["--hub".to_owned(), server.words(database, laptop)], password)
}

#[test]
fn both_walk_the_same_morning() {
    let Some(server) = shared() else { return };
    laptops::both_walk_the_same_morning(&two(server, &server.hub()));
}

#[test]
fn both_revise_one_lot_and_one_settles_it() {
    let Some(server) = shared() else { return };
    laptops::both_revise_one_lot_and_one_settles_it(&two(server, &server.hub()));
}

#[test]
fn one_sprays_a_house_while_the_other_walks_it() {
    let Some(server) = shared() else { return };
    laptops::one_sprays_a_house_while_the_other_walks_it(&two(server, &server.hub()));
}

#[test]
fn with_the_server_killed_one_walks_on_and_what_waits_goes_out_when_it_is_back() {
    // A server of its own: it is killed.
    let Some(server) = Server::new() else { return };
    let kill = || {
        let killed = Command::new("kill").args(["-9", &server.process()]).status().unwrap();
        assert!(killed.success());
    };
    laptops::one_walks_while_it_is_away(&two(&server, &server.hub()), kill, || server.start_again());
}
