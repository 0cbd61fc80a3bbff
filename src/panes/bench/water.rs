//! Two weeks of a bench as rows of digits, oldest left, today last and set apart.

use crate::dates;
use crate::model::Model;
use crate::record::{Entry, Kind};
use crate::season::History;
use crate::ui::{Role, fit, regions};
use chrono::{Days, NaiveDate};
use ratatui::style::Style;
use ratatui::text::{Line, Span};

/// Days shown.
const DAYS: u64 = 14;
/// Days up to the gap between the two weeks.
const WEEK: usize = 7;
/// Cells of a row's name.
const NAME: usize = 8;
/// Cells between the weeks, and before today.
const GAP: usize = 2;

/// A row: its name, and what an entry gives.
type Track = (&'static str, fn(&Kind) -> Option<Sign>);

/// What stands in the place of a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Sign {
    /// A water reading.
    Water(u8),
    /// Another score.
    Score(u8),
    /// Something done.
    Done(&'static str),
}

const TRACKS: [Track; 5] = [
    ("water", |kind| match kind {
        Kind::Water { level, .. } => Some(Sign::Water(*level)),
        _ => None,
    }),
    ("base", |kind| match kind {
        Kind::Water { base, .. } => base.map(Sign::Water),
        _ => None,
    }),
    ("roots", |kind| match kind {
        Kind::Roots { score, .. } => Some(Sign::Score(*score)),
        _ => None,
    }),
    ("fed", |kind| matches!(kind, Kind::Fed { .. }).then_some(Sign::Done("f"))),
    ("watered", |kind| matches!(kind, Kind::Watered { .. }).then_some(Sign::Done("w"))),
];

/// The rows: that of the water always, the others where there is something.
pub(super) fn lines(history: &History<'_>, model: &Model, cells: usize) -> Vec<Line<'static>> {
    let days: Vec<NaiveDate> = (0..DAYS).rev().filter_map(|n| model.day.checked_sub_days(Days::new(n))).collect();
    let first = days.first().copied().unwrap_or(model.day);
    let entries: Vec<&Entry> = history.all().iter().copied().filter(|e| e.day() >= first).collect();
    let mut lines = vec![
        regions::headed(("water", "oldest left, today last"), cells, model.look),
        Line::from(Span::styled(fit(&heads(&days), cells).trim_end().to_owned(), model.look.style(Role::Dim))),
    ];
    for (n, (name, sign)) in TRACKS.iter().enumerate() {
        let row: Vec<Option<(Sign, &Entry)>> = days
            .iter()
            .map(|day| entries.iter().filter(|e| e.day() == *day).find_map(|e| Some((sign(&e.kind)?, *e))))
            .collect();
        if n == 0 || row.iter().any(Option::is_some) {
            lines.push(line(name, &row, model));
        }
    }
    lines
}

/// The days under which the weeks begin, and today.
fn heads(days: &[NaiveDate]) -> String {
    const TODAY: &str = "today";
    let day = |at: usize| days.get(at).map(|d| dates::short(*d)).unwrap_or_default();
    let first = WEEK.saturating_mul(2).saturating_add(GAP.saturating_sub(1));
    // It ends over today's digit.
    let second = WEEK.saturating_mul(2).saturating_sub(1).saturating_add(GAP).saturating_sub(TODAY.len());
    format!("{}{}{}{TODAY}", " ".repeat(NAME), fit(&day(0), first), fit(&day(WEEK), second))
}

fn line(name: &str, row: &[Option<(Sign, &Entry)>], model: &Model) -> Line<'static> {
    let look = model.look;
    let mut spans = vec![Span::styled(fit(name, NAME), look.style(Role::Label))];
    let last = row.len().saturating_sub(1);
    for (at, found) in row.iter().enumerate() {
        if at == last {
            spans.push(Span::raw(" ".repeat(GAP)));
        } else if at == WEEK {
            spans.push(Span::raw(" ".repeat(GAP.saturating_sub(1))));
        }
        let pending = found.is_some_and(|(_, e)| model.pending.contains(&e.id));
        let (text, style) = match found {
            Some((Sign::Water(level), _)) => (level.to_string(), look.digit(*level)),
            Some((Sign::Score(score), _)) => (score.to_string(), Style::new()),
            Some((Sign::Done(sign), _)) => ((*sign).to_owned(), Style::new()),
            None => (look.glyphs().none.to_owned(), look.style(Role::Dim)),
        };
        let bold = if at == last && found.is_some() { look.style(Role::Title).patch(style) } else { style };
        spans.push(Span::styled(text, if pending { look.style(Role::Pending) } else { bold }));
        spans.push(Span::raw(" "));
    }
    Line::from(spans)
}
