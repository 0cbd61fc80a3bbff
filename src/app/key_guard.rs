//! The guard on keys that write, void or skip something: outside text fields such a key counts once however long it is held
//! down, and a second undo soon after the first is asked about before it voids anything.

use super::App;
use crate::input::Key;
use crate::keys::{Command, Context, look_up};
use crate::model::{Effect, Msg, go};

/// A second undo within this time after the first is asked about, milliseconds.
const SOON: u64 = 3_000;

impl App {
    /// True for a key that is held down and counts no more; says so below the page.
    pub(super) fn is_held_down(&mut self, context: Context, key: Key) -> bool {
        let held = self.repeats.is_held(key, self.model.now.ms);
        if !held || !is_guarded(context, key) {
            return false;
        }
        self.model.say(format!("{key} is held down: ignored."));
        true
    }

    /// Voids what was recorded last, as the page does it.
    pub(super) fn undo(&mut self) -> Vec<Effect> {
        let own = self.screen.update(&mut self.model, &Msg::Do(Command::Undo));
        own.unwrap_or_else(|| self.model.undo_and_say())
    }

    /// The question before a second undo; `None` where none is due.
    pub(super) fn asks_before_undo(&self) -> Option<Vec<Effect>> {
        if !self.popups.is_empty() || self.context() == Context::WalkShut {
            return None;
        }
        let last = self.model.undone_at()?;
        let soon = self.model.now.ms.saturating_sub(last) < SOON;
        // A treatment is asked about by its own form.
        let next = self.model.next_undo().filter(|next| !next.iter().any(|entry| entry.kind.closes()));
        next.filter(|_| soon).map(|_| vec![Effect::popup(go::Popup::UndoMore)])
    }
}

/// True for a key that writes, voids or skips, or chooses from a list.
fn is_guarded(context: Context, key: Key) -> bool {
    let walks =
        matches!(context, Context::Walk | Context::WalkLine | Context::WalkShut | Context::Plots | Context::PlotsLine);
    match look_up(context, key.pressed()) {
        Some(Command::Undo | Command::Redo | Command::Done | Command::NotNow | Command::Mark | Command::Accept) => true,
        Some(Command::BenchAfter | Command::BenchBefore | Command::ViewAfter | Command::ViewBefore) => walks,
        Some(_) => false,
        None => context == Context::List,
    }
}
