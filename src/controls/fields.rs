//! The fields of a form: what was typed or picked in each, which one keys act on, what is wrong with each.
//!
//! One engine for the forms of entries, the forms of the plan and the Mixing page. `N` names a field. Which fields are shown,
//! what a field takes and when it is wrong is the form's own.

use super::{Field, named};
use crate::input::{Code, Key};

/// Something to pick: its spelling in the record, and how it reads.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Choice {
    /// Its spelling in the record.
    pub code: String,
    /// How it reads.
    pub text: String,
}

/// What was typed or picked.
#[derive(Debug, Clone)]
pub enum Input {
    /// A text.
    Text(Field),
    /// One of several.
    One(Vec<Choice>, Option<usize>),
    /// Any of several.
    Many(Vec<Choice>, Vec<bool>),
}

impl Input {
    /// One of these, none picked yet.
    pub const fn one(all: Vec<Choice>) -> Self {
        Self::One(all, None)
    }

    /// Any of these, none picked yet.
    pub fn many(all: Vec<Choice>) -> Self {
        let none = vec![false; all.len()];
        Self::Many(all, none)
    }
}

/// One field.
#[derive(Debug, Clone)]
pub struct Row<N> {
    /// Its name.
    pub name: N,
    /// The word before it.
    pub label: &'static str,
    /// It must be filled in.
    pub required: bool,
    /// What was typed or picked.
    pub input: Input,
    /// What is wrong with it.
    pub fault: Option<String>,
    /// A text of sentences or of codes: the first key does not replace what is there.
    pub long: bool,
    shown: bool,
    /// What was in it when it was opened.
    start: String,
}

impl<N> Row<N> {
    /// An empty field.
    pub const fn new(name: N, label: &'static str, required: bool, input: Input) -> Self {
        Self { name, label, required, input, fault: None, long: false, shown: true, start: String::new() }
    }

    /// An empty field for a text.
    pub fn typed(name: N, label: &'static str, required: bool) -> Self {
        Self::new(name, label, required, Input::Text(Field::default()))
    }

    /// The same, for a text of sentences or of codes.
    #[must_use]
    pub fn long(self) -> Self {
        Self { long: true, ..self }
    }

    /// True while nothing is typed or picked.
    pub fn is_empty(&self) -> bool {
        match &self.input {
            Input::Text(field) => field.is_blank(),
            Input::One(_, at) => at.is_none(),
            Input::Many(_, on) => !on.contains(&true),
        }
    }

    /// True where a text was cut off because the line is full.
    pub const fn is_cut(&self) -> bool {
        matches!(&self.input, Input::Text(field) if field.full)
    }

    /// The place of what is picked.
    pub const fn chosen(&self) -> Option<usize> {
        match &self.input {
            Input::One(_, at) => *at,
            Input::Text(_) | Input::Many(..) => None,
        }
    }

    /// Picks one.
    pub const fn choose(&mut self, which: usize) {
        if let Input::One(all, at) = &mut self.input
            && which < all.len()
        {
            *at = Some(which);
        }
    }

    /// What is in it, as it would be typed.
    pub fn text(&self) -> String {
        match &self.input {
            Input::Text(field) => field.text().to_owned(),
            Input::One(all, at) => at.and_then(|i| all.get(i)).map(|c| c.code.clone()).unwrap_or_default(),
            Input::Many(all, on) => {
                let picked = all.iter().zip(on).filter(|(_, on)| **on).map(|(c, _)| c.code.as_str());
                picked.collect::<Vec<_>>().join(", ")
            }
        }
    }

    /// Fills it in with what would be typed.
    pub fn set(&mut self, text: &str) {
        match &mut self.input {
            Input::Text(field) => *field = Field::holding(text),
            Input::One(all, at) => *at = all.iter().position(|c| c.code == text),
            Input::Many(all, on) => {
                let words: Vec<&str> = text.split(',').map(str::trim).collect();
                *on = all.iter().map(|c| words.contains(&c.code.as_str())).collect();
            }
        }
    }

    /// Offers a text: the first key typed in the field replaces it.
    pub fn offer(&mut self, text: &str) {
        self.set(text);
        self.start = self.text();
    }

    /// Takes a key; true when it changed something.
    fn key(&mut self, key: &Key) -> bool {
        let before = self.text();
        match &mut self.input {
            Input::Text(field) => {
                field.key(key);
            }
            Input::One(all, at) => pick(all.len(), at, key),
            Input::Many(all, on) => {
                if let Some(one) = named(key, all.len()).and_then(|i| on.get_mut(i)) {
                    *one = !*one;
                } else if matches!(key.code, Code::Backspace | Code::Delete) {
                    on.fill(false);
                }
            }
        }
        before != self.text()
    }
}

/// Picks by letter, or the next or the one before; Backspace takes the pick back.
fn pick(many: usize, at: &mut Option<usize>, key: &Key) {
    if let Some(found) = named(key, many) {
        *at = Some(found);
        return;
    }
    let last = many.saturating_sub(1);
    match key.code {
        Code::Right => *at = Some(at.map_or(0, |i| if i >= last { 0 } else { i.saturating_add(1) })),
        Code::Left => *at = Some(at.map_or(last, |i| i.checked_sub(1).unwrap_or(last))),
        Code::Backspace | Code::Delete => *at = None,
        _ => {}
    }
}

/// The fields of a form, and the one that keys act on.
#[derive(Debug, Clone)]
pub struct Fields<N> {
    rows: Vec<Row<N>>,
    at: usize,
    /// No key came since keys act on this field: the first one typed replaces what is in it.
    fresh: bool,
}

impl<N: Copy + PartialEq> Fields<N> {
    /// These fields in this order, all of them shown; keys act on the first.
    pub const fn new(rows: Vec<Row<N>>) -> Self {
        Self { rows, at: 0, fresh: true }
    }

    /// Every field, those not shown among them.
    pub fn all(&self) -> impl Iterator<Item = &Row<N>> {
        self.rows.iter()
    }

    /// Every field, to be filled in.
    pub fn all_mut(&mut self) -> impl Iterator<Item = &mut Row<N>> {
        self.rows.iter_mut()
    }

    /// The fields shown.
    pub fn shown(&self) -> impl DoubleEndedIterator<Item = &Row<N>> {
        self.rows.iter().filter(|row| row.shown)
    }

    /// True for a field that is shown.
    pub fn shows(&self, name: N) -> bool {
        self.shown().any(|row| row.name == name)
    }

    /// Shows the fields that are called for. Where the marked one is not, keys act on the nearest shown before it.
    pub fn show(&mut self, is_called_for: impl Fn(&Self, N) -> bool) {
        let shown: Vec<bool> = self.rows.iter().map(|row| is_called_for(self, row.name)).collect();
        for (row, shown) in self.rows.iter_mut().zip(shown) {
            row.shown = shown;
        }
        if self.marked().is_none() {
            let before = self.rows.iter().take(self.at).rposition(|row| row.shown);
            self.at = before.or_else(|| self.rows.iter().position(|row| row.shown)).unwrap_or(0);
        }
    }

    /// A field.
    pub fn row(&self, name: N) -> Option<&Row<N>> {
        self.rows.iter().find(|row| row.name == name)
    }

    /// A field, to be changed.
    pub fn row_mut(&mut self, name: N) -> Option<&mut Row<N>> {
        self.rows.iter_mut().find(|row| row.name == name)
    }

    /// The text of a field, as it would be typed; empty for one that is not there.
    pub fn text(&self, name: N) -> String {
        self.row(name).map(Row::text).unwrap_or_default()
    }

    /// What was typed into a field, without the blanks around it, or the one picked; `None` where nothing is.
    pub fn typed(&self, name: N) -> Option<&str> {
        match &self.row(name)?.input {
            Input::Text(field) => Some(field.text().trim()).filter(|text| !text.is_empty()),
            Input::One(all, at) => at.and_then(|i| all.get(i)).map(|choice| choice.code.as_str()),
            Input::Many(..) => None,
        }
    }

    /// Fills a field in with what would be typed; one that is not there is left alone.
    pub fn set(&mut self, name: N, text: &str) {
        if let Some(row) = self.row_mut(name) {
            row.set(text);
        }
    }

    /// The field that keys act on.
    pub fn marked(&self) -> Option<&Row<N>> {
        self.rows.get(self.at).filter(|row| row.shown)
    }

    /// The place of the selected field among those shown.
    pub fn marked_at(&self) -> usize {
        self.rows.iter().take(self.at).filter(|row| row.shown).count()
    }

    /// True for the field that keys act on.
    pub fn is_marked(&self, name: N) -> bool {
        self.marked().is_some_and(|row| row.name == name)
    }

    /// Keys act on this field from now on, if it is shown.
    pub fn mark(&mut self, name: N) {
        if let Some(at) = self.rows.iter().position(|row| row.shown && row.name == name) {
            (self.at, self.fresh) = (at, true);
        }
    }

    /// True where the next key typed replaces what is in the selected field: a value it was opened with or that was offered,
    /// not one that was typed.
    pub fn replaces(&self) -> bool {
        let offered = |row: &Row<N>| {
            !row.long
                && matches!(&row.input, Input::Text(field) if !field.text().is_empty() && field.text() == row.start)
        };
        self.fresh && self.marked().is_some_and(offered)
    }

    /// What is in the fields now is what they were opened with.
    pub fn settle(&mut self) {
        for row in &mut self.rows {
            row.start = row.text();
        }
    }

    /// The labels of the fields that hold something else than when they were opened.
    pub fn changed(&self) -> Vec<&'static str> {
        self.shown().filter(|row| row.text() != row.start).map(|row| row.label.trim()).collect()
    }

    /// To the field shown after or before, round at the ends.
    pub fn step(&mut self, onward: bool) {
        let mut shown = self.rows.iter().enumerate().filter(|(_, row)| row.shown).map(|(at, _)| at);
        let next = if onward {
            shown.clone().find(|at| *at > self.at).or_else(|| shown.next())
        } else {
            shown.clone().rfind(|at| *at < self.at).or_else(|| shown.next_back())
        };
        (self.at, self.fresh) = (next.unwrap_or(0), true);
    }

    /// Gives a key to the selected field; the field where it changed something. The first one typed since it was selected
    /// replaces what is there; any other first key keeps it, to be edited.
    pub fn key(&mut self, key: &Key) -> Option<N> {
        let replaces = self.replaces() && key.typed().is_some();
        self.fresh = false;
        let row = self.rows.get_mut(self.at).filter(|row| row.shown)?;
        if replaces {
            row.set("");
        }
        (row.key(key) || replaces).then_some(row.name)
    }

    /// Gives a pasted text to the selected field; the field where it takes texts. It replaces as a typed key does.
    pub fn paste(&mut self, text: &str) -> Option<N> {
        let replaces = self.replaces();
        self.fresh = false;
        let row = self.rows.get_mut(self.at).filter(|row| row.shown)?;
        let Input::Text(field) = &mut row.input else { return None };
        if replaces {
            *field = Field::default();
        }
        field.paste(text);
        Some(row.name)
    }

    /// Says what is wrong with a field; what was said of it before stays.
    pub fn blame(&mut self, name: N, fault: impl Into<String>) {
        if let Some(row) = self.row_mut(name).filter(|row| row.fault.is_none()) {
            row.fault = Some(fault.into());
        }
    }

    /// Takes back what was wrong with the fields named.
    pub fn clear(&mut self, is_over: impl Fn(N) -> bool) {
        for row in self.rows.iter_mut().filter(|row| is_over(row.name)) {
            row.fault = None;
        }
    }

    /// The first field shown with something wrong.
    pub fn first_fault(&self) -> Option<N> {
        self.shown().find(|row| row.fault.is_some()).map(|row| row.name)
    }

    /// The first required field shown that is empty.
    pub fn first_empty(&self) -> Option<N> {
        self.shown().find(|row| row.required && row.is_empty()).map(|row| row.name)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn choices() -> Vec<Choice> {
        ["red", "white", "pink"].map(|c| Choice { code: c.to_owned(), text: c.to_uppercase() }).to_vec()
    }

    fn fields() -> Fields<u8> {
        Fields::new(vec![
            Row::typed(0, "name", true),
            Row::new(1, "color", false, Input::one(choices())),
            Row::new(2, "signs", false, Input::many(choices())),
            Row::typed(3, "note", false),
        ])
    }

    fn key(c: char) -> Key {
        Key::new(Code::Char(c))
    }

    #[test]
    fn fields_are_gone_through_round_the_ends_and_past_those_not_shown() {
        let mut fields = fields();
        fields.show(|_, name| name != 1);
        let mut seen = Vec::new();
        for _ in 0..4 {
            seen.extend(fields.marked().map(|row| row.name));
            fields.step(true);
        }
        assert_eq!(seen, [0, 2, 3, 0]);
        fields.mark(0);
        fields.step(false);
        assert!(fields.is_marked(3));
        fields.mark(1);
        assert!(fields.is_marked(3), "a field not shown takes no keys");
    }

    #[test]
    fn one_that_is_hidden_while_marked_leaves_the_keys_to_the_one_before() {
        let mut fields = fields();
        fields.mark(2);
        fields.show(|_, name| name != 2);
        assert!(fields.is_marked(1));
        fields.show(|_, name| name == 3);
        assert!(fields.is_marked(3));
        fields.show(|_, _| false);
        assert_eq!((fields.marked().is_none(), fields.key(&key('a'))), (true, None));
    }

    #[test]
    fn letters_and_arrows_pick_and_backspace_takes_back() {
        let mut fields = fields();
        fields.mark(1);
        assert_eq!(fields.key(&key('b')), Some(1));
        assert_eq!(fields.text(1), "white");
        fields.key(&Key::new(Code::Right));
        fields.key(&Key::new(Code::Right));
        assert_eq!(fields.text(1), "red", "round at the end");
        fields.key(&Key::new(Code::Backspace));
        assert!(fields.row(1).unwrap().is_empty());
        fields.mark(2);
        fields.key(&key('c'));
        fields.key(&key('a'));
        assert_eq!(fields.text(2), "red, pink");
        assert_eq!(fields.key(&key('z')), None, "no such letter: nothing changed");
        assert_eq!(fields.paste("white"), None);
    }

    #[test]
    fn the_first_key_replaces_what_is_there_and_a_cursor_key_keeps_it() {
        let mut fields = fields();
        fields.row_mut(0).unwrap().offer("240");
        assert!(fields.replaces());
        fields.key(&key('8'));
        fields.key(&key('0'));
        assert_eq!(fields.text(0), "80");
        for keeps in [Code::Right, Code::Home, Code::Backspace, Code::Delete] {
            let mut fields = self::fields();
            fields.row_mut(0).unwrap().offer("240");
            fields.key(&Key::new(keeps));
            fields.key(&key('5'));
            assert!(fields.text(0).len() > 1 && fields.text(0).contains('5'), "{keeps:?}");
        }
        // What was typed is added to on coming back, and so is a text of sentences.
        fields.step(true);
        fields.step(false);
        fields.paste("7");
        assert_eq!(fields.text(0), "807");
        fields.row_mut(3).unwrap().long = true;
        fields.row_mut(3).unwrap().offer("drip at ");
        fields.mark(3);
        fields.key(&key('E'));
        assert_eq!(fields.text(3), "drip at E");
    }

    #[test]
    fn what_was_changed_since_the_fields_were_opened_is_known_by_label() {
        let mut fields = fields();
        fields.set(0, "E1");
        fields.settle();
        assert!(fields.changed().is_empty());
        fields.row_mut(1).unwrap().choose(2);
        fields.set(0, "E2");
        assert_eq!(fields.changed(), ["name", "color"]);
        fields.set(0, "E1");
        assert_eq!(fields.changed(), ["color"]);
    }

    #[test]
    fn the_first_fault_said_of_a_field_stands_until_it_is_cleared() {
        let mut fields = fields();
        assert_eq!(fields.first_empty(), Some(0));
        fields.blame(3, "is long");
        fields.blame(0, "is missing");
        fields.blame(0, "is short");
        assert_eq!(fields.first_fault(), Some(0));
        assert_eq!(fields.row(0).unwrap().fault.as_deref(), Some("is missing"));
        fields.clear(|name| name == 0);
        assert_eq!(fields.first_fault(), Some(3));
        fields.show(|_, name| name != 3);
        assert_eq!(fields.first_fault(), None, "what is not shown is not gone to");
    }

    proptest! {
        #[test]
        fn what_is_in_a_field_fills_another_with_the_same(
            typed in "[a-z0-9 ]{0,12}", one in 0usize..4, many in prop::collection::vec(any::<bool>(), 3),
        ) {
            let (mut from, mut to) = (fields(), fields());
            from.set(0, &typed);
            if one < 3 {
                from.row_mut(1).unwrap().choose(one);
            }
            from.row_mut(2).unwrap().input = Input::Many(choices(), many);
            for name in 0..4 {
                to.set(name, &from.text(name));
                prop_assert_eq!(from.text(name), to.text(name));
            }
            prop_assert_eq!(to.row(1).unwrap().chosen(), (one < 3).then_some(one));
        }
    }
}
