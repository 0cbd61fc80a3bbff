//! `benchwalk mix nutrient`: extra magnesium, molybdenum and calcium.

use super::print;
use super::weighed::WeighedArgs;
use crate::commands::arg_values::{number, quantity, refused, term};
use crate::commands::{CommandError, Context};
use crate::crop::feed::Fraction;
use crate::mix::{MixRequest, NutrientRequest};
use crate::terms::Material;
use crate::units::System;
use clap::Args;

const EXAMPLE: &str = "\
Examples:
  benchwalk mix nutrient --material magnesium-sulfate --ppm 118 --volume 100gal
  benchwalk mix nutrient --material sodium-molybdate --ppm 0.1 --injector 1:100 --stock 20L";

/// Options of `mix nutrient`.
#[derive(Debug, Args)]
#[command(after_help = EXAMPLE)]
pub struct NutrientArgs {
    /// Material.
    #[arg(long, value_name = "SALT", value_parser = term::<Material>())]
    pub material: Material,
    /// Target solution concentration, ppm of Mg, Mo or Ca.
    #[arg(long, value_name = "PPM", allow_hyphen_values = true)]
    pub ppm: String,
    /// Percent of the element on the bag; default: pure salt.
    #[arg(long, value_name = "PERCENT", allow_hyphen_values = true)]
    pub percent: Option<String>,
    /// For amounts too small to weigh: volume of the first solution.
    #[arg(long, value_name = "VOLUME", default_value = "1 L", allow_hyphen_values = true)]
    pub first: String,
    /// Smallest mark on the cylinder or syringe.
    #[arg(long, value_name = "VOLUME", default_value = "1 mL", allow_hyphen_values = true)]
    pub measure: String,
    /// The solution and the scale.
    #[command(flatten)]
    pub into: WeighedArgs,
}

/// Calculates the weight and prints it.
pub(super) fn run(args: &NutrientArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let share = match &args.percent {
        None => None,
        Some(text) => Some(Fraction::from_percent(number("--percent", text, &["%"])?).map_err(refused("--percent"))?),
    };
    let request = NutrientRequest {
        material: args.material,
        ppm: quantity("--ppm", &args.ppm, System::Metric)?,
        how: None,
        share,
        into: args.into.read()?,
        scale: args.into.step()?,
        first: quantity("--first", &args.first, System::Metric)?,
        measure: quantity("--measure", &args.measure, System::Metric)?,
        per_pot: None,
        beside: Vec::new(),
    };
    print(MixRequest::Nutrient(request), ("--ppm", args.into.units, args.into.format), context)
}
