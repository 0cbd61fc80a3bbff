//! The codes of new benches, typed as codes and rows: `M1-M8`, `E01-E12 W3`.

/// The most benches made at once (house rule).
const MOST: usize = 400;

/// Makes the codes of a text: codes and rows separated by blanks or commas. The number of the last bench of a row may stand without
/// its letters (`M1-8`); a leading zero is kept (`E01-E12`).
///
/// # Errors
/// What is wrong, and what would be right.
pub(super) fn made(text: &str) -> Result<Vec<String>, String> {
    let mut all: Vec<String> = Vec::new();
    for part in text.split([' ', ',', ';']).filter(|part| !part.is_empty()) {
        let codes = row(part)?.unwrap_or_else(|| vec![part.to_owned()]);
        if let Some(twice) = codes.iter().find(|code| all.contains(code)) {
            return Err(format!("names {twice} twice; give each bench once"));
        }
        all.extend(codes);
        if all.len() > MOST {
            return Err(format!("makes more than {MOST} benches; give a shorter row"));
        }
    }
    if all.is_empty() { Err("is missing; give a row such as M1-M8".to_owned()) } else { Ok(all) }
}

/// The codes of a row; `None` for a single code.
fn row(part: &str) -> Result<Option<Vec<String>>, String> {
    let signs = part.match_indices("..").chain(part.match_indices('-'));
    let ends = signs.filter_map(|(at, sign)| Some((part.get(..at)?, part.get(at.saturating_add(sign.len())..)?)));
    let ends = ends.filter_map(|(from, to)| Some((numbered(from)?, numbered(to)?)));
    // Codes may hold a dash themselves: both ends with the same letters are the row that is meant.
    let found = ends.clone().find(|((a, _), (b, _))| a == b).or_else(|| ends.clone().next());
    let Some(((prefix, first), (other, last))) = found else { return Ok(None) };
    if !other.is_empty() && !other.eq_ignore_ascii_case(prefix) {
        return Err(format!("{part} goes from {prefix} to {other}; give both ends the same letters, such as M1-M8"));
    }
    let number = |digits: &str| {
        digits.parse::<u32>().map_err(|_too_long| format!("{digits} is too long a number; give one such as 12"))
    };
    let (low, high) = (number(first)?, number(last)?);
    if high < low {
        return Err(format!("{part} ends before it begins; give the last number of the row after the first"));
    }
    if usize::try_from(high.saturating_sub(low)).unwrap_or(usize::MAX) >= MOST {
        return Err(format!("{part} makes more than {MOST} benches; give a shorter row"));
    }
    let wide = if first.starts_with('0') { first.len() } else { 1 };
    Ok(Some((low..=high).map(|n| format!("{prefix}{n:0wide$}")).collect()))
}

/// The letters and the number at the end of a code; `None` where it does not end in one.
fn numbered(code: &str) -> Option<(&str, &str)> {
    let letters = code.trim_end_matches(|c: char| c.is_ascii_digit());
    let digits = code.get(letters.len()..)?;
    (!digits.is_empty()).then_some((letters, digits))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_are_made() {
        assert_eq!(made("E9-E11").unwrap(), ["E9", "E10", "E11"]);
        assert_eq!(made("E09-E10").unwrap(), ["E09", "E10"]);
        assert_eq!(made("M1-3").unwrap(), ["M1", "M2", "M3"]);
        assert_eq!(made("M1..M2, N-4 X").unwrap(), ["M1", "M2", "N-4", "X"]);
        assert_eq!(made("1-3").unwrap(), ["1", "2", "3"]);
        assert_eq!(made("N-1-N-2").unwrap(), ["N-1", "N-2"]);
        for wrong in ["", " , ", "E3-E2", "E1-M4", "E1-E4000000000", "E1-E500", "E1-E3 E2"] {
            assert!(made(wrong).is_err(), "{wrong:?}");
        }
    }
}
