//! Bench codes as people type them: in rows, as `N1-N6`, and written short again.

use crate::season::Season;

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

/// Reads codes: single ones, and rows as `N1-N6` or `N1 to N6`, which go by walking order. Each once, in walking order.
///
/// # Errors
/// What is no bench.
pub(super) fn read(season: &Season, text: &str) -> Result<Vec<String>, String> {
    let walk = season.benches();
    let place = |typed: &str| walk.iter().position(|b| b.bench.eq_ignore_ascii_case(typed));
    let unknown = |typed: &str| format!("{typed} is no bench of this season; type codes, or a row as N1-N6");
    let text = text.replace(" to ", "-").replace("..", "-").replace(" - ", "-");
    let mut found = Vec::new();
    for typed in text.split([' ', ',', ';']).filter(|t| !t.is_empty()) {
        if let Some(at) = place(typed) {
            found.push(at);
            continue;
        }
        let row = typed.match_indices('-').find_map(|(i, _)| {
            let (a, b) = (typed.get(..i)?, typed.get(i.saturating_add(1)..)?);
            Some((place(a)?, place(b)?))
        });
        let Some((a, b)) = row else { return Err(unknown(typed)) };
        found.extend(a.min(b)..=a.max(b));
    }
    found.sort_unstable();
    found.dedup();
    Ok(found.into_iter().filter_map(|at| walk.get(at)).map(|b| b.bench.clone()).collect())
}

/// Codes written short: benches that follow one another in the walk as a row.
pub(super) fn short(season: &Season, codes: &[String]) -> String {
    let walk = season.benches();
    let mut rows: Vec<(usize, usize)> = Vec::new();
    for (at, _) in walk.iter().enumerate().filter(|(_, b)| codes.contains(&b.bench)) {
        match rows.last_mut() {
            Some((_, last)) if last.saturating_add(1) == at => *last = at,
            _ => rows.push((at, at)),
        }
    }
    let code = |at: usize| walk.get(at).map_or("", |b| b.bench.as_str());
    let each = rows.into_iter().map(|(a, b)| match b.saturating_sub(a) {
        0 => code(a).to_owned(),
        1 => format!("{} {}", code(a), code(b)),
        _ => format!("{}-{}", code(a), code(b)),
    });
    each.collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::{Bench, Plan, Revision};

    fn season() -> Season {
        let bench = |code: &str, order| Bench {
            bench: code.into(),
            house: "North".into(),
            order,
            area_m2: None,
            revision: Revision::default(),
        };
        let benches = ["N1", "N2", "N3", "N-4", "S1"].iter().zip(1..).map(|(c, o)| bench(c, o)).collect();
        Season::new(Plan { benches, ..Plan::default() }, Vec::new())
    }

    #[test]
    fn rows_are_read_by_the_walk_and_written_short_again() {
        let season = season();
        for (typed, codes, short_again) in [
            ("n1-n3", vec!["N1", "N2", "N3"], "N1-N3"),
            ("N1 to N-4, S1", vec!["N1", "N2", "N3", "N-4", "S1"], "N1-S1"),
            ("S1 N-4 N1", vec!["N1", "N-4", "S1"], "N1 N-4 S1"),
            ("", vec![], ""),
        ] {
            let read = read(&season, typed).unwrap();
            assert_eq!(read, codes, "{typed}");
            assert_eq!(short(&season, &read), short_again);
        }
        assert!(read(&season, "N1-N9").unwrap_err().contains("N1-N9 is no bench"));
    }

    #[test]
    fn rows_are_made() {
        assert_eq!(made("N", "9", "11").unwrap(), ["N9", "N10", "N11"]);
        assert_eq!(made("E", "09", "10").unwrap(), ["E09", "E10"]);
        assert_eq!(made("N", "3", "2").unwrap_err().0, "to");
        assert_eq!(made("N", "x", "2").unwrap_err().0, "from");
        assert_eq!(made("N", "1", "4000000000").unwrap_err().0, "to");
    }
}
