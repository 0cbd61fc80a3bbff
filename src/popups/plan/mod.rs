//! The forms of the plan: the site, lots, benches in rows, a lot placed on benches, orders; and changes to each of them.
//!
//! A change is a new revision of the line, never another line in its place, and what it does to the warnings is shown before it
//! is saved (`difference`). Fields come from the field table (`asked`); what can be calculated from others is suggested and may be
//! typed over (`offers`). The form closes when the file has the lines.

mod asked;
mod benches;
mod cities;
mod difference;
mod offers;
mod save;
mod update;
mod view;

pub(super) use save::each as steps;
pub use update::update;
pub use view::view;

use super::fields::{self, About, Opened};
use crate::controls::{Fields, Row};
use crate::model::{DraftKey, Model, PlanAsk};
use crate::record::fields::line_values;
use crate::record::{Before, FieldFault, Line, Lot, LotHistory, Nights, Term};
use std::collections::{BTreeMap, BTreeSet};

/// A form of the plan being filled in.
#[derive(Debug, Clone)]
pub struct State {
    ask: PlanAsk,
    fields: Fields<About>,
    /// Fields filled in by hand: nothing is offered over them.
    own: BTreeSet<&'static str>,
    /// Why a field is filled in as it is, where that was not done by hand.
    offered: BTreeMap<&'static str, String>,
    /// What is wrong with nothing that is shown.
    stray: Vec<FieldFault>,
    touched: bool,
    /// The focus just came to this field: typing replaces a number or a day in it.
    fresh: bool,
    /// The kept line that is changed.
    kept: Option<Line>,
    /// What the kept line says.
    opened: Opened,
    /// What saving does to the warnings, shown; the next Enter saves.
    difference: Option<String>,
    /// The form that is opened after this one.
    after: Option<PlanAsk>,
}

impl State {
    /// The form, filled in with what is kept, or as it was left the last time.
    pub fn new(ask: PlanAsk, model: &Model) -> Self {
        let fields = Fields::new(asked::rows(&ask, model));
        let kept = kept(&ask, model);
        let mut state = Self {
            ask,
            fields,
            own: BTreeSet::new(),
            offered: BTreeMap::new(),
            stray: Vec::new(),
            touched: false,
            fresh: true,
            kept,
            opened: Opened::default(),
            difference: None,
            after: None,
        };
        state.fill(model);
        state.fields.settle();
        state.recall(model);
        offers::offer(&mut state, model);
        state
    }

    /// The form that comes next, once the lines of this one are saved: what was done to a lot before its record began, the next lot
    /// to be placed, or the same form again where another was asked for.
    pub fn next(&self, model: &Model) -> Option<Self> {
        let after = self.after.clone();
        match &self.ask {
            PlanAsk::NewLot => {
                let code = self.text("lot");
                let lot = model.season.lot(code.trim()).filter(|lot| is_late(lot, model));
                match lot {
                    Some(lot) => Some(Self { after, ..Self::new(PlanAsk::History(lot.lot.clone()), model) }),
                    None => Some(Self::new(after?, model)),
                }
            }
            PlanAsk::SetDown if after.is_none() => offers::waits(model).then(|| Self::new(PlanAsk::SetDown, model)),
            _ => Some(Self::new(after?, model)),
        }
    }

    /// True for the line that is changed, or where it is empty for a new one.
    fn fill(&mut self, model: &Model) {
        let Some(line) = &self.kept else { return };
        let values = line_values(line);
        for row in self.fields.all_mut() {
            if row.name != About::Holds {
                self.own.insert(row.name.name());
            }
            if let Some(value) = row.name.field().and_then(|f| values.get(f.name)) {
                self.opened.fill(row, value, model);
            }
        }
    }

    fn title(&self) -> String {
        match &self.ask {
            PlanAsk::Site if self.kept.is_none() => "The site".to_owned(),
            PlanAsk::Site => "Change the site".to_owned(),
            PlanAsk::NewLot => format!("A new lot{ANOTHER}"),
            PlanAsk::Lot(code) => format!("Change lot {code}"),
            PlanAsk::History(code) => format!("Lot {code} before the record began"),
            PlanAsk::Benches => format!("New benches in a row{ANOTHER}"),
            PlanAsk::Bench(code) => format!("Change bench {code}"),
            PlanAsk::SetDown => format!("Place a lot on benches{ANOTHER}"),
            PlanAsk::Placement(bench, day) => {
                format!("Change the placement on {bench} of {}", crate::dates::weekday(*day))
            }
            PlanAsk::NewOrder => format!("New order{ANOTHER}"),
            PlanAsk::Order(lot, day) => {
                format!("Change the order of {lot} for {}", crate::dates::weekday(*day))
            }
        }
    }

    /// A field, by the name it has in the journal.
    fn row(&self, name: &str) -> Option<&Row<About>> {
        self.fields.all().find(|row| row.name.name() == name)
    }

    /// The text of a field, as it would be typed.
    fn text(&self, name: &str) -> String {
        self.row(name).map(Row::text).unwrap_or_default()
    }

    /// Shows the days of black cloth and lights only where the nights are made by them, and from when on a change counts only where a
    /// kept line is changed.
    fn show(&mut self) {
        let (nights, change) = (self.text("nights"), self.kept.is_some() && self.touched);
        let ask = self.ask.clone();
        let done: Vec<&str> =
            LotHistory::DETAILS.iter().map(|(work, _)| *work).filter(|w| self.text(w) == Before::Done.code()).collect();
        let done = |work: &&'static str| done.contains(work);
        self.fields.show(|_, name| match name.name() {
            "blackout_from" => nights == Nights::Blackout.code(),
            "lights_until" => nights == Nights::Lights.code(),
            // What was done before the record is a fact: nothing is to choose.
            "holds" => change && !matches!(ask, PlanAsk::History(_)),
            name => LotHistory::DETAILS.iter().all(|(work, detail)| *detail != name || done(work)),
        });
    }

    /// Says what is wrong next to each field.
    fn blame(&mut self, faults: Vec<FieldFault>) {
        self.fields.clear(|_| true);
        self.stray.clear();
        for fault in faults {
            let named = self.fields.shown().map(|row| row.name).find(|name| name.name() == fault.field);
            match named {
                Some(name) => {
                    let text = fields::labeled(&self.fields, &fault.text);
                    self.fields.blame(name, text);
                }
                None => self.stray.push(fault),
            }
        }
        if let Some(first) = self.fields.first_fault() {
            self.fields.mark(first);
            self.fresh = true;
        }
    }

    fn draft(&self, field: &'static str) -> DraftKey {
        DraftKey::Plan(self.ask.clone(), field)
    }

    fn recall(&mut self, model: &Model) {
        for row in self.fields.all_mut() {
            let key = DraftKey::Plan(self.ask.clone(), row.name.name());
            let Some(text) = model.draft(&key) else { continue };
            self.own.insert(row.name.name());
            self.touched = true;
            row.set(text);
        }
    }

    /// Keeps what was filled in by hand, for the next time it is opened.
    fn keep(&self, model: &mut Model) {
        for row in self.fields.all().filter(|r| self.touched && self.own.contains(r.name.name())) {
            model.keep_draft(self.draft(row.name.name()), row.text());
        }
    }

    /// Leaves it: a change of a kept line is discarded, anything new is kept for the next time; which fields it was is said.
    fn leave(&self, model: &mut Model) {
        let changed = self.fields.changed().join(", ");
        let touched = self.touched && !changed.is_empty();
        if self.kept.is_some() {
            self.forget(model);
            if touched {
                model.say(format!("No change saved; discarded: {changed}."));
            }
            return;
        }
        self.keep(model);
        if touched {
            model.say(format!("Kept for next time, not saved: {changed}."));
        }
    }

    fn forget(&self, model: &mut Model) {
        for row in self.fields.all() {
            model.forget_draft(&self.draft(row.name.name()));
        }
    }
}

/// True where the record of a lot begins later than its crop.
fn is_late(lot: &Lot, model: &Model) -> bool {
    model.season.record_begins(lot, model.day) > lot.planted
}

/// Beside the title of a form that can be opened again at once.
const ANOTHER: &str = "   (F2: save, then another)";

/// The line a form changes.
fn kept(ask: &PlanAsk, model: &Model) -> Option<Line> {
    let season = &model.season;
    match ask {
        PlanAsk::Site => season.site().cloned().map(Line::Site),
        PlanAsk::Lot(code) => season.lot(code).cloned().map(Line::Lot),
        PlanAsk::History(code) => season.lot_history(code).cloned().map(Line::LotHistory),
        PlanAsk::Bench(code) => season.bench(code).cloned().map(Line::Bench),
        PlanAsk::Placement(bench, day) => {
            let mut all = season.all_placements().into_iter();
            all.rfind(|p| p.bench == *bench && p.from == *day).cloned().map(Line::Placement)
        }
        PlanAsk::Order(lot, day) => season.orders(lot).into_iter().find(|o| o.date == *day).cloned().map(Line::Order),
        PlanAsk::NewLot | PlanAsk::Benches | PlanAsk::SetDown | PlanAsk::NewOrder => None,
    }
}
