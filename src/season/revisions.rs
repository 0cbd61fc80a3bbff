//! Which revision of a line of the plan holds on a day, and which revisions contradict each other.
//!
//! - Lines of one key stand by (instant, id); those of version 1, which have no instant, before all others.
//! - A line takes the place of those its writer had seen, and of those they took the place of. What is left are the heads: one,
//!   unless two laptops wrote without knowing of each other. The last of the heads holds.
//! - On a day the lines written up to its end are known, with the first line of the key and all of version 1: these hold from
//!   the beginning. A correction written later holds as well in the fields it changed.

use crate::record::{Line, LineKey, Values, codec, schema};
use chrono::NaiveDate;
use std::collections::{BTreeMap, BTreeSet, HashMap};
use uuid::Uuid;

/// The revisions of one key.
pub(super) struct Revisions<'a> {
    /// In their order.
    lines: Vec<&'a Line>,
    /// Of each line the lines it takes the place of, those that they take the place of among them.
    over: Vec<BTreeSet<usize>>,
    /// The line that holds from the beginning.
    first: usize,
}

/// All lines of the plan by key.
pub(super) fn by_key(lines: &[Line]) -> BTreeMap<LineKey, Revisions<'_>> {
    let mut groups: BTreeMap<LineKey, Vec<&Line>> = BTreeMap::new();
    for line in lines {
        groups.entry(line.key()).or_default().push(line);
    }
    groups.into_iter().map(|(key, lines)| (key, Revisions::of(lines))).collect()
}

/// The local day a line was written, in its own offset; `None` for version 1.
fn day(line: &Line) -> Option<NaiveDate> {
    line.revision().and_then(|r| r.at).map(|at| at.date_naive())
}

impl<'a> Revisions<'a> {
    /// Of the lines of one key.
    fn of(mut lines: Vec<&'a Line>) -> Self {
        if lines.len() == 1 {
            return Self { lines, over: vec![BTreeSet::new()], first: 0 };
        }
        lines.sort_by_cached_key(|line| line.order());
        lines.dedup_by_key(|line| line.id());
        let ids: HashMap<Uuid, usize> = lines.iter().enumerate().map(|(n, line)| (line.id(), n)).collect();
        let direct: Vec<BTreeSet<usize>> = (0..lines.len()).map(|n| direct(&lines, &ids, n)).collect();
        let over: Vec<BTreeSet<usize>> = (0..lines.len()).map(|n| closure(&direct, n)).collect();
        let first = direct.iter().position(BTreeSet::is_empty).unwrap_or(0);
        Self { lines, over, first }
    }

    /// The days from which on other lines may hold.
    pub(super) fn days(&self) -> impl Iterator<Item = NaiveDate> + '_ {
        let later = self.lines.iter().enumerate().filter(|(n, _)| *n != self.first);
        later.filter_map(|(_, line)| day(line))
    }

    /// The lines known at the end of a day; all for `None`.
    fn known(&self, on: Option<NaiveDate>) -> Vec<usize> {
        let known = |n: &usize| {
            let written = self.lines.get(*n).copied().and_then(day);
            *n == self.first || on.is_none_or(|on| written.is_none_or(|day| day <= on))
        };
        (0..self.lines.len()).filter(known).collect()
    }

    fn head_positions(&self, on: Option<NaiveDate>) -> Vec<usize> {
        let known = self.known(on);
        let replaced = |n: &usize| known.iter().any(|m| self.over.get(*m).is_some_and(|over| over.contains(n)));
        let heads: Vec<usize> = known.iter().copied().filter(|n| !replaced(n)).collect();
        // Only lines written by hand can each take the other's place.
        if heads.is_empty() { known } else { heads }
    }

    /// The lines known at the end of a day that no other known line takes the place of, in their order.
    pub(super) fn heads(&self, on: Option<NaiveDate>) -> Vec<&'a Line> {
        self.head_positions(on).into_iter().filter_map(|n| self.lines.get(n).copied()).collect()
    }

    /// The last line that the writers of all of these had seen; `None` where there is none.
    pub(super) fn before(&self, heads: &[&Line]) -> Option<&'a Line> {
        let seen = |head: &Line| {
            let at = self.lines.iter().position(|line| line.id() == head.id());
            at.and_then(|at| self.over.get(at))
        };
        let common = |n: &usize| heads.iter().all(|head| seen(head).is_some_and(|over| over.contains(n)));
        let last = (0..self.lines.len()).rev().find(common)?;
        self.lines.get(last).copied()
    }

    /// The line that holds at the end of a day.
    pub(super) fn holds(&self, on: Option<NaiveDate>) -> Option<Line> {
        let head = self.head_positions(on).pop()?;
        let line = *self.lines.get(head)?;
        if self.lines.len() == 1 {
            return Some(line.clone());
        }
        let known = self.known(on);
        let under = self.over.get(head)?;
        let later = |n: &usize| !known.contains(n) && !under.contains(n);
        let mut values: Option<Values> = None;
        for n in (0..self.lines.len()).filter(later) {
            let Some(correction) = self.lines.get(n).filter(|l| l.revision().is_some_and(|r| r.corrects)) else {
                continue;
            };
            let before = self.over.get(n).and_then(BTreeSet::last).and_then(|m| self.lines.get(*m));
            let mended = values.get_or_insert_with(|| line.content());
            mend(mended, before.map(|line| line.content()).as_ref(), &correction.content());
        }
        let Some(values) = values else { return Some(line.clone()) };
        let mut mended = schema::plan_table(line.type_name()).and_then(|table| codec::kept_line(table, &values))?;
        *mended.revision_mut()? = line.revision()?.clone();
        Some(mended)
    }
}

/// The lines that a line's writer had seen.
fn direct(lines: &[&Line], ids: &HashMap<Uuid, usize>, n: usize) -> BTreeSet<usize> {
    let Some(revision) = lines.get(n).and_then(|line| line.revision()) else { return BTreeSet::new() };
    match (&revision.replaces, revision.at) {
        (Some(list), _) => list.iter().filter_map(|id| ids.get(id).copied()).filter(|m| *m != n).collect(),
        (None, Some(_)) => (0..n).collect(),
        (None, None) => {
            let rev = |m: &usize| lines.get(*m).and_then(|l| l.revision()).map_or(1, |r| r.rev);
            (0..n).filter(|m| rev(m) < revision.rev).collect()
        }
    }
}

fn closure(direct: &[BTreeSet<usize>], n: usize) -> BTreeSet<usize> {
    let mut found = BTreeSet::new();
    let mut work = vec![n];
    while let Some(at) = work.pop() {
        for next in direct.get(at).into_iter().flatten() {
            if *next != n && found.insert(*next) {
                work.push(*next);
            }
        }
    }
    found
}

/// Takes over the fields that a correction changed.
fn mend(values: &mut Values, before: Option<&Values>, after: &Values) {
    let names = values.iter().chain(after.iter()).map(|(name, _)| name).collect::<BTreeSet<_>>();
    let mut mended = Values::new();
    for name in names {
        let changed = before.is_none_or(|before| before.get(name) != after.get(name));
        if let Some(value) = if changed { after.get(name) } else { values.get(name) } {
            mended.set(name, value.clone());
        }
    }
    *values = mended;
}
