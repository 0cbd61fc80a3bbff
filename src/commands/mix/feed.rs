//! `benchwalk mix feed`: liquid feed from a bag of fertilizer.

use super::weighed::WeighedArgs;
use super::{of_option, print};
use crate::commands::arg_values::quantity;
use crate::commands::{CommandError, Context};
use crate::mix::{Chart, FeedRequest, MixRequest, three_numbers};
use crate::units::System;
use clap::Args;

const EXAMPLE: &str = "\
Examples:
  benchwalk mix feed --analysis 15-5-15 --n 200 --injector 1:100 --stock 50gal
  benchwalk mix feed --analysis 20-10-20 --n 250 --volume 100gal --chart-ec 0.66 --chart-n 100 --water-ec 0.3";

/// Options of `mix feed`.
#[derive(Debug, Args)]
#[command(after_help = EXAMPLE)]
pub struct FeedArgs {
    /// Bag analysis: N-P2O5-K2O.
    #[arg(long, value_name = "N-P-K")]
    pub analysis: String,
    /// Target concentration of the feed, ppm of N.
    #[arg(long = "n", value_name = "PPM", allow_hyphen_values = true)]
    pub nitrogen: String,
    /// EC from the bag's chart at --chart-n; prints the EC to expect.
    #[arg(long, value_name = "EC", requires = "chart_n", allow_hyphen_values = true)]
    pub chart_ec: Option<String>,
    /// The ppm of N on that line of the chart.
    #[arg(long, value_name = "PPM", requires = "chart_ec", allow_hyphen_values = true)]
    pub chart_n: Option<String>,
    /// The EC of the plain water.
    #[arg(long, value_name = "EC", default_value = "0", allow_hyphen_values = true)]
    pub water_ec: String,
    /// Measured EC of the feed; checks the injector.
    #[arg(long, value_name = "EC", requires = "chart_ec", allow_hyphen_values = true)]
    pub feed_ec: Option<String>,
    /// The solution and the scale.
    #[command(flatten)]
    pub into: WeighedArgs,
}

/// Calculates the weight and prints it.
pub(super) fn run(args: &FeedArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let request = FeedRequest {
        analysis: three_numbers(&args.analysis).map_err(of_option("--n", args.into.units))?,
        n: quantity("--n", &args.nitrogen, System::Metric)?,
        into: args.into.read()?,
        scale: args.into.step()?,
        per_pot: None,
        chart: chart(args)?,
        beside: Vec::new(),
    };
    print(MixRequest::Feed(request), ("--n", args.into.units, args.into.format), context)
}

fn chart(args: &FeedArgs) -> Result<Option<Chart>, CommandError> {
    let (Some(ec), Some(n)) = (&args.chart_ec, &args.chart_n) else { return Ok(None) };
    let feed = args.feed_ec.as_deref();
    Ok(Some(Chart {
        ec: quantity("--chart-ec", ec, System::Metric)?,
        n: quantity("--chart-n", n, System::Metric)?,
        water: quantity("--water-ec", &args.water_ec, System::Metric)?,
        feed: feed.map(|text| quantity("--feed-ec", text, System::Metric)).transpose()?,
    }))
}
