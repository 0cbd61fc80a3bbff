//! Saving, and saving again: lines wait in their order until they are kept.

use super::{Refused, Storage};
use crate::model::Outcome;
use crate::record::Line;
use std::time::Duration;
use uuid::Uuid;

/// Lines not yet kept, oldest first.
#[derive(Debug, Default)]
pub(super) struct Saving {
    waiting: Vec<Line>,
    tried: Duration,
}

impl Saving {
    /// True while something is not kept.
    pub(super) fn waits(&self) -> bool {
        !self.waiting.is_empty()
    }

    /// Keeps lines, after those that wait.
    pub(super) fn save(&mut self, storage: &mut dyn Storage, lines: Vec<Line>, now: Duration) -> Vec<Outcome> {
        self.waiting.extend(lines);
        self.go(storage, now)
    }

    /// Tries again what waits, if the last try is so long past.
    pub(super) fn again(&mut self, storage: &mut dyn Storage, now: Duration, after: Duration) -> Option<Vec<Outcome>> {
        let due = self.waits() && now.saturating_sub(self.tried) >= after;
        due.then(|| self.go(storage, now))
    }

    /// The last try when the program ends; gives what is left.
    pub(super) fn last_try(&mut self, storage: &mut dyn Storage) -> Vec<Line> {
        if self.waits() && storage.append(&self.waiting).is_ok() {
            self.waiting.clear();
        }
        std::mem::take(&mut self.waiting)
    }

    fn go(&mut self, storage: &mut dyn Storage, now: Duration) -> Vec<Outcome> {
        self.tried = now;
        match storage.append(&self.waiting) {
            Ok(()) => vec![Outcome::Saved(ids(&std::mem::take(&mut self.waiting)))],
            Err(Refused { why, again: true }) => {
                vec![Outcome::NotSaved { ids: ids(&self.waiting), why, again: true }]
            }
            Err(Refused { .. }) => self.one_by_one(storage),
        }
    }

    /// One of several lines is refused for good: each by itself, so that it does not hold up the others.
    fn one_by_one(&mut self, storage: &mut dyn Storage) -> Vec<Outcome> {
        let mut tasks = Vec::new();
        let mut left = Vec::new();
        for line in std::mem::take(&mut self.waiting) {
            let one = std::slice::from_ref(&line);
            let ids = ids(one);
            match storage.append(one) {
                Ok(()) => tasks.push(Outcome::Saved(ids)),
                Err(Refused { why, again }) => {
                    tasks.push(Outcome::NotSaved { ids, why, again });
                    if again {
                        left.push(line);
                    }
                }
            }
        }
        self.waiting = left;
        tasks
    }
}

fn ids(lines: &[Line]) -> Vec<Uuid> {
    let entry = |line: &Line| match line {
        Line::Entry(entry) => Some(entry.id),
        _ => None,
    };
    lines.iter().filter_map(entry).collect()
}

#[cfg(test)]
mod tests {
    use super::super::{Opened, Storage};
    use super::*;
    use crate::model::NotOpened;
    use crate::record::{Entry, Kind, Place};
    use chrono::{DateTime, FixedOffset};

    /// Refuses as scripted; stores the rest.
    #[derive(Default)]
    struct Shaky {
        kept: Vec<Line>,
        busy: u32,
        hates: Option<Uuid>,
    }

    impl Storage for Shaky {
        fn append(&mut self, lines: &[Line]) -> Result<(), Refused> {
            if self.busy > 0 {
                self.busy -= 1;
                return Err(Refused { why: "busy".into(), again: true });
            }
            if ids(lines).iter().any(|id| Some(*id) == self.hates) {
                return Err(Refused { why: "no".into(), again: false });
            }
            self.kept.extend(lines.iter().cloned());
            Ok(())
        }
        fn next_entries(&mut self) -> Result<Option<Vec<Entry>>, String> {
            Ok(None)
        }
        fn damage(&mut self) -> Option<String> {
            None
        }
        fn demo(&mut self) -> Result<Opened, NotOpened> {
            Err(NotOpened::Trouble("no".into()))
        }
        fn import(&mut self, _: &str, _: DateTime<FixedOffset>, _: &str) -> Result<Opened, NotOpened> {
            Err(NotOpened::Trouble("no".into()))
        }
        fn save_author(&mut self, _: &str) -> Result<(), String> {
            Ok(())
        }
    }

    fn line(n: u128) -> Line {
        let at = chrono::DateTime::parse_from_rfc3339("2026-10-12T07:00:00-04:00").unwrap();
        let place = Place::Bench("N1".into());
        Line::Entry(Entry {
            id: Uuid::from_u128(n),
            at,
            by: "ml".into(),
            place,
            plot: None,
            kind: Kind::Note {},
            note: None,
        })
    }

    #[test]
    fn what_is_busy_waits_in_its_order_and_is_kept_later() {
        let (mut storage, mut saving) = (Shaky { busy: 2, ..Shaky::default() }, Saving::default());
        saving.save(&mut storage, vec![line(1)], Duration::ZERO);
        let told = saving.save(&mut storage, vec![line(2)], Duration::ZERO);
        assert!(matches!(told.as_slice(), [Outcome::NotSaved { again: true, ids, .. }] if ids.len() == 2));
        assert!(saving.again(&mut storage, Duration::from_millis(100), Duration::from_millis(500)).is_none());
        let told = saving.again(&mut storage, Duration::from_millis(600), Duration::from_millis(500)).unwrap();
        assert_eq!(told, [Outcome::Saved(vec![Uuid::from_u128(1), Uuid::from_u128(2)])]);
        assert_eq!(storage.kept, [line(1), line(2)]);
        assert!(!saving.waits());
    }

    #[test]
    fn one_refused_line_does_not_hold_up_the_others() {
        let (mut storage, mut saving) =
            (Shaky { busy: 1, hates: Some(Uuid::from_u128(1)), ..Shaky::default() }, Saving::default());
        saving.save(&mut storage, vec![line(1)], Duration::ZERO);
        let told = saving.save(&mut storage, vec![line(2)], Duration::ZERO);
        assert!(matches!(told.first(), Some(Outcome::NotSaved { again: false, .. })));
        assert_eq!(told.get(1), Some(&Outcome::Saved(vec![Uuid::from_u128(2)])));
        assert!(!saving.waits());
    }
}
