//! Benches in words for a line that may be about hundreds of them: by house, those that follow one another as a row, a whole
//! house by its name.

use crate::record::Bench;
use crate::season::Season;
use chrono::NaiveDate;
use std::collections::BTreeSet;

/// In a house of this many benches or fewer each is named.
const FEW: usize = 2;

/// The benches of one house, or those chosen of them.
enum Part {
    /// All that have pots.
    Whole,
    /// Some, in words.
    Some(String),
}

/// `M1-M4`, `Mill M1-M4, all of Dell`: the house is named where there are several and the codes do not say it.
pub fn ranges(season: &Season, codes: &[String], on: NaiveDate) -> String {
    let chosen: BTreeSet<&str> = codes.iter().map(String::as_str).collect();
    let stands = |bench: &&Bench| season.standing(&bench.bench, on).is_some();
    ranges_of(&season.by_house(), |bench| &bench.bench, |bench| chosen.contains(bench.bench.as_str()), stands)
}

/// The same of those chosen among the benches of houses, each house in walking order: by their codes, and whether one has pots.
pub fn ranges_of<B>(
    houses: &[(&str, Vec<B>)],
    code: fn(&B) -> &str,
    is_chosen: impl Fn(&B) -> bool,
    stands: impl Fn(&B) -> bool,
) -> String {
    let part_of = |benches: &[B]| {
        let chosen: Vec<usize> = (0..benches.len()).filter(|at| benches.get(*at).is_some_and(&is_chosen)).collect();
        if chosen.len() > FEW && chosen.len() == benches.iter().filter(|bench| stands(bench)).count() {
            return Some(Part::Whole);
        }
        let name = |at: usize| benches.get(at).map(code).unwrap_or_default();
        let words: Vec<String> = rows(&chosen).into_iter().map(|(a, b)| row(name(a), name(b), b - a)).collect();
        (!words.is_empty()).then(|| Part::Some(words.join(" ")))
    };
    let parts = houses.iter().filter_map(|(house, benches)| Some((*house, part_of(benches)?)));
    let parts: Vec<(&str, Part)> = parts.collect();
    let several = parts.len() > 1;
    let mut text = String::new();
    let mut whole_before = false;
    for (house, part) in parts {
        if !text.is_empty() {
            text.push_str(", ");
        }
        let whole = matches!(part, Part::Whole);
        match part {
            Part::Whole if whole_before => text.push_str(house),
            Part::Whole => text.push_str(&format!("all of {house}")),
            Part::Some(words) if several && !words.starts_with(house) => text.push_str(&format!("{house} {words}")),
            Part::Some(words) => text.push_str(&words),
        }
        whole_before = whole;
    }
    text
}

/// Ascending numbers as the first and the last of each row.
fn rows(numbers: &[usize]) -> Vec<(usize, usize)> {
    let mut rows: Vec<(usize, usize)> = Vec::new();
    for at in numbers {
        match rows.last_mut() {
            Some((_, last)) if last.saturating_add(1) == *at => *last = *at,
            _ => rows.push((*at, *at)),
        }
    }
    rows
}

/// A row by its ends, which lie `apart`.
fn row(first: &str, last: &str, apart: usize) -> String {
    match apart {
        0 => first.to_owned(),
        1 => format!("{first} {last}"),
        _ if first.contains('-') => format!("{first} to {last}"),
        _ => format!("{first}-{last}"),
    }
}

/// With the lots before and the pots of some of the benches after: `R6, W6 (Mill M1-M4, all of Dell; 400 pots)`.
pub(super) fn with_pots(season: &Season, (codes, some): (&[String], &[String]), on: NaiveDate) -> String {
    let standing: Vec<_> = codes.iter().filter_map(|code| season.standing(code, on)).collect();
    if standing.is_empty() {
        return ranges(season, codes, on);
    }
    let lots: Vec<String> = standing.iter().map(|s| s.lot.clone()).collect();
    let lots = by_number(&lots);
    let some = some.iter().filter_map(|code| season.standing(code, on));
    let pots = some.fold(0_u32, |sum, s| sum.saturating_add(s.pots));
    format!("{lots} ({}; {pots} pots)", ranges(season, codes, on))
}

/// A code as its text and the number at its end.
fn numbered(code: &str) -> (&str, Option<u32>) {
    let text = code.trim_end_matches(|c: char| c.is_ascii_digit());
    (text, code.get(text.len()..).and_then(|digits| digits.parse().ok()))
}

/// Lots or houses by their names: `lot R1`, `lots R1-R4, W6`.
pub(super) fn named(what: &str, names: &[String]) -> String {
    let text = by_number(names);
    let several = names.iter().any(|name| Some(name) != names.first());
    if several { format!("{what}s {text}") } else { format!("{what} {text}") }
}

/// Codes in the order of their numbers, each once, three or more that follow one another as a row: `L1-L4, R6`.
fn by_number(codes: &[String]) -> String {
    let mut codes: Vec<&str> = codes.iter().map(String::as_str).collect();
    codes.sort_unstable_by_key(|code| numbered(code));
    codes.dedup();
    let mut all: Vec<(&str, &str, usize)> = Vec::new();
    for code in codes {
        let (text, number) = numbered(code);
        match all.last_mut() {
            Some((_, last, apart))
                if numbered(last) == (text, number.and_then(|n| n.checked_sub(1))) && number.is_some() =>
            {
                (*last, *apart) = (code, apart.saturating_add(1));
            }
            _ => all.push((code, code, 0)),
        }
    }
    let each = all
        .into_iter()
        .map(|(first, last, apart)| if apart == 1 { format!("{first}, {last}") } else { row(first, last, apart) });
    each.collect::<Vec<_>>().join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn codes_that_follow_one_another_by_number_are_a_row() {
        let rows = |codes: &str| by_number(&codes.split(' ').map(String::from).collect::<Vec<_>>());
        assert_eq!(rows("L10 L2 L9 L3 R L11 L1 L2"), "L1-L3, L9-L11, R");
        assert_eq!(rows("A-1 A-2 A-3"), "A-1 to A-3");
        assert_eq!(rows("R1 R2"), "R1, R2");
        assert_eq!(rows("East West North"), "East, North, West");
    }
}
