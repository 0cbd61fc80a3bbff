//! One field of a form: what it is about, and what was typed or picked.

use crate::controls::{Field, named};
use crate::input::{Code, Key};
use crate::record::schema::{self, Form, Known};

/// What a field is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::popups) enum About {
    /// Which place.
    Where,
    /// The benches, where several are chosen.
    Benches,
    /// The benches left out, where the rest of a house is chosen.
    Except,
    /// A field of the kind.
    Own(&'static str),
    /// When it was.
    When,
    /// When an application ended: always typed.
    Ended,
    /// A note beside it.
    Note,
    /// The codes of the places to reopen.
    Reopen,
}

/// What was typed or picked.
#[derive(Debug, Clone)]
pub(in crate::popups) enum Input {
    /// A text.
    Text(Field),
    /// One of several.
    One(Vec<Choice>, Option<usize>),
    /// Any of several.
    Many(Vec<Choice>, Vec<bool>),
}

/// Something to pick: its spelling in the journal, and how it reads.
#[derive(Debug, Clone)]
pub(in crate::popups) struct Choice {
    pub(in crate::popups) code: String,
    pub(in crate::popups) text: String,
}

impl Choice {
    /// One that reads as it is spelled.
    fn plain(code: &str) -> Self {
        Self { code: code.to_owned(), text: code.to_owned() }
    }
}

/// One field.
#[derive(Debug, Clone)]
pub(in crate::popups) struct Row {
    pub(in crate::popups) name: &'static str,
    pub(in crate::popups) label: &'static str,
    pub(in crate::popups) about: About,
    pub(in crate::popups) input: Input,
    pub(in crate::popups) field: Option<&'static schema::Field>,
}

/// Of the fields shown, the one after or before `at`, round at the ends.
pub(in crate::popups) fn beside(shown: &[usize], at: usize, onward: bool) -> usize {
    let next = if onward {
        shown.iter().find(|other| **other > at).or(shown.first())
    } else {
        shown.iter().rev().find(|other| **other < at).or(shown.last())
    };
    next.copied().unwrap_or(0)
}

impl Row {
    /// A field of a kind.
    pub(in crate::popups) fn own(field: &'static schema::Field) -> Self {
        Self::of(field, field.label)
    }

    /// A field of any table, under a label.
    pub(in crate::popups) fn of(field: &'static schema::Field, label: &'static str) -> Self {
        let input = match field.form {
            Form::Term(known) => Input::One(terms(known), None),
            Form::Terms(known) => {
                let all = terms(known);
                let none = vec![false; all.len()];
                Input::Many(all, none)
            }
            Form::YesNo => Input::One(["yes", "no"].map(Choice::plain).to_vec(), None),
            _ => Input::Text(Field::default()),
        };
        Self { name: field.name, label, about: About::Own(field.name), input, field: Some(field) }
    }

    /// The same, to be picked from these.
    pub(in crate::popups) fn picked_from(self, all: Vec<Choice>) -> Self {
        Self { input: Input::One(all, None), ..self }
    }

    /// A text beside the kind's own fields.
    pub(in crate::popups) fn text_row(name: &'static str, label: &'static str, about: About) -> Self {
        Self { name, label, about, input: Input::Text(Field::default()), field: None }
    }

    /// When it was.
    pub(in crate::popups) fn when() -> Self {
        Self::text_row("at", "when", About::When)
    }

    /// When an application ended: the re-entry hours run from it.
    pub(in crate::popups) fn ended() -> Self {
        Self::text_row("at", "ended at", About::Ended)
    }

    /// A note beside it.
    pub(in crate::popups) fn note() -> Self {
        Self { field: Some(&schema::NOTE), ..Self::text_row("note", "note", About::Note) }
    }

    /// Whether a struck-out treatment reopens its place.
    pub(in crate::popups) fn reopen() -> Self {
        Self::text_row("reopen", "reopen", About::Reopen)
    }

    /// True where it must be filled in.
    pub(in crate::popups) fn required(&self) -> bool {
        self.about == About::Ended || self.field.is_some_and(|f| f.required)
    }

    /// True while nothing is typed or picked.
    pub(in crate::popups) fn is_empty(&self) -> bool {
        match &self.input {
            Input::Text(field) => field.is_blank(),
            Input::One(_, at) => at.is_none(),
            Input::Many(_, on) => !on.contains(&true),
        }
    }

    /// The place of what is picked.
    pub(in crate::popups) const fn chosen(&self) -> Option<usize> {
        match &self.input {
            Input::One(_, at) => *at,
            _ => None,
        }
    }

    /// Picks one.
    pub(in crate::popups) fn choose(&mut self, which: usize) {
        if let Input::One(all, at) = &mut self.input
            && which < all.len()
        {
            *at = Some(which);
        }
    }

    /// What is in it, as it would be typed.
    pub(in crate::popups) fn text(&self) -> String {
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
    pub(in crate::popups) fn set(&mut self, text: &str) {
        match &mut self.input {
            Input::Text(field) => *field = Field::holding(text),
            Input::One(all, at) => *at = all.iter().position(|c| c.code == text),
            Input::Many(all, on) => {
                let words: Vec<&str> = text.split(',').map(str::trim).collect();
                *on = all.iter().map(|c| words.contains(&c.code.as_str())).collect();
            }
        }
    }

    /// Takes a key; true when it changed something.
    pub(in crate::popups) fn key(&mut self, key: &Key) -> bool {
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

/// Picks by letter, or the next or the one before; a blank takes the pick back.
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

fn terms(known: Known) -> Vec<Choice> {
    let choice = |code: &'static str| Choice { code: code.to_owned(), text: known.text(code).to_owned() };
    known.codes().into_iter().map(choice).collect()
}
