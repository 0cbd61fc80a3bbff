//! The common part of nutrients and feeds: a weight of a solid for a tank, or for the stock of an injector.

use super::{MixField, MixRefusal, refuse};
use crate::crop::feed::{
    Batch, Fraction, Injector, Scale, Weighed, batch_of_feed, batch_of_stock, material_for, oz_per_gal, weigh,
};
use crate::crop::growth_regulator::dose_per_pot;
use crate::units::{Concentration, Mass, Volume};

/// What it is weighed into.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Into {
    /// Straight into a tank of this volume.
    Tank(Volume),
    /// Into this volume of stock for an injector.
    Stock(Injector, Volume),
    /// Into the stock of an injector that makes this volume of feed.
    Feed(Injector, Volume),
}

/// The weight, and what it is for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Weighing {
    /// How strong the feed is to be.
    pub target: Concentration,
    /// The share of the element.
    pub share: Fraction,
    /// The tank, or the stock.
    pub tank: Volume,
    /// The injector and its batch.
    pub stock: Option<(Injector, Batch)>,
    /// The exact weight.
    pub exact: Mass,
    /// The scale.
    pub scale: Scale,
    /// The weight as the scale shows it.
    pub weighed: Weighed,
    /// The exact weight in a gallon of the tank, oz.
    pub oz_per_gal: f64,
}

impl Weighing {
    /// Calculates a weight.
    ///
    /// # Errors
    /// [`MixRefusal`] for a volume, an injector's stock or a scale that cannot be.
    pub fn of(target: Concentration, share: Fraction, into: Into, step: Mass) -> Result<Self, MixRefusal> {
        let (tank, stock, exact) = match into {
            Into::Tank(tank) => (tank, None, material_for(target, share, tank).map_err(refuse(MixField::Volume))?),
            Into::Stock(injector, stock) => {
                let batch = batch_of_stock(target, share, injector, stock).map_err(refuse(MixField::Stock))?;
                (stock, Some((injector, batch)), batch.material)
            }
            Into::Feed(injector, feed) => {
                let batch = batch_of_feed(target, share, injector, feed).map_err(refuse(MixField::Feed))?;
                (batch.stock, Some((injector, batch)), batch.material)
            }
        };
        let scale = Scale::steps_of(step).map_err(refuse(MixField::Scale))?;
        let weighed = weigh(exact, scale).map_err(refuse(MixField::Volume))?;
        let oz_per_gal = oz_per_gal(exact.g() / liters(tank)).map_err(refuse(MixField::Volume))?;
        Ok(Self { target, share, tank, stock, exact, scale, weighed, oz_per_gal })
    }

    /// The exact weight in a liter of the tank, g.
    pub fn g_per_l(&self) -> f64 {
        self.exact.g() / liters(self.tank)
    }

    /// The strength in the tank: that of the stock, where there is one.
    pub fn tank_strength(&self) -> Concentration {
        self.stock.map_or(self.target, |(_, batch)| batch.stock_strength)
    }
}

fn liters(volume: Volume) -> f64 {
    volume.ml() / 1000.0
}

/// An element per pot, mg, from the ppm and the volume per pot.
pub(super) fn mg_per_pot(target: Concentration, per_pot: Option<Volume>) -> Result<Option<f64>, MixRefusal> {
    let Some(per_pot) = per_pot else { return Ok(None) };
    let dose = dose_per_pot(target, per_pot).map_err(refuse(MixField::PerPot))?;
    Ok(Some(dose.g() * 1000.0))
}
