//! The axes of a chart: the labels of its ticks, the axis with the marks on it, the days, the legend.

use super::grid::DOWN;
use super::scale::Cells;
use super::{Dash, Ink, MARKS, Plot, READINGS, role, strip, stroke};
use crate::input::Look;
use crate::ui::{Role, width};
use ratatui::text::{Line, Span};

/// The row of each tick's label.
pub(super) fn ticks(plot: &Plot, to: &Cells, high: u16) -> Vec<(usize, String)> {
    let mut rows: Vec<(usize, String)> = Vec::new();
    for (value, text) in plot.ticks.iter().filter(|t| to.holds_upright(t.0)) {
        let Some(row) = to.y(*value).and_then(|y| usize::try_from(y / DOWN).ok()) else { continue };
        if row < usize::from(high) && rows.iter().all(|(r, _)| *r != row) {
            rows.push((row, text.clone()));
        }
    }
    rows
}

/// The horizontal axis with the marks of work.
pub(super) fn axis(plot: &Plot, to: &Cells, (left, wide): (u16, u16), look: Look) -> Line<'static> {
    let mut signs: Vec<Option<char>> = vec![None; usize::from(wide)];
    let marks = plot.inks.iter().filter_map(|i| if let Ink::Marks(_, at) = i { Some(at) } else { None });
    for (n, at) in marks.enumerate() {
        for column in at.iter().filter_map(|x| to.column(*x)) {
            if let Some(sign) = signs.get_mut(column) {
                *sign = Some(MARKS.get(n).copied().unwrap_or('^'));
            }
        }
    }
    let glyphs = look.glyphs();
    let lead = format!("{}{}", " ".repeat(usize::from(left.saturating_sub(1))), glyphs.corner);
    let mut spans = vec![Span::styled(lead, look.style(Role::Dim))];
    spans.extend(signs.into_iter().map(|sign| match sign {
        None => Span::styled(glyphs.rule, look.style(Role::Dim)),
        Some(sign) => Span::styled(sign.to_string(), look.style(Role::Act)),
    }));
    Line::from(spans)
}

/// The days under the axis, as many as have room.
pub(super) fn days(plot: &Plot, to: &Cells, (left, wide): (u16, u16)) -> String {
    let mut text = " ".repeat(usize::from(left));
    let mut used = 0_usize;
    for (at, label) in &plot.days {
        let Some(column) = to.column(*at) else { continue };
        let end = column.saturating_add(usize::from(width(label)));
        if (column < used.saturating_add(2) && used > 0) || end > usize::from(wide) {
            continue;
        }
        text.push_str(&" ".repeat(column.saturating_sub(used)));
        text.push_str(label);
        used = end;
    }
    text
}

/// An entry of the legend.
struct Entry {
    sign: String,
    text: String,
    role: Role,
    /// It lies behind what was read and done.
    behind: bool,
}

/// What each sign means, on so many rows at most; where there are too few, what was read and done comes before what lies
/// behind it.
pub(super) fn legend(plot: &Plot, (cells, most): (usize, usize), look: Look) -> Vec<Line<'static>> {
    let mut entries = entries(plot, look);
    let mut rows = flowed(&entries, cells, look);
    if rows.len() > most {
        entries.sort_by_key(|entry| entry.behind);
        rows = flowed(&entries, cells, look);
        rows.truncate(most);
    }
    rows.into_iter().map(Line::from).collect()
}

fn entries(plot: &Plot, look: Look) -> Vec<Entry> {
    let mut entries = Vec::new();
    let (mut readings, mut marks, mut bands, mut strips) = (0, 0, 0_usize, 0_usize);
    for ink in &plot.inks {
        let (sign, name, role) = match ink {
            Ink::Band(name, _) => {
                bands += 1;
                let sign = match (bands, look.ascii) {
                    (1, true) => ":::",
                    (1, false) => "\u{2821}\u{2821}\u{2821}",
                    (_, true) => ",,,",
                    (_, false) => "\u{2847} \u{2847}",
                };
                (sign.to_owned(), name, Role::Watch)
            }
            Ink::Line(name, _, dash) => (dashes(*dash, look), name, role(*dash)),
            Ink::Dots(name, ..) | Ink::Water(name, _) => {
                let sign = READINGS.get(readings).copied().unwrap_or('o');
                readings += 1;
                let digits = !matches!(ink, Ink::Dots(_, _, false)) && readings == 1;
                (if digits { "digits".to_owned() } else { sign.to_string() }, name, Role::Title)
            }
            Ink::Marks(name, _) => {
                let sign = MARKS.get(marks).copied().unwrap_or('^');
                marks += 1;
                (sign.to_string(), name, Role::Act)
            }
            Ink::Strip(name, points, _) => {
                strips += 1;
                (strip::key(strips.saturating_sub(1), points, look), name, Role::Title)
            }
        };
        let behind = matches!(ink, Ink::Band(..) | Ink::Line(..));
        entries.push(Entry { sign, text: format!(" {name}  "), role, behind });
    }
    entries
}

/// Entries one after the other, on as many rows as they need.
fn flowed(entries: &[Entry], cells: usize, look: Look) -> Vec<Vec<Span<'static>>> {
    let mut rows: Vec<Vec<Span<'static>>> = Vec::new();
    let mut room = 0_usize;
    for entry in entries {
        let wide = usize::from(width(&entry.sign)).saturating_add(usize::from(width(&entry.text)));
        if wide > room.saturating_add(2) || rows.is_empty() {
            rows.push(Vec::new());
            room = cells;
        }
        room = room.saturating_sub(wide);
        if let Some(row) = rows.last_mut() {
            row.push(Span::styled(entry.sign.clone(), look.style(entry.role)));
            row.push(Span::styled(entry.text.clone(), look.style(Role::Label)));
        }
    }
    rows
}

fn dashes(dash: Dash, look: Look) -> String {
    match (dash, look.ascii) {
        (_, true) => stroke(dash).to_string().repeat(3),
        (Dash::Solid, false) => "\u{2824}\u{2824}\u{2824}".to_owned(),
        (Dash::Dashed, false) => "\u{2824}\u{2804} \u{2824}".to_owned(),
        (Dash::Dotted, false) => "\u{2804}\u{2804}\u{2804}".to_owned(),
        (Dash::DashDot, false) => "\u{2824}\u{2824} \u{2804}".to_owned(),
    }
}
