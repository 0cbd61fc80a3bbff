//! Scouting arithmetic: what a count of plants or a card's catch does and does not say.
//!
//! - `incidence`: share of plants infested, with its interval; what none found still allows.
//! - `detection`: the chance that so many plants show a pest at all, and how many it takes.
//! - `catch`: what sticky cards caught, by card and week.
//! - `sequential_sampling`: counting until it is enough (Wald).
//!
//! All of it takes plants as picked at random. Whitefly sits in clumps, along rows, so that the true uncertainty is
//! larger than what is calculated here (Boivin and Vincent 1983; Naranjo and others 1996 found true errors above the
//! nominal ones).

mod catch;
mod detection;
mod incidence;
mod sequential_sampling;

pub use catch::CardCatch;
pub use detection::{detection_chance, plants_to_detect};
pub use incidence::{Infested, Sample, infested};
pub use sequential_sampling::{Stop, StopLines};
