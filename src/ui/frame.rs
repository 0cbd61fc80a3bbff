//! The frame around every page: a title row, the body, what was said last, the hints.

use super::{Role, fit, put, shorten, width, wrap};
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

/// A page: its title, what stands right of it, and the two lines below the body.
#[derive(Debug, Clone)]
pub struct Page<'a> {
    /// The name of the page, with what it is about.
    pub title: String,
    /// Site, day and time of day, who writes.
    pub right: String,
    /// What holds for everything that is done, across the whole width below the title.
    pub band: Option<String>,
    /// What holds until it is over, a paragraph each.
    pub standing: Vec<String>,
    /// What was said last.
    pub said: Option<(String, Role)>,
    /// Keys and what they do.
    pub hints: Vec<(String, &'a str)>,
}

impl Page<'_> {
    /// Draws the frame and gives the room for the body.
    pub fn draw(&self, frame: &mut Frame<'_>, look: Look) -> Rect {
        let area = frame.area();
        let gap = area.width.saturating_sub(width(&self.title)).saturating_sub(width(&self.right));
        let head = vec![
            Span::styled(self.title.clone(), look.style(Role::Title)),
            Span::raw(" ".repeat(usize::from(gap.max(1)))),
            Span::raw(self.right.clone()),
        ];
        put(frame, area, 0, Line::from(head));
        let hints = self.hint_lines(area.width, look);
        let (rows, foot) = (usize::from(area.height), hints.len());
        let said = self.status_lines(area.width);
        let below = foot.saturating_add(said.len().max(1));
        let standing = self.standing_lines(area);
        let taken = below.saturating_add(standing.len());
        let role = self.said.as_ref().map_or(Role::Said, |(_, role)| *role);
        let standing = standing.into_iter().map(|line| (line, Role::Urgent));
        for (i, (line, role)) in standing.chain(said.into_iter().map(|line| (line, role))).enumerate() {
            put(frame, area, rows.saturating_sub(taken).saturating_add(i), Span::styled(line, look.style(role)));
        }
        for (i, line) in hints.into_iter().enumerate() {
            let row = rows.saturating_sub(foot).saturating_add(i);
            put(frame, area, row, line);
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

    /// The hints on one row, or two where they need it.
    fn hint_lines(&self, cells: u16, look: Look) -> Vec<Line<'static>> {
        let mut lines = vec![Vec::new()];
        let mut used = 0_u16;
        let room = |(key, hint): &(String, &str)| width(key).saturating_add(width(hint)).saturating_add(3);
        // The last hint, that of the help, is there however many others must be left out for it.
        let help = self.hints.last().map(room).unwrap_or_default();
        let last = self.hints.len().saturating_sub(1);
        for (i, (key, hint)) in self.hints.iter().enumerate() {
            let wide = width(key).saturating_add(width(hint)).saturating_add(3);
            if lines.len() == 2 && i < last && used.saturating_add(wide).saturating_add(help) > cells.saturating_add(2)
            {
                continue;
            }
            if used.saturating_add(wide) > cells.saturating_add(2) && used > 0 {
                if lines.len() == 2 {
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
