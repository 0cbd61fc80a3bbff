//! Times of a benchmark: taken, and printed.

use std::hint::black_box;
use std::time::{Duration, Instant};

/// Does some work, and keeps how long it took.
pub(crate) fn timed<T>(times: &mut Vec<Duration>, work: impl FnOnce() -> T) -> T {
    let start = Instant::now();
    let done = black_box(work());
    times.push(start.elapsed());
    done
}

/// Prints the median, the 99th of a hundred and the longest of some times.
pub(crate) fn told(what: &str, mut times: Vec<Duration>) {
    times.sort_unstable();
    let at = |share: usize| times.get((times.len() * share / 100).min(times.len().saturating_sub(1))).copied();
    let [median, late, most] = [50, 99, 100].map(|share| at(share).unwrap_or_default());
    println!("  {what:<48} median {median:>9.3?}  p99 {late:>9.3?}  most {most:>9.3?}  n {}", times.len());
}
