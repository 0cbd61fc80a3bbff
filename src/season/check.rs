//! The rules across lines: what a single line cannot know. New lines are judged together with all that is kept, so the order
//! of lines never matters, and what was wrong before (two laptops' records come together by union) is not held against them.

mod counts;
mod lines;
mod trials;

use super::Season;
use crate::record::{Entry, Kind, KindName, Line, Plan, codec};
pub(super) use counts::words as pots_words;
use std::collections::HashMap;
use uuid::Uuid;

/// A rule across lines that a new line breaks.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SeasonFault {
    /// Which of the new lines, from 0.
    pub index: usize,
    /// The field; `None` where the whole line is meant.
    pub field: Option<String>,
    /// What is wrong and what would be right; reads on from the field's name.
    pub text: String,
}

impl SeasonFault {
    fn new(index: usize, field: &str, text: impl Into<String>) -> Self {
        Self { index, field: Some(field.to_owned()), text: text.into() }
    }
}

/// True when a line can change which benches there are or what stands on them.
fn reaches_far(kept: &Season, line: &Line) -> bool {
    match line {
        Line::Entry(e) => match &*e.kind {
            Kind::Strike { entry, .. } => kept.entry(*entry).is_none_or(super::pots::touches),
            _ => super::pots::touches(e),
        },
        _ => true,
    }
}

impl Season {
    /// The kinds of entries that bear on the check of other lines, or are checked against more than the plan and their place.
    pub const BEARING: [KindName; 6] =
        [KindName::Strike, KindName::Moved, KindName::Sold, KindName::Losses, KindName::Grade, KindName::Counted];

    /// True of an entry of one of these kinds, or of a plot of a trial. Any other is checked by what it says itself and by whether
    /// its place is in the plan, and no other line is checked by it.
    pub fn bears(entry: &Entry) -> bool {
        entry.plot.is_some() || Self::BEARING.contains(&entry.name())
    }

    /// Judges new lines together with all that is kept; empty when every line is good. By index, then field.
    pub fn check(&self, new: &[Line]) -> Vec<SeasonFault> {
        self.check_each(&new.iter().collect::<Vec<_>>())
    }

    /// [`Season::check`] of lines that lie apart.
    pub(super) fn check_each(&self, new: &[&Line]) -> Vec<SeasonFault> {
        let kept = &self.whole();
        // What is kept already adds nothing to what stands where.
        let fresh = kept.not_kept(new);
        let union = fresh.iter().any(|line| reaches_far(kept, line)).then(|| kept.with(&fresh));
        let all = union.as_ref().unwrap_or(kept);
        let mut faults = lines::revisions(kept, new);
        faults.extend(lines::ids(kept, new));
        if !new.is_empty() && all.site().is_none() {
            let text = "no site line; a season needs one: name, latitude, longitude, time_zone, units".to_owned();
            faults.push(SeasonFault { index: 0, field: None, text });
        }
        for (index, line) in new.iter().enumerate() {
            faults.extend(lines::names(all, index, line));
            faults.extend(trials::kept(kept, index, line));
        }
        faults.extend(trials::places(all, new));
        if union.is_some() {
            faults.extend(counts::conflicts(kept, all, new));
        }
        faults.sort_by(|a, b| (a.index, &a.field, &a.text).cmp(&(b.index, &b.field, &b.text)));
        faults.dedup();
        faults
    }

    /// Of [`Season::check`] only what each new line says by itself: what it names must be there, what is kept under its key
    /// must be the same. Unlike a count of pots these do not depend on other entries, so they can be reported beside the faults
    /// of a file some of whose entries are no good.
    pub fn check_names(&self, new: &[&Line]) -> Vec<SeasonFault> {
        let all = self.with(&self.not_kept(new));
        let mut faults = lines::revisions(self, new);
        faults.extend(lines::ids(self, new));
        let names = new.iter().enumerate().flat_map(|(index, line)| lines::names(&all, index, line));
        faults.extend(trials::places(&all, new));
        // The entry a strike names may be one of those that are no good.
        faults.extend(names.filter(|f| f.field.as_deref() != Some("entry")));
        faults
    }

    /// Judges the lines of another laptop's file of this season, which were good there: of [`Season::check`] only what is wrong
    /// whatever else was written. What contradicts comes to be settled ([`Season::to_settle`]).
    pub fn check_join(&self, new: &[&Line]) -> Vec<SeasonFault> {
        let all = self.with(&self.not_kept(new));
        let mut faults = lines::ids(self, new);
        faults.extend(lines::revisions(self, new).into_iter().filter(|f| f.field.as_deref() != Some("rev")));
        faults.extend(new.iter().enumerate().flat_map(|(index, line)| lines::names(&all, index, line)));
        faults
    }

    /// Those of these lines that are not kept as they are.
    fn not_kept<'l>(&self, new: &[&'l Line]) -> Vec<&'l Line> {
        let kept = self.kept_lines(new);
        new.iter().zip(kept).filter(|(_, kept)| !kept).map(|(line, _)| *line).collect()
    }

    /// Of each line whether it is kept just as it is written.
    pub fn kept_lines(&self, lines: &[&Line]) -> Vec<bool> {
        let plan: HashMap<Uuid, Line> = if lines.iter().any(|line| !matches!(line, Line::Entry(_))) {
            self.plan.lines().into_iter().map(|line| (line.id(), line)).collect()
        } else {
            HashMap::new()
        };
        let is_kept = |line: &&Line| match line {
            Line::Entry(entry) => self.entry(entry.id).is_some_and(|kept| same(kept, entry)),
            line => plan.get(&line.id()).is_some_and(|kept| codec::encode(kept) == codec::encode(line)),
        };
        lines.iter().map(is_kept).collect()
    }

    /// This season with more lines.
    fn with(&self, new: &[&Line]) -> Self {
        let mut plan = Plan::clone(&self.plan);
        let mut entries = Vec::with_capacity(self.entries.len().saturating_add(new.len()));
        entries.extend(self.entries.iter().cloned());
        entries.extend(new.iter().filter_map(|line| match line {
            Line::Entry(entry) => Some(entry.clone()),
            line => plan.keep(Line::clone(line)),
        }));
        Self::new(plan, entries)
    }
}

/// Equal in everything that is written, the offset too.
fn same(a: &Entry, b: &Entry) -> bool {
    a == b && a.at.offset() == b.at.offset()
}
