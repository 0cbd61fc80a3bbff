//! The codes of a new row of benches, made from a prefix and two numbers.

/// Makes the codes from a prefix and two numbers; a leading zero is kept (`01` to `12`).
///
/// # Errors
/// What is wrong, and what would be right.
pub(super) fn made(prefix: &str, from: &str, to: &str) -> Result<Vec<String>, (&'static str, String)> {
    let number = |name: &'static str, text: &str| {
        let digits = text.trim();
        digits
            .parse::<u32>()
            .map_err(|_not_a_number| (name, format!("is \"{digits}\"; give a whole number, such as 12")))
    };
    let (first, last) = (number("from", from)?, number("to", to)?);
    if last < first {
        return Err(("to", format!("is {last}, less than {first}; give the last number of the row")));
    }
    if last.saturating_sub(first) >= MOST {
        return Err(("to", format!("makes more than {MOST} benches; give a shorter row")));
    }
    let wide = if from.trim().starts_with('0') { from.trim().len() } else { 1 };
    Ok((first..=last).map(|n| format!("{}{n:0wide$}", prefix.trim())).collect())
}

/// The most benches made at once (house rule).
const MOST: u32 = 400;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_are_made() {
        assert_eq!(made("E", "9", "11").unwrap(), ["E9", "E10", "E11"]);
        assert_eq!(made("E", "09", "10").unwrap(), ["E09", "E10"]);
        assert_eq!(made("E", "3", "2").unwrap_err().0, "to");
        assert_eq!(made("E", "x", "2").unwrap_err().0, "from");
        assert_eq!(made("E", "1", "4000000000").unwrap_err().0, "to");
    }
}
