//! The Walk card: one bench, the checks due today, a digit each.
//!
//! A digit is saved at once and the next check comes; after the last the next bench. What guards against a slip of the
//! finger stands in `controls`, what a digit means in `checks`. Whether the bench can be walked is asked at every key and in
//! every frame: the card of one that is closed meanwhile takes no observation (`shut`).

mod checks;
mod shut;
mod temperature;
mod update;
mod view;

pub use checks::{Scale, scale};
pub use update::update;
pub use view::view;

use crate::controls::{Field, Guard};
use crate::keys::Context;
use crate::model::walk_order::{self, Shut};
use crate::model::{DraftKey, Model};
use crate::record::{Kind, KindName, typed};
use crate::report::sampling;
use crate::trials;
use crate::warnings::{CheckName, WarningName};

/// The card of one bench.
#[derive(Debug, Clone)]
pub struct State {
    bench: String,
    /// The checks of this card in the order they are asked: those due, and those asked for by "more".
    checks: Vec<CheckName>,
    /// Those of them that a warning asks for again, with the warning.
    again: Vec<(CheckName, WarningName)>,
    /// The check asked now; past the end when nothing is left on this bench.
    at: usize,
    /// The line being typed, for heights.
    line: Field,
    /// The line being typed, for the temperature of the house.
    temperature: Field,
    /// Why that line was refused.
    fault: Option<String>,
    guard: Guard,
}

impl State {
    /// The card of a bench, or of the first not walked. `None`, with a word below the page, where there is none to go to.
    pub fn open(from: Option<&str>, model: &mut Model) -> Option<Self> {
        let code = from.map(str::to_owned).or_else(|| walk_order::next_open(model, None));
        if code.is_none() {
            model.say(walk_order::all_walked(model, "All"));
        }
        let code = code?;
        if let Some(why) = walk_order::shut(model, &code) {
            model.trouble(why.text(model, &code));
            return None;
        }
        Some(Self::card(&code, model, Guard::default()))
    }

    /// The card of a bench that can be walked.
    fn card(code: &str, model: &mut Model, guard: Guard) -> Self {
        model.assess_bench(code);
        let due = model.cache.bench(code).map(|summary| summary.due.clone()).unwrap_or_default();
        let at = due.iter().position(|c| !c.done).unwrap_or(due.len());
        let line = model.draft_field(&DraftKey::Heights(code.to_owned()));
        let mut checks: Vec<CheckName> = due.iter().map(|c| c.what).collect();
        if model.asks_temperature(code) {
            checks.push(CheckName::Climate);
        }
        let again = due.iter().filter_map(|c| Some((c.what, c.again?))).collect();
        let temperature = model.draft_field(&temperature::draft(code, model));
        Self { bench: code.to_owned(), checks, again, at, line, temperature, fault: None, guard }
    }

    /// The bench.
    pub fn bench(&self) -> &str {
        &self.bench
    }

    /// The check asked now.
    pub fn check(&self) -> Option<CheckName> {
        self.checks.get(self.at).copied()
    }

    /// True where the check asked now is answered by a line.
    fn is_typed(&self) -> bool {
        matches!(self.check(), Some(CheckName::Height | CheckName::Climate))
    }

    /// The line being typed.
    const fn typed(&self, check: CheckName) -> &Field {
        if matches!(check, CheckName::Climate) { &self.temperature } else { &self.line }
    }

    /// The same, to type in.
    fn typed_mut(&mut self) -> &mut Field {
        if self.check() == Some(CheckName::Climate) { &mut self.temperature } else { &mut self.line }
    }

    /// How well the heights being typed give the mean; before any is typed, how many plants would by the spread of the last time.
    fn measured(&self, model: &Model) -> Option<String> {
        if let Ok(Kind::Height { cm }) = typed::lengths(KindName::Height, self.line.text(), model.system()) {
            return sampling::heights(&model.limits, &cm, model.system());
        }
        sampling::to_measure(&model.limits, (&model.season, &self.bench, model.day), model.system())
    }

    /// The warning that asks for a check again; `None` for a routine check.
    fn asks_again(&self, check: CheckName) -> Option<WarningName> {
        self.again.iter().find(|(again, _)| *again == check).map(|(_, name)| *name)
    }

    /// Why the bench cannot be walked now.
    pub fn shut(&self, model: &Model) -> Option<Shut> {
        walk_order::shut(model, &self.bench)
    }

    /// The first trial with plots due on this bench, and how many.
    fn plots_due(&self, model: &Model) -> Option<(String, usize)> {
        let mut due = trials::due_on_benches(&model.season, model.day).into_iter();
        let here = |due: trials::DueOn| {
            let plots = due.benches.iter().find(|(bench, _)| *bench == self.bench)?.1;
            Some((due.trial, plots))
        };
        due.find_map(here)
    }

    /// Where keys are pressed: digits are scores, but for heights a line is typed, and a closed bench takes neither.
    pub fn context(&self, model: &Model) -> Context {
        if self.shut(model).is_some() {
            return Context::WalkShut;
        }
        if self.is_typed() { Context::WalkLine } else { Context::Walk }
    }
}
