//! The demo season of `demo-data/demo.jsonl`: made by a seeded model of a crop, so that it can be re-made and checked.
//!
//! `BENCHWALK_MAKE_DEMO=1 cargo test --test demo` writes the file anew; without it the file must be what is made here, must
//! keep the journal's own form and the rules across lines, and its day must flag just the benches it is meant to flag.

#[cfg(test)]
#[path = "../common/grow/mod.rs"]
mod grow;
#[cfg(test)]
mod season;
#[cfg(test)]
mod tests;
