//! Texts that a spreadsheet would take for a formula, made safe on the way out and put back on the way in.

/// Puts an apostrophe before each part of a text that a spreadsheet may take for a formula. Some readers part the cells at
/// semicolons or tabs whatever the program says, so each part between these is looked at; blanks and quotes before the sign do not
/// hide it. A part that is a plain number stays one. A part that already begins with apostrophes before such a sign gets one more,
/// so that [`unguarded`] gives every text back.
pub(super) fn guarded(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    if is_blank_led(text) {
        out.push('\'');
    }
    for part in text.split_inclusive(ENDS) {
        if is_formula(part) {
            out.push('\'');
        }
        out.push_str(part);
    }
    out
}

/// Takes the apostrophes off again that [`guarded`] puts there.
pub(super) fn unguarded(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let text = match text.strip_prefix('\'') {
        Some(rest) if is_blank_led(rest) => rest,
        _ => text,
    };
    for part in text.split_inclusive(ENDS) {
        match part.strip_prefix('\'') {
            Some(rest) if is_formula(rest) => out.push_str(rest),
            _ => out.push_str(part),
        }
    }
    out
}

/// What parts the cells for one reader or another.
const ENDS: [char; 4] = [';', '\t', '\r', '\n'];

/// True where a text begins with a tab or a carriage return, behind which some spreadsheets look for a formula too.
fn is_blank_led(text: &str) -> bool {
    text.trim_start_matches('\'').starts_with(['\t', '\r'])
}

fn is_formula(part: &str) -> bool {
    let part = part.trim_end_matches(ENDS);
    let bare = part.trim_start_matches('\'').trim_start_matches(|c: char| c.is_whitespace() || c == '"');
    // The last four are the wide forms of the first, which some spreadsheets take as well.
    let begins = bare.starts_with(['=', '+', '-', '@', '\u{ff1d}', '\u{ff0b}', '\u{ff0d}', '\u{ff20}']);
    begins && !part.trim().parse::<f64>().is_ok_and(f64::is_finite)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn every_part_that_could_be_a_formula_is_guarded() {
        for (text, wanted) in [
            ("=1+1", "'=1+1"),
            ("a;=HYPERLINK(1)", "a;'=HYPERLINK(1)"),
            ("a; @SUM(A1);b", "a;' @SUM(A1);b"),
            ("a;\"=1", "a;'\"=1"),
            ("a\t+cmd", "a\t'+cmd"),
            ("\u{ff1d}1", "'\u{ff1d}1"),
            ("'=1", "''=1"),
            ("'tis dry", "'tis dry"),
            ("\tdry", "'\tdry"),
            ("\rdry", "'\rdry"),
            ("-12.5", "-12.5"),
            ("3; -2", "3; -2"),
            ("-inf", "'-inf"),
            ("dry; 2 of 3", "dry; 2 of 3"),
            ("a=b - c", "a=b - c"),
            ("", ""),
        ] {
            assert_eq!(guarded(text), wanted);
            assert_eq!(unguarded(wanted), text);
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(400) })]

        #[test]
        fn import_puts_back_what_export_made_safe(text in "[-=+@';\t\r\n\" a1.]{0,12}") {
            let safe = guarded(&text);
            prop_assert_eq!(unguarded(&safe), text);
            prop_assert!(!safe.starts_with(['=', '@', '\t', '\r']), "{}", safe);
        }
    }
}
