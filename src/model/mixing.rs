//! The Mixing page to be opened: what it is filled in with.

use crate::warnings::{Warning, WarningName};

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
        let found = warnings.iter().find_map(|w| fill(w.name));
        let (tab, fill) = found.map_or((None, Vec::new()), |(tab, fill)| (Some(tab), fill));
        let fill = fill.into_iter().map(|(name, text)| (name, text.to_owned())).collect();
        Self { tab, benches, fill }
    }
}

type Fill = (MixTab, Vec<(&'static str, &'static str)>);

fn fill(name: WarningName) -> Option<Fill> {
    use WarningName as N;
    Some(match name {
        // 1 lb on 100 gal (Purdue).
        N::MagnesiumDue | N::MagnesiumMissed => (
            MixTab::Nutrient,
            vec![("material", "magnesium-sulfate"), ("nutrient how", "drench"), ("nutrient ppm", "118")],
        ),
        N::MolybdenumDue | N::MolybdenumMissed => {
            (MixTab::Nutrient, vec![("material", "sodium-molybdate"), ("nutrient how", "drench"), ("nutrient ppm", "")])
        }
        N::CalciumDue => {
            (MixTab::Nutrient, vec![("material", "calcium-chloride"), ("nutrient how", "spray"), ("nutrient ppm", "")])
        }
        N::Unfed | N::SaltsLow | N::TaperFeed => (MixTab::Feed, Vec::new()),
        N::TooTall | N::FinishingTall => (MixTab::GrowthRegulator, Vec::new()),
        _ => return None,
    })
}
