//! The Mixing page to be opened: what it is filled in with.
#![deny(clippy::wildcard_enum_match_arm)]

use super::Model;
use crate::crop::feed::Given;
use crate::record::{KindName, Term, Value, typed};
use crate::review::figures;
use crate::warnings::{Remedy, WarningName};

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

/// A field of the Mixing page.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum MixingField {
    /// The benches it is for.
    Benches,
    /// The area sprayed.
    Area,
    /// The spray on an area.
    Rate,
    /// The number of pots.
    Pots,
    /// The whole volume of the finished solution.
    Volume,
    /// The injector.
    Injector,
    /// The volume of the stock tank.
    Stock,
    /// The step of the scale.
    Scale,
    /// What else goes into the tank.
    Beside,
    /// Spray or drench, of growth regulators and nutrients.
    Method(MixTab),
    /// What a pot gets, of all but topdress.
    PerPot(MixTab),
    /// The ppm of a nutrient's element, or of N in a feed.
    Ppm(MixTab),
    /// The share of the element in a salt, or of N in a topdress.
    Percent(MixTab),
    /// Percent made over and above.
    Reserve,
    /// An ingredient of the tank, counted from 0.
    Ingredient(usize),
    /// The strength of its product.
    Strength(usize),
    /// Its ppm in the tank.
    PartPpm(usize),
    /// The salt of a nutrient.
    Material,
    /// The water of the first of two steps.
    FirstWater,
    /// The step of the cylinder or syringe.
    MeasureStep,
    /// The three numbers of a bag.
    Analysis,
    /// The ppm of magnesium in a feed.
    Magnesium,
    /// The ppm of molybdenum in a feed.
    Molybdenum,
    /// The EC on the bag's chart.
    ChartEc,
    /// The ppm of N next to it.
    ChartPpm,
    /// The EC of the plain water.
    WaterEc,
    /// The EC of the feed.
    FeedEc,
    /// Fertilizer a pot.
    Grams,
}

/// The Mixing page to be opened.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct MixingRequest {
    /// What is mixed; as it was left where none is named.
    pub tab: Option<MixTab>,
    /// For these benches, in walking order.
    pub benches: Vec<String>,
    /// Further fields as they are typed.
    pub fill: Vec<(MixingField, String)>,
}

impl MixingRequest {
    /// For some benches.
    pub fn of(benches: Vec<String>) -> Self {
        Self { benches, ..Self::default() }
    }

    /// What answers the warnings of one problem or job: its benches, and the material where one is meant. Neither the strength
    /// of a product nor a ppm is ever filled in.
    pub fn answering(warnings: &[WarningName], benches: Vec<String>) -> Self {
        let found = warnings.iter().flat_map(|name| name.rule().answers).find_map(|answer| fill(&answer.remedy));
        let (tab, fill) = found.map_or((None, Vec::new()), |(tab, fill)| (Some(tab), fill));
        Self { tab, benches, fill }
    }

    /// The same with what a pot of its benches got last, where that is one volume for all of them.
    #[must_use]
    pub fn with_known(mut self, model: &Model) -> Self {
        let Some(tab @ (MixTab::Nutrient | MixTab::Feed)) = self.tab else { return self };
        let known = figures(&model.season, None, (&self.benches, model.day)).ml_per_pot;
        let field = KindName::Fed.table().field("ml_per_pot");
        let text = field.zip(known).map(|(field, ml)| typed::rounded(field, &Value::Number(ml), model.system()));
        self.fill.push((MixingField::PerPot(tab), text.unwrap_or_default()));
        self
    }
}

type Fill = (MixTab, Vec<(MixingField, String)>);

/// The page that works out what answers a warning; `None` where nothing is mixed.
fn fill(remedy: &Remedy) -> Option<Fill> {
    match *remedy {
        Remedy::Nutrient { given: Given::InFeed, .. } | Remedy::Feed => Some((MixTab::Feed, Vec::new())),
        Remedy::Nutrient { material, given: Given::Apart(method) } => {
            // A ppm left from another mix is not that of this one.
            let fields = [
                (MixingField::Material, material.code().to_owned()),
                (MixingField::Method(MixTab::Nutrient), method.code().to_owned()),
                (MixingField::Ppm(MixTab::Nutrient), String::new()),
            ];
            Some((MixTab::Nutrient, fields.to_vec()))
        }
        Remedy::GrowthRegulator => Some((MixTab::GrowthRegulator, Vec::new())),
        Remedy::Entry(_) | Remedy::Pinch | Remedy::Count(_) | Remedy::Spray { .. } | Remedy::LastNight(_) => None,
    }
}
