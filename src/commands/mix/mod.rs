//! `benchwalk mix`: what to measure out. Reads no season and writes nothing.
//!
//! Every quantity takes any of its units. The strength of a product is always typed from its label. Every answer ends with the
//! cautions. What it comes to is `mix`'s and how it reads `report::mix`'s, which the Mixing page shows too.

mod feed;
mod growth_regulator;
mod nutrient;
mod weighed;

use super::arg_values::Format;
use super::{CommandError, Context, arg_values};
use crate::mix::{MixAnswer, MixField, MixRefusal, MixRequest};
use crate::report::mix::{json, page};
use crate::units::System;
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
    /// A growth regulator or a tank of several: amounts, dose per pot, usual range, last safe day, cautions.
    GrowthRegulator(Box<growth_regulator::GrowthRegulatorArgs>),
    /// Extra magnesium, molybdenum or calcium, in a tank or as stock for an injector.
    Nutrient(nutrient::NutrientArgs),
    /// Fertilizer solution (liquid feed) from a bag, in a tank or as stock for an injector.
    Feed(feed::FeedArgs),
}

/// Calculates a mix and prints it.
pub(super) fn run(args: &MixArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    match &args.what {
        What::GrowthRegulator(args) => growth_regulator::run(args, context),
        What::Nutrient(args) => nutrient::run(args, context),
        What::Feed(args) => feed::run(args, context),
    }
}

/// Calculates a mix and prints it; `dose` is the option that a strength is asked by.
fn print(
    request: MixRequest,
    (dose, units, format): (&'static str, System, Format),
    context: &mut Context<'_>,
) -> Result<(), CommandError> {
    let answer: MixAnswer = request.calculate().map_err(of_option(dose, units))?;
    arg_values::print(context, format, &page(&answer, units).text(), &json(&answer))
}

/// The option a thing asked is typed with; `dose` is the one a strength was asked by.
const fn option(field: MixField, dose: &'static str) -> &'static str {
    match field {
        MixField::Mixed => "--ppm, --strength",
        MixField::Ppm => dose,
        MixField::Volume => "--volume",
        MixField::Area => "--area",
        MixField::Rate => "--rate",
        MixField::Pots => "--pots",
        MixField::PerPot => "--per-pot",
        MixField::Percent => "--percent",
        MixField::Injector => "--injector",
        MixField::Stock => "--stock",
        MixField::Feed => "--feed",
        MixField::Scale => "--scale",
        MixField::Analysis => "--analysis",
        MixField::Chart => "--chart-ec, --chart-n",
        MixField::WaterEc => "--water-ec",
        MixField::FeedEc => "--feed-ec",
        MixField::Grams => "--grams",
    }
}

/// Turns what cannot be into the refusal of its option.
fn of_option(dose: &'static str, units: System) -> impl Fn(MixRefusal) -> CommandError {
    move |refused| CommandError::Typed { option: option(refused.field, dose), reason: refused.reason.text(units) }
}
