//! `benchwalk mix`: what to measure out. Reads no season and writes nothing.
//!
//! Every quantity takes any of its units. The strength of a product is always typed from its pack. Growth-regulator answers
//! always end with the cautions.

mod feed;
mod growth_answer;
mod growth_regulator;
mod nutrient;
mod page;
mod weighed;

use super::args::UnitsArg;
use super::{CommandError, Context};
use crate::units::{Mass, Quantity, System, Volume, plain};
use clap::{Args, Subcommand};

/// Options of `mix`.
#[derive(Debug, Args)]
pub struct MixArgs {
    /// What is mixed.
    #[command(subcommand)]
    pub what: What,
}

/// What is mixed.
#[derive(Debug, Subcommand)]
pub enum What {
    /// A growth regulator or a tank of several: amounts, dose a pot, usual range, last safe day, cautions.
    GrowthRegulator(Box<growth_regulator::GrowthRegulatorArgs>),
    /// Extra magnesium, molybdenum or calcium, in a tank or as stock for an injector.
    Nutrient(nutrient::NutrientArgs),
    /// Liquid feed from a bag of fertilizer, in a tank or as stock for an injector.
    Feed(feed::FeedArgs),
}

/// Reckons a mix and prints it.
pub(super) fn run(args: &MixArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    match &args.what {
        What::GrowthRegulator(args) => growth_regulator::run(args, context),
        What::Nutrient(args) => nutrient::run(args, context),
        What::Feed(args) => feed::run(args, context),
    }
}

/// A value in the units asked for, with the other system's beside it.
fn both(units: UnitsArg, show: impl Fn(System) -> String) -> String {
    let (first, second) = match units {
        UnitsArg::Us => (System::Us, System::Metric),
        UnitsArg::Metric => (System::Metric, System::Us),
    };
    format!("{} ({})", show(first), show(second))
}

/// A weight as it is read at its size: oz and g when small, lb and kg when large.
fn mass(units: UnitsArg, mass: Mass) -> String {
    const POUND_G: f64 = 453.592_37;
    both(units, |system| match system {
        System::Us if mass.g() >= POUND_G => format!("{} lb", plain(mass.g() / POUND_G)),
        System::Metric if mass.g() >= 1000.0 => format!("{} kg", plain(mass.g() / 1000.0)),
        _ => mass.show(system),
    })
}

/// How far something is off, in words: `+1.4 %`, or that it is not.
fn off(share: f64) -> String {
    if share.abs() < 0.0005 { "exact".to_owned() } else { format!("{:+.1} %", share * 100.0) }
}

/// A volume as it is measured at its size: fl oz and mL when small, gal and L when large.
fn volume(units: UnitsArg, volume: Volume) -> String {
    const HALF_GALLON_ML: f64 = 1892.7;
    if volume.ml() < HALF_GALLON_ML {
        let small = crate::crop::growth_regulator::Amount::Volume(volume);
        return both(units, |system| small.show(system));
    }
    both(units, |system| volume.show(system))
}
