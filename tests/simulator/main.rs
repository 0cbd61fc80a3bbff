//! The season simulator: how early the warnings tell of a fault, and how often they cry wolf.
//!
//! Seeded seasons of six benches dry down by weather, pot, plant and season, are read with errors and now and then not at
//! all, and each carries one fault put in on a known day (or none). Nobody acts on the warnings, so that the time from a
//! warning to the visible loss can be measured. The table is printed by
//!
//! ```text
//! cargo test --release --test simulator -- --nocapture
//! ```
//!
//! `SEASONS=1000` before it takes more seasons. The crop's model is ours (`tests/common/grow`); what it says of the rules
//! holds as far as the model does.

#[cfg(test)]
mod faults;
#[cfg(test)]
mod floor;
#[cfg(test)]
#[allow(dead_code, reason = "the demo season uses more of it")]
#[path = "../common/grow/mod.rs"]
mod grow;
#[cfg(test)]
mod measure;
#[cfg(test)]
mod replay;
#[cfg(test)]
mod season;
