//! One problem, one line: warnings of one cause on one bench, or one warning on several benches, grouped.

use super::places;
use crate::record::Place;
use crate::season::Season;
use crate::warnings::{Cause, Severity, Shared, Warning, WarningName as N};
use chrono::NaiveDate;
use std::collections::{BTreeMap, HashMap};

/// Warnings shown together.
#[derive(Debug, Clone, PartialEq)]
pub struct Problem {
    /// What lies behind them.
    pub cause: Cause,
    /// The strongest level among them.
    pub level: Severity,
    /// The warnings, strongest first; one of each name and bench.
    pub parts: Vec<Warning>,
    /// Benches, in walking order.
    pub benches: Vec<String>,
    /// The lots of these benches, by code.
    pub lots: Vec<String>,
    /// Where, in words: `M1 M2`, `lot R1`, `house Mill`, `R1, R2 (all of Mill; 2400 pots)`.
    pub place: String,
    /// Put off until this day: every part is.
    pub put_off_until: Option<NaiveDate>,
}

impl Problem {
    const fn empty(cause: Cause, level: Severity, put_off_until: Option<NaiveDate>) -> Self {
        Self {
            cause,
            level,
            parts: Vec::new(),
            benches: Vec::new(),
            lots: Vec::new(),
            place: String::new(),
            put_off_until,
        }
    }

    /// The strongest warning: its words lead.
    pub fn lead(&self) -> Option<&Warning> {
        self.parts.first()
    }

    /// The day its leading warning was first seen.
    pub fn since(&self) -> Option<NaiveDate> {
        self.lead().map(|lead| lead.since)
    }

    /// True where every part of it is only noted.
    pub fn is_noted(&self) -> bool {
        self.parts.iter().all(|part| part.noted)
    }

    /// Its severity in a word: what is only noted says so.
    pub fn said_level(&self) -> &'static str {
        if self.is_noted() { "noted" } else { self.level.code() }
    }

    /// Since when nobody checked, where a part of it is carried past the days of its finding: the earliest day.
    pub fn not_checked_since(&self) -> Option<NaiveDate> {
        self.parts.iter().filter_map(Warning::not_checked_since).min()
    }

    /// `staying wet, roots browning`.
    pub fn title(&self) -> String {
        let mut titles: Vec<String> = Vec::new();
        for title in self.parts.iter().map(Warning::title) {
            if !titles.contains(&title) {
                titles.push(title);
            }
        }
        titles.join(", ")
    }

    /// Puts its place into words: a matter of the lot with the lots and their pots, what benches have by the benches.
    pub(super) fn name_place(&mut self, season: &Season, on: NaiveDate) {
        self.place = match self.lead().map(|w| &w.place) {
            Some(Place::Lot(_)) => places::named("lot", &self.lots),
            Some(Place::House(_)) => places::named("house", &self.houses()),
            Some(Place::Bench(_)) | None if self.cause.is_of_lot() && self.benches.len() > 1 => {
                places::with_pots(season, (&self.benches, &self.benches), on)
            }
            Some(Place::Bench(_)) | None => places::ranges(season, &self.benches, on),
        };
    }

    /// What to do: the lead's steps, then of each other part what says something new: its first step, of what is only watched all.
    pub fn next(&self) -> Vec<String> {
        let mut steps = self.lead().map(|lead| self.shared(lead).next()).unwrap_or_default();
        let mut named = self.lead().map(|w| vec![w.name]).unwrap_or_default();
        for part in &self.parts {
            if named.contains(&part.name) {
                continue;
            }
            named.push(part.name);
            let most = if part.level == Severity::Watch { usize::MAX } else { 1 };
            for step in part.next().into_iter().take(most) {
                if !steps.contains(&step) {
                    steps.push(step);
                }
            }
        }
        steps
    }

    /// The leading warning with the causes to check that hold for every bench of the problem; where it has none, with those of
    /// another part.
    fn shared(&self, lead: &Warning) -> Warning {
        let name = self.parts.iter().find(|w| !w.likely_causes.is_empty()).map_or(lead.name, |w| w.name);
        let mut like = self.parts.iter().filter(|w| w.name == name).map(|w| &w.likely_causes);
        let first = like.next().cloned().unwrap_or_default();
        let likely_causes = like.fold(first, |mut kept, other| {
            kept.retain(|s| other.iter().any(|o| o.cause == s.cause));
            kept
        });
        Warning { likely_causes, ..lead.clone() }
    }

    /// The houses it is about as a whole.
    fn houses(&self) -> Vec<String> {
        let house = |part: &Warning| match &part.place {
            Place::House(name) => Some(name.to_string()),
            Place::Bench(_) | Place::Lot(_) => None,
        };
        self.parts.iter().filter_map(house).collect()
    }

    /// The lot to name beside its place; `None` where the place says it, or there are several.
    pub fn lot_beside(&self) -> Option<&str> {
        let said = self.lead().is_some_and(|lead| matches!(lead.place, Place::Lot(_)))
            || self.cause.is_of_lot() && self.benches.len() > 1;
        let only = self.lots.first().filter(|_| self.lots.len() == 1 && !said);
        only.map(String::as_str)
    }

    /// True for benches to be walked last, with clean hands and tools after them.
    pub fn is_sick(&self) -> bool {
        self.parts.iter().any(|w| w.name.rule().is_sick)
    }
}

/// So many lots or houses each have a problem of their own; the same matter of more of them is one.
const FEW_LOTS: usize = 3;

/// Stands in the key of a trouble that a lot shares.
const OF_LOT: &str = "of the lot";

/// What must be equal for problems of several benches to be grouped: cause, lot, warnings, and (for lots, houses and
/// those put off) the place or day.
type Alike = (Cause, Option<String>, Vec<(N, Severity)>, String);

/// Puts warnings together into problems: most urgent first, then in walking order (`walk` is every bench in that order).
/// A trouble that a lot shares is one problem of the lot, whatever its level on each bench.
pub fn problems(warnings: &[Warning], walk: &[String], shared: &Shared) -> Vec<Problem> {
    let mut groups: BTreeMap<(Place, Cause, bool, bool), Vec<Warning>> = BTreeMap::new();
    for warning in warnings {
        let (cause, put_off) = (warning.name.rule().cause, warning.put_off_until.is_some());
        let of_lot = !put_off && matches!(warning.place, Place::Bench(_)) && !shared.is_own(warning);
        let key = (warning.place.clone(), cause, put_off, of_lot);
        groups.entry(key).or_default().push(warning.clone());
    }
    let mut merged: BTreeMap<Alike, Problem> = BTreeMap::new();
    for ((place, cause, _, of_lot), mut parts) in groups {
        parts.sort_by_key(|w| (std::cmp::Reverse(w.level), w.name));
        let Some(level) = parts.first().map(|w| w.level) else { continue };
        let lot = parts.iter().find_map(|w| w.lot.clone());
        // Benches of one lot that share a trouble are one problem at whatever level each of them stands.
        let alike = |w: &Warning| if of_lot { Severity::Watch } else { w.level };
        let mut names: Vec<(N, Severity)> = parts.iter().map(|w| (w.name, alike(w))).collect();
        names.sort_unstable();
        // Benches of one lot with the very same warnings are one problem; lots and houses stand by themselves.
        let own = if of_lot {
            OF_LOT.to_owned()
        } else if matches!(place, Place::Bench(_)) {
            String::new()
        } else {
            format!("{} {}", place.field(), place.code())
        };
        let put_off_until = parts.iter().map(|w| w.put_off_until).min().flatten();
        let noted = parts.iter().all(|w| w.noted);
        let signs: Vec<_> = parts.iter().flat_map(|w| &w.signs).collect();
        let entry = merged
            .entry((cause, lot.clone(), names, format!("{own}{put_off_until:?}{noted}{signs:?}")))
            .or_insert_with(|| Problem::empty(cause, level, put_off_until));
        entry.level = entry.level.max(level);
        entry.lots.extend(lot);
        for bench in parts.iter().flat_map(|w| &w.benches) {
            if !entry.benches.contains(bench) {
                entry.benches.push(bench.clone());
            }
        }
        entry.parts.extend(parts);
    }
    let places: HashMap<&String, usize> = walk.iter().zip(0..).collect();
    let step = |bench: Option<&String>| bench.and_then(|b| places.get(b).copied()).unwrap_or(usize::MAX);
    let mut all = join_lots(merged);
    for problem in &mut all {
        problem.benches.sort_by_key(|b| step(Some(b)));
        problem.lots.sort_unstable();
        problem.lots.dedup();
        problem.parts.sort_by_key(|w| (std::cmp::Reverse(w.level), w.name, step(w.benches.first())));
    }
    all.sort_by_key(|t| (std::cmp::Reverse(t.level), step(t.benches.first()), t.cause));
    all
}

/// The same matter of many lots, or of many houses, becomes one problem.
fn join_lots(merged: BTreeMap<Alike, Problem>) -> Vec<Problem> {
    let of_lot = |key: &Alike, problem: &Problem| {
        let place = problem.lead().map(|lead| lead.place.field());
        let same = (key.0, key.2.clone(), key.3.starts_with(OF_LOT), place, problem.level, problem.put_off_until);
        Some(same).filter(|_| key.0.is_of_lot())
    };
    let mut groups: BTreeMap<_, Vec<Problem>> = BTreeMap::new();
    let mut all = Vec::new();
    for (key, problem) in merged {
        match of_lot(&key, &problem) {
            Some(same) => groups.entry(same).or_default().push(problem),
            None => all.push(problem),
        }
    }
    for group in groups.into_values() {
        if group.len() <= FEW_LOTS {
            all.extend(group);
            continue;
        }
        all.extend(group.into_iter().reduce(|mut one, other| {
            one.parts.extend(other.parts);
            one.benches.extend(other.benches);
            one.lots.extend(other.lots);
            one
        }));
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::limits::Basis;
    use chrono::NaiveDate;

    fn warning(name: N, level: Severity, bench: &str) -> Warning {
        let day = NaiveDate::from_ymd_opt(2026, 10, 12).unwrap();
        Warning {
            name,
            level,
            noted: false,
            place: Place::Bench(bench.into()),
            benches: vec![bench.into()],
            lot: Some("L1".into()),
            since: day,
            evidence: vec![],
            steps: vec![],
            signs: vec![],
            other_why: None,
            likely_causes: vec![],
            look_again: day,
            basis: Basis::HouseRule,
            put_off_until: None,
        }
    }

    fn lines(all: &[Warning]) -> Vec<String> {
        let walk: Vec<String> = ["E1", "E2", "E3"].map(String::from).to_vec();
        problems(all, &walk, &Shared::default())
            .iter()
            .map(|t| format!("{} {} {}", t.benches.join(" "), t.level.code(), t.title()))
            .collect()
    }

    #[test]
    fn warnings_of_one_cause_on_one_bench_are_one_line() {
        let all = [
            warning(N::StayingWet, Severity::Act, "E2"),
            warning(N::RootsFailing, Severity::Urgent, "E2"),
            warning(N::MagnesiumDue, Severity::Watch, "E2"),
        ];
        assert_eq!(lines(&all), ["E2 urgent roots failing, staying wet", "E2 watch magnesium due"]);
    }

    #[test]
    fn one_warning_on_many_benches_is_one_line_with_their_codes_in_walking_order() {
        let all = ["E3", "E1", "E2"].map(|b| warning(N::MagnesiumMissed, Severity::Act, b));
        assert_eq!(lines(&all), ["E1 E2 E3 act magnesium missed"]);
    }

    #[test]
    fn a_put_off_warning_does_not_hide_the_same_trouble_elsewhere() {
        let mut all = ["E1", "E2"].map(|b| warning(N::TooDry, Severity::Act, b));
        all[0].put_off_until = Some(all[0].look_again);
        assert_eq!(lines(&all).len(), 2);
    }

    #[test]
    fn the_lead_speaks_first_and_others_add_one_step() {
        let walk = vec!["E1".to_owned()];
        let all = [warning(N::StayingWet, Severity::Act, "E1"), warning(N::RootsBrowning, Severity::Act, "E1")];
        let problem = problems(&all, &walk, &Shared::default()).remove(0);
        assert_eq!(problem.next().first().map(String::as_str), Some("Do not water until it reads 2."));
        assert_eq!(problem.next().len(), 4);
        assert!(!problem.is_sick());
    }
}
