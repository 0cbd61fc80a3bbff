//! Location options of the commands that use the sun's position.

use super::arg_values::refused;
use super::{CommandError, Context};
use crate::crop::night::Place;
use crate::dates::Tz;
use crate::record::Site;
use crate::units::System;
use clap::Args;

/// Where the crop stands.
#[derive(Debug, Default, Args)]
pub struct PlaceArgs {
    /// Latitude and longitude in degrees, north and east positive: 44.10,-70.21 or 44.10N,70.21W; default: the season's site.
    #[arg(long, value_name = "LAT,LON", allow_hyphen_values = true)]
    pub at: Option<String>,
    /// Time zone of the answer, such as America/New_York; default: the season's, or UTC.
    #[arg(long, value_name = "ZONE")]
    pub zone: Option<String>,
}

/// The place and time zone of the calculation.
#[derive(Debug, Clone, Copy)]
pub(super) struct Where {
    /// None: neither typed nor known from a season.
    place: Option<Place>,
    /// The zone of the answer.
    pub(super) zone: Tz,
}

impl Where {
    /// The place, if any.
    pub(super) const fn place(&self) -> Option<&Place> {
        self.place.as_ref()
    }

    /// The place, which must be.
    ///
    /// # Errors
    /// When there is none.
    pub(super) fn needed(&self) -> Result<&Place, CommandError> {
        self.place().ok_or_else(|| {
            refused("--at")(
                "location needed: give latitude and longitude such as 44.10,-70.21, or a season file with --season",
            )
        })
    }
}

impl PlaceArgs {
    /// What was typed, and the season's site for what was not.
    ///
    /// # Errors
    /// When what was typed is no place or zone (says what would be right), or a season file named cannot be read.
    pub(super) fn resolve(&self, context: &Context<'_>) -> Result<Where, CommandError> {
        let typed = self.at.as_deref().map(place).transpose()?;
        let zone = self.zone.as_deref().map(zone).transpose()?;
        if let Some(place) = typed {
            return Ok(Where { place: Some(place), zone: zone.unwrap_or_else(Tz::utc) });
        }
        let site = site(context)?;
        let place =
            site.as_ref().map(|s| Place::new(s.latitude, s.longitude)).transpose().map_err(refused("the site"))?;
        Ok(Where { place, zone: zone.or(site.map(|s| s.time_zone)).unwrap_or_else(Tz::utc) })
    }
}

/// The units to read and print: as typed, else the site's, else US.
///
/// # Errors
/// When a season file named cannot be read.
pub(super) fn units(typed: Option<System>, context: &Context<'_>) -> Result<System, CommandError> {
    match typed {
        Some(units) => Ok(units),
        None => Ok(site(context)?.map_or(System::Us, |site| site.units)),
    }
}

/// The site of the season file. These commands need none, so that only a file that was named must be there and sound.
fn site(context: &Context<'_>) -> Result<Option<Site>, CommandError> {
    if !context.settings.season_named && !context.settings.season.exists() {
        return Ok(None);
    }
    match context.season() {
        Ok(season) => Ok(season.site().cloned()),
        Err(error) if context.settings.season_named => Err(error),
        Err(_) => Ok(None),
    }
}

fn place(typed: &str) -> Result<Place, CommandError> {
    const OPTION: &str = "--at";
    let degrees = typed.split_once(',').and_then(|(lat, lon)| Some((angle(lat, 'N', 'S')?, angle(lon, 'E', 'W')?)));
    let Some((latitude, longitude)) = degrees else {
        let reason =
            format!("'{typed}' is not a place; type latitude and longitude such as 44.10,-70.21 or 44.10N,70.21W");
        return Err(refused(OPTION)(reason));
    };
    Place::new(latitude, longitude).map_err(refused(OPTION))
}

fn zone(typed: &str) -> Result<Tz, CommandError> {
    typed.parse().map_err(|_unknown| {
        refused("--zone")(format!("'{typed}' is not a time zone; type one such as America/New_York or Europe/London"))
    })
}

/// Degrees with a sign or a letter, not both.
fn angle(typed: &str, plus: char, minus: char) -> Option<f64> {
    let text = typed.trim();
    let letter = text.chars().last().filter(char::is_ascii_alphabetic).map(|c| c.to_ascii_uppercase());
    let number = text.trim_end_matches(|c: char| c.is_ascii_alphabetic() || c == '°' || c == ' ');
    let degrees: f64 = number.parse().ok().filter(|v: &f64| v.is_finite())?;
    match letter {
        None => Some(degrees),
        Some(l) if l == plus && degrees >= 0.0 => Some(degrees),
        Some(l) if l == minus && degrees >= 0.0 => Some(-degrees),
        Some(_) => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_are_read_with_signs_or_letters() {
        for typed in ["44.1,-70.2", "44.1N,70.2W", " 44.1 n , 70.2° W"] {
            let place = place(typed).unwrap();
            assert!((place.latitude() - 44.1).abs() < 1e-9 && (place.longitude() + 70.2).abs() < 1e-9, "{typed}");
        }
        for wrong in ["44.1", "44.1,", "-44.1S,3", "44.1E,70.2N", "north,west", "NaN,inf"] {
            assert!(place(wrong).unwrap_err().to_string().contains("is not a place"), "{wrong}");
        }
        assert_eq!(place("97,0").unwrap_err().to_string(), "--at: latitude is 97°; it must be -90 to 90°");
    }
}
