//! `benchwalk climate`: what air, heat and light amount to.

mod text;

use super::arg_values::{self, number, quantity, refused, refused_in};
use super::arg_values::{Format, term};
use super::{CommandError, Context, location};
use crate::crop::climate::{self, LightSource};
use crate::units::{Illuminance, Irradiance, System, Temperature};
use clap::{Args, ValueEnum};
use serde::Serialize;

/// Options of `climate`. Every quantity takes a unit: 68F, 20C, 85%, 200umol, 500fc.
#[derive(Debug, Args)]
#[command(after_help = "Example: benchwalk climate --air 68F --humidity 85% --day 72F --night 64F --day-hours 11")]
pub struct ClimateArgs {
    /// Air temperature.
    #[arg(long, value_name = "TEMP", requires = "humidity", allow_hyphen_values = true)]
    pub air: Option<String>,
    /// Relative humidity of the air, 0 to 100%.
    #[arg(long, value_name = "PERCENT", requires = "air", allow_hyphen_values = true)]
    pub humidity: Option<String>,
    /// Leaf temperature, for leaf VPD.
    #[arg(long, value_name = "TEMP", requires = "air", allow_hyphen_values = true)]
    pub leaf: Option<String>,
    /// Average day temperature.
    #[arg(long, value_name = "TEMP", requires = "night", allow_hyphen_values = true)]
    pub day: Option<String>,
    /// Average night temperature.
    #[arg(long, value_name = "TEMP", requires = "day", allow_hyphen_values = true)]
    pub night: Option<String>,
    /// Day length in hours; default: 12.
    #[arg(long, value_name = "HOURS", requires = "day", allow_hyphen_values = true)]
    pub day_hours: Option<String>,
    /// Light on the crop as PPFD, µmol/m2/s.
    #[arg(long, value_name = "UMOL", allow_hyphen_values = true)]
    pub ppfd: Option<String>,
    /// Light on the crop as a light meter reads it, fc or lux.
    #[arg(long, value_name = "LIGHT", conflicts_with = "ppfd", allow_hyphen_values = true)]
    pub meter: Option<String>,
    /// Hours the light lasts, for the daily light integral (DLI).
    #[arg(long, value_name = "HOURS", allow_hyphen_values = true)]
    pub light_hours: Option<String>,
    /// Light source, to convert between meter readings and PPFD.
    #[arg(long, value_enum, default_value_t = SourceArg::Sun)]
    pub source: SourceArg,
    /// A day's radiation outside, MJ/m2.
    #[arg(long, value_name = "MJ", allow_hyphen_values = true)]
    pub radiation: Option<String>,
    /// Roof light transmission, percent; default: 100.
    #[arg(long, value_name = "PERCENT", requires = "radiation", allow_hyphen_values = true)]
    pub let_through: Option<String>,
    /// Units of numbers typed without one, and of the answer; default: the season's, or US.
    #[arg(long, value_name = "UNITS", value_parser = term::<System>())]
    pub units: Option<System>,
    /// How to print it.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub format: Format,
}

/// Sources of light as typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum SourceArg {
    /// Sun and sky.
    Sun,
    /// Blue sky without sun.
    Sky,
    /// High-pressure sodium lights.
    Sodium,
    /// Metal-halide lights.
    MetalHalide,
    /// Cool-white fluorescent lights.
    CoolWhite,
    /// Incandescent bulbs.
    Incandescent,
}

impl From<SourceArg> for LightSource {
    fn from(source: SourceArg) -> Self {
        match source {
            SourceArg::Sun => Self::Sun,
            SourceArg::Sky => Self::BlueSky,
            SourceArg::Sodium => Self::HighPressureSodium,
            SourceArg::MetalHalide => Self::MetalHalide,
            SourceArg::CoolWhite => Self::CoolWhite,
            SourceArg::Incandescent => Self::Incandescent,
        }
    }
}

/// The answer; what was not asked for is left out.
#[derive(Debug, Default, Serialize)]
struct Answer {
    #[serde(skip_serializing_if = "Option::is_none")]
    air: Option<Moisture>,
    #[serde(skip_serializing_if = "Option::is_none")]
    temperatures: Option<Means>,
    #[serde(skip_serializing_if = "Option::is_none")]
    light: Option<Light>,
    #[serde(skip_serializing_if = "Option::is_none")]
    radiation: Option<Radiation>,
}

#[derive(Debug, Serialize)]
struct Moisture {
    air_c: f64,
    humidity_percent: f64,
    saturation_kpa: f64,
    vapor_pressure_deficit_kpa: f64,
    /// `None` for air too dry to have a dew point.
    dew_point_c: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    leaf_c: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    leaf_vapor_pressure_deficit_kpa: Option<f64>,
}

#[derive(Debug, Serialize)]
struct Means {
    day_c: f64,
    night_c: f64,
    day_hours: f64,
    mean_c: f64,
    dif_c: f64,
}

/// Least, usual and most.
#[derive(Debug, Serialize)]
struct Light {
    umol_m2_s: [f64; 3],
    lux: [f64; 3],
    #[serde(skip_serializing_if = "Option::is_none")]
    hours: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    mol_m2_d: Option<[f64; 3]>,
}

#[derive(Debug, Serialize)]
struct Radiation {
    mj_m2_d: f64,
    let_through_percent: f64,
    mol_m2_d: [f64; 3],
}

/// Calculates what was asked for and prints it.
pub(super) fn run(args: &ClimateArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let system = location::units(args.units, context)?;
    let answer = Answer {
        air: air(args, system)?,
        temperatures: means(args, system)?,
        light: light(args, system)?,
        radiation: radiation(args)?,
    };
    if answer.air.is_none() && answer.temperatures.is_none() && answer.light.is_none() && answer.radiation.is_none() {
        return Err(CommandError::Typed {
            option: "climate",
            reason:
                "nothing to calculate; give --air with --humidity, --day with --night, --ppfd, --meter or --radiation"
                    .to_owned(),
        });
    }
    arg_values::print(context, args.format, &text::text(&answer, system), &answer)
}

fn air(args: &ClimateArgs, system: System) -> Result<Option<Moisture>, CommandError> {
    let (Some(air), Some(humidity)) = (&args.air, &args.humidity) else { return Ok(None) };
    let at: Temperature = quantity("--air", air, system)?;
    let percent = number("--humidity", humidity, &["%", "percent"])?;
    let saturation_kpa = climate::saturation_vapor_pressure(at).map_err(refused_in("--air", system))?;
    let deficit = climate::vapor_pressure_deficit(at, percent).map_err(refused_in("--humidity", system))?;
    let leaf = args.leaf.as_deref().map(|leaf| quantity::<Temperature>("--leaf", leaf, system)).transpose()?;
    let felt = leaf.map(|leaf| climate::leaf_vapor_pressure_deficit(leaf, at, percent)).transpose();
    Ok(Some(Moisture {
        air_c: at.c(),
        humidity_percent: percent,
        saturation_kpa,
        vapor_pressure_deficit_kpa: deficit,
        dew_point_c: climate::dew_point(at, percent).ok().map(Temperature::c),
        leaf_c: leaf.map(Temperature::c),
        leaf_vapor_pressure_deficit_kpa: felt.map_err(refused_in("--leaf", system))?,
    }))
}

fn means(args: &ClimateArgs, system: System) -> Result<Option<Means>, CommandError> {
    let (Some(day), Some(night)) = (&args.day, &args.night) else { return Ok(None) };
    let day: Temperature = quantity("--day", day, system)?;
    let night: Temperature = quantity("--night", night, system)?;
    let day_hours = args.day_hours.as_deref().map_or(Ok(12.0), |h| number("--day-hours", h, &["h", "hours"]))?;
    let dif_c = climate::dif_c(day, night).map_err(refused_in("--day, --night", system))?;
    let mean = climate::average_daily_temperature(day, day_hours, night).map_err(refused_in("--day-hours", system))?;
    Ok(Some(Means { day_c: day.c(), night_c: night.c(), day_hours, mean_c: mean.c(), dif_c }))
}

fn light(args: &ClimateArgs, system: System) -> Result<Option<Light>, CommandError> {
    let source = LightSource::from(args.source);
    let (umol, lux) = if let Some(typed) = &args.ppfd {
        let light: Irradiance = quantity("--ppfd", typed, system)?;
        let lux = climate::lux_from_photons(light, source).map_err(refused_in("--ppfd", system))?;
        ([light.umol(); 3], [lux.low.lux(), lux.likely.lux(), lux.high.lux()])
    } else if let Some(typed) = &args.meter {
        let reading: Illuminance = quantity("--meter", typed, system)?;
        let umol = climate::photons_from_lux(reading, source).map_err(refused_in("--meter", system))?;
        ([umol.low.umol(), umol.likely.umol(), umol.high.umol()], [reading.lux(); 3])
    } else if args.light_hours.is_some() {
        return Err(refused("--light-hours")("give --ppfd or --meter with --light-hours"));
    } else {
        return Ok(None);
    };
    let hours = args.light_hours.as_deref().map(|h| number("--light-hours", h, &["h", "hours"])).transpose()?;
    let sum = |hours| -> Result<[f64; 3], CommandError> {
        let of = |u| climate::daily_light(Irradiance::from_umol(u), hours).map_err(refused_in("--light-hours", system));
        let [low, mid, high] = umol;
        Ok([of(low)?, of(mid)?, of(high)?])
    };
    Ok(Some(Light { umol_m2_s: umol, lux, hours, mol_m2_d: hours.map(sum).transpose()? }))
}

fn radiation(args: &ClimateArgs) -> Result<Option<Radiation>, CommandError> {
    let Some(typed) = &args.radiation else { return Ok(None) };
    let mj = number("--radiation", typed, &["MJ", "MJ/m2"])?;
    let percent = args.let_through.as_deref().map_or(Ok(100.0), |p| number("--let-through", p, &["%", "percent"]))?;
    if !(0.0..=100.0).contains(&percent) {
        return Err(refused("--let-through")(format!("{percent}%; it must be 0 to 100%")));
    }
    let span = climate::daily_light_from_radiation(mj, percent / 100.0).map_err(refused("--radiation"))?;
    Ok(Some(Radiation { mj_m2_d: mj, let_through_percent: percent, mol_m2_d: [span.low, span.likely, span.high] }))
}
