//! Feed: from ppm to weights and back, through an injector or straight into a tank, and what a feed carries.
//!
//! - `dose`: ppm, share of the element, volume and weight.
//! - `materials`: the four salts poinsettias get as extras, from atomic weights; the usual rates in print.
//! - `injector`: stock strength and batches, 1:15 to 1:200.
//! - `weighing`: what a scale can weigh and what that makes of the ppm; two steps where it is too little to weigh.
//! - `label`: N-P2O5-K2O, what must not share a tank.
//! - `topdress`: slow-release by lot, and its nitrogen against what the plant takes up.
//! - `water`: alkalinity, and feed EC against what the injector should give.
//!
//! 1 ppm is 1 mg/L of solution throughout. A pack's or a bag's numbers are always typed by the grower.

mod dose;
mod injector;
mod label;
mod materials;
mod program;
mod topdress;
mod water;
mod weighing;

pub use dose::{Fraction, material_for, oz_per_gal};
pub use injector::{Batch, Injector, batch_of_feed, batch_of_stock, stock_g_per_l};
pub use label::{Analysis, Carries, Clash, Elements, clashes};
pub use materials::{Given, USUAL_RATES, UsualRate, beyond_usual, published_range, usual_rates};
pub use program::{FeedingDay, Rhythm, is_clear};
pub use topdress::{Nutrient, Topdress, TopdressAnswer, topdress, uptake_mg};
pub use water::{Alkalinity, InjectorCheck, LabelEc, injector_check};
pub use weighing::{Scale, TwoStep, Weighed, two_step, weigh};
