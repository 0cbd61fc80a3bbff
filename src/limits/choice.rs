//! Limits that are chosen from a list, or drawn by the grower, rather than measured.

use super::file::number;
use super::table::{Choice, limits};
use crate::terms::{NightConvention, Term};
use crate::units::plain;
use toml::de::DeValue;

/// Which shape the target height curve has.
#[derive(Debug, Clone, PartialEq, Default)]
pub enum CurveChoice {
    /// K 10, x1 0.25, x2 0.80, Kp 8 (house rule, between published readings).
    #[default]
    Late,
    /// K 12.74, x1 0.2293, x2 0.4515, Kp 4.79 (fit to a published teaching data set).
    Early,
    /// The grower's own points: share of the time from start to sale, share of the gain in height.
    Own(Vec<(f64, f64)>),
}

limits! {
    /// What is chosen rather than measured.
    Choices = choices {
        choice curve: CurveChoice, "The shape of the target height curve",
            "late is Benchwalk's rule of thumb, between published readings; early is a fit to a published teaching data set";
        choice night: NightConvention, "What counts as night when the start of short days is worked out",
            "published dates of initiation fit 11 h 40 min with sunset to sunrise; sources disagree by up to four weeks";
    }
}

impl Choice for CurveChoice {
    const WANTED: &'static str =
        "\"late\", \"early\" or points such as [[0, 0], [0.5, 0.4], [1, 1]], both numbers rising from 0 to 1";

    fn read(value: &DeValue<'_>) -> Option<Self> {
        match value {
            DeValue::String(s) if s == "late" => Some(Self::Late),
            DeValue::String(s) if s == "early" => Some(Self::Early),
            DeValue::Array(points) => {
                let points: Option<Vec<(f64, f64)>> = points.iter().map(|p| point(p.get_ref())).collect();
                points.filter(|p| rising(p)).map(Self::Own)
            }
            _ => None,
        }
    }

    fn written(&self) -> String {
        match self {
            Self::Late => "\"late\"".to_owned(),
            Self::Early => "\"early\"".to_owned(),
            Self::Own(points) => {
                let each = points.iter().map(|(x, y)| format!("[{}, {}]", plain(*x), plain(*y)));
                format!("[{}]", each.collect::<Vec<_>>().join(", "))
            }
        }
    }
}

impl Choice for NightConvention {
    const WANTED: &'static str = "\"sunset-to-sunrise\" or \"civil-twilight\"";

    fn read(value: &DeValue<'_>) -> Option<Self> {
        if let DeValue::String(s) = value { Self::from_code(s) } else { None }
    }

    fn written(&self) -> String {
        format!("\"{}\"", self.code())
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

impl Choices {
    /// The name of the chosen curve, for the screens.
    pub const fn curve_text(&self) -> &'static str {
        match self.curve {
            CurveChoice::Late => "late curve",
            CurveChoice::Early => "early curve",
            CurveChoice::Own(_) => "your own curve",
        }
    }
}
