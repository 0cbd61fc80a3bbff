//! The forms of the plan: the site, lots, benches in rows, a lot set down on benches, orders; and changes to each of them.
//!
//! A change is a new revision of the line, never another line in its place, and what it does to the warnings is told before it
//! is saved (`difference`). Fields come from the field table (`fields`); what can be reckoned from others is offered and may be
//! typed over (`offers`). The form closes when the file has the lines.

mod benches;
mod cities;
mod difference;
mod fields;
mod offers;
mod save;
mod update;
mod view;

pub use update::update;
pub use view::view;

use crate::model::{DraftKey, Model, PlanAsk};
use crate::popups::form::row::Row;
use crate::record::fields::line_values;
use crate::record::{FieldFault, Line, form};
use std::collections::{BTreeMap, BTreeSet};

/// A form of the plan being filled in.
#[derive(Debug, Clone)]
pub struct State {
    ask: PlanAsk,
    rows: Vec<Row>,
    /// The field keys act on.
    at: usize,
    /// Fields filled in by hand: nothing is offered over them.
    own: BTreeSet<&'static str>,
    /// Why a field is filled in as it is, where that was not done by hand.
    offered: BTreeMap<&'static str, String>,
    faults: Vec<FieldFault>,
    touched: bool,
    /// The mark just came to this field: what is typed now takes the place of a number or a day that stands there.
    fresh: bool,
    /// The kept line that is changed.
    kept: Option<Line>,
    /// What saving does to the warnings, told; the next Enter saves.
    told: Option<String>,
}

impl State {
    /// The form, filled in with what is kept, or as it was left the last time.
    pub fn new(ask: PlanAsk, shared: &Model) -> Self {
        let rows = fields::rows(&ask, shared);
        let kept = kept(&ask, shared);
        let mut state = Self {
            ask,
            rows,
            at: 0,
            own: BTreeSet::new(),
            offered: BTreeMap::new(),
            faults: Vec::new(),
            touched: false,
            fresh: true,
            kept,
            told: None,
        };
        state.fill(shared);
        state.recall(shared);
        offers::offer(&mut state, shared);
        state
    }

    /// True for the line that is changed, or where it is empty for a new one.
    fn fill(&mut self, shared: &Model) {
        let Some(line) = &self.kept else { return };
        let values = line_values(line);
        for row in &mut self.rows {
            self.own.insert(row.name);
            if let Some((field, value)) = row.field.and_then(|f| Some((f, values.get(f.name)?))) {
                row.set(&form::show(field, value, shared.system()));
            }
        }
    }

    fn title(&self) -> String {
        match &self.ask {
            PlanAsk::Site if self.kept.is_none() => "The site".to_owned(),
            PlanAsk::Site => "Change the site".to_owned(),
            PlanAsk::NewLot => "A new lot".to_owned(),
            PlanAsk::Lot(code) => format!("Change lot {code}"),
            PlanAsk::Benches => "New benches in a row".to_owned(),
            PlanAsk::Bench(code) => format!("Change bench {code}"),
            PlanAsk::SetDown => "Set a lot down on benches".to_owned(),
            PlanAsk::Placement(bench, day) => {
                format!("Change what was set down on {bench} on {}", crate::dates::weekday(*day))
            }
            PlanAsk::NewOrder => "Pots promised".to_owned(),
            PlanAsk::Order(lot, day) => {
                format!("Change what is promised of {lot} for {}", crate::dates::weekday(*day))
            }
        }
    }

    /// The text of a field, as it would be typed.
    fn text(&self, name: &str) -> String {
        self.rows.iter().find(|r| r.name == name).map(Row::text).unwrap_or_default()
    }

    /// True for a field that is asked now.
    fn shows(&self, row: &Row) -> bool {
        match row.name {
            "blackout_from" => self.text("nights") == "blackout",
            "lights_until" => self.text("nights") == "lights",
            _ => true,
        }
    }

    /// The fields shown, by their place among all.
    fn shown(&self) -> impl DoubleEndedIterator<Item = (usize, &Row)> {
        self.rows.iter().enumerate().filter(|(_, row)| self.shows(row))
    }

    fn draft(&self, field: &'static str) -> DraftKey {
        DraftKey::Plan(self.ask.clone(), field)
    }

    fn recall(&mut self, shared: &Model) {
        for at in 0..self.rows.len() {
            let Some(name) = self.rows.get(at).map(|r| r.name) else { continue };
            let Some(text) = shared.drafts.text(&self.draft(name)) else { continue };
            self.own.insert(name);
            self.touched = true;
            if let Some(row) = self.rows.get_mut(at) {
                row.set(text);
            }
        }
    }

    /// Keeps what was filled in by hand, for the next time it is opened.
    fn keep(&self, shared: &mut Model) {
        for row in self.rows.iter().filter(|r| self.touched && self.own.contains(r.name)) {
            shared.drafts.keep(self.draft(row.name), row.text());
        }
    }

    fn forget(&self, shared: &mut Model) {
        for row in &self.rows {
            shared.drafts.forget(&self.draft(row.name));
        }
    }
}

/// The line a form changes.
fn kept(ask: &PlanAsk, shared: &Model) -> Option<Line> {
    let season = &shared.season;
    match ask {
        PlanAsk::Site => season.site().cloned().map(Line::Site),
        PlanAsk::Lot(code) => season.lot(code).cloned().map(Line::Lot),
        PlanAsk::Bench(code) => season.bench(code).cloned().map(Line::Bench),
        PlanAsk::Placement(bench, day) => {
            let mut all = season.all_placements().into_iter();
            all.rfind(|p| p.bench == *bench && p.from == *day).cloned().map(Line::Placement)
        }
        PlanAsk::Order(lot, day) => season.orders(lot).into_iter().find(|o| o.date == *day).cloned().map(Line::Order),
        PlanAsk::NewLot | PlanAsk::Benches | PlanAsk::SetDown | PlanAsk::NewOrder => None,
    }
}
