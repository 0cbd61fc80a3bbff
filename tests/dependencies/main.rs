//! What the program is made of beside itself, held over `cargo metadata`: the licenses of all crates, crates that must not come in,
//! and crates that stand in two versions.
//!
//! Looked at is what is built for Linux and for Windows, with the tests. Where the crates of the other platform were not fetched it
//! says so and passes it over; `BENCHWALK_DEPENDENCIES=required`, as in the gate after `cargo fetch`, makes that a failure.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stdout,
    reason = "a test that cannot go on stops there; what was passed over is printed"
)]

mod graph;
mod spdx;

use graph::{Crate, Features, Graph, Kinds, PLATFORMS};
use spdx::Expression;
use std::collections::{BTreeMap, BTreeSet};

/// The licenses that a crate may be used under, and where one is unusual why it may. A crate with a choice is used under one of
/// them; one that needs several needs all of them here.
const LICENSES: [(&str, &str); 6] = [
    ("MIT", ""),
    ("Apache-2.0", ""),
    ("ISC", "as MIT in fewer words: parts of ring, and the certificates of rustls"),
    ("BSD-3-Clause", "as MIT, and its authors' names recommend nothing: subtle"),
    ("Zlib", "as MIT, and an altered source says that it is: foldhash"),
    ("Unicode-3.0", "as MIT, for the tables of the Unicode standard that crates have in them"),
];

/// Crates that must not come in, and why.
const BANNED: [(&str, &str); 15] = [
    ("openssl", "needs OpenSSL on the laptop; the hub's TLS is rustls"),
    ("openssl-sys", "needs OpenSSL on the laptop; the hub's TLS is rustls"),
    ("native-tls", "another TLS on each platform; the hub's is rustls"),
    ("aws-lc-rs", "needs CMake to build; rustls goes with ring"),
    ("aws-lc-sys", "needs CMake to build; rustls goes with ring"),
    ("async-std", "a second async runtime"),
    ("smol", "a second async runtime"),
    ("async-global-executor", "a second async runtime"),
    ("reqwest", "the program asks nobody in the internet for anything"),
    ("hyper", "the program asks nobody in the internet for anything"),
    ("ureq", "the program asks nobody in the internet for anything"),
    ("curl", "the program asks nobody in the internet for anything"),
    ("termion", "a second terminal library reads the same input"),
    ("termwiz", "a second terminal library reads the same input"),
    ("ncurses", "a second terminal library reads the same input"),
];

/// What only the feature `hub` brings: without it the program has no async runtime and no cryptography of the network.
const OF_HUBS: [&str; 6] = ["tokio", "postgres", "tokio-postgres", "rustls", "ring", "rustls-native-certs"];

/// Of those, what Windows has without hubs: the events of its console come through tokio, whose runtime is left out.
const OF_WINDOWS_TOO: &str = "tokio";

/// Crates that stand in two versions, and who holds each. A line that is no longer needed fails.
const TWICE: [(&str, &str); 14] = [
    ("bitflags", "1: windows-permissions, and portable-pty of the tests on Windows; 2: all others"),
    ("block-buffer", "0.10: our sha2 0.10 and x509-cert; 0.12: the hub's sha2 0.11"),
    ("const-oid", "0.9: der of x509-cert, to check the hub's server; 0.10: the hub's sha2 0.11"),
    ("cpufeatures", "0.2: our sha2 0.10; 0.3: rand and the hub's sha2 0.11"),
    ("crypto-common", "0.1: our sha2 0.10; 0.2: the hub's sha2 0.11"),
    ("digest", "0.10: our sha2 0.10; 0.11: the hub's sha2 0.11"),
    ("fallible-iterator", "0.3: rusqlite; 0.2: postgres"),
    ("getrandom", "0.2: ring; 0.4: tempfile, uuid and rand"),
    ("phf", "0.12: chrono-tz, in the tests only; 0.13: postgres"),
    ("phf_shared", "0.12: chrono-tz, in the tests only; 0.13: postgres"),
    ("sha2", "0.10: ours, of ids and files that are kept; 0.11: tokio-postgres-rustls"),
    ("syn", "2 and 3: macros at work while building, nothing in the program"),
    ("thiserror", "1: filedescriptor of portable-pty, in the tests only; 2: ours"),
    ("thiserror-impl", "as thiserror"),
];

/// The graphs of both platforms, each with the name of its platform.
fn graphs(features: Features) -> Vec<Graph> {
    let all: Vec<Graph> = PLATFORMS.iter().filter_map(|platform| Graph::of(platform, features)).collect();
    assert!(!all.is_empty(), "no graph at all could be read");
    all
}

fn every_crate(graphs: &[Graph]) -> BTreeSet<Crate> {
    graphs.iter().flat_map(|graph| graph.built(Kinds::All)).collect()
}

#[test]
fn every_crate_may_be_used_under_a_license_of_the_list() {
    let crates = every_crate(&graphs(Features::All));
    assert!(crates.len() > 200, "only {} crates found", crates.len());
    let refused = |without: Option<&str>| -> Vec<String> {
        let allowed = |id: &str| LICENSES.iter().any(|(allowed, _)| *allowed == id && Some(*allowed) != without);
        let of = |c: &Crate| Expression::parse(&c.license).map(|expression| expression.holds(&allowed));
        let refused = crates.iter().filter(|c| of(c) != Ok(true));
        refused.map(|c| format!("{} {}: {:?}", c.name, c.version, c.license)).collect()
    };
    let now = refused(None);
    assert!(now.is_empty(), "no license of the list lets these be used:\n{}", now.join("\n"));
    for (license, reason) in LICENSES {
        let usual = ["MIT", "Apache-2.0"].contains(&license);
        assert_eq!(usual, reason.is_empty(), "{license}: an unusual license has a reason, a usual one none");
        assert!(!refused(Some(license)).is_empty(), "no crate needs {license}: take it off the list");
    }
}

#[test]
fn no_banned_crate_came_in() {
    let mut names: Vec<&str> = BANNED.iter().map(|(name, _)| *name).collect();
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), BANNED.len(), "a crate is listed twice");
    let crates = every_crate(&graphs(Features::All));
    let came: Vec<String> = crates
        .iter()
        .filter_map(|c| BANNED.iter().find(|(name, _)| *name == c.name))
        .map(|(name, reason)| format!("{name}: {reason}"))
        .collect();
    assert!(came.is_empty(), "{}", came.join("\n"));
}

#[test]
fn without_the_feature_hub_none_of_what_it_brings_is_there() {
    for graph in graphs(Features::None) {
        let names: BTreeSet<String> = graph.built(Kinds::Shipped).into_iter().map(|c| c.name).collect();
        let windows = graph.platform.contains("windows");
        let there: Vec<&str> = OF_HUBS.into_iter().filter(|name| names.contains(*name)).collect();
        let wanted: &[&str] = if windows { &[OF_WINDOWS_TOO] } else { &[] };
        assert_eq!(there, wanted, "{}", graph.platform);
    }
    // The names are those of crates that the feature does bring.
    for graph in graphs(Features::All) {
        let names: BTreeSet<String> = graph.built(Kinds::Shipped).into_iter().map(|c| c.name).collect();
        let missing: Vec<&&str> = OF_HUBS.iter().filter(|name| !names.contains(**name)).collect();
        assert!(missing.is_empty(), "{}: {missing:?}", graph.platform);
    }
}

#[test]
fn nothing_stands_in_two_versions_without_a_reason() {
    let graphs = graphs(Features::All);
    let mut twice: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for graph in &graphs {
        let mut versions: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
        for c in graph.built(Kinds::All) {
            versions.entry(c.name).or_default().insert(c.version);
        }
        // Two platforms may have a version each: that is one in each program.
        for (name, versions) in versions.into_iter().filter(|(_, versions)| versions.len() > 1) {
            twice.entry(name).or_default().extend(versions);
        }
    }
    let said = |name: &str| TWICE.iter().any(|(listed, reason)| *listed == name && !reason.is_empty());
    let new: Vec<String> =
        twice.iter().filter(|(name, _)| !said(name)).map(|(name, versions)| format!("{name}: {versions:?}")).collect();
    assert!(new.is_empty(), "in two versions without a reason:\n{}", new.join("\n"));
    if graphs.len() == PLATFORMS.len() {
        let over: Vec<&str> = TWICE.iter().map(|(name, _)| *name).filter(|name| !twice.contains_key(*name)).collect();
        assert!(over.is_empty(), "in one version now; take them off the list: {over:?}");
    }
}
