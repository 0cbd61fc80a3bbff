//! Values of options that several commands take: quantities typed with any unit, days, terms of closed lists; a refusal that names the
//! option, an answer as text or as JSON.

use super::{CommandError, Context};
use crate::crop::CropError;
use crate::record::parse as record;
use crate::record::typed::{DayReader, Facing};
use crate::terms::Term;
use crate::units::{Quantity, System, Unit, parse, parse_in};
use chrono::NaiveDate;
use clap::ValueEnum;
use clap::builder::{PossibleValue, PossibleValuesParser, TypedValueParser};
use serde::Serialize;

/// Forms of an answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Format {
    /// Plain text.
    Text,
    /// For other programs.
    Json,
}

/// A term of a closed list by its spelling in the journal; help lists the spellings with their words.
pub(super) fn term<T: Term + Send + Sync>() -> impl TypedValueParser<Value = T> {
    let known = T::ALL.iter().map(|term| {
        let value = PossibleValue::new(term.code());
        if term.text() == term.code() { value } else { value.help(term.text()) }
    });
    PossibleValuesParser::new(known).try_map(|code| T::from_code(&code).ok_or("not a term of the list"))
}

/// A day of an option, in any way a form takes it. In figures the month or the day comes first by the units given, else by those of
/// the site; without a season they are US.
///
/// # Errors
/// What was typed, and what would be right.
pub(super) fn day(
    option: &'static str,
    (typed, facing): (&str, Facing),
    units: Option<System>,
    context: &Context<'_>,
) -> Result<NaiveDate, CommandError> {
    if let Some(day) = record::day(typed) {
        return Ok(day);
    }
    let reader = context.day_reader();
    let reader = DayReader { system: units.unwrap_or(reader.system), ..reader };
    reader.day(typed, facing).map_err(|said| refused(option)(said.strip_prefix("is ").unwrap_or(&said).to_owned()))
}

/// Turns a reason into the refusal of an option: `.map_err(refused("--humidity"))`.
pub(super) fn refused<E: std::fmt::Display>(option: &'static str) -> impl Fn(E) -> CommandError {
    move |reason| CommandError::Typed { option, reason: reason.to_string() }
}

/// As [`refused`], of the crop's arithmetic: in the units of a system.
pub(super) fn refused_in(option: &'static str, system: System) -> impl Fn(CropError) -> CommandError {
    move |error| CommandError::Typed { option, reason: error.text(system) }
}

/// A quantity typed with any of its units; without one it is in the unit system given.
pub(super) fn quantity<Q: Quantity>(option: &'static str, typed: &str, system: System) -> Result<Q, CommandError> {
    parse(typed, system).map_err(refused(option))
}

/// As [`quantity`], but without a unit it is in the unit given.
pub(super) fn quantity_in<Q: Quantity>(option: &'static str, typed: &str, bare: &Unit) -> Result<Q, CommandError> {
    parse_in(typed, bare).map_err(refused(option))
}

/// A plain number, with or without one of the units named: `85`, `85%`.
pub(super) fn number(option: &'static str, typed: &str, units: &[&str]) -> Result<f64, CommandError> {
    let text = typed.trim();
    let end = text.find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | '-' | '+'))).unwrap_or(text.len());
    let (digits, unit) = text.split_at(end);
    let unit = unit.trim();
    let refuse = |reason: String| CommandError::Typed { option, reason };
    let value: f64 = digits.parse().ok().filter(|v: &f64| v.is_finite()).ok_or_else(|| {
        let example = units
            .first()
            .map_or_else(|| "12".to_owned(), |u| if *u == "%" { "12%".to_owned() } else { format!("12 {u}") });
        refuse(format!("'{text}' is not a number; type one such as {example}"))
    })?;
    if unit.is_empty() || units.iter().any(|u| u.eq_ignore_ascii_case(unit)) {
        Ok(value)
    } else if units.is_empty() {
        Err(refuse(format!("no unit expected here (found '{unit}')")))
    } else {
        Err(refuse(format!("unknown unit '{unit}'; it may be typed in {}", units.join(", "))))
    }
}

/// Prints an answer in the form asked for.
pub(super) fn print(
    context: &mut Context<'_>,
    format: Format,
    text: &str,
    json: &impl Serialize,
) -> Result<(), CommandError> {
    let answer = match format {
        Format::Text => text.to_owned(),
        Format::Json => serde_json::to_string_pretty(json).map_err(std::io::Error::from)? + "\n",
    };
    context.out.write_all(answer.as_bytes())?;
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Length;

    #[test]
    fn a_refusal_names_the_option_and_what_would_be_right() {
        let say = |r: Result<f64, CommandError>| r.unwrap_err().to_string();
        assert!((number("--humidity", " 85 % ", &["%"]).unwrap() - 85.0).abs() < 1e-9);
        assert_eq!(
            say(number("--humidity", "85 grains", &["%"])),
            "--humidity: unknown unit 'grains'; it may be typed in %"
        );
        assert_eq!(say(number("--humidity", "wet", &["%"])), "--humidity: 'wet' is not a number; type one such as 12%");
        assert_eq!(say(number("--pots", "12 in", &[])), "--pots: no unit expected here (found 'in')");
        let wrong = quantity::<Length>("--centers", "12 lb", System::Us).unwrap_err();
        assert_eq!(wrong.to_string(), "--centers: unknown unit 'lb'; a length may be typed in cm, in, mm, m, ft");
        assert_eq!(wrong.exit_code(), 2);
    }

    #[test]
    fn a_closed_list_is_read_by_its_own_spellings() {
        use crate::terms::Material;
        let command =
            clap::Command::new("mix").arg(clap::Arg::new("salt").long("salt").value_parser(term::<Material>()));
        let parse = |word: &str| command.clone().try_get_matches_from(["mix", "--salt", word]);
        for material in Material::ALL {
            assert_eq!(parse(material.code()).unwrap().get_one::<Material>("salt"), Some(material));
        }
        let refused = parse("magnesium").unwrap_err().to_string();
        assert!(Material::ALL.iter().all(|material| refused.contains(material.code())), "{refused}");
    }
}
