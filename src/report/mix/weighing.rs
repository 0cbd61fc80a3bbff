//! What nutrients and feeds have in common: a weight of a solid for a tank, or for the stock of an injector.

use super::{Asked, Page, Refused, mass, off, refuse, volume};
use crate::crop::feed::{
    Batch, Fraction, Injector, Scale, Weighed, batch_of_feed, batch_of_stock, material_for, oz_per_gal, weigh,
};
use crate::units::{Concentration, Mass, System, Volume, plain};
use serde_json::{Value, json};

/// Into what it is weighed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Into {
    /// Straight into a tank of this volume.
    Tank(Volume),
    /// Into so much stock for an injector.
    Stock(Injector, Volume),
    /// Into the stock of an injector that makes so much feed.
    Feed(Injector, Volume),
}

/// What to weigh, and for what.
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
    /// What the scale can weigh of it.
    pub weighed: Weighed,
}

impl Weighing {
    /// Reckons a weight.
    ///
    /// # Errors
    /// [`Refused`] for a volume, an injector's stock or a scale that cannot be.
    pub fn of(target: Concentration, share: Fraction, into: Into, step: Mass) -> Result<Self, Refused> {
        let (tank, stock, exact) = match into {
            Into::Tank(tank) => (tank, None, material_for(target, share, tank).map_err(refuse(Asked::Volume))?),
            Into::Stock(injector, stock) => {
                let batch = batch_of_stock(target, share, injector, stock).map_err(refuse(Asked::Stock))?;
                (stock, Some((injector, batch)), batch.material)
            }
            Into::Feed(injector, feed) => {
                let batch = batch_of_feed(target, share, injector, feed).map_err(refuse(Asked::Feed))?;
                (batch.stock, Some((injector, batch)), batch.material)
            }
        };
        let scale = Scale::steps_of(step).map_err(refuse(Asked::Scale))?;
        let weighed = weigh(exact, scale).map_err(refuse(Asked::Volume))?;
        Ok(Self { target, share, tank, stock, exact, scale, weighed })
    }

    /// What it is for, in words.
    pub(super) fn purpose(&self, units: System) -> String {
        match &self.stock {
            None => format!("in {}", volume(units, self.tank)),
            Some((injector, batch)) => format!(
                "through an injector 1:{}, {} of stock for {} of feed",
                plain(injector.ratio()),
                volume(units, self.tank),
                volume(units, batch.feed)
            ),
        }
    }

    /// The lines every answer has.
    pub(super) fn lines(&self, page: &mut Page, units: System) -> Result<(), Refused> {
        page.item("weigh", mass(units, self.exact));
        if !self.weighed.too_small {
            let off = off(self.weighed.off);
            let makes = plain(self.weighed.gives(self.target).ppm());
            page.item("to a step", format!("{} g, which makes {makes} ppm ({off})", plain(self.weighed.weigh.g())));
        }
        let in_a_liter = self.exact.g() / (self.tank.ml() / 1000.0);
        let ounces = oz_per_gal(in_a_liter).map_err(refuse(Asked::Volume))?;
        if in_a_liter < 0.01 {
            page.item("that is", format!("{} mg a liter", plain(in_a_liter * 1000.0)));
        } else {
            page.item("that is", format!("{} oz a gallon, {} g a liter", plain(ounces), plain(in_a_liter)));
        }
        if let Some((_, batch)) = &self.stock {
            page.item("in the stock", format!("{} ppm", plain(batch.stock_strength.ppm())));
        }
        let strength = self.stock.map_or(self.target, |(_, batch)| batch.stock_strength);
        page.item(
            "reckoned",
            format!(
                "g = ppm x liters / (1000 x share) = {} x {} / (1000 x {}) = {}",
                plain(strength.ppm()),
                plain(self.tank.ml() / 1000.0),
                plain(self.share.share()),
                plain(self.exact.g())
            ),
        );
        Ok(())
    }

    /// The fields every answer has.
    pub(super) fn json(&self) -> Value {
        json!({
            "ppm": self.target.ppm(),
            "share": self.share.share(),
            "tank_ml": self.tank.ml(),
            "injector": self.stock.map(|(injector, _)| injector.ratio()),
            "stock_ppm": self.stock.map(|(_, batch)| batch.stock_strength.ppm()),
            "feed_ml": self.stock.map(|(_, batch)| batch.feed.ml()),
            "exact_g": self.exact.g(),
            "weighed_g": self.weighed.weigh.g(),
            "weighed_makes_ppm": self.weighed.gives(self.target).ppm(),
            "too_small_to_weigh": self.weighed.too_small,
        })
    }
}

/// What a pot gets of an element, in words: mg, from the ppm and the volume a pot.
pub(super) fn a_pot_gets(
    page: &mut Page,
    target: Concentration,
    per_pot: Option<Volume>,
    element: &str,
) -> Result<(), Refused> {
    if let Some(per_pot) = per_pot {
        let dose = crate::crop::growth_regulator::dose_per_pot(target, per_pot).map_err(refuse(Asked::PerPot))?;
        page.item("a pot gets", format!("{} mg of {element}", plain(dose.g() * 1000.0)));
    }
    Ok(())
}
