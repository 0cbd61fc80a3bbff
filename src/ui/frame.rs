//! The frame around every page: a title row, the body, what was said last, the hints.

use super::regions::{Room, rule};
use super::{Role, fit, line_of, put, shorten, width, wrap};
use crate::input::Look;
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};

/// The least window a page is drawn in, columns and rows.
const LEAST: (u16, u16) = (40, 12);
/// The most rows a message of what did not work takes.
const MOST_STATUS: usize = 3;
/// The most rows that what holds until it is over takes; in a low window a quarter of its rows.
const MOST_STANDING: usize = 5;

/// Cells of the rule before and after a message that stands within it.
const BEFORE_SAID: u16 = 2;

/// The window is too small for a page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TooSmall;

/// Says in a small window that it is too small; `Ok` where it is not.
///
/// # Errors
/// [`TooSmall`] when it said so: nothing else is to be drawn then.
pub fn too_small(frame: &mut Frame<'_>, look: Look) -> Result<(), TooSmall> {
    let area = frame.area();
    if area.width >= LEAST.0 && area.height >= LEAST.1 {
        return Ok(());
    }
    for (row, text) in ["Window too small.", "40 x 12 is needed."].into_iter().enumerate() {
        put(frame, area, row, Span::styled(text, look.style(Role::Said)));
    }
    Err(TooSmall)
}

/// A page: its title row, and the lines below the body.
#[derive(Debug, Clone)]
pub struct Page<'a> {
    /// The name of the page, with what it is about.
    pub title: String,
    /// Day and time of day.
    pub when: String,
    /// How much is not saved yet; empty where everything is.
    pub unsaved: String,
    /// How the record is shared, where it is and the page does not say it itself; shown where there is room.
    pub shared: String,
    /// The site.
    pub site: String,
    /// Who writes.
    pub by: String,
    /// The season file by name, where it is not the usual one.
    pub file: Option<String>,
    /// What holds for everything that is done, across the whole width below the title.
    pub band: Option<String>,
    /// What holds until it is over, a paragraph each.
    pub standing: Vec<String>,
    /// What was said last.
    pub said: Option<(String, Role)>,
    /// Keys and what they do.
    pub hints: Vec<(String, &'a str)>,
}

/// The cells of a message in a window of so many columns: in a wide one it stands within the rule above the hints.
pub fn said_room(columns: u16) -> u16 {
    match Room::of(columns) {
        Room::Narrow => columns,
        Room::Wide | Room::Widest => columns.saturating_sub(2 * BEFORE_SAID),
    }
}

impl Page<'_> {
    /// Draws the frame and gives the room for the body.
    pub fn draw(&self, frame: &mut Frame<'_>, look: Look) -> Rect {
        let area = frame.area();
        put(frame, area, 0, self.head(area.width, look));
        let (rows, foot) = (usize::from(area.height), self.foot(frame, look));
        let standing = self.standing_lines(area);
        let taken = foot.saturating_add(standing.len());
        for (i, line) in standing.into_iter().enumerate() {
            put(
                frame,
                area,
                rows.saturating_sub(taken).saturating_add(i),
                Span::styled(line, look.style(Role::Urgent)),
            );
        }
        let mut top = 1_u16;
        if let Some(band) = &self.band {
            let text = fit(&format!(" {band}"), usize::from(area.width));
            put(frame, area, 1, Span::styled(text, look.style(Role::Urgent)));
            top = 2;
        }
        let taken = u16::try_from(taken).unwrap_or(u16::MAX).saturating_add(top);
        Rect { y: area.y.saturating_add(top), height: area.height.saturating_sub(taken), ..area }
    }

    /// The title row: what is shown at the left; site and writer right. In a wide window day and time stand beside the title.
    fn head(&self, cells: u16, look: Look) -> Line<'static> {
        let wide = Room::of(cells) > Room::Narrow;
        let left = if wide { format!("   {}", self.when) } else { String::new() };
        let mut right: Vec<&str> = vec![&self.site];
        right.extend((!wide).then_some(self.when.as_str()));
        right.push(&self.by);
        right.extend(self.file.as_deref().filter(|_| wide));
        let right = right.join(if wide { "   " } else { "  " });
        let used = [&self.title, &left, &self.unsaved, &right].into_iter().map(|text| width(text));
        let free = cells.saturating_sub(used.fold(0, u16::saturating_add));
        let between = if wide { "   " } else { "  " };
        let shared = format!("{}{between}", self.shared);
        let shared = if self.shared.is_empty() || free <= width(&shared) { String::new() } else { shared };
        let gap = free.saturating_sub(width(&shared)).max(1);
        Line::from(vec![
            Span::styled(self.title.clone(), look.style(Role::Title)),
            Span::raw(left),
            Span::raw(" ".repeat(usize::from(gap))),
            Span::styled(shared, look.style(if wide { Role::Dim } else { Role::Plain })),
            Span::styled(self.unsaved.clone(), look.style(if wide { Role::Act } else { Role::Plain })),
            Span::styled(right, look.style(if wide { Role::Dim } else { Role::Plain })),
        ])
    }

    /// Draws what was said last and the hints, in a wide window with a rule above them; gives the rows they take.
    fn foot(&self, frame: &mut Frame<'_>, look: Look) -> usize {
        let area = frame.area();
        let wide = Room::of(area.width) > Room::Narrow;
        let role = self.said.as_ref().map_or(Role::Said, |(_, role)| *role);
        let hints = self.hint_lines(area.width, look);
        let mut said = self.status_lines(said_room(area.width));
        let one = if wide && said.len() == 1 { said.pop() } else { None };
        let above = if wide { said.len().saturating_add(1) } else { said.len().max(1) };
        let taken = above.saturating_add(hints.len());
        let top = usize::from(area.height).saturating_sub(taken);
        if wide {
            let row = line_of(area, top);
            rule(frame, row, look);
            if let Some(text) = one {
                let place = Rect { x: row.x.saturating_add(BEFORE_SAID), ..row }.intersection(row);
                let spans = [Span::raw(" "), Span::styled(text, look.style(role)), Span::raw(" ")];
                put(frame, Rect { x: place.x.saturating_sub(1), ..place }, 0, Line::from_iter(spans));
            }
        }
        let said = said.into_iter().map(|line| Line::from(Span::styled(line, look.style(role))));
        for (i, line) in said.enumerate() {
            put(frame, area, top.saturating_add(usize::from(wide)).saturating_add(i), line);
        }
        for (i, line) in hints.into_iter().enumerate() {
            put(frame, area, top.saturating_add(above).saturating_add(i), line);
        }
        taken
    }

    /// What holds until it is over, on up to [`MOST_STANDING`] rows.
    fn standing_lines(&self, area: Rect) -> Vec<String> {
        let cells = usize::from(area.width);
        let most = usize::from(area.height / 4).min(MOST_STANDING);
        at_most(most, self.standing.iter().flat_map(|text| wrap(text, cells)).collect(), cells)
    }

    /// What was said last, on one row; what did not work is shown whole, on up to [`MOST_STATUS`] rows.
    fn status_lines(&self, cells: u16) -> Vec<String> {
        let cells = usize::from(cells);
        match &self.said {
            Some((text, Role::Urgent)) => at_most(MOST_STATUS, wrap(text, cells), cells),
            Some((text, _)) => vec![shorten(text, cells)],
            None => Vec::new(),
        }
    }

    /// The hints on one row, or on two in a narrow window that needs them. Those that do not fit are left out, but never the last
    /// one, that of the help.
    fn hint_lines(&self, cells: u16, look: Look) -> Vec<Line<'static>> {
        let most = if Room::of(cells) > Room::Narrow { 1 } else { 2 };
        let room = |(key, hint): &(String, &str)| width(key).saturating_add(width(hint)).saturating_add(3);
        let help = self.hints.last().map(room).unwrap_or_default();
        let last = self.hints.len().saturating_sub(1);
        let mut lines = vec![Vec::new()];
        let (mut used, cells) = (0_u16, cells.saturating_add(2));
        for (i, (key, hint)) in self.hints.iter().enumerate() {
            let wide = width(key).saturating_add(width(hint)).saturating_add(3);
            let kept = if i < last { help } else { 0 };
            if lines.len() == most && i < last && used.saturating_add(wide).saturating_add(kept) > cells {
                continue;
            }
            if used.saturating_add(wide) > cells && used > 0 {
                if lines.len() == most {
                    break;
                }
                lines.push(Vec::new());
                used = 0;
            }
            used = used.saturating_add(wide);
            if let Some(line) = lines.last_mut() {
                line.push(Span::styled(key.clone(), look.style(Role::Key)));
                line.push(Span::raw(format!(" {hint}  ")));
            }
        }
        lines.into_iter().map(Line::from).collect()
    }
}

/// At most so many lines; the last one is cut where there are more.
fn at_most(most: usize, mut lines: Vec<String>, cells: usize) -> Vec<String> {
    if lines.len() > most {
        let rest = lines.split_off(most.saturating_sub(1)).join(" ");
        lines.push(shorten(&rest, cells));
    }
    lines
}
