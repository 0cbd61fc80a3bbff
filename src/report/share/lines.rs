//! What the commands print of a shared season.

use super::{ago, counts, held, notes};
use crate::dates;
use crate::exchange::{CarrierState, LaptopState, Sharing};
use chrono::{DateTime, FixedOffset, TimeZone, Utc};
use serde_json::{Value, json};
use std::fmt::Display;

/// `1 line`, `300 lines`.
pub fn lines(n: usize) -> String {
    if n == 1 { "1 line".to_owned() } else { format!("{n} lines") }
}

/// What came of an exchange with a folder or hub: a line, and a line for each thing that is to be said besides.
pub fn done(carrier: &CarrierState, now: DateTime<Utc>) -> Vec<String> {
    // After a command nothing is tried again by itself.
    let carrier = CarrierState { next: None, ..carrier.clone() };
    let did = &carrier.did;
    let mut all = Vec::new();
    if carrier.failed.is_none() {
        let counts = counts(did.taken, did.given);
        let again = match did.written_again {
            0 => String::new(),
            n => format!(", {} of a copy of this file taken into this laptop's own", lines(n)),
        };
        all.push(format!("{}: {counts}{again}", carrier.name));
    }
    all.extend(notes(&carrier, now));
    all
}

/// All that is known of a shared season.
pub fn state(sharing: &Sharing, site: &str, now: DateTime<Utc>) -> String {
    let mut text = format!("{site} is shared; this laptop is {}.\n\nFolders and hubs\n", sharing.laptop);
    if sharing.carriers.is_empty() {
        text.push_str("  none: 'benchwalk share on --folder DIR' names one\n");
    }
    for carrier in &sharing.carriers {
        let shared =
            carrier.shared.map_or_else(|| "not shared yet".to_owned(), |at| format!("shared {}", ago(at, now)));
        let send =
            if carrier.to_send == 0 { "nothing to send".to_owned() } else { format!("{} to send", carrier.to_send) };
        text.push_str(&format!("  {} ({}): {shared}, {send}\n", carrier.name, carrier.place));
        for note in notes(&CarrierState { next: None, ..carrier.clone() }, now) {
            text.push_str(&format!("    {note}\n"));
        }
    }
    text.push_str(&laptops(&sharing.laptops, now));
    if let Some(held) = held(sharing) {
        text.push_str(&format!("\n{held}\n"));
    }
    text
}

fn laptops(laptops: &[LaptopState], now: DateTime<Utc>) -> String {
    let names: Vec<String> = laptops.iter().map(named).collect();
    let wide = names.iter().map(|name| name.chars().count()).max().unwrap_or(0).max(6);
    let mut text = format!("\n{:wide$}  {:>7}  known to\n", "Laptop", "lines");
    for (laptop, name) in laptops.iter().zip(names) {
        let known = laptop.known_to.map_or_else(|| "-".to_owned(), |at| moment(&at));
        let seen = laptop.seen.map(|at| format!(", heard of {}", ago(at, now))).unwrap_or_default();
        text.push_str(&format!("{name:wide$}  {:>7}  {known}{seen}\n", laptop.lines));
    }
    if laptops.iter().any(|laptop| !laptop.own) {
        text.push_str(
            "What another laptop wrote after that is on that laptop alone until it exchanges again; of a lost one it is lost.\n",
        );
    }
    text
}

fn named(laptop: &LaptopState) -> String {
    let name = laptop.name.clone().unwrap_or_else(|| laptop.stream.laptop());
    if laptop.own { format!("{name} (this one)") } else { name }
}

/// A day and time: `Mon Oct 12 07:10`.
pub fn moment<Z: TimeZone>(at: &DateTime<Z>) -> String
where
    Z::Offset: Display,
{
    format!("{} {}", dates::weekday(at.date_naive()), dates::time(at))
}

/// Who wrote something: the initials, and the laptop where it was another one, so that two people of the same initials are not one:
/// `ann (ann-2)`.
pub fn writer(by: &str, laptop: Option<&str>) -> String {
    match laptop {
        Some(laptop) if laptop != by => format!("{by} ({laptop})"),
        _ => by.to_owned(),
    }
}

/// The same as [`state`], for other programs.
pub fn state_json(sharing: &Sharing, site: &str) -> Value {
    let carrier = |carrier: &CarrierState| {
        json!({
            "name": carrier.name,
            "place": carrier.place,
            "shared": carrier.shared.map(|at| at.to_rfc3339()),
            "failed": carrier.failed.as_ref().map(|(error, _)| error.to_string()),
            "failed_since": carrier.failed.as_ref().map(|(_, since)| since.to_rfc3339()),
            "to_send": carrier.to_send,
        })
    };
    let laptop = |laptop: &LaptopState| {
        json!({
            "name": laptop.name,
            "stream": laptop.stream.to_string(),
            "own": laptop.own,
            "lines": laptop.lines,
            "known_to": laptop.known_to.map(|at: DateTime<FixedOffset>| at.to_rfc3339()),
            "heard_of": laptop.seen.map(|at| at.to_rfc3339()),
        })
    };
    json!({
        "season": sharing.season.to_string(),
        "site": site,
        "laptop": sharing.laptop,
        "carriers": sharing.carriers.iter().map(carrier).collect::<Vec<_>>(),
        "laptops": sharing.laptops.iter().map(laptop).collect::<Vec<_>>(),
        "not_understood": sharing.held,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::exchange::{CarrierError, Exchanged, Stream};
    use chrono::TimeDelta;
    use uuid::Uuid;

    fn now() -> DateTime<Utc> {
        "2026-10-12T11:00:00Z".parse().unwrap()
    }

    fn stick() -> CarrierState {
        CarrierState {
            name: "stick".to_owned(),
            place: "/media/BENCH".to_owned(),
            shared: Some(now() - TimeDelta::minutes(2)),
            did: Exchanged { taken: 3, given: 14, ..Exchanged::default() },
            ..CarrierState::default()
        }
    }

    #[test]
    fn what_came_of_an_exchange_is_a_line_for_each() {
        let mut stick = stick();
        assert_eq!(done(&stick, now()), ["stick: 3 came, 14 sent"]);
        stick.did = Exchanged { written_again: 1, ..Exchanged::default() };
        assert_eq!(
            done(&stick, now()),
            ["stick: nothing new, 1 line of a copy of this file taken into this laptop's own"]
        );
        stick.failed = Some((CarrierError::NoTls, now()));
        stick.to_send = 14;
        stick.next = Some(now() + TimeDelta::minutes(2));
        let said = done(&stick, now());
        assert_eq!(said.len(), 1);
        assert!(said[0].ends_with("if the line is private; 14 to send; walking and saving go on"), "{said:?}");
    }

    #[test]
    fn what_is_known_of_carriers_and_laptops() {
        let laptop = |n: u128, name: Option<&str>, own, lines, known_to: Option<&str>| LaptopState {
            stream: Stream(Uuid::from_u128(n << 96)),
            name: name.map(str::to_owned),
            own,
            lines,
            known_to: known_to.map(|at| at.parse().unwrap()),
            seen: (n == 2).then(|| now() - TimeDelta::minutes(125)),
        };
        let mut office = CarrierState {
            name: "office".to_owned(),
            place: "benchwalk at /run/postgresql".to_owned(),
            ..CarrierState::default()
        };
        office.failed = Some((CarrierError::NotAHub, now()));
        office.to_send = 131;
        let sharing = Sharing {
            season: Uuid::from_u128(7),
            laptop: "ann-2".to_owned(),
            carriers: vec![stick(), office],
            laptops: vec![
                laptop(1, Some("ann-2"), true, 131, Some("2026-10-12T07:10:00-04:00")),
                laptop(2, Some("bob"), false, 12, Some("2026-10-06T09:01:00-04:00")),
                laptop(0xabcd_0123, None, false, 1, None),
            ],
            held: 3,
        };
        insta::assert_snapshot!(state(&sharing, "Birch Flat", now()));
        insta::assert_snapshot!(state_json(&sharing, "Birch Flat"));
        insta::assert_snapshot!(state(
            &Sharing { carriers: vec![], laptops: vec![], held: 0, ..sharing },
            "Birch Flat",
            now()
        ));
    }

    #[test]
    fn two_people_of_the_same_initials_are_told_apart_by_their_laptops() {
        assert_eq!(writer("ann", Some("ann-2")), "ann (ann-2)");
        assert_eq!((writer("ann", None), writer("ann", Some("ann"))), ("ann".to_owned(), "ann".to_owned()));
    }
}
