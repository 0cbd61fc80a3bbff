//! `benchwalk mix growth-regulator`: reads the options and calculates.

use super::{of_option, print};
use crate::commands::arg_values::{Format, day, term};
use crate::commands::arg_values::{number, quantity, quantity_in, refused, refused_in};
use crate::commands::{CommandError, Context};
use crate::crop::growth_regulator::{Amount, CutoffDays, Ingredient, Part, Strength, ppm_for_dose, ppm_made};
use crate::mix::{GrowthRegulatorRequest, LotDates, MixRequest, Solution, rate};
use crate::record::typed::Facing;
use crate::terms::{Method, Region, Term};
use crate::units::{Area, Concentration, Length, Mass, System, Unit, Volume};
use clap::{ArgGroup, Args};

const EXAMPLE: &str = "\
Examples:
  benchwalk mix growth-regulator --ai paclobutrazol --ppm 0.1 --strength '10 g/L' \\
      --how drench --pots 1000 --per-pot 4floz
  benchwalk mix growth-regulator --ai daminozide --ppm 1500 --strength '50% solid' \\
      --ai chlormequat --ppm 1000 --strength '200 g/L' --how spray --area 500ft2

The strengths are made up: type the one on your label.
Every quantity takes a unit: 4floz, 118mL, 2qt, 500ft2, 46m2, 6in.";

/// Options of `mix growth-regulator`. --ai, --strength and the dose are given once for each part of a tank, in the same order.
#[derive(Debug, Args)]
#[command(after_help = EXAMPLE, group(ArgGroup::new("dose").required(true).args(["ppm", "mg_per_pot", "measured"])))]
pub struct GrowthRegulatorArgs {
    /// The active ingredient by its common name.
    #[arg(long = "ai", required = true, value_name = "NAME")]
    pub ai: Vec<String>,
    /// Product strength from the label, such as '60% solid', '0.6 g/g', '7% liquid', '12 g/L', '1 lb/gal' (made-up examples).
    #[arg(long, required = true, value_name = "STRENGTH", allow_hyphen_values = true)]
    pub strength: Vec<String>,
    /// Target solution concentration, ppm of active ingredient.
    #[arg(long, value_name = "PPM", allow_hyphen_values = true)]
    pub ppm: Vec<String>,
    /// Or: target mg of active ingredient per pot.
    #[arg(long, value_name = "MG", allow_hyphen_values = true)]
    pub mg_per_pot: Vec<String>,
    /// Or: product already measured out; prints the ppm it makes.
    #[arg(long, value_name = "AMOUNT", allow_hyphen_values = true)]
    pub measured: Vec<String>,
    /// Application method.
    #[arg(long, value_name = "HOW", value_parser = term::<Method>())]
    pub how: Method,
    /// The volume of solution, where it is known.
    #[arg(long, value_name = "VOLUME", allow_hyphen_values = true, conflicts_with_all = ["area", "pots"])]
    pub volume: Option<String>,
    /// The area to spray.
    #[arg(long, value_name = "AREA", allow_hyphen_values = true, conflicts_with = "pots")]
    pub area: Option<String>,
    /// Spray volume per area, such as 2qt/100ft2 or 0.2L/m2; default: 2 qt per 100 sq ft, but the label's volume decides.
    #[arg(long, value_name = "RATE", requires = "area", allow_hyphen_values = true)]
    pub rate: Option<String>,
    /// The number of pots to drench.
    #[arg(long, value_name = "POTS")]
    pub pots: Option<u32>,
    /// Solution per pot.
    #[arg(long, value_name = "VOLUME", allow_hyphen_values = true)]
    pub per_pot: Option<String>,
    /// Pot diameter at the rim: gives the usual drench of 4- to 6.5-inch pots, and checks the dose for that pot.
    #[arg(long, value_name = "LENGTH", allow_hyphen_values = true)]
    pub rim: Option<String>,
    /// Extra solution to mix, percent.
    #[arg(long, value_name = "PERCENT", requires = "pots", allow_hyphen_values = true)]
    pub reserve: Option<String>,
    /// Start of short days, such as 10/3, Oct 3 or 2026-10-03, for the last safe day; with metric units the day comes first.
    #[arg(long, value_name = "DAY", allow_hyphen_values = true, requires = "sale")]
    pub short_days: Option<String>,
    /// The sale date.
    #[arg(long, value_name = "DAY", allow_hyphen_values = true, requires = "short_days")]
    pub sale: Option<String>,
    /// Fall climate.
    #[arg(long, value_name = "REGION", value_parser = term::<Region>(), default_value = Region::Cool.code())]
    pub region: Region,
    /// Units of numbers typed without one, and which come first in the answer.
    #[arg(long, value_name = "UNITS", value_parser = term::<System>(), default_value = System::Us.code())]
    pub units: System,
    /// How to print it.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub format: Format,
}

const MG: Unit = Unit { names: &["mg"], factor: 0.001, offset: 0.0 };
const G: Unit = Unit { names: &["g"], factor: 1.0, offset: 0.0 };
const ML: Unit = Unit { names: &["mL"], factor: 1.0, offset: 0.0 };

/// Calculates the mix and prints it.
pub(super) fn run(args: &GrowthRegulatorArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let solution = solution(args)?;
    let parts = parts(args, &solution)?;
    let read = |option, typed: &Option<String>, facing| {
        typed.as_deref().map(|typed| day(option, (typed, facing), Some(args.units), context)).transpose()
    };
    let short_days = read("--short-days", &args.short_days, Facing::Back)?;
    let dates = short_days.zip(read("--sale", &args.sale, Facing::Ahead)?);
    let limits = context.settings.limits()?;
    let request = GrowthRegulatorRequest {
        method: args.how,
        solution,
        parts,
        measured: !args.measured.is_empty(),
        lots: dates.map(|(short_days, sale)| LotDates { lot: String::new(), short_days, sale }).into_iter().collect(),
        region: args.region,
        rules: CutoffDays::of(&limits),
        limits,
        on: context.settings.on,
    };
    print(MixRequest::GrowthRegulator(Box::new(request)), ("--ppm", args.units, args.format), context)
}

fn solution(args: &GrowthRegulatorArgs) -> Result<Solution, CommandError> {
    let refuse = |option, reason: &str| Err(CommandError::Typed { option, reason: reason.to_owned() });
    let typed_volume =
        |option, text: &Option<String>| text.as_deref().map(|t| quantity::<Volume>(option, t, args.units)).transpose();
    let rim = args.rim.as_deref().map(|t| quantity::<Length>("--rim", t, args.units)).transpose()?;
    let per_pot = typed_volume("--per-pot", &args.per_pot)?;
    let whole = typed_volume("--volume", &args.volume)?;
    match (args.how, whole) {
        (Method::Spray, None) => {
            let Some(area) = &args.area else { return refuse("--how spray", "give --area, or --volume") };
            let area: Area = quantity("--area", area, args.units)?;
            let rate = args
                .rate
                .as_deref()
                .map(|t| rate(t, args.units).map_err(of_option("--ppm", args.units)))
                .transpose()?;
            Solution::spray(area, rate, None).map_err(of_option("--ppm", args.units))
        }
        (Method::Spray, Some(volume)) => Ok(Solution { volume, rim, ..Solution::default() }),
        (Method::Drench, None) => {
            let Some(pots) = args.pots else { return refuse("--how drench", "give --pots, or --volume") };
            let reserve = args.reserve.as_deref().map_or(Ok(0.0), |t| number("--reserve", t, &["%"]))?;
            Solution::drench(pots, per_pot, rim, reserve / 100.0).map_err(of_option("--ppm", args.units))
        }
        (Method::Drench, Some(volume)) => Solution::whole(volume, per_pot, rim).map_err(of_option("--ppm", args.units)),
    }
}

fn parts(args: &GrowthRegulatorArgs, solution: &Solution) -> Result<Vec<Part>, CommandError> {
    let (option, doses) = match (&args.ppm[..], &args.mg_per_pot[..], &args.measured[..]) {
        ([], [], measured) => ("--measured", measured),
        ([], mg, _) => ("--mg-per-pot", mg),
        (ppm, ..) => ("--ppm", ppm),
    };
    for (name, count) in [(option, doses.len()), ("--strength", args.strength.len())] {
        if count != args.ai.len() {
            let reason = format!("given {count} times for {} of --ai; give it once for each", args.ai.len());
            return Err(CommandError::Typed { option: name, reason });
        }
    }
    let mut parts = Vec::new();
    for ((name, strength), dose) in args.ai.iter().zip(&args.strength).zip(doses) {
        let Some(ingredient) = Ingredient::parse(name) else {
            let known: Vec<&str> = Ingredient::ALL.iter().map(|i| i.name()).collect();
            let reason = format!("unknown ingredient '{name}'; known are {}", known.join(", "));
            return Err(CommandError::Typed { option: "--ai", reason });
        };
        let strength = Strength::parse(strength).map_err(refused("--strength"))?;
        let ppm = match option {
            "--ppm" => quantity::<Concentration>(option, dose, System::Metric)?,
            "--mg-per-pot" => {
                let (Method::Drench, Some(per_pot)) = (args.how, solution.per_pot) else {
                    return Err(refused(option)("a dose per pot is for a drench with --per-pot or --rim"));
                };
                let dose: Mass = quantity_in(option, dose, &MG)?;
                ppm_for_dose(dose, per_pot).map_err(refused_in(option, args.units))?
            }
            _ => {
                let amount = if strength.is_solid() {
                    Amount::Weight(quantity_in(option, dose, &G)?)
                } else {
                    Amount::Volume(quantity_in(option, dose, &ML)?)
                };
                ppm_made(amount, solution.volume, strength).map_err(refused_in(option, args.units))?
            }
        };
        parts.push(Part { ingredient, ppm, strength });
    }
    Ok(parts)
}
