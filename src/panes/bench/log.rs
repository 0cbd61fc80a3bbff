//! The last lines written of a bench, newest first.

use crate::dates;
use crate::model::Model;
use crate::record::KindName;
use crate::report::entry;
use crate::ui::{Role, fit, regions, shorten};
use ratatui::text::{Line, Span};

/// Cells of a writer's initials; longer names are cut.
const BY: usize = 4;

/// The heading and the lines, so many rows in all.
pub(super) fn lines(model: &Model, bench: &str, (cells, rows): (usize, usize)) -> Vec<Line<'static>> {
    let written = model.season.written(bench);
    let mut lines = vec![regions::headed(("log", "newest first"), cells, model.look)];
    // A strike is shown with the entry it voids.
    let shown = written.iter().rev().filter(|one| one.entry.name() != KindName::Strike);
    for one in shown.take(rows.saturating_sub(1)) {
        let at = &one.entry.at;
        let lead = format!(" {:<6} {} {} ", dates::short(one.entry.day()), dates::time(at), fit(&one.entry.by, BY));
        let struck = if one.struck_by.is_some() { "voided: " } else { "" };
        let pending = model.pending.contains(&one.entry.id);
        let unsaved = if pending { " (not saved yet)" } else { "" };
        let text = format!("{struck}{}{unsaved}", entry::line(one.entry, model.system()));
        let role = match (one.struck_by.is_some(), pending) {
            (true, _) => Role::Struck,
            (_, true) => Role::Pending,
            _ => Role::Plain,
        };
        let text = shorten(&text, cells.saturating_sub(lead.len()));
        lines.push(Line::from(vec![
            Span::styled(lead, model.look.style(Role::Dim)),
            Span::styled(text, model.look.style(role)),
        ]));
    }
    if lines.len() == 1 {
        lines.push(Line::raw(" Nothing logged yet."));
    }
    lines
}
