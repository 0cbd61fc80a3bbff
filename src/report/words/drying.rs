//! How fast a bench dries down, in words.

use crate::crop::dry_down::{Drying, Open};
use crate::units::plain;
use crate::warnings::Slower;
use chrono::NaiveDate;

/// Heading of the benches that dry slower than their lot.
pub const SLOWER: &str = "Dries slower than its lot";
/// What to do about them.
pub const SLOWER_LOOK: &str = "Look for a drip, a blocked drain or a sick root.";

/// Earlier dry-downs named.
const BEFORE: usize = 3;

/// `dries 5 to 2 in 4 days, its lot in 3; before 3, 3`: the last dry-down of a bench, the median of its lot and the ones before it,
/// then the one that goes on where it takes longer already. `None` where there is nothing to say yet.
pub fn dries(own: &Drying, lot: Option<f64>, on: NaiveDate) -> Option<String> {
    let mut text = String::new();
    if let Some(last) = own.last() {
        text = format!("dries {} to 2 in {}", last.level, days(last.days()));
        if let Some(lot) = lot {
            text.push_str(&format!(", its lot in {}", plain(lot)));
        }
        let before: Vec<String> = own.before(BEFORE).iter().map(i64::to_string).collect();
        if !before.is_empty() {
            text.push_str(&format!("; before {}", before.join(", ")));
        }
    }
    let longer = |open: &Open| open.last == on && own.last().is_none_or(|last| open.least() > last.days());
    if let Some(open) = own.open.filter(longer) {
        let lead = if text.is_empty() { "" } else { "; " };
        text.push_str(&format!("{lead}now {} or more", days(open.least())));
    }
    (!text.is_empty()).then_some(text)
}

fn days(n: i64) -> String {
    if n == 1 { "1 day".to_owned() } else { format!("{n} days") }
}

/// `E4 (6 days, lot 3), M2 (5 days or more, lot 3)`.
pub fn slower(all: &[Slower]) -> String {
    let one = |s: &Slower| {
        let more = if s.slow.at_least { " or more" } else { "" };
        format!("{} ({}{more}, lot {})", s.bench, days(s.slow.days), plain(s.slow.lot))
    };
    all.iter().map(one).collect::<Vec<_>>().join(", ")
}
