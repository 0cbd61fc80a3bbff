//! What two laptops' records leave open when they are joined. Everything written is kept; a person settles it by a new line:
//! a revision made after seeing both, a strike, or a count.

use super::check::pots_words;
use super::pots::CountConflict;
use super::{Season, revisions};
use crate::record::{Line, LineKey, Values};
use chrono::NaiveDate;
use uuid::Uuid;

/// Something to settle.
#[derive(Debug, Clone, PartialEq)]
pub enum Unsettled {
    /// Lines of the plan that contradict each other.
    Plan(Contradiction),
    /// Pots that do not add up: more moved or sold than stand, or two lots on one bench.
    Pots {
        /// The bench.
        bench: String,
        /// The day.
        day: NaiveDate,
        /// The entry that says so; `None` for a placement of the plan.
        entry: Option<Uuid>,
        /// What is wrong, and what would settle it.
        text: String,
    },
}

/// Lines of one key with different content, none written after seeing the other.
#[derive(Debug, Clone, PartialEq)]
pub struct Contradiction {
    /// What they are about.
    pub key: LineKey,
    /// The lines in their order; the last one holds meanwhile.
    pub lines: Vec<Line>,
    /// The fields in which they differ.
    pub fields: Vec<&'static str>,
}

impl Season {
    /// What is to settle, as known on the season's day: the plan by key, then pots by day and bench.
    pub fn to_settle(&self) -> Vec<Unsettled> {
        let lines = self.plan.lines();
        let by_key = revisions::by_key(&lines);
        let plan = by_key.into_iter().filter_map(|(key, revisions)| contradiction(key, revisions.heads(self.as_of)));
        let mut all: Vec<Unsettled> = plan.map(Unsettled::Plan).collect();
        let day = self.as_of.unwrap_or(NaiveDate::MAX);
        let mut pots: Vec<(NaiveDate, String, Option<Uuid>, String)> = Vec::new();
        for conflict in &self.ledger(day).conflicts {
            let (bench, text, _) = pots_words(self, conflict);
            let (written, entry) = match conflict {
                CountConflict::TooMany { entry, .. } | CountConflict::OtherLotMoved { entry, .. } => {
                    (self.entry(*entry).map_or(day, crate::record::Entry::day), Some(*entry))
                }
                CountConflict::OtherLotPlaced { from, .. } => (*from, None),
            };
            if written <= day {
                pots.push((written, bench.to_owned(), entry, text));
            }
        }
        pots.sort();
        all.extend(pots.into_iter().map(|(day, bench, entry, text)| Unsettled::Pots { bench, day, entry, text }));
        all
    }
}

fn contradiction(key: LineKey, heads: Vec<&Line>) -> Option<Contradiction> {
    let mut lines: Vec<(Values, &Line)> = Vec::new();
    for line in heads {
        let content = line.content();
        // The same written twice is one.
        lines.retain(|(known, _)| *known != content);
        lines.push((content, line));
    }
    let (first, rest) = lines.split_first()?;
    if rest.is_empty() {
        return None;
    }
    let table = crate::record::schema::plan_table(first.1.type_name())?;
    let differs = |name: &&'static str| rest.iter().any(|(content, _)| content.get(name) != first.0.get(name));
    let fields = table.fields.iter().map(|field| field.name).filter(differs).collect();
    Some(Contradiction { key, lines: lines.iter().map(|(_, line)| (*line).clone()).collect(), fields })
}
