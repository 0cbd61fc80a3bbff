//! What was read of the plot so far, a line a day.

use super::super::reading;
use super::Seen;
use crate::dates;
use crate::record::{Kind, Term};
use crate::trials;
use crate::ui::regions::heading;
use crate::ui::{Role, put, rows, shorten};
use chrono::NaiveDate;
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};
use std::collections::BTreeMap;

/// Draws it, the newest day last; the oldest are left out where there is no room. Work on the plot is left out: it would name the
/// treatment.
pub(super) fn view(seen: &Seen<'_>, frame: &mut Frame<'_>, area: Rect) {
    let Some((one, _)) = seen.asked() else { return };
    let name = format!("plot {} so far", one.plot.number());
    let body = rows(heading(frame, area, (&name, ""), seen.model.look), 1).1;
    let mut days: BTreeMap<NaiveDate, Vec<String>> = BTreeMap::new();
    for entry in seen.model.season.plot_entries(&one.plot.plot, seen.model.day) {
        let system = seen.model.system();
        let of = seen.work.readings.iter().find(|reading| trials::is_of(&entry.kind, **reading));
        let said = of.map(|of| format!("{} {}", of.text(), reading::shown(&entry.kind, system, true)));
        let note = || entry.note.as_ref().filter(|_| *entry.kind == Kind::Note {}).map(|note| format!("note: {note}"));
        days.entry(entry.day()).or_default().extend(said.or_else(note));
    }
    days.retain(|_, said| !said.is_empty());
    let (room, cells) = (usize::from(body.height), usize::from(body.width));
    for (row, (day, said)) in days.iter().skip(days.len().saturating_sub(room)).enumerate() {
        let day = format!("{:<7} ", dates::short(*day));
        let text = shorten(&said.join("   "), cells.saturating_sub(day.len()));
        put(frame, body, row, Line::from(vec![Span::styled(day, seen.model.look.style(Role::Label)), Span::raw(text)]));
    }
}
