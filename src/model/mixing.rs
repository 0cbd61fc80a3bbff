//! The Mixing page to be opened: what it is filled in with.
#![deny(clippy::wildcard_enum_match_arm)]

use crate::crop::feed::Given;
use crate::record::Term;
use crate::units::plain;
use crate::warnings::{Remedy, Warning};

/// What is mixed: the pages of the Mixing page.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum MixTab {
    /// Growth regulators.
    GrowthRegulator,
    /// Extra nutrients.
    Nutrient,
    /// Liquid feed.
    Feed,
    /// Topdress.
    Topdress,
}

impl MixTab {
    /// Every one, in the order they are shown.
    pub const ALL: [Self; 4] = [Self::GrowthRegulator, Self::Nutrient, Self::Feed, Self::Topdress];

    /// Its name.
    pub const fn text(self) -> &'static str {
        match self {
            Self::GrowthRegulator => "growth regulator",
            Self::Nutrient => "nutrient",
            Self::Feed => "liquid feed",
            Self::Topdress => "topdress",
        }
    }
}

/// The Mixing page to be opened.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Mixing {
    /// What is mixed; as it was left where none is named.
    pub tab: Option<MixTab>,
    /// For these benches, in walking order.
    pub benches: Vec<String>,
    /// Further fields, by name, as they are typed.
    pub fill: Vec<(&'static str, String)>,
}

impl Mixing {
    /// For some benches.
    pub fn of(benches: Vec<String>) -> Self {
        Self { benches, ..Self::default() }
    }

    /// What answers the warnings of one trouble: its benches, and the material where one is meant. Strengths of packs are never
    /// filled in, nor a ppm that sources disagree on.
    pub fn answering(warnings: &[Warning], benches: Vec<String>) -> Self {
        let found = warnings.iter().flat_map(|w| w.name.rule().answers).find_map(|answer| fill(&answer.remedy));
        let (tab, fill) = found.map_or((None, Vec::new()), |(tab, fill)| (Some(tab), fill));
        Self { tab, benches, fill }
    }
}

type Fill = (MixTab, Vec<(&'static str, String)>);

/// The page that works out what answers a warning; `None` where nothing is mixed.
fn fill(remedy: &Remedy) -> Option<Fill> {
    match *remedy {
        Remedy::Nutrient { given: Given::InFeed, .. } | Remedy::Feed => Some((MixTab::Feed, Vec::new())),
        Remedy::Nutrient { material, given: Given::Apart(method), .. } => {
            let ppm = remedy.strength().map_or_else(String::new, |s| plain(s.ppm()));
            let fields = [
                ("material", material.code().to_owned()),
                ("nutrient how", method.code().to_owned()),
                ("nutrient ppm", ppm),
            ];
            Some((MixTab::Nutrient, fields.to_vec()))
        }
        Remedy::GrowthRegulator => Some((MixTab::GrowthRegulator, Vec::new())),
        Remedy::Entry(_) | Remedy::Pinch | Remedy::Count(_) | Remedy::Spray { .. } | Remedy::LastNight(_) => None,
    }
}
