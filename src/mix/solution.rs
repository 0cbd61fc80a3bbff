//! The volume of solution, and its use.

use super::{MixField, MixRefusal, refuse};
use crate::crop::growth_regulator::{SprayRate, drench_volume, pots_from, spray_volume, usual_drench};
use crate::units::{Area, Length, System, Volume, parse};

/// The solution: its volume, and its use.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Solution {
    /// All of it.
    pub volume: Volume,
    /// Sprayed on this area, at this rate.
    pub area: Option<(Area, SprayRate)>,
    /// Number of pots treated.
    pub pots: Option<u32>,
    /// The volume per pot.
    pub per_pot: Option<Volume>,
    /// The rim of the pot.
    pub rim: Option<Length>,
    /// The volume per pot was not typed but is the usual one for the pot diameter.
    pub usual_per_pot: bool,
}

impl Solution {
    /// For a spray on an area; without a rate at the usual one. `pots` is the number of pots on it, where known.
    ///
    /// # Errors
    /// [`MixRefusal`] for an area that cannot be.
    pub fn spray(area: Area, rate: Option<SprayRate>, pots: Option<u32>) -> Result<Self, MixRefusal> {
        let rate = rate.unwrap_or(SprayRate::USUAL);
        let volume = spray_volume(area, rate).map_err(refuse(MixField::Area))?;
        Ok(Self { volume, area: Some((area, rate)), pots, ..Self::default() })
    }

    /// For pots; without a volume per pot at the usual one for the pot diameter. `reserve` is made on top, as a share.
    ///
    /// # Errors
    /// [`MixRefusal`] where no volume per pot is known, and for numbers that cannot be.
    pub fn drench(pots: u32, per_pot: Option<Volume>, rim: Option<Length>, reserve: f64) -> Result<Self, MixRefusal> {
        let usual_per_pot = per_pot.is_none();
        let Some(per_pot) = per_pot.or(rim.and_then(usual_drench)) else {
            let reason = "no usual drench is known for this pot; give the volume per pot";
            return Err(refuse(MixField::PerPot)(reason));
        };
        let asked = if pots == 0 { MixField::Pots } else { MixField::PerPot };
        let volume = drench_volume(pots, per_pot, reserve).map_err(refuse(asked))?;
        Ok(Self { volume, area: None, pots: Some(pots), per_pot: Some(per_pot), rim, usual_per_pot })
    }

    /// A volume that is known.
    ///
    /// # Errors
    /// [`MixRefusal`] for a volume per pot that cannot be.
    pub fn whole(volume: Volume, per_pot: Option<Volume>, rim: Option<Length>) -> Result<Self, MixRefusal> {
        let usual = rim.and_then(usual_drench);
        let usual_per_pot = per_pot.is_none() && usual.is_some();
        let per_pot = per_pot.or(usual);
        let pots = per_pot.map(|p| pots_from(volume, p).map_err(refuse(MixField::PerPot))).transpose()?;
        Ok(Self { volume, area: None, pots, per_pot, rim, usual_per_pot })
    }
}

/// Reads a spray rate: `2qt/100ft2`, `0.2 L/m2`.
///
/// # Errors
/// [`MixRefusal`] with what would be right.
pub fn rate(typed: &str, system: System) -> Result<SprayRate, MixRefusal> {
    let Some((volume, area)) = typed.split_once('/') else {
        return Err(refuse(MixField::Rate)("type a volume per area, such as 2qt/100ft2 or 0.2L/m2"));
    };
    // 'L/m2' is on one m2.
    let area = area.trim();
    let area = if area.starts_with(|c: char| c.is_ascii_digit()) { area.to_owned() } else { format!("1 {area}") };
    let volume: Volume = parse(volume, system).map_err(refuse(MixField::Rate))?;
    let area: Area = parse(&area, system).map_err(refuse(MixField::Rate))?;
    SprayRate::ml_per_m2(volume.ml() / area.m2()).map_err(refuse(MixField::Rate))
}
