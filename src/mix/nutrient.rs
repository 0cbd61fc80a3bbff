//! Extra magnesium, molybdenum and calcium: what to weigh, by two steps where the scale is too coarse.

use super::cautions;
use super::weighing::mg_per_pot;
use super::{Apart, Into, MixField, MixRefusal, Weighing, apart, refuse};
use crate::crop::CropError;
use crate::crop::feed::{Carries, Fraction, Given, TwoStep, beyond_usual, two_step};
use crate::crop::growth_regulator::Caution;
use crate::record::{Material, Term};
use crate::units::{Concentration, Mass, Volume};

/// A strength this many times the highest in print is asked about (house rule).
const FAR_BEYOND: f64 = 1.5;

/// What is asked.
#[derive(Debug, Clone)]
pub struct NutrientRequest {
    /// The salt.
    pub material: Material,
    /// How strong the solution is to be.
    pub ppm: Concentration,
    /// How it is given, where that is known.
    pub how: Option<Given>,
    /// The share of the element; that of the pure salt where none is given.
    pub share: Option<Fraction>,
    /// Into what.
    pub into: Into,
    /// The step of the scale.
    pub scale: Mass,
    /// Where a weight is too small: the water its first solution is made with.
    pub first: Volume,
    /// The step that solution is measured with.
    pub measure: Volume,
    /// The volume per pot.
    pub per_pot: Option<Volume>,
    /// What else goes into the tank.
    pub beside: Vec<(&'static str, Carries)>,
}

/// What was asked and what it comes to.
#[derive(Debug, Clone)]
pub struct NutrientAnswer {
    /// What was asked.
    pub request: NutrientRequest,
    /// The weight.
    pub weighing: Weighing,
    /// The two steps of a weight that is too small, or why there are none.
    pub steps: Option<Result<TwoStep, CropError>>,
    /// The element per pot, mg.
    pub mg_per_pot: Option<f64>,
    /// The strength is more than 1.5 times every published rate for this method.
    pub too_strong: bool,
    /// What of the tank does not go together.
    pub clashes: Vec<Apart>,
    /// What is said with it.
    pub cautions: Vec<Caution>,
}

const fn carries(material: Material) -> Carries {
    match material {
        Material::MagnesiumSulfate => Carries::SULFATE,
        Material::CalciumChloride => Carries::CALCIUM,
        Material::SodiumMolybdate | Material::AmmoniumMolybdate => {
            Carries { calcium: false, sulfate: false, phosphate: false }
        }
    }
}

impl NutrientRequest {
    /// Calculates it.
    ///
    /// # Errors
    /// [`MixRefusal`] for a strength or volume that cannot be.
    pub fn calculate(self) -> Result<NutrientAnswer, MixRefusal> {
        if self.ppm.ppm() <= 0.0 {
            return Err(refuse(MixField::Ppm)("0 ppm needs nothing; type the target ppm"));
        }
        let share = self.share.unwrap_or_else(|| self.material.fraction());
        let weighing = Weighing::of(self.ppm, share, self.into, self.scale)?;
        // Too little even for two steps: the reason is part of the answer, the weight still stands.
        let steps =
            weighing.weighed.too_small.then(|| two_step(weighing.exact, weighing.scale, self.first, self.measure));
        let injector = weighing.stock.is_some();
        let said = cautions::of_nutrient(self.material, self.how, injector, cautions::names(&self.beside));
        let mg_per_pot = mg_per_pot(weighing.target, self.per_pot)?;
        let beyond = |how| beyond_usual(self.material, how, weighing.target, FAR_BEYOND);
        let too_strong = self.how.and_then(beyond) == Some(true);
        let clashes = self.clashes();
        Ok(NutrientAnswer { request: self, weighing, steps, mg_per_pot, too_strong, clashes, cautions: said })
    }

    fn clashes(&self) -> Vec<Apart> {
        let mut tank = vec![(self.material.code(), carries(self.material))];
        tank.extend(&self.beside);
        apart(&tank)
    }
}
