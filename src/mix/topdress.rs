//! Slow-release topdress: what the pots need in all, and the nitrogen it brings.

use super::cautions::{Work, cautions};
use super::{MixField, MixRefusal, refuse};
use crate::crop::feed::{self, Fraction, Scale, Topdress, Weighed, weigh};
use crate::crop::growth_regulator::Caution;
use crate::units::Mass;

/// What is asked.
#[derive(Debug, Clone, Copy)]
pub struct TopdressRequest {
    /// Fertilizer a pot.
    pub per_pot: Mass,
    /// Pots.
    pub pots: u32,
    /// Share of N in the fertilizer, where it is known.
    pub nitrogen: Option<Fraction>,
    /// The step of the scale.
    pub scale: Mass,
}

/// What was asked and what it comes to.
#[derive(Debug, Clone)]
pub struct TopdressAnswer {
    /// What was asked.
    pub request: TopdressRequest,
    /// What it comes to; its nitrogen counts only where the share was given.
    pub comes_to: feed::TopdressAnswer,
    /// All of it to the step of the scale.
    pub weighed: Weighed,
    /// What is said with it.
    pub cautions: Vec<Caution>,
}

impl TopdressRequest {
    /// Calculates it.
    ///
    /// # Errors
    /// [`MixRefusal`] for a weight or a number of pots that cannot be.
    pub fn calculate(self) -> Result<TopdressAnswer, MixRefusal> {
        if self.per_pot.g() <= 0.0 {
            return Err(refuse(MixField::Grams)("0 g is nothing; type what a pot is to get"));
        }
        if self.pots == 0 {
            return Err(refuse(MixField::Pots)("0 pots; type how many there are"));
        }
        // The weight of the whole does not hang on the nitrogen; any share does where none is known.
        let nitrogen =
            self.nitrogen.map_or_else(|| Fraction::from_percent(1.0), Ok).map_err(refuse(MixField::Percent))?;
        let asked = Topdress { per_pot: self.per_pot, pots: self.pots, nitrogen };
        let comes_to = feed::topdress(asked).map_err(refuse(MixField::Grams))?;
        let scale = Scale::steps_of(self.scale).map_err(refuse(MixField::Scale))?;
        let weighed = weigh(comes_to.total, scale).map_err(refuse(MixField::Grams))?;
        Ok(TopdressAnswer { request: self, comes_to, weighed, cautions: cautions(Work::Fertilizer).to_vec() })
    }
}
