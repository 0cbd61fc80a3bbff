//! Scouting arithmetic: what a count of plants or a card's catch does and does not say.
//!
//! - `incidence`: share of plants infested, with its interval; what none found still allows; benches pooled.
//! - `detection`: the chance that so many plants show a pest at all, and how many it takes.
//! - `catch`: sticky cards per week and area, larvae, growth over time, and how much scouting a house wants.
//! - `sequential_sampling`: counting until it is enough (Wald).
//!
//! All of it takes plants as picked at random. Whitefly sits in clumps, along rows, so that the true uncertainty is
//! larger than what is calculated here (Boivin and Vincent 1983; Naranjo and others 1996 found true errors above the
//! nominal ones).

mod catch;
mod detection;
mod incidence;
mod sequential_sampling;

pub use catch::{
    CardCatch, Growth, LarvaeState, LarvaeTrap, ScoutingEffort, cards_needed, larvae_state, scouting_effort,
    whitefly_growth,
};
pub use detection::{detection_chance, mean_if_random, plants_to_detect};
pub use incidence::{Infested, Pooled, Sample, StartBand, infested, pooled, start_band};
pub use sequential_sampling::{Stop, StopLines};
