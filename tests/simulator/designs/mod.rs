//! What the designs of trials are worth: how often treatments are told apart where they do not differ, and where they do.
//!
//! Thousands of trials of four treatments on pots with a spread of 1 SD that stand along a gradient, each laid out by the program's own
//! draw and analyzed by it. The tables are printed by
//!
//! ```text
//! cargo test --release --test simulator designs -- --nocapture
//! ```

mod floor;
mod laid;
mod spots;

use std::thread;

/// Simulated trials of each row. An unoptimized build makes fewer.
const TRIALS: usize = if cfg!(debug_assertions) { 100 } else { 2_000 };

/// How far a share of these trials may lie from the one it should be.
fn allowance() -> f64 {
    if cfg!(debug_assertions) { 4.0 * (0.25 / TRIALS as f64).sqrt() } else { 0.03 }
}

/// What came of every trial, by number.
fn all<T: Send>(one: impl Fn(usize) -> T + Sync) -> Vec<T> {
    let hands = thread::available_parallelism().map_or(1, usize::from);
    thread::scope(|scope| {
        let work = |hand: usize| (hand..TRIALS).step_by(hands).map(&one).collect::<Vec<T>>();
        let running: Vec<_> = (0..hands).map(|hand| scope.spawn(move || work(hand))).collect();
        running.into_iter().flat_map(|r| r.join().unwrap()).collect()
    })
}

/// In how many of the trials something is so, as a share.
fn share(one: impl Fn(usize) -> bool + Sync) -> f64 {
    all(one).into_iter().filter(|told| *told).count() as f64 / TRIALS as f64
}
