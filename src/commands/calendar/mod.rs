//! `benchwalk calendar`: back from a sale to the cuttings, forward from planting to the color; the season as a calendar file.

mod answer;
mod calculate;
mod ics;
mod text;

use super::arg_values::{Format, term};
use super::location::{self, PlaceArgs};
use super::{CommandError, Context, arg_values};
use crate::units::System;
use clap::Args;
use std::path::PathBuf;

/// Options of `calendar`. Lengths and temperatures take a unit: 6.5in, 30cm, 66F. Days are typed as 11/27, Nov 27 or 2026-11-27;
/// with metric units the day comes first: 27/11.
#[derive(Debug, Args)]
#[command(
    after_help = "Example: benchwalk calendar --ready-by 2026-11-27 --response 9.5 --rim 6.5in --pots 1000 --at 44.10,-70.21\n\n\
        The season's due work, forecasts and orders for a phone: benchwalk calendar --ics season.ics. Written again, the file \
        replaces itself; imported again, its events replace theirs. A calendar that subscribes to the file follows; one that \
        imported it once keeps an event until it is imported again within two weeks after it was done or missed. The file \
        never says when a closed bench opens again: that is on the Bench page and on the product label."
)]
pub struct CalendarArgs {
    /// The ready (sale) date: counts back from it.
    #[arg(long, value_name = "DAY", allow_hyphen_values = true, required_unless_present_any = ["planted", "ics"])]
    pub ready_by: Option<String>,
    /// The day of planting: counts forward from it.
    #[arg(long, value_name = "DAY", allow_hyphen_values = true)]
    pub planted: Option<String>,
    /// Weeks from the start of short days to first pollen, as known for the cultivar at the site.
    #[arg(long, value_name = "WEEKS", allow_hyphen_values = true, required_unless_present = "ics")]
    pub response: Option<String>,
    /// Pot diameter at the rim: gives the usual weeks, cuttings and spacing.
    #[arg(long, value_name = "LENGTH", allow_hyphen_values = true)]
    pub rim: Option<String>,
    /// The lot is not pinched; needs --plant-weeks to count back.
    #[arg(long)]
    pub unpinched: bool,
    /// Weeks from planting to the start of short days, for an unpinched lot.
    #[arg(long, value_name = "WEEKS", requires = "unpinched", allow_hyphen_values = true)]
    pub plant_weeks: Option<String>,
    /// Weeks from the pinch to the start of short days; default: 4, or 3 for pots under 6 in.
    #[arg(long, value_name = "WEEKS", conflicts_with = "unpinched", allow_hyphen_values = true)]
    pub pinch_weeks: Option<String>,
    /// Days from planting to the pinch; default: 14.
    #[arg(long, value_name = "DAYS", conflicts_with = "unpinched", allow_hyphen_values = true)]
    pub pinch_days: Option<String>,
    /// The day the lot was pinched.
    #[arg(long, value_name = "DAY", allow_hyphen_values = true, conflicts_with = "unpinched", requires = "planted")]
    pub pinched_on: Option<String>,
    /// Pots to finish: gives the cuttings to order.
    #[arg(long, value_name = "POTS")]
    pub pots: Option<u32>,
    /// Cuttings per pot; default: usual for the pot size.
    #[arg(long, value_name = "CUTTINGS", requires = "pots")]
    pub cuttings: Option<u32>,
    /// Spare cuttings, percent; default: 5 (Benchwalk's rule of thumb).
    #[arg(long, value_name = "PERCENT", requires = "pots", allow_hyphen_values = true)]
    pub spare: Option<String>,
    /// Final spacing, center to center: gives the bench space; default: usual for the pot size.
    #[arg(long, value_name = "LENGTH", requires = "pots", allow_hyphen_values = true)]
    pub centers: Option<String>,
    /// Staggered rows.
    #[arg(long, requires = "pots")]
    pub staggered: bool,
    /// Where, for the natural start of short days.
    #[command(flatten)]
    pub place: PlaceArgs,
    /// The first evening under black cloth.
    #[arg(long, value_name = "DAY", allow_hyphen_values = true, conflicts_with = "lights_until", requires = "planted")]
    pub blackout_from: Option<String>,
    /// The last night with lights.
    #[arg(long, value_name = "DAY", allow_hyphen_values = true, requires = "planted")]
    pub lights_until: Option<String>,
    /// The 24-hour average that the response weeks hold at; default: 70F.
    #[arg(long, value_name = "TEMP", allow_hyphen_values = true)]
    pub response_mean: Option<String>,
    /// The 24-hour average of the crop from the start of short days on, if known.
    #[arg(long, value_name = "TEMP", allow_hyphen_values = true)]
    pub mean: Option<String>,
    /// A bract stage seen (1-7) and its day, such as 11/2=2 or 2026-11-02=2; may be repeated.
    #[arg(long, value_name = "DAY=STAGE", requires = "planted")]
    pub seen: Vec<String>,
    /// Units of numbers typed without one, and of the answer; default: the season's, or US.
    #[arg(long, value_name = "UNITS", value_parser = term::<System>())]
    pub units: Option<System>,
    /// How to print it.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub format: Format,
    /// Write the season's due work, forecasts and orders as a calendar file (iCalendar); without a name, or with `-`: to standard
    /// output.
    #[arg(
        long,
        value_name = "FILE",
        num_args = 0..=1,
        default_missing_value = "-",
        conflicts_with_all = [
            "ready_by", "planted", "response", "rim", "unpinched", "plant_weeks", "pinch_weeks", "pinch_days", "pinched_on", "pots",
            "cuttings", "spare", "centers", "staggered", "at", "zone", "blackout_from", "lights_until", "response_mean", "mean",
            "seen", "units", "format",
        ]
    )]
    pub ics: Option<PathBuf>,
}

/// Calculates the calendar and prints it, or writes the season's.
pub(super) fn run(args: &CalendarArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let limits = context.settings.limits()?;
    if let Some(file) = &args.ics {
        return ics::run(file, &limits, context);
    }
    let here = args.place.resolve(context)?;
    let system = location::units(args.units, context)?;
    let dates = calculate::Dates::of(args, system, context)?;
    let answer = calculate::calculate(&calculate::Asked { args, dates, system, limits: &limits, here })?;
    arg_values::print(context, args.format, &text::text(&answer, system), &answer)
}
