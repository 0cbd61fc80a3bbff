//! The map of the plots of a bench: what is read, what is to come, what is lost; the plot asked in brackets.

use super::super::work::One;
use super::{Seen, down};
use crate::ui::{Role, put, rows, width};
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};

/// Cells between two pieces of the map side by side.
const GAP: usize = 3;
/// What the signs mean.
const LEGEND: &str = "x read  . to come  - lost";

/// Draws it, whole where it has room; else the rows around the plot that is asked.
pub(super) fn view(seen: &Seen<'_>, frame: &mut Frame<'_>, area: Rect) {
    let Some(map) = Map::of(seen, usize::from(area.width)) else { return };
    let height = usize::from(area.height);
    let room = height.saturating_sub(1).saturating_sub(usize::from(map.sides.is_some())).max(1);
    let pieces = map.lines.len().div_ceil(room);
    let wide = map.cells.saturating_add(GAP);
    let beside = pieces.saturating_mul(wide).saturating_sub(GAP) <= usize::from(area.width);
    let (first, pieces) = if beside { (0, pieces) } else { (map.scrolled(room), 1) };
    for piece in 0..pieces {
        let x = area.x.saturating_add(down(piece.saturating_mul(wide)));
        let place = Rect { x, width: area.right().saturating_sub(x), ..area };
        let below = match &map.sides {
            Some(sides) => {
                put(frame, place, 0, Span::styled(sides.clone(), seen.model.look.style(Role::Label)));
                rows(place, 1).1
            }
            None => place,
        };
        let lines = map.lines.iter().skip(first.saturating_add(piece.saturating_mul(room))).take(room);
        for (row, line) in lines.enumerate() {
            put(frame, below, row, line.clone());
        }
    }
    let used = map.lines.len().min(room).saturating_add(usize::from(map.sides.is_some()));
    put(frame, area, used, Span::styled(LEGEND, seen.model.look.style(Role::Label)));
}

/// The map in lines.
struct Map {
    /// What lies beside the first and the last column.
    sides: Option<String>,
    lines: Vec<Line<'static>>,
    /// The line of the plot that is asked.
    at: usize,
    /// Cells of its widest line.
    cells: usize,
}

impl Map {
    /// The map of the bench that is asked; `None` where no plot is shown.
    fn of(seen: &Seen<'_>, cells: usize) -> Option<Self> {
        let bench = seen.state.bench(seen.model).or_else(|| Some(seen.work.plots.first()?.plot.bench.clone()))?;
        let all: Vec<&One<'_>> = seen.work.plots.iter().filter(|one| one.plot.bench == bench).collect();
        let last = all.iter().map(|one| one.plot.row).max()?;
        let columns = all.iter().map(|one| one.plot.column).max()?;
        let digits = all.iter().map(|one| one.plot.number().to_string().len()).max()?;
        let lead = format!("row {last} ").len();
        let cell = digits.saturating_add(4);
        let columns = usize::try_from(columns).ok()?;
        let fit = (cells.saturating_sub(lead) / cell).clamp(1, columns);
        let mut map =
            Self { sides: None, lines: Vec::new(), at: 0, cells: lead.saturating_add(fit.saturating_mul(cell)) };
        for row in (1..=last).filter(|row| all.iter().any(|one| one.plot.row == *row)) {
            let mut placed: Vec<Option<&One<'_>>> = vec![None; columns];
            for one in all.iter().filter(|one| one.plot.row == row) {
                let column = usize::try_from(one.plot.column).ok()?.checked_sub(1)?;
                if let Some(place) = placed.get_mut(column) {
                    *place = Some(one);
                }
            }
            for (n, piece) in placed.chunks(fit).enumerate() {
                let head = if n == 0 { format!("row {row}") } else { String::new() };
                let mut spans = vec![Span::styled(format!("{head:<lead$}"), seen.model.look.style(Role::Label))];
                for one in piece {
                    let asked = one.is_some_and(|one| is_asked(seen, one));
                    if asked {
                        map.at = map.lines.len();
                    }
                    spans.push(signed(seen, *one, (digits, asked)));
                }
                map.lines.push(Line::from(spans));
            }
        }
        map.sides = sides(seen, (lead, fit.saturating_mul(cell)));
        Some(map)
    }

    /// The first line shown where not all have room.
    fn scrolled(&self, room: usize) -> usize {
        self.at.saturating_sub(room / 2).min(self.lines.len().saturating_sub(room))
    }
}

/// What lies beside the first and the last column, over them; `None` where neither is known.
fn sides(seen: &Seen<'_>, (lead, cells): (usize, usize)) -> Option<String> {
    let (near, far) = (seen.trial.near_side.as_deref(), seen.trial.far_side.as_deref());
    if near.is_none() && far.is_none() {
        return None;
    }
    let (near, far) = (near.unwrap_or_default(), far.unwrap_or_default());
    let between =
        cells.saturating_sub(2).saturating_sub(usize::from(width(near))).saturating_sub(usize::from(width(far)));
    Some(format!("{}{near}{}{far}", " ".repeat(lead.saturating_add(1)), " ".repeat(between.max(1))))
}

fn is_asked(seen: &Seen<'_>, one: &One<'_>) -> bool {
    seen.state.asked.as_ref().is_some_and(|asked| asked.plot == one.plot.plot)
}

/// A plot by its number with its sign; a place without one is blank.
fn signed(seen: &Seen<'_>, one: Option<&One<'_>>, (digits, asked): (usize, bool)) -> Span<'static> {
    let Some(one) = one else { return Span::raw(" ".repeat(digits.saturating_add(4))) };
    let (sign, role) = match (one.lost, one.is_done()) {
        (true, _) => ("-", Role::Dim),
        (false, true) => ("x", Role::Good),
        (false, false) => (".", Role::Plain),
    };
    let (open, close, role) = if asked { ("[", "]", Role::Chosen) } else { (" ", " ", role) };
    Span::styled(format!("{open}{:>digits$} {sign}{close}", one.plot.number()), seen.model.look.style(role))
}
