//! The time before a lot's record began, in words: what the plan says of it, and what nobody said.

use crate::dates;
use crate::record::{Before, LotHistory};
use crate::warnings::NotKnown;
use chrono::NaiveDate;

/// What is not known of a lot, and what follows: a line for the review.
pub fn not_known(of: &NotKnown) -> String {
    let mut said = Vec::new();
    if !of.work.is_empty() {
        let work = of.work.iter().map(|work| work.text()).collect::<Vec<_>>().join(", ");
        let since = dates::short(of.since);
        said.push(format!("history before {since} is not known: {work}: give it in Setup, or log it"));
    }
    if of.without_heights {
        said.push("pinch not logged: heights are not asked until it is".to_owned());
    }
    format!("lot {}: {}", of.lot, said.join("; "))
}

/// What the plan says of the time before the record: `pinched Aug 31; fed, last Oct 5; no magnesium; growth regulator not known`.
pub fn history(history: &LotHistory) -> String {
    let day = |day: Option<NaiveDate>| day.map_or_else(String::new, |day| format!(" {}", dates::short(day)));
    let each = |work: Option<Before>, on: Option<NaiveDate>, (done, not, what): (&str, &str, &str)| match work {
        Some(Before::Done) => format!("{done}{}", day(on)),
        Some(Before::NotDone) => not.to_owned(),
        None => format!("{what} not known"),
    };
    let used = history.regulator_used.as_deref().map_or_else(String::new, |used| format!(" ({used})"));
    let regulator = ("growth regulator", "no growth regulator", "growth regulator");
    [
        each(history.pinch, history.pinched_on, ("pinched", "not pinched", "pinch")),
        each(history.feed, history.fed_last, ("fed, last", "not fed", "feeding")).trim_end_matches(", last").to_owned(),
        each(history.magnesium, history.magnesium_on, ("magnesium", "no magnesium", "magnesium")),
        each(history.molybdenum, history.molybdenum_on, ("molybdenum", "no molybdenum", "molybdenum")),
        each(history.regulator, history.regulator_on, regulator) + &used,
    ]
    .join("; ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::Revision;

    #[test]
    fn what_was_said_and_what_was_not() {
        let said = LotHistory {
            lot: "L1".to_owned(),
            pinch: Some(Before::Done),
            pinched_on: NaiveDate::from_ymd_opt(2026, 8, 31),
            feed: Some(Before::Done),
            fed_last: None,
            magnesium: Some(Before::NotDone),
            magnesium_on: None,
            molybdenum: None,
            molybdenum_on: None,
            regulator: Some(Before::Done),
            regulator_on: NaiveDate::from_ymd_opt(2026, 9, 9),
            regulator_used: Some("chlormequat".to_owned()),
            revision: Revision::default(),
        };
        let text = "pinched Aug 31; fed; no magnesium; molybdenum not known; growth regulator Sep 9 (chlormequat)";
        assert_eq!(history(&said), text);
    }
}
