//! Numbers of a logger's file, to the letter: a thousands separator is never guessed.

use super::mapping::{Decimal, short};

/// Reads a number: digits, with a sign before them and the decimal sign within them.
///
/// # Errors
/// What is wrong with it, and what would be right.
pub(super) fn number(cell: &str, decimal: Decimal) -> Result<f64, String> {
    let (sign, other, name) = match decimal {
        Decimal::Point => ('.', ',', "comma"),
        Decimal::Comma => (',', '.', "point"),
    };
    let shown = short(cell);
    if cell.contains(other) {
        let set = if decimal == Decimal::Point { "," } else { "." };
        return Err(format!(
            "'{shown}' holds a {name}, but decimal = \"{sign}\"; if the {name} is the decimal sign, give decimal = \"{set}\""
        ));
    }
    let digits = cell.strip_prefix(['-', '+']).unwrap_or(cell);
    let (whole, part) = digits.split_once(sign).unwrap_or((digits, "0"));
    let is_digits = |text: &str| !text.is_empty() && text.len() <= 12 && text.bytes().all(|b| b.is_ascii_digit());
    let plain = is_digits(whole) && is_digits(part);
    let value = if plain { cell.replace(sign, ".").parse::<f64>().ok() } else { None };
    value.ok_or_else(|| format!("'{shown}' is not a number; if it stands for no reading, add it to missing"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_plain_numbers_are_read() {
        for (cell, wanted) in [("20.5", 20.5), ("-3", -3.0), ("+0.25", 0.25), ("007", 7.0)] {
            assert_eq!(number(cell, Decimal::Point), Ok(wanted), "{cell}");
        }
        assert_eq!(number("20,5", Decimal::Comma), Ok(20.5));
        for cell in ["", "1,234", "1 234", "2e3", "inf", "NaN", "12.", ".5", "1.2.3", "68 F", "--1", "0x10"] {
            assert!(number(cell, Decimal::Point).is_err(), "{cell}");
        }
        assert!(number("1.234", Decimal::Comma).unwrap_err().contains("decimal = \".\""));
    }
}
