//! What answers a warning: work or a check to be logged, as typed data.
//!
//! No strength is part of a remedy: the grower types the ppm. What is published stands in `crop::feed::USUAL_RATES`, each with
//! its source, and is shown next to the field.
#![deny(clippy::wildcard_enum_match_arm)]

use crate::crop::feed::Given;
use crate::record::{KindName, Material, Method, PestName};

/// One thing that answers a warning.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Answer {
    /// What it is, in a few words.
    pub title: &'static str,
    /// What is logged.
    pub remedy: Remedy,
}

/// What is logged when a warning is answered. What only the grower knows (hours closed, what was counted) is in none of them.
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
        /// As it stands in the entry.
        against: &'static str,
    },
    /// What was done in the night before: black cloth or lights.
    LastNight(KindName),
}

impl Remedy {
    /// The salt of an extra nutrient that is given on its own, and how.
    pub const fn nutrient_apart(self) -> Option<(Material, Method)> {
        match self {
            Self::Nutrient { material, given: Given::Apart(method) } => Some((material, method)),
            Self::Nutrient { given: Given::InFeed, .. }
            | Self::Entry(_)
            | Self::Feed
            | Self::GrowthRegulator
            | Self::Pinch
            | Self::Count(_)
            | Self::Spray { .. }
            | Self::LastNight(_) => None,
        }
    }
}
