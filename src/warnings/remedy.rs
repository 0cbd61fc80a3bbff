//! What answers a warning: work or a look to be written down, as typed data with the figures it takes.
//!
//! One home for the strengths: those in print (`crop::feed::USUAL_RATES`, each with its source), ppm of the element. The form of
//! the entry, the Mixing page and tomorrow's work all take them from here.
#![deny(clippy::wildcard_enum_match_arm)]

use crate::crop::feed::{Given, usual_rates};
use crate::record::{KindName, Material, PestName};
use crate::units::{Concentration, plain};

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
        /// How strong.
        strength: Strength,
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

/// How strong a remedy is, by what is in print.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Strength {
    /// The lowest in print.
    LowestInPrint,
    /// Prints disagree: the grower chooses between the lowest and the highest.
    Open,
}

impl Remedy {
    /// The strength it is filled in with, ppm of the element, to the three digits in which it is typed; `None` where it is open or
    /// nothing is in print.
    pub fn strength(&self) -> Option<Concentration> {
        match self {
            Self::Nutrient { material, given, strength: Strength::LowestInPrint } => {
                let typed = plain(lowest(*material, *given)?.ppm());
                typed.parse().ok().map(Concentration::from_ppm)
            }
            Self::Nutrient { strength: Strength::Open, .. }
            | Self::Entry(_)
            | Self::Feed
            | Self::GrowthRegulator
            | Self::Pinch
            | Self::Count(_)
            | Self::Spray { .. }
            | Self::LastNight(_) => None,
        }
    }

    /// The strengths to tell, ppm of the element: the one it is filled in with, or the ends of what is in print where it is open.
    pub fn strengths(&self) -> Vec<Concentration> {
        match self {
            Self::Nutrient { material, given, strength: Strength::Open } => {
                lowest(*material, *given).into_iter().chain(highest(*material, *given)).collect()
            }
            Self::Nutrient { strength: Strength::LowestInPrint, .. }
            | Self::Entry(_)
            | Self::Feed
            | Self::GrowthRegulator
            | Self::Pinch
            | Self::Count(_)
            | Self::Spray { .. }
            | Self::LastNight(_) => self.strength().into_iter().collect(),
        }
    }
}

fn lowest(material: Material, given: Given) -> Option<Concentration> {
    usual_rates(material, given).map(|rate| rate.low_ppm).reduce(f64::min).map(Concentration::from_ppm)
}

fn highest(material: Material, given: Given) -> Option<Concentration> {
    usual_rates(material, given).map(|rate| rate.high_ppm).reduce(f64::max).map(Concentration::from_ppm)
}
