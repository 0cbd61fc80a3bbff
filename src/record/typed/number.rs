//! Numbers as they are typed, with or without a unit.

use super::super::schema::Field;
use super::super::value::Value;
use crate::units::{
    Area, Concentration, Conductivity, Illuminance, Length, Mass, Quantity, System, Temperature, Unit, Volume,
    parse_in, plain,
};

/// What a number without a unit is in, at a site of this system; empty where the field has no unit.
///
/// Volumes per pot are fluid ounces at a US site; weights per pot are grams everywhere, as packs give them.
pub fn unit_name(field: &Field, system: System) -> &'static str {
    with(field, Name(system)).unwrap_or(field.unit)
}

/// What is to be done with a field's quantity.
trait Do {
    type Out;
    fn go<Q: Quantity>(self, bare: &'static Unit) -> Self::Out;
    fn system(&self) -> System;
}

fn usual<Q: Quantity, D: Do>(act: D, system: System) -> D::Out {
    act.go::<Q>(Q::unit(system))
}

fn named<Q: Quantity, D: Do>(act: D, name: &str, system: System) -> D::Out {
    let unit = Q::UNITS.iter().find(|u| u.names.contains(&name)).unwrap_or_else(|| Q::unit(system));
    act.go::<Q>(unit)
}

/// Does it with the quantity the field's unit belongs to; `None` where that is none with units to choose from.
fn with<D: Do>(field: &Field, act: D) -> Option<D::Out> {
    let system = act.system();
    Some(match (field.unit, system) {
        ("cm", _) => usual::<Length, D>(act, system),
        ("m2", _) => usual::<Area, D>(act, system),
        ("mL", System::Us) => named::<Volume, D>(act, "fl oz", system),
        ("mL", System::Metric) => named::<Volume, D>(act, "mL", system),
        ("g", _) => named::<Mass, D>(act, "g", system),
        ("°C", _) => usual::<Temperature, D>(act, system),
        ("ppm", _) => usual::<Concentration, D>(act, system),
        ("mS/cm", _) => usual::<Conductivity, D>(act, system),
        ("lux", _) => usual::<Illuminance, D>(act, system),
        _ => return None,
    })
}

struct Name(System);

impl Do for Name {
    type Out = &'static str;
    fn go<Q: Quantity>(self, bare: &'static Unit) -> &'static str {
        bare.names.first().copied().unwrap_or("")
    }
    fn system(&self) -> System {
        self.0
    }
}

struct Read<'t>(&'t str, System);

impl Do for Read<'_> {
    type Out = Result<f64, String>;
    fn go<Q: Quantity>(self, bare: &'static Unit) -> Self::Out {
        parse_in::<Q>(self.0, bare).map(Quantity::base).map_err(|e| e.to_string())
    }
    fn system(&self) -> System {
        self.1
    }
}

/// From the base unit into the unit typed without naming it.
struct Into(f64, System);

impl Do for Into {
    type Out = f64;
    fn go<Q: Quantity>(self, bare: &'static Unit) -> f64 {
        (self.0 - bare.offset) / bare.factor
    }
    fn system(&self) -> System {
        self.1
    }
}

/// Six decimals: what a conversion adds beyond them is noise.
fn settled(n: f64) -> f64 {
    (n * 1e6).round() / 1e6 + 0.0
}

/// Reads one number.
pub(super) fn read(field: &Field, text: &str, system: System) -> Result<f64, String> {
    if let Some(found) = with(field, Read(text, system)) {
        return found.map(settled);
    }
    let bare = match field.unit {
        "degrees" => {
            let letter = if field.name == "longitude" { 'W' } else { 'N' };
            let wrong = || format!("'{text}' is not in degrees; type them as 44.1, 44.1 {letter} or 44 06 {letter}");
            return degrees(field, text).ok_or_else(wrong);
        }
        unit => text.strip_suffix(unit).unwrap_or(text).trim_end(),
    };
    let number = bare.parse().ok().filter(|n: &f64| n.is_finite());
    number.map(|n| n + 0.0).ok_or_else(|| format!("is \"{text}\"; give {}", field.wanted()))
}

/// Degrees with a sign or with the letter of the compass that the field takes; minutes and seconds may follow (`44 06 N`).
fn degrees(field: &Field, text: &str) -> Option<f64> {
    let text = text.to_uppercase();
    let (plus, minus) = if field.name == "longitude" { ('E', 'W') } else { ('N', 'S') };
    let letter = text.chars().last().filter(|c| *c == plus || *c == minus);
    let number = letter.map_or(Some(text.as_str()), |_| text.get(..text.len().saturating_sub(1)))?;
    let number = number.replace(['\u{b0}', '\'', '"', '\u{2032}', '\u{2033}', ':'], " ");
    let parts: Vec<&str> = number.split_whitespace().collect();
    let (first, rest) = parts.split_first()?;
    let mut value: f64 = first.parse().ok().filter(|n: &f64| n.is_finite())?;
    let back = first.starts_with('-');
    if rest.len() > 2 || (back && letter.is_some()) {
        return None;
    }
    for (part, of) in rest.iter().zip([60.0, 3600.0]) {
        let part: f64 = part.parse().ok().filter(|n| (0.0..60.0).contains(n))?;
        value += if back { -part / of } else { part / of };
    }
    Some(if letter == Some(minus) { -value } else { value } + 0.0)
}

/// Parses readings separated by commas or spaces. A unit after the last one applies to all that have none.
pub(super) fn list(field: &Field, text: &str, system: System) -> Result<Value, String> {
    let mut readings: Vec<String> = Vec::new();
    for piece in text.split([' ', ',', ';']).filter(|t| !t.is_empty()) {
        let number = piece.starts_with(|c: char| c.is_ascii_digit() || ['.', '-', '+'].contains(&c));
        match readings.last_mut() {
            Some(last) if !number => last.push_str(piece),
            _ => readings.push(piece.to_owned()),
        }
    }
    let has_unit = |t: &String| t.ends_with(|c: char| !c.is_ascii_digit() && c != '.');
    if let Some((last, rest)) = readings.split_last_mut()
        && has_unit(last)
        && !rest.iter().any(has_unit)
    {
        let unit = last.trim_start_matches(|c: char| c.is_ascii_digit() || ['.', '-', '+'].contains(&c)).to_owned();
        for reading in rest.iter_mut() {
            reading.push_str(&unit);
        }
    }
    readings.iter().map(|r| read(field, r, system).map(Value::Number)).collect::<Result<Vec<_>, _>>().map(Value::List)
}

/// The range and unit, as a site types them. Bounds that come from another unit are two digits inside the true ones.
pub(super) fn range(field: &Field, least: f64, most: f64, system: System) -> String {
    let own = |n: f64, inward: fn(f64) -> f64| {
        with(field, Into(n, system))
            .map_or_else(|| plain(n), |own| plain(if (own - n).abs() < 1e-9 { n } else { human(own, inward) }))
    };
    let unit = unit_name(field, system);
    let unit = if unit.is_empty() { String::new() } else { format!(" {unit}") };
    let least = own(least, f64::ceil);
    if most >= 1e6 { format!("{least}{unit} or more") } else { format!("{least} to {}{unit}", own(most, f64::floor)) }
}

/// A number of two digits, rounded in the given direction.
fn human(n: f64, inward: fn(f64) -> f64) -> f64 {
    if n == 0.0 || !n.is_finite() {
        return n;
    }
    let step = 10_f64.powf(n.abs().log10().floor() - 1.0);
    // What a conversion adds to a whole number of steps is no step more.
    inward((n / step * 1e6).round() / 1e6) * step
}

/// The unit with an example, where the range is only that of the possible: how a number is typed helps more.
pub(super) fn example(field: &Field, system: System) -> Option<&'static str> {
    Some(match (field.unit, system) {
        ("cm", System::Us) => "in; or as 30 cm",
        ("cm", System::Metric) => "cm; or as 12 in",
        ("m2", System::Us) => "sq ft; or as 40 m2",
        ("m2", System::Metric) => "m2; or as 400 ft2",
        ("mL", System::Us) => "fl oz; or as 250 mL",
        ("mL", System::Metric) => "mL; or as 8 fl oz",
        ("lux", System::Us) => "fc; or as 20 lux",
        ("lux", System::Metric) => "lux; or as 2 fc",
        _ => return None,
    })
}

/// A number as it is read: in the site's unit, to the three digits in which numbers are shown.
pub(super) fn display(field: &Field, n: f64, system: System) -> String {
    let shown = plain(with(field, Into(n, system)).unwrap_or(n));
    match unit_name(field, system) {
        "" => shown,
        unit => format!("{shown} {unit}"),
    }
}

/// A number as a form shows one that was kept: as it is typed where that is short, else rounded.
pub(super) fn rounded(field: &Field, n: f64, system: System) -> String {
    /// The longest that is shown as it is: four digits, a point and the unit.
    const LONGEST: usize = 11;
    let exact = show(field, n, system);
    if exact.len() <= LONGEST { exact } else { display(field, n, system) }
}

/// A number as it is typed: in the site's unit, with as many decimals as it takes to come back exactly; in the base unit where
/// no number of decimals does.
pub(super) fn show(field: &Field, n: f64, system: System) -> String {
    let Some(own) = with(field, Into(n, system)) else { return n.to_string() };
    let unit = unit_name(field, system);
    let typed = [1e4, 1e9].map(|parts| format!("{} {unit}", (own * parts).round() / parts + 0.0));
    let comes_back = |typed: &String| read(field, typed, system).is_ok_and(|back| (back - n).abs() <= 1e-9);
    typed.into_iter().find(comes_back).unwrap_or_else(|| format!("{n} {}", field.unit))
}
