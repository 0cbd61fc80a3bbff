//! Where on earth, for the commands that reckon with the sun.

use super::CommandError;
use super::typed::refused;
use crate::crop::night::Place;
use chrono_tz::Tz;
use clap::Args;

/// Where the crop stands.
#[derive(Debug, Default, Args)]
pub struct PlaceArgs {
    /// Latitude and longitude in degrees, north and east positive: 44.10,-70.21 or 44.10N,70.21W.
    #[arg(long, value_name = "LAT,LON", allow_hyphen_values = true)]
    pub at: Option<String>,
    /// Time zone of the answer, like America/New_York; without it UTC.
    #[arg(long, value_name = "ZONE")]
    pub zone: Option<String>,
}

impl PlaceArgs {
    /// The place typed, if any.
    ///
    /// # Errors
    /// When it is no place; says what would be right.
    pub(super) fn place(&self) -> Result<Option<Place>, CommandError> {
        const OPTION: &str = "--at";
        let Some(typed) = &self.at else { return Ok(None) };
        let degrees = typed.split_once(',').and_then(|(lat, lon)| Some((angle(lat, 'N', 'S')?, angle(lon, 'E', 'W')?)));
        let Some((latitude, longitude)) = degrees else {
            let reason =
                format!("'{typed}' is not a place; type latitude and longitude such as 44.10,-70.21 or 44.10N,70.21W");
            return Err(refused(OPTION)(reason));
        };
        Place::new(latitude, longitude).map(Some).map_err(refused(OPTION))
    }

    /// The place typed, which must be.
    ///
    /// # Errors
    /// When it is missing or no place.
    pub(super) fn needed(&self) -> Result<Place, CommandError> {
        self.place()?.ok_or_else(|| refused("--at")("where? give latitude and longitude such as --at 44.10,-70.21"))
    }

    /// The zone typed, or UTC.
    ///
    /// # Errors
    /// When it is no zone.
    pub(super) fn zone(&self) -> Result<Tz, CommandError> {
        let Some(typed) = &self.zone else { return Ok(Tz::UTC) };
        typed.parse().map_err(|_unknown| {
            refused("--zone")(format!(
                "'{typed}' is not a time zone; type one such as America/New_York or Europe/London"
            ))
        })
    }
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
        let place = |at: &str| PlaceArgs { at: Some(at.to_owned()), zone: None }.place();
        for typed in ["44.1,-70.2", "44.1N,70.2W", " 44.1 n , 70.2° W"] {
            let place = place(typed).unwrap().unwrap();
            assert!((place.latitude() - 44.1).abs() < 1e-9 && (place.longitude() + 70.2).abs() < 1e-9, "{typed}");
        }
        for wrong in ["44.1", "44.1,", "-44.1S,3", "44.1E,70.2N", "north,west", "NaN,inf"] {
            assert!(place(wrong).unwrap_err().to_string().contains("is not a place"), "{wrong}");
        }
        assert_eq!(place("97,0").unwrap_err().to_string(), "--at: latitude is 97°; it must be -90 to 90°");
    }
}
