//! Lines of the plan in a few words, for the status line after a save.

use crate::dates;
use crate::record::Line;

/// What was saved: the line, or the first and the last of several of a kind.
///
/// ```
/// assert_eq!(benchwalk::report::plan::said(&[]), "saved");
/// ```
pub fn said(lines: &[Line]) -> String {
    let (Some(first), Some(last)) = (lines.first(), lines.last()) else { return "saved".to_owned() };
    let one = lines.len() == 1;
    let from_to = |a: &str, b: &str| if one { a.to_owned() } else { format!("{a} to {b}") };
    let what = match (first, last) {
        (Line::Bench(a), Line::Bench(b)) => {
            format!("{} {}", if one { "bench" } else { "benches" }, from_to(&a.bench, &b.bench))
        }
        (Line::Placement(a), _) if a.pots == 0 => format!("placement on {} removed", a.bench),
        (Line::Placement(a), Line::Placement(b)) => {
            let each = if one { "" } else { " each" };
            format!("{} placed on {}, {} pots{each}", a.lot, from_to(&a.bench, &b.bench), a.pots)
        }
        (Line::Order(a), _) if a.pots == 0 => format!("order for {} removed", a.lot),
        (Line::Order(a), _) => format!("{} pots of {} committed for {}", a.pots, a.lot, dates::weekday(a.date)),
        (Line::Site(a), _) => format!("site {}", a.name),
        (Line::Lot(a), _) => format!("lot {}", a.lot),
        (Line::LotHistory(a), _) => format!("history of lot {}", a.lot),
        (Line::Entry(a), _) => a.place.code().to_owned(),
        (Line::Bench(a), _) => format!("bench {}", a.bench),
        (Line::Placement(a), _) => format!("{} on {}", a.lot, a.bench),
    };
    format!("saved: {what}")
}
