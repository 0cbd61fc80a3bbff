//! The root zone: what a pH or an EC reading says, by the way it was taken, and what to do about it.
//!
//! Three ways of taking the EC are in use and their numbers differ nearly fivefold, so a reading without its method
//! says nothing. `ec` classes a reading and carries it from one method to another, `ph` does the same for pH
//! (which needs no conversion: the methods differ little, New England and Delaware extension, 2008), and `steps`
//! lists what to do. Steps are an enum; their words live with the warnings.

mod ec;
mod ph;
mod steps;

pub use ec::{EcClass, SaltBounds, SaltState, class_of, convert, judge_salts};
pub use ph::{PhBounds, PhState, judge_ph};
pub use steps::{Chelate, Moisture, Situation, Step, chelates_at, ph_steps, salt_steps};
