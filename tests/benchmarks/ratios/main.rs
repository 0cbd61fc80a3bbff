//! What the commands cost beside SQLite on the same file: `cargo bench --bench ratios`.
//!
//! Made-up seasons of 500 and of 2,000 benches, a hundred days written. Of each the first import of its journal, the same import
//! once more, the evening review and the page of the season: processor time of both modes and the most memory it took, beside
//! what SQLite takes for the same rows in the same run, as ratios. A slow machine slows both. Nothing is asserted here.
//!
//! Every command runs in a process of its own, started by this program in a process of its own (`measure`), which then asks the
//! system what its child took. `cargo bench --bench ratios -- 500` tries one size.
#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    clippy::indexing_slicing,
    reason = "a benchmark prints, and stops where it cannot go on"
)]

#[cfg(unix)]
mod beside;
#[cfg(unix)]
mod cost;
#[cfg(unix)]
mod season;
#[cfg(unix)]
mod table;

#[cfg(unix)]
fn main() {
    let args: Vec<String> = std::env::args().skip(1).collect();
    match args.first().map(String::as_str) {
        Some(cost::MEASURE) => return cost::measure(&args[1..]),
        Some(beside::BESIDE) => return beside::run(&args[1..]),
        _ => {}
    }
    // `cargo test --benches` only wants to know that it runs.
    if args.iter().all(|arg| arg != "--bench") {
        return table::print(12, 20, 1);
    }
    let sizes: Vec<u32> = args.iter().filter_map(|arg| arg.parse().ok()).collect();
    for benches in if sizes.is_empty() { vec![500, 2_000] } else { sizes } {
        table::print(benches, 100, 3);
    }
}

#[cfg(not(unix))]
fn main() {
    println!("only Unix says what a child took");
}
