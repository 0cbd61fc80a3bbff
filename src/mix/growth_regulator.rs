//! A growth regulator, or a tank of several: amounts, dose per pot, usual range, last safe days, cautions.

use super::cautions::of_growth_regulator;
use super::{MixField, MixRefusal, Solution, refuse};
use crate::crop::growth_regulator::{
    Caution, Cutoff, CutoffDays, Ingredient, Measured, PackCheck, Part, PublishedRate, Strong, check_pack, cutoff,
    dose_per_pot, published_rates, strong, tank,
};
use crate::limits::Limits;
use crate::terms::{Method, Region};
use crate::units::Volume;
use chrono::NaiveDate;

/// What the last safe day is calculated from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LotDates {
    /// The lot; empty where none is named.
    pub lot: String,
    /// The first of its short days.
    pub short_days: NaiveDate,
    /// Its sale.
    pub sale: NaiveDate,
}

impl LotDates {
    /// The last safe day of an ingredient applied by a method, where the fall is like this; `on` is the day of the work.
    pub fn last_day(
        &self,
        (ingredient, method): (Ingredient, Method),
        (region, rules): (Region, CutoffDays),
        on: Option<NaiveDate>,
    ) -> LastDay {
        let last = cutoff(ingredient, method, region, self.short_days, self.sale, rules);
        LastDay { lot: self.lot.clone(), last, late: on.is_some_and(|on| last.is_late(on)) }
    }
}

/// What is asked.
#[derive(Debug, Clone)]
pub struct GrowthRegulatorRequest {
    /// How it is applied.
    pub method: Method,
    /// The solution.
    pub solution: Solution,
    /// The parts of the tank.
    pub parts: Vec<Part>,
    /// The amounts were given and the ppm asked for.
    pub measured: bool,
    /// The lots, for the last safe day.
    pub lots: Vec<LotDates>,
    /// What the fall is like.
    pub region: Region,
    /// The rules of the last safe day.
    pub rules: CutoffDays,
    /// The limits, for the usual tops.
    pub limits: Limits,
    /// The day of the work.
    pub on: Option<NaiveDate>,
}

/// The request and its answer.
#[derive(Debug, Clone)]
pub struct GrowthRegulatorAnswer {
    /// How it is applied.
    pub method: Method,
    /// The solution.
    pub solution: Solution,
    /// One for each part of the tank.
    pub parts: Vec<PartAnswer>,
    /// What is said with it.
    pub cautions: Vec<Caution>,
    /// The amounts were given and the ppm asked for.
    pub measured: bool,
}

/// One ingredient of the tank.
#[derive(Debug, Clone)]
pub struct PartAnswer {
    /// What to measure out.
    pub amount: Measured,
    /// What a pot gets, mg of active ingredient; of a spray, its share of all of it.
    pub mg_per_pot: Option<f64>,
    /// The usual ranges.
    pub usual: Vec<&'static PublishedRate>,
    /// It is above the usual top.
    pub strong: Option<Strong>,
    /// The pack held against the usual one.
    pub pack: PackCheck,
    /// The last safe day of each lot.
    pub last: Vec<LastDay>,
}

/// The last safe day, and whether the day worked on is past it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LastDay {
    /// The lot; empty where none is named.
    pub lot: String,
    /// The day.
    pub last: Cutoff,
    /// The day of the work is past it.
    pub late: bool,
}

impl GrowthRegulatorRequest {
    /// Calculates it.
    ///
    /// # Errors
    /// [`MixRefusal`] for a part that cannot be mixed, or the same ingredient twice.
    pub fn calculate(self) -> Result<GrowthRegulatorAnswer, MixRefusal> {
        let Self { method, solution, parts, measured, lots, region, rules, limits, on } = self;
        for (at, part) in parts.iter().enumerate() {
            tank(&[*part], solution.volume).map_err(|e| MixRefusal { part: at, ..refuse(MixField::Mixed)(e) })?;
        }
        let last = parts.len().saturating_sub(1);
        let amounts =
            tank(&parts, solution.volume).map_err(|e| MixRefusal { part: last, ..refuse(MixField::Mixed)(e) })?;
        let mut answers = Vec::new();
        for amount in amounts {
            let part = amount.part;
            answers.push(PartAnswer {
                amount,
                mg_per_pot: mg_per_pot(method, &solution, &part)?,
                usual: published_rates(part.ingredient, method).collect(),
                strong: strong((part.ingredient, method), &limits, part.ppm, solution.per_pot, solution.rim),
                pack: check_pack(part.ingredient, part.strength),
                last: lots.iter().map(|lot| lot.last_day((part.ingredient, method), (region, rules), on)).collect(),
            });
        }
        let ingredients: Vec<Option<Ingredient>> = parts.iter().map(|p| Some(p.ingredient)).collect();
        let cautions = of_growth_regulator(&ingredients, method);
        Ok(GrowthRegulatorAnswer { method, solution, parts: answers, cautions, measured })
    }
}

fn mg_per_pot(method: Method, solution: &Solution, part: &Part) -> Result<Option<f64>, MixRefusal> {
    let share = match (method, solution.per_pot, solution.pots) {
        (Method::Drench, per_pot, _) => per_pot,
        (Method::Spray, _, Some(pots)) if pots > 0 => Some(Volume::from_ml(solution.volume.ml() / f64::from(pots))),
        (Method::Spray, ..) => None,
    };
    let dose = share.map(|ml| dose_per_pot(part.ppm, ml).map_err(refuse(MixField::PerPot))).transpose()?;
    Ok(dose.map(|d| d.g() * 1000.0))
}
