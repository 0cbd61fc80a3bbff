//! The limits file: TOML in, and the commented file out.

use super::{Choices, Limits, Row};
use crate::characters::short;
use crate::units::plain;
use thiserror::Error;
use toml::de::{DeTable, DeValue};

/// Characters of a message that may quote the file.
const QUOTED: usize = 200;

/// Characters quoted of a name or a value.
const NAMED: usize = 40;

/// Why a limits file was not taken. Every text names the line and what would be right.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum LimitsError {
    /// Not TOML.
    #[error("line {line}: {text}")]
    Syntax {
        /// Line, from 1.
        line: usize,
        /// What the reader says.
        text: String,
    },
    /// A name that is not a limit.
    #[error("line {line}: '{key}' is not a limit; 'benchwalk limits' prints them all{hint}")]
    Unknown {
        /// Line, from 1.
        line: usize,
        /// The name.
        key: String,
        /// The known names of that group, if the group is known.
        hint: String,
    },
    /// A value out of its range or of the wrong kind.
    #[error("line {line}: {key} must be {wanted}, not {got}")]
    Value {
        /// Line, from 1.
        line: usize,
        /// The name.
        key: String,
        /// What would be right.
        wanted: String,
        /// Its value.
        got: String,
    },
}

impl Limits {
    /// Reads a grower's limits file over the defaults. Every fault is reported.
    ///
    /// # Errors
    /// All faults, each with its line.
    pub fn parse(text: &str) -> Result<Self, Vec<LimitsError>> {
        let lines = Lines::of(text);
        let table = DeTable::parse(text).map_err(|e| {
            let line = e.span().map_or(1, |s| lines.at(s.start));
            vec![LimitsError::Syntax { line, text: short(e.message(), QUOTED) }]
        })?;
        let mut limits = Self::default();
        let mut faults = Vec::new();
        for (group, value) in table.get_ref() {
            let line = lines.at(group.span().start);
            let DeValue::Table(inner) = value.get_ref() else {
                faults.push(unknown(line, group.get_ref()));
                continue;
            };
            for (name, value) in inner {
                let key = format!("{}.{}", group.get_ref(), name.get_ref());
                let line = lines.at(name.span().start);
                if let Err(fault) = limits.take(&key, line, value.get_ref()) {
                    faults.push(fault);
                }
            }
        }
        if faults.is_empty() { Ok(limits) } else { Err(faults) }
    }

    fn take(&mut self, key: &str, line: usize, value: &DeValue<'_>) -> Result<(), LimitsError> {
        if let Some(row) = Self::rows().into_iter().find(|r| r.key == key) {
            let number = number(value)
                .filter(|v| (row.least..=row.most).contains(v) && (!row.whole || v.fract() == 0.0))
                .ok_or_else(|| refused(line, key, wanted(&row), value))?;
            self.set(row.key, number);
            if (number - row.default).abs() > f64::EPSILON {
                self.own.insert(row.key);
            }
            return Ok(());
        }
        let row = Choices::ROWS.iter().find(|r| r.key == key).ok_or_else(|| unknown(line, key))?;
        let own =
            (row.read)(&mut self.choices, value).ok_or_else(|| refused(line, key, row.wanted.to_owned(), value))?;
        if own {
            self.own.insert(row.key);
        }
        Ok(())
    }
}

/// A number of the file, whole or not; `None` for anything else.
pub(super) fn number(value: &DeValue<'_>) -> Option<f64> {
    match value {
        DeValue::Integer(i) => i.as_str().replace('_', "").parse().ok(),
        DeValue::Float(f) => f.as_str().replace('_', "").parse().ok(),
        _ => None,
    }
    .filter(|v: &f64| v.is_finite())
}

fn refused(line: usize, key: &str, wanted: String, value: &DeValue<'_>) -> LimitsError {
    let got = match value {
        DeValue::String(s) => format!("\"{s}\""),
        DeValue::Integer(i) => i.to_string(),
        DeValue::Float(f) => f.to_string(),
        DeValue::Boolean(b) => b.to_string(),
        DeValue::Array(_) => "a list".to_owned(),
        DeValue::Table(_) => "a table".to_owned(),
        DeValue::Datetime(d) => d.to_string(),
    };
    LimitsError::Value { line, key: short(key, NAMED), wanted, got: short(&got, NAMED) }
}

fn wanted(row: &Row) -> String {
    let kind = if row.whole { "a whole number" } else { "a number" };
    format!("{kind} from {} to {} ({})", plain(row.least), plain(row.most), row.unit)
}

fn unknown(line: usize, key: &str) -> LimitsError {
    let group = key.split('.').next().unwrap_or(key);
    let keys = Limits::rows().into_iter().map(|r| r.key).chain(Choices::ROWS.iter().map(|r| r.key));
    let names: Vec<&str> = keys.filter_map(|key| key.strip_prefix(group)?.strip_prefix('.')).collect();
    let hint = if names.is_empty() { String::new() } else { format!("; in [{group}]: {}", names.join(", ")) };
    LimitsError::Unknown { line, key: short(key, NAMED), hint }
}

/// Where the lines of a text end.
struct Lines(Vec<usize>);

impl Lines {
    fn of(text: &str) -> Self {
        Self(text.match_indices('\n').map(|(at, _)| at).collect())
    }

    /// The line, from 1, of the byte at this place.
    fn at(&self, place: usize) -> usize {
        self.0.partition_point(|end| *end < place) + 1
    }
}

/// The defaults as a file to keep and change: every number with its meaning, unit, range and basis.
pub fn commented() -> String {
    let mut out = String::from(
        "# Benchwalk limits: the numbers behind the rules. Uncomment a line to change it; other lines keep the defaults.\n\
         # Each value is in the unit named above it, at every site: the file is metric, as the names of its lines say.\n\
         # Kept as limits.toml in the config folder, or named with --limits FILE.\n",
    );
    let mut group = "";
    for row in Limits::rows() {
        let (this, name) = row.key.split_once('.').unwrap_or(("", row.key));
        if this != group {
            out.push_str(&format!("\n[{this}]\n"));
            group = this;
        }
        out.push_str(&format!(
            "\n# {}.\n# Unit: {}; from {} to {}. Basis: {}.\n{}#{name} = {}\n",
            row.meaning,
            row.unit,
            plain(row.least),
            plain(row.most),
            row.basis,
            row.bracket.map_or_else(String::new, |bracket| format!("# Published figures: {bracket}.\n")),
            row.default,
        ));
    }
    out.push_str("\n[choices]\n");
    for row in Choices::ROWS {
        let name = row.key.split_once('.').map_or(row.key, |(_, name)| name);
        let (meaning, wanted, basis) = (row.meaning, row.wanted, row.basis);
        out.push_str(&format!("\n# {meaning}: {wanted}.\n# Basis: {basis}.\n#{name} = {}\n", (row.default)()));
    }
    out
}

/// What the grower's file changed, as a file that changes it again: each limit with its meaning, unit and default. Empty where
/// nothing was changed.
pub fn changed(limits: &Limits) -> String {
    let mut out = String::new();
    let values = limits.pairs();
    let mut group = "";
    let mut head = |out: &mut String, key: &'static str| {
        let (this, name) = key.split_once('.').unwrap_or(("", key));
        if this != group {
            out.push_str(&format!("\n[{this}]\n"));
            group = this;
        }
        name
    };
    for row in Limits::rows().into_iter().filter(|row| limits.is_own(row.key)) {
        let Some((_, value)) = values.iter().find(|(key, _)| *key == row.key) else { continue };
        let name = head(&mut out, row.key);
        let meaning = format!("\n# {}.\n# Unit: {}; default {}.\n", row.meaning, row.unit, row.default);
        out.push_str(&format!("{meaning}{name} = {value}\n"));
    }
    for row in Choices::ROWS.iter().filter(|row| limits.is_own(row.key)) {
        let name = head(&mut out, row.key);
        let (meaning, default, value) = (row.meaning, (row.default)(), (row.written)(&limits.choices));
        out.push_str(&format!("\n# {meaning}.\n# Default {default}.\n{name} = {value}\n"));
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::limits::{CurveChoice, Water};
    use crate::terms::NightConvention;

    #[test]
    fn the_printed_file_is_the_defaults() {
        assert_eq!(Limits::parse(&commented()).unwrap(), Limits::default());
        let active: String = commented()
            .lines()
            .map(|l| if l.starts_with('#') && !l.starts_with("# ") { &l[1..] } else { l })
            .fold(String::new(), |a, l| a + l + "\n");
        assert!(active.contains("\nwet_from = 4\n"));
        assert_eq!(Limits::parse(&active).unwrap(), Limits::default());
    }

    #[test]
    fn every_default_is_in_its_own_range_and_every_row_says_what_it_is() {
        for row in Limits::rows() {
            assert!((row.least..=row.most).contains(&row.default), "{}", row.key);
            assert!(!row.unit.is_empty() && !row.meaning.is_empty(), "{}", row.key);
            let read = Limits::default().pairs().into_iter().find(|(key, _)| *key == row.key).unwrap().1;
            assert_eq!(read.to_bits(), row.default.to_bits(), "{}", row.key);
        }
    }

    #[test]
    fn a_house_rule_that_published_figures_bracket_says_them_with_their_source() {
        let file = commented();
        let rows = Limits::rows();
        let brackets: Vec<(&str, &str)> = rows.iter().filter_map(|r| Some((r.key, r.bracket?))).collect();
        for key in ["water.grown_act", "growth.pinch_overdue", "growth.height_beyond_cm", "feed.magnesium_missed"] {
            assert!(brackets.iter().any(|(of, _)| *of == key), "{key}");
        }
        for (key, bracket) in brackets {
            assert!(
                bracket.contains('(') && bracket.contains(|c: char| c.is_ascii_digit()) || key.ends_with("soaked_h")
            );
            assert!(!bracket.ends_with('.'), "{key}");
            assert!(file.contains(&format!("# Published figures: {bracket}.\n")), "{key}");
        }
        assert!(file.contains("12 to 21: 12 to 14 days (UF/IFAS 2004)"), "{file}");
    }

    #[test]
    fn an_own_limit_is_known_as_own() {
        let limits = Limits::parse("[water]\ngrown_act = 6\nwet_from = 4\n").unwrap();
        assert_eq!(limits.water.grown_act, 6);
        assert!(limits.is_own("water.grown_act"));
        assert!(!limits.is_own("water.wet_from"), "set to the default is not a change");
        let evidence = Water::grown_act.limit(&limits);
        assert_eq!((evidence.key, evidence.value.to_bits(), evidence.own), ("water.grown_act", 6_f64.to_bits(), true));
        assert_eq!(Water::wet_from.of(&limits), 4);
    }

    #[test]
    fn what_was_changed_is_written_as_a_file_that_changes_it_again() {
        let text =
            "[water]\ngrown_act = 6\n[light]\ncold_night_c = 14.25\n[choices]\ncurve = [[0, 0], [0.5, 0.4], [1, 1]]\n";
        let limits = Limits::parse(text).unwrap();
        let written = changed(&limits);
        assert_eq!(Limits::parse(&written).unwrap(), limits, "{written}");
        assert!(written.contains("\ngrown_act = 6\n") && written.contains("; default "), "{written}");
        assert_eq!(changed(&Limits::default()), "");
    }

    #[test]
    fn an_own_choice_is_known_as_own() {
        let limits =
            Limits::parse("[choices]\ncurve = [[0, 0], [0.5, 0.4], [1, 1]]\nnight = \"sunset-to-sunrise\"\n").unwrap();
        assert_eq!(limits.choices.curve, CurveChoice::Own(vec![(0.0, 0.0), (0.5, 0.4), (1.0, 1.0)]));
        assert_eq!(limits.own().collect::<Vec<_>>(), ["choices.curve"], "set to the default is not a change");
        let limits = Limits::parse("[choices]\nnight = \"civil-twilight\"\n").unwrap();
        assert_eq!(limits.choices.night, NightConvention::CivilTwilight);
        assert!(limits.is_own("choices.night") && !limits.is_own("choices.curve"));
        let faults = Limits::parse("[choices]\ncurves = \"late\"\n").unwrap_err();
        assert!(faults[0].to_string().ends_with("; in [choices]: curve, night"), "{}", faults[0]);
    }

    #[test]
    fn what_is_quoted_is_short_and_written_out() {
        let text = format!("[water]\n\"a\\u001B[2J\u{202e}\" = 1\nwet_from = \"{}\"\n", "x".repeat(5000));
        let faults: Vec<String> = Limits::parse(&text).unwrap_err().iter().map(ToString::to_string).collect();
        assert!(
            faults.iter().any(|f| f.starts_with("line 2: 'water.a\\u{1b}[2J\\u{202e}' is not a limit")),
            "{faults:#?}"
        );
        assert!(faults.iter().all(|f| f.len() < 900 && !f.contains(char::is_control)), "{faults:#?}");
        let bomb = format!("[water]\nwet_from = {}\n", "[".repeat(100_000));
        assert!(Limits::parse(&bomb).unwrap_err()[0].to_string().len() < 900);
    }

    #[test]
    fn faults_name_their_lines_all_at_once() {
        let text = "[water]\nwet_from = 7\nwett = 3\n\n[feed]\nunfed_days = 2.5\n[choices]\ncurve = [[0,0],[1,0.5]]\nnight=3\n";
        let faults: Vec<String> = Limits::parse(text).unwrap_err().iter().map(ToString::to_string).collect();
        assert_eq!(faults.len(), 5, "{faults:#?}");
        assert!(
            faults
                .iter()
                .any(|f| f == "line 2: water.wet_from must be a whole number from 2 to 5 (water level 1-5), not 7")
        );
        assert!(faults.iter().any(|f| f.starts_with("line 3: 'water.wett' is not a limit")));
        assert!(faults.iter().any(|f| f.starts_with("line 6: feed.unfed_days must be a whole number")));
        assert!(faults.iter().any(|f| f.starts_with("line 8: choices.curve must be \"late\"")));
        assert!(matches!(Limits::parse("[water\n").unwrap_err()[0], LimitsError::Syntax { line: 1, .. }));
    }
}
