//! What a change of the plan does to the warnings: those of today before and after it, and how many of the days before.
//!
//! A correction counts for every day, so that it may also change how the days before read.

use crate::model::Model;
use crate::record::{Line, Term};
use crate::season::Season;
use crate::warnings::{Severity, Warning, WarningName, assess_all};
use chrono::{Days, NaiveDate};
use std::collections::BTreeMap;

/// Days before today that are compared (house rule: a week of walks).
const DAYS_BEFORE: u64 = 7;

/// The warnings of a day, by what they are about.
type Warnings = BTreeMap<(String, &'static str), (WarningName, Severity)>;

/// What differs after a change.
#[derive(Debug, Default, PartialEq)]
struct Difference {
    gone: Vec<String>,
    come: Vec<String>,
    other: Vec<String>,
}

impl Difference {
    fn of(before: &Warnings, after: &Warnings) -> Self {
        let name =
            |((place, _), (name, _)): (&(String, &str), &(WarningName, Severity))| format!("{} {place}", name.title());
        let gone = before.iter().filter(|(key, _)| !after.contains_key(*key)).map(name).collect();
        let come = after.iter().filter(|(key, _)| !before.contains_key(*key)).map(name).collect();
        let other = after
            .iter()
            .filter_map(|(key, (name, level))| {
                let (_, was) = before.get(key).filter(|(_, was)| was != level)?;
                Some(format!("{} {} is {}, was {}", name.title(), key.0, level.code(), was.code()))
            })
            .collect();
        Self { gone, come, other }
    }

    fn is_none(&self) -> bool {
        self.gone.is_empty() && self.come.is_empty() && self.other.is_empty()
    }
}

/// What saving these lines does to the warnings, in words; `None` where nothing was logged yet that rules could judge, or
/// where nothing changes.
pub(super) fn difference(model: &Model, lines: &[Line]) -> Option<String> {
    if model.season.entries().is_empty() {
        return None;
    }
    let mut then = model.season.clone();
    for line in lines {
        then.revise(line.clone());
    }
    let on = |day| Difference::of(&warnings(&model.season, day, model), &warnings(&then, day, model));
    let today = on(model.day);
    let (mut gone, mut come) = (0_usize, 0_usize);
    for day in (1..=DAYS_BEFORE).filter_map(|n| model.day.checked_sub_days(Days::new(n))) {
        let past = on(day);
        gone = gone.saturating_add(past.gone.len());
        come = come.saturating_add(past.come.len());
    }
    if today.is_none() && gone == 0 && come == 0 {
        return None;
    }
    let past = match (gone, come) {
        (0, 0) => format!("The {DAYS_BEFORE} days before are unchanged."),
        _ => format!("In the {DAYS_BEFORE} days before, {}.", counted(gone, come)),
    };
    Some(format!("{} {past}", said(&today)))
}

fn warnings(season: &Season, day: NaiveDate, model: &Model) -> Warnings {
    let all = assess_all(season, day, &model.limits);
    let open = all.all().filter(|w: &&Warning| w.put_off_until.is_none());
    open.map(|w| ((w.place.code().to_owned(), w.name.code()), (w.name, w.level))).collect()
}

fn counted(gone: usize, come: usize) -> String {
    let clear = |n: usize| if n == 1 { "1 warning clears".to_owned() } else { format!("{n} warnings clear") };
    let new = |n: usize| if n == 1 { "1 new warning".to_owned() } else { format!("{n} new warnings") };
    format!("{}, {}", clear(gone), new(come))
}

/// Most names listed.
const NAMED: usize = 4;

fn said(today: &Difference) -> String {
    if today.is_none() {
        return "No change in today's warnings.".to_owned();
    }
    let mut text = format!("Today: {}", counted(today.gone.len(), today.come.len()));
    for (what, names) in [("cleared", &today.gone), ("new", &today.come), ("changed", &today.other)] {
        if names.is_empty() {
            continue;
        }
        let more = names.len().saturating_sub(NAMED);
        let listed = names.iter().take(NAMED).cloned().collect::<Vec<_>>().join(", ");
        let rest = if more > 0 { format!(" and {more} more") } else { String::new() };
        text.push_str(&format!("; {what}: {listed}{rest}"));
    }
    text.push('.');
    text
}
