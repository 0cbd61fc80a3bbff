//! Slow-release topdress: what the pots need together, and the nitrogen it brings.

use super::cautions;
use super::{MixField, MixRefusal, refuse};
use crate::crop::feed::{self, Fraction, Scale, Topdress, Weighed, weigh};
use crate::crop::growth_regulator::Caution;
use crate::units::Mass;

/// The request.
#[derive(Debug, Clone, Copy)]
pub struct TopdressRequest {
    /// Fertilizer per pot.
    pub per_pot: Mass,
    /// Pots.
    pub pots: u32,
    /// Share of N in the fertilizer, where it is known.
    pub nitrogen: Option<Fraction>,
    /// The step of the scale.
    pub scale: Mass,
}

/// The request and its answer.
#[derive(Debug, Clone)]
pub struct TopdressAnswer {
    /// The request.
    pub request: TopdressRequest,
    /// The amounts; the nitrogen is valid only where its share was given.
    pub comes_to: feed::TopdressAnswer,
    /// All of it to the step of the scale.
    pub weighed: Weighed,
    /// The cautions that go with it.
    pub cautions: Vec<Caution>,
}

impl TopdressRequest {
    /// Calculates it.
    ///
    /// # Errors
    /// [`MixRefusal`] for a weight or a number of pots that cannot be.
    pub fn calculate(self) -> Result<TopdressAnswer, MixRefusal> {
        if self.per_pot.g() <= 0.0 {
            return Err(refuse(MixField::Grams)("0 g is nothing; type the grams per pot"));
        }
        if self.pots == 0 {
            return Err(refuse(MixField::Pots)("0 pots; type the number of pots"));
        }
        // The total weight does not depend on the nitrogen, so any share serves where none is known.
        let nitrogen =
            self.nitrogen.map_or_else(|| Fraction::from_percent(1.0), Ok).map_err(refuse(MixField::Percent))?;
        let asked = Topdress { per_pot: self.per_pot, pots: self.pots, nitrogen };
        let comes_to = feed::topdress(asked).map_err(refuse(MixField::Grams))?;
        let scale = Scale::steps_of(self.scale).map_err(refuse(MixField::Scale))?;
        let weighed = weigh(comes_to.total, scale).map_err(refuse(MixField::Grams))?;
        Ok(TopdressAnswer { request: self, comes_to, weighed, cautions: cautions::of_topdress() })
    }
}
