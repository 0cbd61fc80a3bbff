//! `benchwalk mix nutrient`: extra magnesium, molybdenum and calcium.

use super::page::Page;
use super::weighed::{WeighedArgs, Weighing};
use super::{off, volume};
use crate::commands::typed::{self, number, quantity, refused};
use crate::commands::{CommandError, Context};
use crate::crop::feed::{Fraction, How, Salt, TwoStep, USUAL_RATES, UsualRate, two_step};
use crate::units::{Concentration, System, Volume, plain};
use clap::{Args, ValueEnum};
use serde_json::json;

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

impl MaterialArg {
    const fn salt(self) -> Salt {
        match self {
            Self::MagnesiumSulfate => Salt::MagnesiumSulfate,
            Self::SodiumMolybdate => Salt::SodiumMolybdate,
            Self::AmmoniumMolybdate => Salt::AmmoniumMolybdate,
            Self::CalciumChloride => Salt::CalciumChloride,
        }
    }

    const fn words(self) -> (&'static str, &'static str) {
        match self {
            Self::MagnesiumSulfate => ("magnesium-sulfate", "Magnesium sulfate (7 water)"),
            Self::SodiumMolybdate => ("sodium-molybdate", "Sodium molybdate (2 water)"),
            Self::AmmoniumMolybdate => ("ammonium-molybdate", "Ammonium molybdate (4 water)"),
            Self::CalciumChloride => ("calcium-chloride", "Calcium chloride (2 water)"),
        }
    }

    /// What it must not share a stock tank with.
    const fn apart(self) -> Option<&'static str> {
        match self {
            Self::MagnesiumSulfate => Some("calcium (it falls out as gypsum and clogs lines: N.C. Agronomic Division)"),
            Self::CalciumChloride => {
                Some("sulfates (N.C. Agronomic Division) or phosphates (common practice, no source)")
            }
            Self::SodiumMolybdate | Self::AmmoniumMolybdate => None,
        }
    }
}

/// Reckons the weight and prints it.
pub(super) fn run(args: &NutrientArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let salt = args.material.salt();
    let share = match &args.percent {
        None => salt.fraction(),
        Some(text) => Fraction::from_percent(number("--percent", text, &["%"])?).map_err(refused("--percent"))?,
    };
    let target: Concentration = quantity("--ppm", &args.ppm, System::Metric)?;
    if target.ppm() <= 0.0 {
        return Err(refused("--ppm")("0 ppm needs nothing; type how strong it is to be"));
    }
    let weighing = Weighing::of(&args.into, target, share)?;
    let steps = weighing.weighed.too_small.then(|| steps(args, &weighing));
    let steps = match steps {
        // Too little even for two steps: the reason is part of the answer, the weight still stands.
        Some(Err(reason)) => Some(Err(reason.to_string())),
        Some(Ok(plan)) => Some(Ok(plan)),
        None => None,
    };
    let usual: Vec<&UsualRate> = USUAL_RATES.iter().filter(|r| r.salts.contains(&salt)).collect();
    let text = text(args, salt, &weighing, steps.as_ref(), &usual)?;
    let mut answer = weighing.json();
    if let Some(fields) = answer.as_object_mut() {
        fields.insert("material".to_owned(), json!(args.material.words().0));
        fields.insert("element".to_owned(), json!(salt.element()));
        let plan = steps.and_then(Result::ok).map(|p| {
            json!({ "weigh_g": p.weigh.g(), "dissolve_in_ml": p.dissolve_in.ml(), "take_ml": p.take.ml(), "off": p.off })
        });
        fields.insert("two_steps".to_owned(), json!(plan));
        let rates: Vec<_> = usual
            .iter()
            .map(|r| json!({ "how": how(r.how), "low_ppm": r.low_ppm, "high_ppm": r.high_ppm, "source": r.source }))
            .collect();
        fields.insert("usual".to_owned(), json!(rates));
    }
    typed::print(context, args.into.format, &text, &answer)
}

fn steps(args: &NutrientArgs, weighing: &Weighing) -> Result<TwoStep, CommandError> {
    let first: Volume = quantity("--first", &args.first, System::Metric)?;
    let measure: Volume = quantity("--measure", &args.measure, System::Metric)?;
    two_step(weighing.exact, weighing.scale, first, measure).map_err(refused("--first, --measure"))
}

const fn how(how: How) -> &'static str {
    match how {
        How::Continuous => "in every feed",
        How::Drench => "drench",
        How::Spray => "spray",
    }
}

fn text(
    args: &NutrientArgs,
    salt: Salt,
    weighing: &Weighing,
    steps: Option<&Result<TwoStep, String>>,
    usual: &[&UsualRate],
) -> Result<String, CommandError> {
    let units = args.into.units;
    let mut page = Page::default();
    page.line(format!(
        "{}, {} % {}: {} ppm of {} {}",
        args.material.words().1,
        plain(weighing.share.share() * 100.0),
        salt.element(),
        plain(weighing.target.ppm()),
        salt.element(),
        weighing.purpose(units)
    ));
    weighing.lines(&mut page, units)?;
    match steps {
        None => {}
        Some(Ok(plan)) => page.item(
            "in two steps",
            format!(
                "too little for this scale: dissolve {} g in water, fill up to {}, take {} of it ({})",
                plain(plan.weigh.g()),
                volume(units, plan.dissolve_in),
                volume(units, plan.take),
                off(plan.off)
            ),
        ),
        Some(Err(reason)) => page.item("in two steps", format!("too little for this scale; {reason}")),
    }
    for (i, rate) in usual.iter().enumerate() {
        let range = if (rate.high_ppm - rate.low_ppm).abs() < f64::EPSILON {
            plain(rate.low_ppm)
        } else {
            format!("{} to {}", plain(rate.low_ppm), plain(rate.high_ppm))
        };
        let label = if i == 0 { "usual" } else { "" };
        page.item(label, format!("{range} ppm, {} ({})", how(rate.how), rate.source));
    }
    if let Some(apart) = args.material.apart() {
        page.item("apart", format!("never in one stock tank with {apart}"));
    }
    page.item("", "The bag's label and local rules decide. Try it on a few plants first.");
    Ok(page.text())
}
