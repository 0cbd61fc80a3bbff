//! `benchwalk mix`: what to measure out. Reads no season and writes nothing.
//!
//! Every quantity takes any of its units. The strength of a product is always typed from its pack. Every answer ends with the
//! cautions. What it comes to and how it reads is `report::mix`'s, which the Mixing page shows too.

mod feed;
mod growth_regulator;
mod nutrient;
mod weighed;

use super::{CommandError, Context};
use crate::report::mix::{Asked, Refused};
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

/// The option a thing asked is typed with; `dose` is the one a strength was asked by.
const fn option(asked: Asked, dose: &'static str) -> &'static str {
    match asked {
        Asked::Mixed => "--ppm, --strength",
        Asked::Ppm => dose,
        Asked::Volume => "--volume",
        Asked::Area => "--area",
        Asked::Rate => "--rate",
        Asked::Pots => "--pots",
        Asked::PerPot => "--per-pot",
        Asked::Percent => "--percent",
        Asked::Injector => "--injector",
        Asked::Stock => "--stock",
        Asked::Feed => "--feed",
        Asked::Scale => "--scale",
        Asked::Analysis => "--analysis",
        Asked::Chart => "--chart-ec, --chart-n",
        Asked::WaterEc => "--water-ec",
        Asked::FeedEc => "--feed-ec",
        Asked::Grams => "--grams",
    }
}

/// Turns what cannot be into the refusal of its option.
fn told(dose: &'static str) -> impl Fn(Refused) -> CommandError {
    move |refused| CommandError::Typed { option: option(refused.asked, dose), reason: refused.reason }
}
