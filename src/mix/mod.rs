//! The arithmetic of mixing: what is asked, as quantities; what it comes to, as numbers.
//!
//! A [`MixRequest`] is calculated into a [`MixAnswer`], or refused with the field that is wrong. Reading typed text is left to
//! the caller; how an answer reads is `report::mix`. The cautions that go with the work stand here too.

mod amounts;
pub mod cautions;
mod feed;
mod growth_regulator;
mod nutrient;
mod solution;
mod tank;
mod topdress;
mod weighing;

pub use amounts::{both, mass, volume};
pub use feed::{Chart, FeedAnswer, FeedRequest, three_numbers};
pub use growth_regulator::{GrowthRegulatorAnswer, GrowthRegulatorRequest, LastDay, LotDates, PartAnswer};
pub use nutrient::{NutrientAnswer, NutrientRequest};
pub use solution::{Solution, rate};
pub use tank::{Apart, BESIDE, apart, is_acid};
pub use topdress::{TopdressAnswer, TopdressRequest};
pub use weighing::{Into, Weighing};

use crate::crop::CropError;
use crate::crop::growth_regulator::Caution;
use crate::units::{System, UnitError};

/// What is to be mixed.
#[derive(Debug, Clone)]
pub enum MixRequest {
    /// A growth regulator, or a tank of several.
    GrowthRegulator(Box<GrowthRegulatorRequest>),
    /// Extra magnesium, molybdenum or calcium.
    Nutrient(NutrientRequest),
    /// Liquid feed from a bag of fertilizer.
    Feed(FeedRequest),
    /// Slow-release topdress.
    Topdress(TopdressRequest),
}

impl MixRequest {
    /// Calculates it.
    ///
    /// # Errors
    /// [`MixRefusal`] for a quantity that cannot be.
    pub fn calculate(self) -> Result<MixAnswer, MixRefusal> {
        Ok(match self {
            Self::GrowthRegulator(request) => MixAnswer::GrowthRegulator(request.calculate()?),
            Self::Nutrient(request) => MixAnswer::Nutrient(request.calculate()?),
            Self::Feed(request) => MixAnswer::Feed(request.calculate()?),
            Self::Topdress(request) => MixAnswer::Topdress(request.calculate()?),
        })
    }
}

/// What a [`MixRequest`] comes to.
#[derive(Debug, Clone)]
pub enum MixAnswer {
    /// Of a growth regulator.
    GrowthRegulator(GrowthRegulatorAnswer),
    /// Of a nutrient.
    Nutrient(NutrientAnswer),
    /// Of a liquid feed.
    Feed(FeedAnswer),
    /// Of a topdress.
    Topdress(TopdressAnswer),
}

impl MixAnswer {
    /// The cautions that go with the work.
    pub fn cautions(&self) -> &[Caution] {
        match self {
            Self::GrowthRegulator(answer) => &answer.cautions,
            Self::Nutrient(answer) => &answer.cautions,
            Self::Feed(answer) => &answer.cautions,
            Self::Topdress(answer) => &answer.cautions,
        }
    }
}

/// A field of a request, to say which of it is wrong.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum MixField {
    /// The strength of a product and the ppm it is to make.
    Mixed,
    /// The ppm.
    Ppm,
    /// The volume of the finished solution.
    Volume,
    /// The area sprayed.
    Area,
    /// The spray on an area.
    Rate,
    /// The number of pots.
    Pots,
    /// The volume per pot.
    PerPot,
    /// The share of the element in a bag.
    Percent,
    /// The injector.
    Injector,
    /// The volume of stock.
    Stock,
    /// The volume of feed.
    Feed,
    /// The step of the scale.
    Scale,
    /// The three numbers of a bag.
    Analysis,
    /// The EC and ppm of the bag's chart.
    Chart,
    /// The EC of the plain water.
    WaterEc,
    /// The EC of the feed.
    FeedEc,
    /// Fertilizer per pot.
    Grams,
}

/// A field of a request cannot be: which, and why.
#[derive(Debug, Clone, PartialEq)]
pub struct MixRefusal {
    /// Which.
    pub field: MixField,
    /// The part of a tank it belongs to, from 0.
    pub part: usize,
    /// Why, and what would be right.
    pub reason: Reason,
}

/// Why a field of a request cannot be, and what would be right.
#[derive(Debug, Clone, PartialEq)]
pub enum Reason {
    /// Refused by the crop's arithmetic.
    Crop(Box<CropError>),
    /// In words that hold at every site.
    Words(String),
}

impl Reason {
    /// In words, in the units of a system.
    pub fn text(&self, system: System) -> String {
        match self {
            Self::Crop(error) => error.text(system),
            Self::Words(words) => words.clone(),
        }
    }
}

impl From<CropError> for Reason {
    fn from(error: CropError) -> Self {
        Self::Crop(Box::new(error))
    }
}

impl From<UnitError> for Reason {
    fn from(error: UnitError) -> Self {
        Self::Words(error.to_string())
    }
}

impl From<String> for Reason {
    fn from(words: String) -> Self {
        Self::Words(words)
    }
}

impl From<&str> for Reason {
    fn from(words: &str) -> Self {
        Self::Words(words.to_owned())
    }
}

/// Turns a reason into a refusal: `.map_err(refuse(MixField::Volume))`.
fn refuse<E: std::convert::Into<Reason>>(field: MixField) -> impl Fn(E) -> MixRefusal {
    move |reason| MixRefusal { field, part: 0, reason: reason.into() }
}
