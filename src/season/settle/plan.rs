//! Lines of the plan of which none was written after seeing the other.

use super::{Unsettled, Writer};
use crate::record::{Line, LineKey, Values, schema};
use crate::season::{Season, revisions};

/// Lines of one key with different content, none written after seeing the other.
#[derive(Debug, Clone, PartialEq)]
pub struct Contradiction {
    /// What they are about.
    pub key: LineKey,
    /// The line that all of their writers had seen last; `None` where there was none.
    pub before: Option<Line>,
    /// The lines in their order; the last one holds meanwhile.
    pub lines: Vec<Line>,
    /// Who wrote each of them.
    pub writers: Vec<Writer>,
    /// The fields in which they differ.
    pub fields: Vec<&'static str>,
}

impl Season {
    /// The contradictions of the plan, by key.
    pub(super) fn contradictions(&self) -> Vec<Unsettled> {
        self.contradictions_among(&self.plan.lines()).into_iter().map(Unsettled::Plan).collect()
    }

    /// The lines of a key that contradict each other; `None` where none do.
    pub fn contradiction(&self, key: &LineKey) -> Option<Contradiction> {
        self.contradictions_among(&self.lines_of(key)).pop()
    }

    fn contradictions_among(&self, lines: &[Line]) -> Vec<Contradiction> {
        let found = revisions::by_key(lines).into_iter().filter_map(|(key, revisions)| {
            let heads = revisions.heads(self.as_of);
            let lines = different(&heads)?;
            let before = revisions.before(&heads).cloned();
            self.of_lines(key, before, &lines)
        });
        found.collect()
    }

    fn of_lines(&self, key: LineKey, before: Option<Line>, lines: &[(Values, &Line)]) -> Option<Contradiction> {
        let ((first, line), rest) = lines.split_first()?;
        let table = schema::plan_table(line.type_name())?;
        let differs = |name: &&'static str| rest.iter().any(|(content, _)| content.get(name) != first.get(name));
        let fields = table.fields.iter().map(|field| field.name).filter(differs).collect();
        let lines: Vec<Line> = lines.iter().map(|(_, line)| (*line).clone()).collect();
        let writers = lines.iter().map(|line| self.writer_of_line(line)).collect();
        Some(Contradiction { key, before, lines, writers, fields })
    }
}

/// The lines with their contents, the same written twice once; `None` where all say the same.
fn different<'a>(heads: &[&'a Line]) -> Option<Vec<(Values, &'a Line)>> {
    if heads.len() < 2 {
        return None;
    }
    let mut lines: Vec<(Values, &Line)> = Vec::new();
    for line in heads {
        let content = line.content();
        lines.retain(|(known, _)| *known != content);
        lines.push((content, line));
    }
    (lines.len() > 1).then_some(lines)
}
