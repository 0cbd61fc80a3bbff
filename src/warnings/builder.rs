//! Builder of warnings: place and start first, then evidence, steps and the next look.

use super::bench_day::BenchDay;
use super::{Basis, Evidence, Figure, Group, Limit, Severity, Step, Warning, WarningName};
use crate::dates::add_days;
use crate::record::{Entry, KindName, LeafSign, Place};
use chrono::NaiveDate;

/// A warning of one bench, to be looked at again the next day.
pub(super) fn of_bench(bench: &BenchDay<'_>, name: WarningName, level: Severity, since: NaiveDate) -> Warning {
    let code = bench.code().to_owned();
    Warning {
        name,
        level,
        noted: false,
        place: Place::Bench(code.as_str().into()),
        benches: vec![code],
        lot: Some(bench.lot.lot.clone()),
        since,
        evidence: Vec::new(),
        steps: Vec::new(),
        signs: Vec::new(),
        other_why: None,
        likely_causes: Vec::new(),
        look_again: add_days(bench.context.day, 1),
        basis: name.rule().basis,
        put_off_until: None,
    }
}

/// A warning of a lot or a house, to be looked at again the next day.
pub(super) fn of_group(
    group: &Group<'_, '_>,
    (name, level): (WarningName, Severity),
    since: NaiveDate,
    benches: Vec<String>,
) -> Warning {
    let lot = if let Place::Lot(code) = &group.place { Some(code.to_string()) } else { None };
    Warning {
        name,
        level,
        noted: false,
        place: group.place.clone(),
        benches,
        lot,
        since,
        evidence: Vec::new(),
        steps: Vec::new(),
        signs: Vec::new(),
        other_why: None,
        likely_causes: Vec::new(),
        look_again: group.first().map_or(since, |bench| bench.in_days(1)),
        basis: name.rule().basis,
        put_off_until: None,
    }
}

/// A warning of one bench for one sign on its leaves, from the first look that names it without a break.
pub(super) fn of_sign(bench: &BenchDay<'_>, name: WarningName, sign: LeafSign) -> Option<Warning> {
    let seen = bench.standing_sign(sign)?;
    let warning = of_bench(bench, name, Severity::Act, bench.sign_since(sign, seen)).saw(seen);
    Some(warning.carried(bench, seen, bench.limits().water.leaves_days))
}

impl Warning {
    /// With an entry as evidence.
    #[must_use]
    pub(super) fn saw(mut self, entry: &Entry) -> Self {
        self.evidence.push(Evidence::Entry(entry.clone()));
        self
    }

    /// With entries as evidence, oldest first.
    #[must_use]
    pub(super) fn saw_all<'e>(mut self, entries: impl IntoIterator<Item = &'e Entry>) -> Self {
        self.evidence.extend(entries.into_iter().map(|e| Evidence::Entry(e.clone())));
        self
    }

    /// With something never written, or not since a day.
    #[must_use]
    pub(super) fn missing(mut self, kind: KindName, last: Option<NaiveDate>) -> Self {
        self.evidence.push(Evidence::Missing { kind, last });
        self
    }

    /// With a number and the limit it is compared with.
    #[must_use]
    pub(super) fn figure(self, figure: Figure, value: f64, limit: impl Into<Option<Limit>>) -> Self {
        self.ranged(figure, value, None, limit)
    }

    /// With a number, its uncertainty and a limit.
    #[must_use]
    pub(super) fn ranged(
        mut self,
        figure: Figure,
        value: f64,
        range: Option<(f64, f64)>,
        limit: impl Into<Option<Limit>>,
    ) -> Self {
        self.evidence.push(Evidence::Figure { figure, value, range, limit: limit.into() });
        self
    }

    /// With other evidence.
    #[must_use]
    pub(super) fn also(mut self, saw: Evidence) -> Self {
        self.evidence.push(saw);
        self
    }

    /// With a step that depends on the evidence.
    #[must_use]
    pub(super) fn step(mut self, step: Step) -> Self {
        if !self.steps.contains(&step) {
            self.steps.push(step);
        }
        self
    }

    /// With a step where a condition holds.
    #[must_use]
    pub(super) fn step_if(self, holds: bool, step: Step) -> Self {
        if holds { self.step(step) } else { self }
    }

    /// Only noted: a watch that asks for nothing.
    #[must_use]
    pub(super) const fn noted(mut self, noted: bool) -> Self {
        self.noted = noted;
        self
    }

    /// With another reason than its rule's.
    #[must_use]
    pub(super) const fn because(mut self, why: &'static str) -> Self {
        self.other_why = Some(why);
        self
    }

    /// To be looked at again on a day.
    #[must_use]
    pub(super) const fn again(mut self, day: NaiveDate) -> Self {
        self.look_again = day;
        self
    }

    /// On another basis than its rule's.
    #[must_use]
    pub(super) const fn on(mut self, basis: Basis) -> Self {
        self.basis = basis;
        self
    }
}
