//! What answers a warning: work or a look to be written down, as typed data.
//!
//! No strength is part of a remedy: the grower types the ppm. What is published stands in `crop::feed::USUAL_RATES`, each with
//! its source, and is shown next to the field.
#![deny(clippy::wildcard_enum_match_arm)]

use crate::crop::feed::Given;
use crate::record::{KindName, Material, PestName};

/// One thing that answers a warning.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Answer {
    /// What it is, in a few words.
    pub title: &'static str,
    /// What is written down.
    pub remedy: Remedy,
}

/// What is written down when a warning is answered. What only the grower knows (hours closed, what was counted) is in none of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Remedy {
    /// An entry of a kind, nothing of it known beforehand.
    Entry(KindName),
    /// An extra nutrient.
    Nutrient {
        /// The salt.
        material: Material,
        /// In every feed, or as a drench or spray of its own.
        given: Given,
    },
    /// Liquid feed, its strength open.
    Feed,
    /// A growth regulator, ingredient and strength open: the label decides.
    GrowthRegulator,
    /// The pinch as the plan has it.
    Pinch,
    /// A count of a pest.
    Count(PestName),
    /// A spray against a pest or disease.
    Spray {
        /// As it is written in the entry.
        against: &'static str,
    },
    /// What was done in the night before: cloth or lamps.
    LastNight(KindName),
}
