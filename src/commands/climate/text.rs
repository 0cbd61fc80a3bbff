//! The climate answer in words.

use super::{Answer, Light, Means, Moisture, Radiation};
use crate::units::{Illuminance, Quantity, System, Temperature, plain};
use std::fmt::{Result, Write};

/// Above this humidity the risk of gray mold is high (J. Williams-Woodward, University of Georgia, 2023).
const MOLD_HUMIDITY: f64 = 85.0;

/// The answer as lines.
pub(super) fn text(answer: &Answer, system: System) -> String {
    let mut out = String::new();
    // Writing to a string cannot fail.
    lines(&mut out, answer, system).ok();
    out
}

fn lines(out: &mut String, answer: &Answer, system: System) -> Result {
    if let Some(part) = &answer.air {
        air(out, part, system)?;
    }
    if let Some(part) = &answer.temperatures {
        means(out, part, system)?;
    }
    if let Some(part) = &answer.light {
        light(out, part)?;
    }
    if let Some(part) = &answer.radiation {
        radiation(out, part)?;
    }
    Ok(())
}

/// A temperature in the site's units and the other's.
fn both(c: f64, system: System) -> String {
    let one = |s| format!("{:.1} {}", Temperature::from_c(c).in_system(s), Temperature::unit_name(s));
    match system {
        System::Us => format!("{} ({})", one(System::Us), one(System::Metric)),
        System::Metric => format!("{} ({})", one(System::Metric), one(System::Us)),
    }
}

/// A range, or one number where there is none.
fn range([low, mid, high]: [f64; 3]) -> String {
    let (low, mid, high) = (plain(low), plain(mid), plain(high));
    if low == high { mid } else { format!("{mid} ({low} to {high})") }
}

fn air(out: &mut String, air: &Moisture, system: System) -> Result {
    writeln!(out, "Air at {}, humidity {}%", both(air.air_c, system), plain(air.humidity_percent))?;
    writeln!(out, "  vapor pressure deficit   {:.2} kPa (FAO-56)", air.vapor_pressure_deficit_kpa)?;
    if let (Some(leaf), Some(felt)) = (air.leaf_c, air.leaf_vapor_pressure_deficit_kpa) {
        writeln!(out, "  leaf VPD                 {felt:.2} kPa, leaf at {}", both(leaf, system))?;
        if felt < 0.0 {
            writeln!(out, "  The leaf is below the dew point: condensation.")?;
        }
    }
    if let Some(dew) = air.dew_point_c {
        writeln!(out, "  dew point                {}", both(dew, system))?;
    }
    if air.humidity_percent > MOLD_HUMIDITY {
        writeln!(out, "  Over {MOLD_HUMIDITY}% gray mold (Botrytis) risk is high (University of Georgia, 2023).")?;
    }
    Ok(())
}

fn means(out: &mut String, means: &Means, system: System) -> Result {
    writeln!(out, "Day {}, night {}", both(means.day_c, system), both(means.night_c, system))?;
    writeln!(out, "  24-hour average          {}, {} h of day", both(means.mean_c, system), plain(means.day_hours))?;
    let (shown, unit) = match system {
        System::Us => (means.dif_c * 1.8, "°F"),
        System::Metric => (means.dif_c, "°C"),
    };
    let effect = match shown {
        s if s > 0.05 => "stretches stems",
        s if s < -0.05 => "shortens stems",
        _ => "neither stretches nor shortens stems",
    };
    writeln!(out, "  DIF (day minus night)    {shown:+.1} {unit}: {effect}")
}

fn light(out: &mut String, light: &Light) -> Result {
    writeln!(out, "Light of {} µmol/m2/s", range(light.umol_m2_s))?;
    let fc = light.lux.map(|lux| Illuminance::from_lux(lux).in_system(System::Us));
    writeln!(out, "  meter reading            {} lux; {} fc", range(light.lux), range(fc))?;
    writeln!(out, "  (PPFD and lux: Thimijan and Heins 1983)")?;
    if let (Some(hours), Some(sum)) = (light.hours, light.mol_m2_d) {
        writeln!(out, "  in {:<22}{} mol/m2/d", format!("{} h", plain(hours)), range(sum))?;
    }
    Ok(())
}

fn radiation(out: &mut String, sun: &Radiation) -> Result {
    let (mj, percent) = (plain(sun.mj_m2_d), plain(sun.let_through_percent));
    writeln!(out, "Radiation of {mj} MJ/m2/d, {percent}% transmission")?;
    writeln!(out, "  daily light integral     {} mol/m2/d", range(sun.mol_m2_d))?;
    writeln!(out, "  (conversion factors vary by source)")
}
