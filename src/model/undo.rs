//! What was recorded in this session and can be undone, and what was undone or voided and can be brought back.
//!
//! Both work by new entries alone: an entry is taken out by a strike and brought back as a copy with an id of its own, at the
//! moment it was of. A step is what was recorded at one time: the entries it made, and those it voided for them. Undoing a
//! step voids what it made and brings back what it voided, which is a step of its own to be redone, and the other way round.

use super::{Effect, FormRequest, Model, go};
use crate::record::{Entry, FieldFault};
use chrono::NaiveDate;
use uuid::Uuid;

/// The result of an undo or a redo.
#[derive(Debug, Clone, PartialEq)]
pub enum Undone {
    /// These entries are voided (of a redo: brought back); the effect saves the new entries.
    Changed {
        /// The entries.
        entries: Vec<Entry>,
        /// The effect.
        effect: Effect,
    },
    /// They keep people out, so the strike goes through this form.
    Asks(Box<FormRequest>),
    /// Nothing of this session is left.
    Nothing,
    /// It is refused, and why.
    Refused(Vec<FieldFault>),
}

/// What one step changed.
#[derive(Debug, Clone, Default)]
pub(super) struct Step {
    /// Entries made.
    pub(super) made: Vec<Uuid>,
    /// Entries voided.
    pub(super) voided: Vec<Uuid>,
}

/// Which way a step is taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Way {
    /// Undone.
    Back,
    /// Redone.
    Again,
}

/// The steps of a session, the newest last.
#[derive(Debug, Clone, Default)]
pub(super) struct UndoStack {
    done: Vec<Step>,
    undone: Vec<Step>,
    /// When the last undo was, milliseconds of the program.
    pub(super) undone_at: Option<u64>,
}

impl UndoStack {
    /// A step recorded by hand. One that only voids is not undone but can be redone the other way: its entries brought back.
    pub(super) fn push(&mut self, step: Step) {
        if !step.made.is_empty() {
            self.done.push(step);
        } else if !step.voided.is_empty() {
            self.undone.push(step);
        }
    }

    /// The newest step of a way.
    pub(super) fn last(&self, way: Way) -> Option<&Step> {
        match way {
            Way::Back => self.done.last(),
            Way::Again => self.undone.last(),
        }
    }

    /// Takes the newest step of a way off.
    pub(super) fn pop(&mut self, way: Way) -> Option<Step> {
        match way {
            Way::Back => self.done.pop(),
            Way::Again => self.undone.pop(),
        }
    }

    /// The newest step of a way was taken, and this is what it changed. `copies` are entries brought back, with what they are
    /// copies of: from now on the steps mean the copies.
    pub(super) fn taken(&mut self, way: Way, step: Step, copies: &[(Uuid, Uuid)]) {
        for id in self.done.iter_mut().chain(&mut self.undone).flat_map(|s| s.made.iter_mut().chain(&mut s.voided)) {
            if let Some((_, copy)) = copies.iter().find(|(of, _)| of == id) {
                *id = *copy;
            }
        }
        match way {
            Way::Back => self.undone.push(step),
            Way::Again => self.done.push(step),
        }
    }

    /// Forgets what could be redone where `superseded` holds for something it would bring back.
    pub(super) fn supersede(&mut self, superseded: impl Fn(Uuid) -> bool) {
        self.undone.retain(|step| !step.voided.iter().any(|id| superseded(*id)));
    }

    /// Removes entries that are no more from every step.
    pub(super) fn forget(&mut self, ids: &[Uuid]) {
        for step in self.done.iter_mut().chain(&mut self.undone) {
            step.made.retain(|id| !ids.contains(id));
            step.voided.retain(|id| !ids.contains(id));
        }
    }
}

impl Model {
    /// Voids what was recorded last in this session, with all that was recorded together with it, and brings back what that had
    /// replaced. Entries that keep people out are not voided here: their strike is asked for in a form.
    pub fn undo(&mut self) -> Undone {
        let undone = self.take(Way::Back);
        if matches!(undone, Undone::Changed { .. }) {
            self.undo_stack.undone_at = Some(self.now.ms);
        }
        undone
    }

    /// Brings back what was undone or voided last in this session, by new entries.
    pub fn redo(&mut self) -> Undone {
        self.take(Way::Again)
    }

    /// When something was undone last in this session, milliseconds of the program.
    pub const fn undone_at(&self) -> Option<u64> {
        self.undo_stack.undone_at
    }

    /// What [`Model::undo`] would void; `None` where nothing is left.
    pub fn next_undo(&self) -> Option<Vec<Entry>> {
        let mut stack = self.undo_stack.clone();
        std::iter::from_fn(|| stack.pop(Way::Back)).map(|step| self.change_of(&step).0).find(|void| !void.is_empty())
    }

    /// What taking a step would void, and what it would bring back: only what stands, and what does not.
    fn change_of(&self, step: &Step) -> (Vec<Entry>, Vec<Entry>) {
        let known = |ids: &[Uuid], voided: bool| {
            let all = ids.iter().filter_map(|id| self.season.entry(*id));
            all.filter(|e| self.season.is_struck(e, NaiveDate::MAX) == voided).cloned().collect()
        };
        (known(&step.made, false), known(&step.voided, true))
    }

    /// Takes the newest step of a way.
    fn take(&mut self, way: Way) -> Undone {
        loop {
            let Some(step) = self.undo_stack.last(way).cloned() else { return Undone::Nothing };
            let (void, old) = self.change_of(&step);
            if void.is_empty() && (old.is_empty() || way == Way::Back) {
                // It was voided by other ways.
                self.undo_stack.pop(way);
                continue;
            }
            if void.iter().any(|e| e.kind.closes()) {
                let ids: Vec<Uuid> = void.iter().map(|e| e.id).collect();
                return self.strike_form(&ids).map_or(Undone::Nothing, |ask| Undone::Asks(Box::new(ask)));
            }
            let mut entries = self.strikes(&void, if way == Way::Back { "undone" } else { "redone" });
            let brought: Vec<Entry> = old.iter().map(|e| Entry { id: self.new_id(), ..e.clone() }).collect();
            let copies: Vec<(Uuid, Uuid)> = old.iter().map(|e| e.id).zip(brought.iter().map(|e| e.id)).collect();
            entries.extend(brought.iter().cloned());
            return match self.take_in(entries) {
                Ok((lines, changed)) => {
                    self.undo_stack.pop(way);
                    self.undo_stack.taken(way, changed, &copies);
                    let entries = if way == Way::Back { void } else { brought };
                    Undone::Changed { entries, effect: Effect::Append(lines) }
                }
                Err(faults) => Undone::Refused(faults),
            };
        }
    }

    /// [`Model::undo`] with its outcome said below the page.
    pub fn undo_and_say(&mut self) -> Vec<Effect> {
        let undone = self.undo();
        self.say_of(undone, "Nothing left to undo in this session.")
    }

    /// [`Model::redo`] with its outcome said below the page.
    pub fn redo_and_say(&mut self) -> Vec<Effect> {
        let redone = self.redo();
        if matches!(redone, Undone::Changed { .. }) {
            self.say("Brought back.");
        }
        self.say_of(redone, "Nothing to bring back: nothing was voided in this session.")
    }

    fn say_of(&mut self, undone: Undone, nothing: &str) -> Vec<Effect> {
        match undone {
            Undone::Changed { effect, .. } => return vec![effect],
            Undone::Asks(form) => return vec![Effect::popup(go::Popup::Form(form))],
            Undone::Nothing => self.say(nothing),
            Undone::Refused(faults) => self.refuse(&faults),
        }
        Vec::new()
    }

    /// True where the last thing recorded in this session is a treatment that keeps people out.
    pub fn last_closes(&self) -> bool {
        self.next_undo().is_some_and(|next| next.iter().any(|entry| entry.kind.closes()))
    }
}
