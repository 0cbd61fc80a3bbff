//! Benches as people name them: `M1-M4, Mill`. One reading for the forms, the plan and the Mixing page.
//!
//! A text is codes, rows, houses and lots, separated by blanks, commas or semicolons, in any letter case. A row (`E1-E6`,
//! `E1..E6`, `E1 to E6`) goes by walking order. Of things with one name the bench comes first, then the house, then the lot. The
//! name of a house may hold blanks: the longest name that fits is taken.

use super::Season;
use crate::record::Bench;
use chrono::NaiveDate;

/// Which benches a house or a lot stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Meant {
    /// Those with pots on this day: for work done and what is seen.
    WithPots(NaiveDate),
    /// Every bench of a house; a lot is none, as its pots are only to be set down.
    EveryBench,
}

/// A part of a text that names no bench.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum NoPlace {
    /// It is no name of this season.
    #[error("{0} is not a bench, house or lot in this season; type codes, or a row such as E1-E6")]
    Unknown(String),
    /// One end of a row is no bench.
    #[error("{row}: {end} is not a bench in this season; type a row by its first and last bench, such as E1-E6")]
    RowEnd {
        /// The row as it is typed.
        row: String,
        /// The end that is no bench.
        end: String,
    },
    /// A house or lot without a bench that could be meant.
    #[error("no bench of {0} has pots on it")]
    NoPots(String),
}

/// Reads a text: the benches it names, each once, in walking order. An empty text names none.
///
/// # Errors
/// The first part that names no bench.
pub fn read(season: &Season, text: &str, meant: Meant) -> Result<Vec<String>, NoPlace> {
    let names = Names { season, walk: season.benches(), meant };
    let mut found = Vec::new();
    if let Some(all) = names.name(text.trim()).filter(|_| !text.trim().is_empty()) {
        found = all?;
    } else {
        for part in text.split([',', ';']) {
            names.part(part, &mut found)?;
        }
    }
    found.sort_unstable();
    found.dedup();
    Ok(found.into_iter().filter_map(|at| names.walk.get(at)).map(|b| b.bench.clone()).collect())
}

/// True where a text names every one of these places and no other, each by its own name: for confirmations. A row, a house or a
/// lot does not stand for its benches here.
pub fn names_all(text: &str, names: &[&str]) -> bool {
    let same = |name: &str, typed: &str| name.to_lowercase() == typed.to_lowercase();
    let position = |typed: &str| names.iter().position(|name| same(name, typed));
    let mut named = Vec::new();
    if let Some(at) = position(text.trim()) {
        named.push(at);
    } else {
        for part in text.split([',', ';']) {
            let words: Vec<&str> = part.split_whitespace().collect();
            let mut rest = words.as_slice();
            while !rest.is_empty() {
                let Some((at, after)) = longest(rest, position) else { return false };
                named.push(at);
                rest = after;
            }
        }
    }
    let is_named = |name: &&str| named.iter().filter_map(|at| names.get(*at)).any(|typed| same(name, typed));
    !named.is_empty() && names.iter().all(is_named)
}

/// What the longest name at the beginning of these words stands for, and the words after it.
fn longest<'w, T>(words: &'w [&'w str], named: impl Fn(&str) -> Option<T>) -> Option<(T, &'w [&'w str])> {
    (1..=words.len()).rev().find_map(|n| {
        let (name, after) = words.split_at_checked(n)?;
        Some((named(&name.join(" "))?, after))
    })
}

/// Writes codes short: benches that follow one another in the walk as a row. [`read`] gives them again.
pub fn short(season: &Season, codes: &[String]) -> String {
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

/// A bench's code as the season spells it.
pub fn code(season: &Season, typed: &str) -> Option<String> {
    let walk = season.benches();
    bench(walk, typed.trim()).and_then(|at| walk.get(at)).map(|b| b.bench.clone())
}

/// The place of a bench in the walk: spelled as it is, else in other letters.
fn bench(walk: &[Bench], typed: &str) -> Option<usize> {
    let exact = walk.iter().position(|b| b.bench == typed);
    exact.or_else(|| walk.iter().position(|b| b.bench.eq_ignore_ascii_case(typed)))
}

/// Places in the walk, or what is wrong.
type Places = Result<Vec<usize>, NoPlace>;

/// The names that can be typed.
struct Names<'s> {
    season: &'s Season,
    walk: &'s [Bench],
    meant: Meant,
}

impl Names<'_> {
    /// What stands between two commas: names with blanks between, the longest that fits first.
    fn part(&self, part: &str, found: &mut Vec<usize>) -> Result<(), NoPlace> {
        let words: Vec<&str> = part.split_whitespace().collect();
        let mut rest = words.as_slice();
        while let Some(first) = rest.first() {
            let of_words = longest(rest, |name| self.name(name).filter(|_| name.contains(' ')));
            // A row before its first bench alone.
            let named = of_words.or_else(|| self.spaced_row(rest)).or_else(|| longest(rest, |name| self.name(name)));
            match named {
                Some((places, after)) => {
                    found.extend(places?);
                    rest = after;
                }
                None => return Err(NoPlace::Unknown((*first).to_owned())),
            }
        }
        Ok(())
    }

    /// `E1 to E6`, `E1 - E6`.
    fn spaced_row<'w>(&self, words: &'w [&'w str]) -> Option<(Places, &'w [&'w str])> {
        let [first, between, last, after @ ..] = words else { return None };
        matches!(*between, "to" | "-" | "..").then(|| (self.row(first, last, &format!("{first}-{last}")), after))
    }

    /// Everything one name stands for; `None` where it is none.
    fn name(&self, name: &str) -> Option<Places> {
        if let Some(at) = bench(self.walk, name) {
            return Some(Ok(vec![at]));
        }
        let row = if name.contains(' ') { None } else { self.joined_row(name) };
        row.or_else(|| self.group(name))
    }

    /// `E1-E6` and `E1..E6` as one word, where at least one end is a bench.
    fn joined_row(&self, word: &str) -> Option<Places> {
        let dashes = word.match_indices("..").chain(word.match_indices('-'));
        let ends = dashes.filter_map(|(i, sign)| Some((word.get(..i)?, word.get(i.saturating_add(sign.len())..)?)));
        let ends: Vec<(&str, &str)> = ends.filter(|(a, b)| !a.is_empty() && !b.is_empty()).collect();
        let known = |end: &str| bench(self.walk, end).is_some();
        let whole = ends.iter().find(|(a, b)| known(a) && known(b));
        let half = || ends.iter().find(|(a, b)| known(a) || known(b)).filter(|_| self.group(word).is_none());
        let (first, last) = whole.or_else(half)?;
        Some(self.row(first, last, word))
    }

    fn row(&self, first: &str, last: &str, row: &str) -> Places {
        let end = |typed: &str| {
            bench(self.walk, typed).ok_or_else(|| NoPlace::RowEnd { row: row.to_owned(), end: typed.to_owned() })
        };
        let (a, b) = (end(first)?, end(last)?);
        Ok((a.min(b)..=a.max(b)).collect())
    }

    /// The benches of a house or a lot.
    fn group(&self, name: &str) -> Option<Places> {
        let same = |code: &str| code.eq_ignore_ascii_case(name);
        let house = self.season.houses().iter().any(|house| same(house));
        let lot = self.season.lots().iter().any(|lot| same(&lot.lot));
        let places: Vec<usize> = match self.meant {
            Meant::EveryBench if house => self.of(|b| same(&b.house)),
            Meant::WithPots(on) if house => self.of(|b| same(&b.house) && self.season.standing(&b.bench, on).is_some()),
            Meant::WithPots(on) if lot => self.of(|b| self.season.standing(&b.bench, on).is_some_and(|s| same(&s.lot))),
            Meant::EveryBench | Meant::WithPots(_) => return None,
        };
        Some(if places.is_empty() { Err(NoPlace::NoPots(name.to_owned())) } else { Ok(places) })
    }

    fn of(&self, is_meant: impl Fn(&Bench) -> bool) -> Vec<usize> {
        self.walk.iter().enumerate().filter(|(_, b)| is_meant(b)).map(|(at, _)| at).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::names_all;

    #[test]
    fn a_confirmation_names_every_place_and_no_other() {
        for (typed, names) in [
            ("E1", &["E1"][..]),
            (" e1 ", &["E1"]),
            ("E2, e1; E1", &["E1", "E2", "E1"]),
            ("Old Mill", &["Old Mill"]),
            ("old mill E1", &["E1", "Old Mill"]),
            ("Mill, old", &["Mill, old"]),
        ] {
            assert!(names_all(typed, names), "{typed:?} for {names:?}");
        }
        for (typed, names) in [
            ("", &["E1"][..]),
            (" , ", &["E1"]),
            ("E1", &["E1", "E2"]),
            ("E1 E2", &["E1"]),
            ("E1-E2", &["E1", "E2"]),
            ("E", &["E1"]),
            ("Old", &["Old Mill"]),
            ("", &[]),
        ] {
            assert!(!names_all(typed, names), "{typed:?} for {names:?}");
        }
    }
}
