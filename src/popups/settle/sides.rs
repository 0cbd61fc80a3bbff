//! Lines of the plan that contradict each other, side by side: what was there before, what each laptop wrote, and what is to hold.
//! A field that only one side changed is filled in; for the others one side is chosen, or another value typed.

use crate::controls::{Choice, Fields, Input, Row};
use crate::model::Model;
use crate::popups::fields::{self, About, Opened};
use crate::popups::plan;
use crate::record::schema::{self, Field, RecordSchema};
use crate::record::{FieldFault, Line, Value, Values, codec};
use crate::report::words;
use crate::season::Contradiction;
use std::collections::BTreeSet;
use uuid::Uuid;

/// The sides, and what is to hold.
#[derive(Debug, Clone)]
pub(super) struct Sides {
    pub(super) of: Contradiction,
    pub(super) fields: Fields<About>,
    opened: Opened,
    /// Fields of which it is known what is to hold.
    decided: BTreeSet<&'static str>,
    /// A value is being typed into the selected field: digits are its characters.
    typing: bool,
    /// What is wrong with none of the fields shown.
    pub(super) fault: Option<String>,
}

/// What a field was changed to; `None` where it was emptied.
struct Changed(Option<Value>);

impl Sides {
    pub(super) fn new(of: &Contradiction, model: &Model) -> Self {
        let fields = of.fields.iter().filter_map(|name| field(of, name));
        let mut rows: Vec<Row<About>> = fields.map(|field| fields::own(field, field.label)).collect();
        if rows.len() > 1 {
            rows.push(Row::new(About::Whose, "all of them", false, Input::one(whose(of))));
        }
        let mut sides = Self {
            of: of.clone(),
            fields: Fields::new(rows),
            opened: Opened::default(),
            decided: BTreeSet::new(),
            typing: false,
            fault: None,
        };
        for name in of.fields.clone() {
            if let Some(Changed(value)) = sides.only_change(name) {
                sides.put(name, value.as_ref(), model);
            }
        }
        sides.mark_first_open();
        sides
    }

    /// The value of a field that only one side changed; `None` where more did, and where nothing is known of before.
    fn only_change(&self, name: &'static str) -> Option<Changed> {
        let before = self.of.before.as_ref()?.content();
        let lines = self.of.lines.iter().map(|line| line.content().get(name).cloned());
        let mut changed: Vec<Option<Value>> = Vec::new();
        for value in lines.filter(|value| value.as_ref() != before.get(name)) {
            if !changed.contains(&value) {
                changed.push(value);
            }
        }
        if changed.len() == 1 { changed.pop().map(Changed) } else { None }
    }

    /// Fills a field in with a value as it was written.
    fn put(&mut self, name: &'static str, value: Option<&Value>, model: &Model) {
        let Some(row) = self.fields.all_mut().find(|row| row.name.name() == name) else { return };
        if let Some(value) = value {
            self.opened.fill(row, value, model);
        } else {
            row.set("");
            self.opened.forget(row);
        }
        row.fault = None;
        self.decided.insert(name);
    }

    /// True of a field of which it is not known yet what is to hold.
    pub(super) fn is_open(&self, name: About) -> bool {
        name.field().is_some() && !self.decided.contains(name.name())
    }

    /// Keys act on the first field that is open.
    fn mark_first_open(&mut self) {
        let open = self.fields.all().map(|row| row.name).find(|name| self.is_open(*name));
        if let Some(name) = open {
            self.fields.mark(name);
        }
    }

    /// To the next field, or the one before.
    pub(super) fn step(&mut self, onward: bool) {
        self.fields.step(onward);
        self.typing = false;
    }

    /// True while a value is typed into the selected field.
    pub(super) const fn is_typing(&self) -> bool {
        self.typing
    }

    /// Takes one side's value for the selected field, or for all of them, and goes on; false where there is no such side.
    pub(super) fn choose(&mut self, side: usize, model: &Model) -> bool {
        let Some(content) = self.of.lines.get(side).map(Line::content) else { return false };
        let Some(name) = self.fields.marked().map(|row| row.name) else { return false };
        if name == About::Whose {
            for name in self.of.fields.clone() {
                self.put(name, content.get(name), model);
            }
            if let Some(row) = self.fields.row_mut(About::Whose) {
                row.choose(side);
            }
            return true;
        }
        self.put(name.name(), content.get(name.name()), model);
        self.typing = false;
        if self.of.fields.iter().all(|name| self.decided.contains(name)) {
            return true;
        }
        self.fields.step(true);
        self.skip_decided();
        true
    }

    /// Goes on to the next open field.
    fn skip_decided(&mut self) {
        for _ in 0..self.of.fields.len() {
            let Some(name) = self.fields.marked().map(|row| row.name) else { return };
            if self.is_open(name) {
                return;
            }
            self.fields.step(true);
        }
    }

    /// Types into the selected field. Before the first key it is emptied; Backspace as the first only empties it.
    pub(super) fn typed(&mut self, key: &crate::input::Key) {
        let Some((name, text)) = self.fields.marked().map(|row| (row.name, matches!(row.input, Input::Text(_)))) else {
            return;
        };
        if name == About::Whose {
            return;
        }
        // Of a list a letter or an arrow picks; digits choose a side.
        let first = text && !std::mem::replace(&mut self.typing, text);
        if first && (key.typed().is_some() || matches!(key.code, crate::input::Code::Backspace)) {
            self.fields.set(name, "");
            self.decided.remove(name.name());
            if key.typed().is_none() {
                self.fields.clear(|other| other == name);
                return;
            }
        }
        if self.fields.key(key).is_some() {
            self.decided.insert(name.name());
            self.fields.clear(|other| other == name);
            self.fault = None;
        }
    }

    /// Takes a pasted text into the selected field.
    pub(super) fn paste(&mut self, text: &str) {
        let empties = !std::mem::replace(&mut self.typing, true);
        if let Some(name) = self.fields.marked().map(|row| row.name).filter(|_| empties) {
            self.fields.set(name, "");
        }
        if let Some(name) = self.fields.paste(text) {
            self.decided.insert(name.name());
            self.fields.clear(|other| other == name);
        }
    }

    /// The revision that takes the place of all sides: one line, or two where facts of the past are mended beside.
    ///
    /// # Errors
    /// What is open or wrong, by field.
    pub(super) fn lines(&self, model: &Model) -> Result<Vec<Line>, Vec<FieldFault>> {
        let (Some(kept), Some(table)) = (self.of.lines.last(), self.table()) else { return Err(Vec::new()) };
        let open = self.fields.all().filter(|row| self.is_open(row.name));
        let faults: Vec<FieldFault> =
            open.map(|row| FieldFault::new(row.name.name(), format!("is open; {}", self.ways()))).collect();
        if !faults.is_empty() {
            return Err(faults);
        }
        let line = codec::kept_line(table, &self.held(kept, model)?).ok_or_else(Vec::new)?;
        let mut replaces: Vec<Uuid> = model.season.heads(&self.of.key).iter().map(Line::id).collect();
        let mut all: Vec<Line> = Vec::new();
        for (mut step, corrects) in plan::steps(kept, line) {
            let number = u32::try_from(all.len()).unwrap_or(u32::MAX);
            if let Some(revision) = step.revision_mut() {
                *revision = model.revision(number, std::mem::take(&mut replaces), corrects);
            }
            replaces = vec![step.id()];
            all.push(step);
        }
        model.admit(&all).map(|()| all)
    }

    /// What is to hold, in all fields.
    fn held(&self, kept: &Line, model: &Model) -> Result<Values, Vec<FieldFault>> {
        let (mut values, mut faults) = (Values::new(), Vec::new());
        for (name, value) in kept.content().iter().filter(|(name, _)| !self.of.fields.contains(name)) {
            values.set(name, value.clone());
        }
        for row in self.fields.all() {
            let Some(field) = row.name.field() else { continue };
            match fields::value(row, &self.opened, model) {
                Ok(Some(value)) => values.set(field.name, value),
                Ok(None) if field.required => faults.push(FieldFault::new(field.name, "is missing")),
                Ok(None) => {}
                Err(fault) => faults.push(fault),
            }
        }
        if faults.is_empty() { Ok(values) } else { Err(faults) }
    }

    /// Says what is wrong next to each field.
    pub(super) fn blame(&mut self, faults: Vec<FieldFault>) {
        self.fields.clear(|_| true);
        self.fault = None;
        for fault in faults {
            let named = self.fields.all().map(|row| row.name).find(|name| name.name() == fault.field);
            match named {
                Some(name) => {
                    let text = fields::labeled(&self.fields, &fault.text);
                    self.fields.blame(name, text);
                }
                None => self.fault = self.fault.take().or_else(|| Some(crate::model::fault_text(&fault))),
            }
        }
        if let Some(first) = self.fields.first_fault() {
            self.fields.mark(first);
            self.typing = false;
        }
    }

    fn table(&self) -> Option<&'static RecordSchema> {
        schema::plan_table(self.of.lines.first()?.type_name())
    }

    /// How a field is decided: `1 takes ann's, 2 bob's, or type a value`.
    pub(super) fn ways(&self) -> String {
        let sides = self.whose().into_iter().zip(1..).map(|(who, key)| format!("{key} {who}'s"));
        format!("{}, or type a value", sides.collect::<Vec<_>>().join(", "))
    }

    /// Whose each side is.
    pub(super) fn whose(&self) -> Vec<String> {
        self.of.writers.iter().map(|writer| words::who(writer, &self.of.writers)).collect()
    }

    /// A field of one side as it is read.
    pub(super) fn shown(&self, line: &Line, field: &Field, model: &Model) -> String {
        let all: Vec<Line> = self.of.before.iter().chain(&self.of.lines).cloned().collect();
        words::version(&all, line, field, model.system())
    }
}

fn field(of: &Contradiction, name: &str) -> Option<&'static Field> {
    schema::plan_table(of.lines.first()?.type_name())?.field(name)
}

/// Whose version, to be taken in every field.
fn whose(of: &Contradiction) -> Vec<Choice> {
    let each = of
        .writers
        .iter()
        .zip(1..)
        .map(|(writer, key)| Choice { code: format!("{key}"), text: format!("{}'s", words::who(writer, &of.writers)) });
    each.collect()
}
