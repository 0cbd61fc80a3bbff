//! Saving, and saving again: lines wait in their order until they are kept, and lie in a journal of their own meanwhile.

use super::unsaved::Unsaved;
use super::{Refused, Rescue, Storage};
use crate::exchange::Gate;
use crate::model::Outcome;
use crate::record::Line;
use std::sync::Arc;
use std::time::{Duration, Instant};
use uuid::Uuid;

/// What has become of lines that were to be saved.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Fate {
    /// They are in the file.
    Kept,
    /// They wait, and are tried again.
    Waiting,
    /// The file refuses them for good, and why.
    Refused(String),
}

/// A try that took longer than this held the screens up.
const LONG: Duration = Duration::from_secs(1);
/// After such a try the next one waits as long as it took, so that the screens can be used, and at most this long.
const REST: Duration = Duration::from_secs(10);

/// Lines not yet kept, oldest first.
pub(super) struct Saving {
    /// What was recorded together is kept together, all or nothing.
    waiting: Vec<Vec<Line>>,
    /// Refused for good after it was shown.
    refused: Vec<Line>,
    /// Saved in this run, and no longer in any file by the name of the season.
    gone: Vec<Line>,
    /// When the last try began.
    tried: Duration,
    /// The last try, where it failed after holding the screens up.
    slow: Option<Slow>,
    unsaved: Unsaved,
    /// Held while something is saved: a thread that exchanges lines waits meanwhile.
    gate: Gate,
}

/// A try that failed only after a long time, as where a file system refuses locks again and again.
struct Slow {
    took: Duration,
    why: String,
}

impl Saving {
    /// Nothing waits. What will is kept in these journals.
    pub(super) fn new(rescue: Arc<dyn Rescue>) -> Self {
        Self {
            waiting: Vec::new(),
            refused: Vec::new(),
            gone: Vec::new(),
            tried: Duration::ZERO,
            slow: None,
            unsaved: Unsaved::new(rescue),
            gate: Gate::default(),
        }
    }

    /// What is held while something is saved.
    pub(super) const fn gate(&self) -> &Gate {
        &self.gate
    }

    /// What is to be done with the lines where the program is ended while the main thread is held up.
    pub(super) fn last_act(&self) -> Arc<dyn Fn() + Send + Sync> {
        let unsaved = self.unsaved.clone();
        Arc::new(move || {
            unsaved.keep().ok();
        })
    }

    /// True while something is not kept.
    pub(super) fn waits(&self) -> bool {
        !self.waiting.is_empty()
    }

    /// True for a while after a try that held the screens up: the file is left alone until then.
    pub(super) fn rests(&self, now: Duration) -> bool {
        let until = |slow: &Slow| self.tried.saturating_add(slow.took).saturating_add(slow.took.min(REST));
        self.waits() && self.slow.as_ref().is_some_and(|slow| now < until(slow))
    }

    /// Adds lines that belong together to those that wait, without a try.
    pub(super) fn add(&mut self, lines: Vec<Line>) {
        self.waiting.push(lines);
    }

    /// Keeps lines that belong together, after those that wait.
    pub(super) fn save(&mut self, storage: &mut dyn Storage, lines: Vec<Line>, now: Duration) -> Vec<Outcome> {
        self.waiting.push(lines);
        match &self.slow {
            Some(slow) if self.rests(now) => {
                let outcome =
                    Outcome::NotSaved { ids: ids(&self.waiting.concat()), why: slow.why.clone(), again: true };
                self.keep_and_say(vec![outcome])
            }
            _ => self.go(storage, now, true),
        }
    }

    /// Keeps lines that hold only when they are kept or wait to be: a refusal is the form's to show, which still has them.
    pub(super) fn save_plan(
        &mut self,
        storage: &mut dyn Storage,
        lines: &[Line],
        now: Duration,
    ) -> (Fate, Vec<Outcome>) {
        self.waiting.push(lines.to_vec());
        let own = ids(lines);
        let mut outcomes = self.go(storage, now, false);
        let refusal = outcomes
            .iter()
            .position(|outcome| matches!(outcome, Outcome::NotSaved { ids, again: false, .. } if *ids == own));
        let fate = match refusal.map(|at| outcomes.remove(at)) {
            Some(Outcome::NotSaved { why, .. }) => Fate::Refused(why),
            _ if self.waiting.iter().any(|batch| ids(batch) == own) => Fate::Waiting,
            _ => Fate::Kept,
        };
        (fate, outcomes)
    }

    /// Tries again what waits, if the last try is so long past.
    pub(super) fn again(&mut self, storage: &mut dyn Storage, now: Duration, after: Duration) -> Option<Vec<Outcome>> {
        // No pause at all is asked for where the program is left.
        let rests = !after.is_zero() && self.rests(now);
        let due = self.waits() && !rests && now.saturating_sub(self.tried) >= after;
        due.then(|| self.go(storage, now, true))
    }

    /// Looks for what was saved in this run and is no longer in the file; true when there is some.
    pub(super) fn look_for_gone(&mut self, storage: &mut dyn Storage) -> bool {
        self.gone = storage.gone();
        !self.gone.is_empty()
    }

    /// The last try when the program ends; gives what is in no file, which then lies in the journals too.
    pub(super) fn last_try(&mut self, storage: &mut dyn Storage) -> Vec<Line> {
        let _save = self.gate.save();
        if self.waits() && storage.append(&self.waiting.concat()).is_ok() {
            self.waiting.clear();
        }
        self.look_for_gone(storage);
        self.share();
        if let Err(why) = self.unsaved.keep() {
            tracing::error!(%why, "no journal of what is not saved");
        }
        self.unsaved.all()
    }

    /// Where the lines lie that are not kept.
    pub(super) fn paths(&self) -> Vec<String> {
        self.unsaved.paths()
    }

    fn go(&mut self, storage: &mut dyn Storage, now: Duration, shown: bool) -> Vec<Outcome> {
        self.tried = now;
        self.slow = None;
        self.share();
        let all = self.waiting.concat();
        let _save = self.gate.save();
        let start = Instant::now();
        let tried = storage.append(&all);
        let outcomes = match tried {
            Ok(()) => {
                self.waiting.clear();
                self.gone.clear();
                vec![Outcome::Saved(ids(&all))]
            }
            Err(Refused { why, again: true }) => {
                let took = start.elapsed();
                self.slow = (took > LONG).then(|| Slow { took, why: why.clone() });
                vec![Outcome::NotSaved { ids: ids(&all), why, again: true }]
            }
            Err(Refused { .. }) => self.one_by_one(storage, shown),
        };
        if self.waits() {
            self.gone = storage.gone();
        }
        self.keep_and_say(outcomes)
    }

    /// Keeps what waits in the journals, and says so.
    fn keep_and_say(&self, mut outcomes: Vec<Outcome>) -> Vec<Outcome> {
        self.share();
        let kept = self.unsaved.keep();
        for outcome in &mut outcomes {
            self.say_what_is_done(outcome, kept.as_ref().err());
        }
        outcomes
    }

    /// Adds to the reason what is done with the lines, and why they are in no journal where they are in none.
    fn say_what_is_done(&self, outcome: &mut Outcome, no_journal: Option<&String>) {
        let Outcome::NotSaved { why, again, ids } = outcome else { return };
        if *again {
            why.push_str(" Trying again");
            match no_journal {
                None => why.push_str("; kept in a journal, to be offered at the next start."),
                Some(trouble) => why.push_str(&format!(". It cannot be kept in a journal either: {trouble}.")),
            }
        } else if no_journal.is_none() && self.refused.iter().any(|line| ids.contains(&line.id())) {
            why.push_str(" Its text is kept, to be offered at the next start.");
        }
    }

    /// Something is refused for good: what was recorded together is tried by itself, so that the rest is not held up. Of what
    /// was `shown` the last one too goes into the journal of what was refused.
    fn one_by_one(&mut self, storage: &mut dyn Storage, shown: bool) -> Vec<Outcome> {
        let mut outcomes = Vec::new();
        let mut left = Vec::new();
        let batches = std::mem::take(&mut self.waiting);
        let last = batches.len().saturating_sub(1);
        for (at, batch) in batches.into_iter().enumerate() {
            let ids = ids(&batch);
            match storage.append(&batch) {
                Ok(()) => outcomes.push(Outcome::Saved(ids)),
                Err(Refused { why, again }) => {
                    outcomes.push(Outcome::NotSaved { ids, why, again });
                    if again {
                        left.push(batch);
                    } else if shown || at < last {
                        self.refused.extend(batch);
                    }
                }
            }
        }
        self.waiting = left;
        outcomes
    }

    /// Shows what is in no file to whatever may end the program.
    fn share(&self) {
        let mut waiting = self.gone.clone();
        waiting.extend(self.waiting.iter().flatten().cloned());
        self.unsaved.set(waiting, self.refused.clone());
    }
}

fn ids(lines: &[Line]) -> Vec<Uuid> {
    lines.iter().map(Line::id).collect()
}

#[cfg(test)]
mod tests {
    use super::super::Storage;
    use super::super::double::{Shaky, line};
    use super::*;

    const PAUSE: Duration = Duration::from_millis(500);

    #[test]
    fn what_is_busy_waits_in_its_order_and_is_kept_later() {
        let mut storage = Shaky { busy: 2, ..Shaky::default() };
        let mut saving = Saving::new(storage.rescue());
        saving.save(&mut storage, vec![line(1)], Duration::ZERO);
        let told = saving.save(&mut storage, vec![line(2)], Duration::ZERO);
        assert!(matches!(told.as_slice(), [Outcome::NotSaved { again: true, ids, .. }] if ids.len() == 2));
        assert!(saving.again(&mut storage, Duration::from_millis(100), PAUSE).is_none());
        let told = saving.again(&mut storage, Duration::from_millis(600), PAUSE).unwrap();
        assert_eq!(told, [Outcome::Saved(vec![Uuid::from_u128(1), Uuid::from_u128(2)])]);
        assert_eq!(storage.kept, [line(1), line(2)]);
        assert!(!saving.waits());
    }

    #[test]
    fn a_try_that_held_the_screens_up_is_not_repeated_at_every_key() {
        let mut storage = Shaky { busy: 1, ..Shaky::default() };
        let mut saving = Saving::new(storage.rescue());
        saving.save(&mut storage, vec![line(1)], Duration::ZERO);
        saving.slow = Some(Slow { took: Duration::from_secs(10), why: "locking protocol".to_owned() });
        let key = Duration::from_secs(15);
        let told = saving.save(&mut storage, vec![line(2)], key);
        assert!(matches!(told.as_slice(), [Outcome::NotSaved { ids, again: true, .. }] if ids.len() == 2), "{told:?}");
        assert_eq!(storage.journals.held()[0], [line(1), line(2)], "kept meanwhile");
        assert!(storage.kept.is_empty() && saving.rests(key), "the file was not tried");
        assert!(saving.again(&mut storage, Duration::from_secs(19), PAUSE).is_none());
        saving.again(&mut storage, Duration::from_secs(20), PAUSE).unwrap();
        assert_eq!(storage.kept, [line(1), line(2)]);
        assert!(!saving.rests(Duration::from_secs(20)));
    }

    #[test]
    fn where_the_program_is_left_it_is_tried_all_the_same() {
        let mut storage = Shaky { busy: 1, ..Shaky::default() };
        let mut saving = Saving::new(storage.rescue());
        saving.save(&mut storage, vec![line(1)], Duration::ZERO);
        saving.slow = Some(Slow { took: Duration::from_secs(10), why: "locking protocol".to_owned() });
        saving.again(&mut storage, Duration::from_secs(11), Duration::ZERO).unwrap();
        assert_eq!(storage.kept, [line(1)]);
    }

    #[test]
    fn what_waits_lies_in_a_journal_until_it_is_in() {
        let mut storage = Shaky { busy: 2, ..Shaky::default() };
        let mut saving = Saving::new(storage.rescue());
        saving.save(&mut storage, vec![line(1)], Duration::ZERO);
        assert_eq!(storage.journals.held(), [vec![line(1)], Vec::new()]);
        saving.save(&mut storage, vec![line(2)], Duration::ZERO);
        assert_eq!(storage.journals.held(), [vec![line(1), line(2)], Vec::new()]);
        saving.again(&mut storage, PAUSE, PAUSE);
        assert_eq!(storage.journals.held(), [Vec::new(), Vec::new()]);
    }

    #[test]
    fn a_journal_that_cannot_be_written_is_told_and_tried_again() {
        let mut storage = Shaky { busy: 3, ..Shaky::default() };
        *storage.journals.full.lock().unwrap() = true;
        let mut saving = Saving::new(storage.rescue());
        let told = saving.save(&mut storage, vec![line(1)], Duration::ZERO);
        let said = |told: &[Outcome]| match told {
            [Outcome::NotSaved { why, .. }] => why.clone(),
            other => panic!("{other:?}"),
        };
        assert!(said(&told).ends_with("It cannot be kept in a journal either: no room."), "{told:?}");
        *storage.journals.full.lock().unwrap() = false;
        let told = saving.again(&mut storage, PAUSE, PAUSE).unwrap();
        assert_eq!(said(&told), "busy Trying again; kept in a journal, to be offered at the next start.");
        assert_eq!(storage.journals.held()[0], [line(1)]);
    }

    #[test]
    fn lines_in_flight_are_kept_by_whatever_ends_the_program() {
        let mut storage = Shaky::default();
        let mut saving = Saving::new(storage.rescue());
        // A disk that holds the main thread up; meanwhile a signal comes.
        storage.meanwhile = Some(saving.last_act());
        saving.save(&mut storage, vec![line(7)], Duration::ZERO);
        assert_eq!(storage.held_meanwhile, [line(7)]);
        assert_eq!(storage.journals.held(), [Vec::new(), Vec::new()], "saved after all");
    }

    #[test]
    fn one_refused_line_does_not_hold_up_the_others_and_its_text_is_kept() {
        let mut storage = Shaky { busy: 1, hates: Some(Uuid::from_u128(1)), ..Shaky::default() };
        let mut saving = Saving::new(storage.rescue());
        saving.save(&mut storage, vec![line(1)], Duration::ZERO);
        let told = saving.save(&mut storage, vec![line(2)], Duration::ZERO);
        assert!(matches!(told.first(), Some(Outcome::NotSaved { again: false, why, .. }) if why.contains("is kept")));
        assert_eq!(told.get(1), Some(&Outcome::Saved(vec![Uuid::from_u128(2)])));
        assert!(!saving.waits());
        assert_eq!(storage.journals.held(), [Vec::new(), vec![line(1)]]);
        assert_eq!(saving.last_try(&mut storage), [line(1)]);
    }

    #[test]
    fn what_was_recorded_as_the_terminal_went_is_saved_by_the_last_try_or_kept() {
        let mut storage = Shaky { busy: 0, ..Shaky::default() };
        let mut saving = Saving::new(storage.rescue());
        saving.add(vec![line(1)]);
        assert!(saving.last_try(&mut storage).is_empty());
        assert_eq!(storage.kept, [line(1)]);
        storage.busy = 1;
        saving.add(vec![line(2)]);
        assert_eq!(saving.last_try(&mut storage), [line(2)]);
        assert_eq!(storage.journals.held()[0], [line(2)]);
    }

    #[test]
    fn what_was_recorded_together_is_refused_together() {
        let mut storage = Shaky { hates: Some(Uuid::from_u128(1)), ..Shaky::default() };
        let mut saving = Saving::new(storage.rescue());
        saving.save(&mut storage, vec![line(1), line(2)], Duration::ZERO);
        assert!(storage.kept.is_empty());
        assert_eq!(storage.journals.held()[1], [line(1), line(2)]);
    }

    #[test]
    fn a_plan_waits_like_entries_and_one_that_is_refused_stays_with_its_form() {
        let mut storage = Shaky { busy: 1, hates: Some(Uuid::from_u128(2)), ..Shaky::default() };
        let mut saving = Saving::new(storage.rescue());
        assert_eq!(saving.save_plan(&mut storage, &[line(1)], Duration::ZERO).0, Fate::Waiting);
        assert_eq!(storage.journals.held()[0], [line(1)]);
        let (fate, told) = saving.save_plan(&mut storage, &[line(2)], Duration::ZERO);
        assert_eq!((fate, told), (Fate::Refused("no".into()), vec![Outcome::Saved(vec![Uuid::from_u128(1)])]));
        assert_eq!(saving.save_plan(&mut storage, &[line(3)], Duration::ZERO).0, Fate::Kept);
        assert!(saving.last_try(&mut storage).is_empty());
    }

    #[test]
    fn what_is_gone_from_the_file_is_in_the_journal_with_what_waits() {
        let mut storage = Shaky { busy: 9, gone: vec![line(1)], ..Shaky::default() };
        let mut saving = Saving::new(storage.rescue());
        saving.save(&mut storage, vec![line(2)], Duration::ZERO);
        assert_eq!(storage.journals.held()[0], [line(1), line(2)]);
        assert_eq!(saving.last_try(&mut storage), [line(1), line(2)]);
    }
}
