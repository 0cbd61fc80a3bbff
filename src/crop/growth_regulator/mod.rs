//! Growth regulators: what to measure out, how much that is a pot, what is usual, and until when it is safe.
//!
//! Nothing here replaces a label. The strength of a product is always the one typed from its pack, because one ingredient is
//! sold at strengths ten times apart; a restricted-entry interval is never given here at all. Every answer that reaches a person goes
//! with [`cautions()`] and the general ones of `mix::cautions`.

mod amount;
mod cautions;
mod cutoff;
mod ingredient;
mod pack;
mod published_rates;
mod strength;
mod tank;
mod volume;

pub use amount::{Amount, dose_per_pot, measured_out, ppm_for_dose, ppm_made, product_for, too_little, usual_step};
pub use cautions::{Caution, cautions};
pub use cutoff::{Cutoff, CutoffDays, cutoff};
pub use ingredient::{Effect, Ingredient};
pub use pack::{Pack, PackCheck, check_pack, packs};
pub use published_rates::{DoseUnit, PublishedRate, Strong, published_rates, strong, top_key};
pub use strength::Strength;
pub use tank::{Measured, Part, tank};
pub use volume::{SprayRate, drench_volume, pots_from, quarts_per_100_sq_ft, spray_volume, usual_drench};
