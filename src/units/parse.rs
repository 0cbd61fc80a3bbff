//! Typed text into quantities.

use super::{Quantity, System, Unit, plain};
use thiserror::Error;

/// Why a typed quantity was refused.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum UnitError {
    /// There was no number at all.
    #[error("'{typed}' is not a number; type {what} such as {example}")]
    NotANumber {
        /// What was typed.
        typed: String,
        /// The quantity wanted.
        what: &'static str,
        /// One that would be right.
        example: String,
    },
    /// The unit is not one of this quantity's.
    #[error("unknown unit '{unit}'; {what} may be typed in {known}")]
    UnknownUnit {
        /// What followed the number.
        unit: String,
        /// The quantity wanted.
        what: &'static str,
        /// The units that are known.
        known: String,
    },
    /// The number makes no sense for this quantity.
    #[error("{typed} is too low; {what} is {least} or more")]
    TooLow {
        /// What was typed.
        typed: String,
        /// The quantity wanted.
        what: &'static str,
        /// The least accepted, with its unit.
        least: String,
    },
}

/// Reads a quantity; a number without a unit is in the site's unit system.
///
/// # Errors
/// See [`UnitError`]; each names what would be right.
///
/// ```
/// use benchwalk::units::{parse, Length, Temperature, System};
/// assert_eq!(parse::<Length>("14in", System::Metric).unwrap().cm(), 35.56);
/// assert!((parse::<Temperature>("68F", System::Metric).unwrap().c() - 20.0).abs() < 1e-9);
/// assert!(parse::<Length>("14 furlongs", System::Us).is_err());
/// ```
pub fn parse<Q: Quantity>(typed: &str, system: System) -> Result<Q, UnitError> {
    parse_in(typed, Q::unit(system))
}

/// Reads a quantity; a number without a unit is in the unit given.
///
/// # Errors
/// See [`UnitError`].
pub fn parse_in<Q: Quantity>(typed: &str, bare: &Unit) -> Result<Q, UnitError> {
    let text = typed.trim();
    let (number, rest) = split(text);
    let value: f64 = number.parse().ok().filter(|v: &f64| v.is_finite()).ok_or_else(|| UnitError::NotANumber {
        typed: typed.to_owned(),
        what: Q::WHAT,
        example: format!("12 {}", bare.names.first().unwrap_or(&"")),
    })?;
    let unit = if rest.is_empty() { bare } else { find::<Q>(rest)? };
    let base = value.mul_add(unit.factor, unit.offset);
    if base < Q::LEAST || !base.is_finite() {
        let least = (Q::LEAST - bare.offset) / bare.factor;
        return Err(UnitError::TooLow {
            typed: typed.trim().to_owned(),
            what: Q::WHAT,
            least: format!("{} {}", plain(least), bare.names.first().unwrap_or(&"")).trim().to_owned(),
        });
    }
    Ok(Q::from_base(base))
}

/// Splits `2.5 qt` into `2.5` and `qt`.
fn split(text: &str) -> (&str, &str) {
    let end = text
        .char_indices()
        .find(|(i, c)| !(c.is_ascii_digit() || *c == '.' || (*i == 0 && (*c == '-' || *c == '+'))))
        .map_or(text.len(), |(i, _)| i);
    let (number, rest) = text.split_at(end);
    (number, rest.trim())
}

fn find<Q: Quantity>(name: &str) -> Result<&'static Unit, UnitError> {
    let exact = Q::UNITS.iter().find(|u| u.names.contains(&name));
    let loose = || Q::UNITS.iter().find(|u| u.names.iter().any(|n| n.eq_ignore_ascii_case(name)));
    exact.or_else(loose).ok_or_else(|| UnitError::UnknownUnit {
        unit: name.to_owned(),
        what: Q::WHAT,
        known: Q::UNITS.iter().filter_map(|u| u.names.first().copied()).collect::<Vec<_>>().join(", "),
    })
}

#[cfg(test)]
mod tests {
    use super::super::{Length, Mass, Quantity, System, Temperature, Volume, parse};
    use proptest::prelude::*;

    #[test]
    fn typed_units_win_over_the_system() {
        assert!((parse::<Length>("10", System::Us).unwrap().cm() - 25.4).abs() < 1e-9);
        assert!((parse::<Length>("10", System::Metric).unwrap().cm() - 10.0).abs() < 1e-9);
        assert!((parse::<Length>("10mm", System::Us).unwrap().cm() - 1.0).abs() < 1e-9);
        assert!((parse::<Volume>("2 qt", System::Us).unwrap().ml() - 1_892.705_892).abs() < 1e-6);
        assert!((parse::<Volume>("4 FL OZ", System::Us).unwrap().ml() - 118.294_118).abs() < 1e-5);
        assert!((parse::<Temperature>("32F", System::Metric).unwrap().c()).abs() < 1e-9);
    }

    #[test]
    fn errors_say_what_would_be_right() {
        let text = |t: &str| parse::<Length>(t, System::Us).unwrap_err().to_string();
        assert_eq!(text("abc"), "'abc' is not a number; type a length such as 12 in");
        assert_eq!(text("3 lb"), "unknown unit 'lb'; a length may be typed in cm, in, mm, m, ft");
        assert_eq!(text("-3"), "-3 is too low; a length is 0 in or more");
        assert!(text("1e999").contains("unknown unit"), "{}", text("1e999"));
        let cold = |system| parse::<Temperature>("-500", system).unwrap_err().to_string();
        assert_eq!(cold(System::Us), "-500 is too low; a temperature is -460 °F or more");
        assert_eq!(cold(System::Metric), "-500 is too low; a temperature is -273 °C or more");
    }

    proptest! {
        #[test]
        fn any_text_is_answered(text in ".*") {
            if let Ok(q) = parse::<Mass>(&text, System::Us) { prop_assert!(q.g().is_finite()); }
        }

        #[test]
        fn what_is_shown_can_be_typed(v in 0.5f64..500.0) {
            let shown = Length::from_cm(v).show(System::Us);
            let back = parse::<Length>(&shown, System::Metric).unwrap();
            prop_assert!((back.cm() - v).abs() <= 0.006 * v, "{shown}");
        }
    }
}
