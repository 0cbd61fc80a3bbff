//! `benchwalk mix nutrient`: extra magnesium, molybdenum and calcium.

use super::print;
use super::weighed::WeighedArgs;
use crate::commands::arg_values::{number, quantity, refused};
use crate::commands::{CommandError, Context};
use crate::crop::feed::Fraction;
use crate::mix::{MixRequest, NutrientRequest};
use crate::record::Material;
use crate::units::System;
use clap::{Args, ValueEnum};

const EXAMPLE: &str = "\
Examples:
  benchwalk mix nutrient --material magnesium-sulfate --ppm 118 --volume 100gal
  benchwalk mix nutrient --material sodium-molybdate --ppm 0.1 --injector 1:100 --stock 20L";

/// Options of `mix nutrient`.
#[derive(Debug, Args)]
#[command(after_help = EXAMPLE)]
pub struct NutrientArgs {
    /// The salt.
    #[arg(long, value_enum)]
    pub material: MaterialArg,
    /// How strong the solution is to be, ppm of Mg, Mo or Ca.
    #[arg(long, value_name = "PPM", allow_hyphen_values = true)]
    pub ppm: String,
    /// The share of the element as the bag says it; that of the pure salt when not given.
    #[arg(long, value_name = "PERCENT", allow_hyphen_values = true)]
    pub percent: Option<String>,
    /// Where a weight is too small: the water its first solution is made with.
    #[arg(long, value_name = "VOLUME", default_value = "1 L", allow_hyphen_values = true)]
    pub first: String,
    /// The step of the cylinder or syringe that solution is taken with.
    #[arg(long, value_name = "VOLUME", default_value = "1 mL", allow_hyphen_values = true)]
    pub measure: String,
    /// The solution and the scale.
    #[command(flatten)]
    pub into: WeighedArgs,
}

/// The salt, as typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum MaterialArg {
    /// Magnesium sulfate, as Mg.
    MagnesiumSulfate,
    /// Sodium molybdate, as Mo.
    SodiumMolybdate,
    /// Ammonium molybdate, as Mo.
    AmmoniumMolybdate,
    /// Calcium chloride, as Ca.
    CalciumChloride,
}

impl From<MaterialArg> for Material {
    fn from(typed: MaterialArg) -> Self {
        match typed {
            MaterialArg::MagnesiumSulfate => Self::MagnesiumSulfate,
            MaterialArg::SodiumMolybdate => Self::SodiumMolybdate,
            MaterialArg::AmmoniumMolybdate => Self::AmmoniumMolybdate,
            MaterialArg::CalciumChloride => Self::CalciumChloride,
        }
    }
}

/// Calculates the weight and prints it.
pub(super) fn run(args: &NutrientArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let share = match &args.percent {
        None => None,
        Some(text) => Some(Fraction::from_percent(number("--percent", text, &["%"])?).map_err(refused("--percent"))?),
    };
    let request = NutrientRequest {
        material: args.material.into(),
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
    print(MixRequest::Nutrient(request), ("--ppm", args.into.units.into(), args.into.format), context)
}
