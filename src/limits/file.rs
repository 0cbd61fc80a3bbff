//! The limits file: TOML in, and the commented file out.

use super::choice::{Choices, CurveChoice};
use super::{Limits, Row};
use crate::terms::{NightConvention, Term};
use crate::units::plain;
use thiserror::Error;
use toml::de::{DeTable, DeValue};

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
        let table = DeTable::parse(text).map_err(|e| {
            let line = e.span().map_or(1, |s| line_of(text, s.start));
            vec![LimitsError::Syntax { line, text: e.message().to_owned() }]
        })?;
        let mut limits = Self::default();
        let mut faults = Vec::new();
        for (group, value) in table.get_ref() {
            let line = line_of(text, group.span().start);
            let DeValue::Table(inner) = value.get_ref() else {
                faults.push(unknown(line, group.get_ref()));
                continue;
            };
            for (name, value) in inner {
                let key = format!("{}.{}", group.get_ref(), name.get_ref());
                let line = line_of(text, name.span().start);
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
        match key {
            "choices.curve" => {
                self.choices.curve = curve(value).ok_or_else(|| refused(line, key, CURVE.to_owned(), value))?;
            }
            "choices.night" => {
                self.choices.night = night(value).ok_or_else(|| refused(line, key, NIGHT.to_owned(), value))?;
            }
            _ => return Err(unknown(line, key)),
        }
        if self.choices.curve != CurveChoice::default() {
            self.own.insert("choices.curve");
        }
        if self.choices.night != NightConvention::default() {
            self.own.insert("choices.night");
        }
        Ok(())
    }
}

const CURVE: &str =
    "\"late\", \"early\" or points such as [[0, 0], [0.5, 0.4], [1, 1]], both numbers rising from 0 to 1";
const NIGHT: &str = "\"sunset-to-sunrise\" or \"civil-twilight\"";

fn curve(value: &DeValue<'_>) -> Option<CurveChoice> {
    match value {
        DeValue::String(s) if s == "late" => Some(CurveChoice::Late),
        DeValue::String(s) if s == "early" => Some(CurveChoice::Early),
        DeValue::Array(points) => {
            let points: Option<Vec<(f64, f64)>> = points.iter().map(|p| point(p.get_ref())).collect();
            points.filter(|p| rising(p)).map(CurveChoice::Own)
        }
        _ => None,
    }
}

fn point(value: &DeValue<'_>) -> Option<(f64, f64)> {
    let DeValue::Array(pair) = value else { return None };
    match pair.iter().map(|v| number(v.get_ref())).collect::<Option<Vec<_>>>()?.as_slice() {
        [x, y] => Some((*x, *y)),
        _ => None,
    }
}

/// From (0, 0) to (1, 1), time strictly and height never falling.
fn rising(points: &[(f64, f64)]) -> bool {
    let steps = points.windows(2).all(|w| matches!(w, [a, b] if b.0 > a.0 && b.1 >= a.1));
    steps && points.first() == Some(&(0.0, 0.0)) && points.last() == Some(&(1.0, 1.0))
}

fn night(value: &DeValue<'_>) -> Option<NightConvention> {
    match value {
        DeValue::String(s) => NightConvention::from_code(s),
        _ => None,
    }
}

fn number(value: &DeValue<'_>) -> Option<f64> {
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
    LimitsError::Value { line, key: key.to_owned(), wanted, got }
}

fn wanted(row: &Row) -> String {
    let kind = if row.whole { "a whole number" } else { "a number" };
    format!("{kind} from {} to {} ({})", plain(row.least), plain(row.most), row.unit)
}

fn unknown(line: usize, key: &str) -> LimitsError {
    let group = key.split('.').next().unwrap_or(key);
    let names: Vec<&str> = Limits::rows().iter().filter_map(|r| r.key.strip_prefix(group)?.strip_prefix('.')).collect();
    let hint = if names.is_empty() { String::new() } else { format!("; in [{group}]: {}", names.join(", ")) };
    LimitsError::Unknown { line, key: key.to_owned(), hint }
}

fn line_of(text: &str, at: usize) -> usize {
    text.bytes().take(at).filter(|b| *b == b'\n').count() + 1
}

/// The defaults as a file to keep and change: every number with its meaning, unit, range and basis.
pub fn commented() -> String {
    let mut out = String::from(
        "# Benchwalk limits: the numbers the rules go by. Take the # off a line to change it; lines left as they are follow\n\
         # the program's defaults. Kept as limits.toml in the config folder, or named with --limits FILE.\n",
    );
    let mut group = "";
    for row in Limits::rows() {
        let (this, name) = row.key.split_once('.').unwrap_or(("", row.key));
        if this != group {
            out.push_str(&format!("\n[{this}]\n"));
            group = this;
        }
        out.push_str(&format!(
            "\n# {}.\n# Unit: {}; from {} to {}. Basis: {}.\n#{name} = {}\n",
            row.meaning,
            row.unit,
            plain(row.least),
            plain(row.most),
            row.basis,
            row.default,
        ));
    }
    out.push_str(&format!(
        "\n[choices]\n\n# The shape of the target height curve: {CURVE}.\n\
         # Basis: late is a house rule, bracketed by published readings; early is a fit to a published teaching data set.\n#curve = \"late\"\n\
         \n# What counts as night when the start of short days is reckoned: {NIGHT}.\n\
         # Basis: published dates of initiation fit 11 h 40 min with sunset to sunrise; sources disagree by up to four weeks.\n#night = \"sunset-to-sunrise\"\n",
    ));
    out
}

impl Choices {
    /// The name of the chosen curve, for the screens.
    pub fn curve_text(&self) -> &'static str {
        match self.curve {
            CurveChoice::Late => "late curve",
            CurveChoice::Early => "early curve",
            CurveChoice::Own(_) => "your own curve",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::limits::Water;

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
