//! The color forecast in words: the days, and what of the temperatures they go by.

use crate::crop::Days;
use crate::crop::color::response::KNOWN_C;
use crate::crop::color::{Milestone, Temperatures};
use crate::dates;
use crate::units::{Quantity, System, Temperature};

/// `full color Nov 20 (Nov 14 to 27; no temperatures written)`.
pub(super) fn expected(milestone: Milestone, days: Days, by: &Temperatures, system: System) -> String {
    let notes = temperatures(by, system).map(|notes| format!("; {notes}")).unwrap_or_default();
    let range = dates::range(days.low, days.high);
    format!("{} {} ({range}{notes})", milestone.words(), dates::short(days.likely))
}

/// What is to be known beside a forecast of the temperatures it goes by: `no temperatures written; response taken at 70 °F`. `None`
/// where all of it is written.
pub fn temperatures(by: &Temperatures, system: System) -> Option<String> {
    let show = |c: f64| Temperature::from_c(c).show(system);
    let mut notes = Vec::new();
    if by.written == 0 {
        notes.push("no temperatures written".to_owned());
    } else if by.carried.is_none() {
        notes.push("few temperatures written this week".to_owned());
    }
    if by.assumed {
        notes.push(format!("response taken at {}", by.usual.show(system)));
    }
    if by.beyond {
        notes.push(format!("days under {} or over {}: later than this", show(KNOWN_C.0), show(KNOWN_C.1)));
    }
    (!notes.is_empty()).then(|| notes.join("; "))
}
