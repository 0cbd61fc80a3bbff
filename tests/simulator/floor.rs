//! The floor the warnings must not fall below.

use crate::faults::Fault;
use crate::lived::live;
use crate::measure::{Outcome, Table, outcome};
use std::thread;

/// Simulated seasons: every fault as often as any other. An unoptimized build lives through fewer.
const SEASONS: usize = if cfg!(debug_assertions) { 20 } else { 380 };

/// Lines to watch a bench-week where nothing is wrong and no leaves are noted: no more than the rules said in the same seasons
/// before there were leaf signs, classes and the forecast by the day. The few seasons of an unoptimized build scatter.
const WATCHED: f64 = if cfg!(debug_assertions) { 2.2 } else { 1.983 };

fn run(seasons: usize) -> Table {
    let hands = thread::available_parallelism().map_or(1, usize::from);
    let one = |n: usize| outcome(&live(7919 * n as u64 + 11, Fault::ALL[n % Fault::ALL.len()]));
    let outcomes: Vec<Outcome> = thread::scope(|scope| {
        let work = |hand: usize| (hand..seasons).step_by(hands).map(one).collect::<Vec<_>>();
        let running: Vec<_> = (0..hands).map(|hand| scope.spawn(move || work(hand))).collect();
        running.into_iter().flat_map(|r| r.join().unwrap()).collect()
    });
    Table::of(&outcomes)
}

#[test]
fn the_warnings_keep_their_floor() {
    let seasons = std::env::var("SEASONS").ok().and_then(|n| n.parse().ok()).unwrap_or(SEASONS);
    let table = run(seasons);
    println!("{}", table.text());
    for row in &table.rows {
        assert_eq!(row.told, row.seasons, "{} was not always told:\n{}", row.fault.text(), table.text());
        if row.fault.is_wet() {
            let (median, _) = row.lead.unwrap();
            assert!(median >= 5, "{} is told late:\n{}", row.fault.text(), table.text());
        }
    }
    assert!(table.false_alarms() <= 0.3, "too many false alarms:\n{}", table.text());
    assert!(table.watched_lines() <= WATCHED, "too much to watch:\n{}", table.text());
    let [begun, watched, _] = table.leaf_lines;
    assert!(begun <= 0.5 && watched <= 0.5, "too many leaf signs:\n{}", table.text());
}
