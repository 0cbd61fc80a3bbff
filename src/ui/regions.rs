//! How a page is divided where the window has room: regions side by side with thin rules between them, each under a heading.

use super::{Role, put, shorten, width};
use crate::input::Look;
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};

/// From so many columns on a list has its panel beside it.
const WIDE: u16 = 110;
/// From so many columns on the day stands in a third column.
const WIDEST: u16 = 160;
/// From so many rows on there is room for what is nice to have.
pub const TALL: u16 = 34;
/// The most cells a column of text takes.
pub const TEXT: u16 = 72;
/// Cells of a popup beside a page: a form with its hints.
pub const DRAWER: u16 = 76;
/// Cells between two regions: a blank, the rule, a blank.
const GAP: u16 = 3;

/// How much room a window gives.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Room {
    /// One column.
    Narrow,
    /// A list, and what is under its cursor beside it.
    Wide,
    /// The day as a third column.
    Widest,
}

impl Room {
    /// The room of so many columns.
    pub const fn of(columns: u16) -> Self {
        match columns {
            WIDEST.. => Self::Widest,
            WIDE.. => Self::Wide,
            _ => Self::Narrow,
        }
    }
}

/// The regions of a page, from the left.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Regions {
    /// What is chosen from.
    pub list: Rect,
    /// What is under the cursor; `None` in a narrow window.
    pub panel: Option<Rect>,
    /// The day; `None` below 160 columns.
    pub day: Option<Rect>,
}

impl Regions {
    /// Divides an area for a list of so many cells; draws the rules between the regions.
    pub fn of(frame: &mut Frame<'_>, area: Rect, list: u16, look: Look) -> Self {
        let regions = Self::within(area, list);
        for region in [regions.panel.map(|_| regions.list), regions.day.and(regions.panel)].into_iter().flatten() {
            upright(frame, region, look);
        }
        regions
    }

    /// The same without drawing.
    pub fn within(area: Rect, list: u16) -> Self {
        match Room::of(area.width) {
            Room::Narrow => Self { list: area, panel: None, day: None },
            Room::Wide => {
                let (list, panel) = divided(area, list);
                Self { list, panel: Some(panel), day: None }
            }
            Room::Widest => {
                let (list, rest) = divided(area, list);
                let (panel, day) = divided(rest, (rest.width.saturating_mul(3) / 5).min(TEXT));
                Self { list, panel: Some(panel), day: Some(day) }
            }
        }
    }
}

/// Divides an area into a left region of so many cells and the rest, with a thin rule between them.
pub fn beside(frame: &mut Frame<'_>, area: Rect, left: u16, look: Look) -> (Rect, Rect) {
    let (left, right) = divided(area, left);
    upright(frame, left, look);
    (left, right)
}

/// The rule right of a region.
fn upright(frame: &mut Frame<'_>, left: Rect, look: Look) {
    let place = Rect { x: left.right().saturating_add(1), width: 1, ..left }.intersection(frame.area());
    for row in 0..usize::from(left.height) {
        put(frame, place, row, Span::styled(look.glyphs().upright, look.style(Role::Dim)));
    }
}

/// A left region of so many cells, and the rest behind a gap for the rule.
fn divided(area: Rect, left: u16) -> (Rect, Rect) {
    let left = left.min(area.width.saturating_sub(GAP));
    let taken = left.saturating_add(GAP);
    let right = Rect { x: area.x.saturating_add(taken), width: area.width.saturating_sub(taken), ..area };
    (Rect { width: left, ..area }, right)
}

/// The cells that text takes in a popup of this width: beside a page no more than can be read with ease.
pub fn text_cells(width: u16) -> usize {
    usize::from(if width == DRAWER { TEXT } else { width })
}

/// The part of a page that a popup takes: all of a narrow one, the right of a wide one, so that what it is about stays in sight.
pub fn drawer(area: Rect) -> Rect {
    match Room::of(area.width) {
        Room::Narrow => area,
        Room::Wide | Room::Widest => {
            Rect { x: area.x.saturating_add(area.width.saturating_sub(DRAWER)), width: DRAWER, ..area }
                .intersection(area)
        }
    }
}

/// Draws a rule across the top row of an area; gives the room below.
pub fn rule(frame: &mut Frame<'_>, area: Rect, look: Look) -> Rect {
    let line = look.glyphs().rule.repeat(usize::from(area.width));
    put(frame, area, 0, Span::styled(line, look.style(Role::Dim)));
    Rect { y: area.y.saturating_add(1), height: area.height.saturating_sub(1), ..area }
}

/// Draws the heading of a region, dim and in capitals, with a remark after it; gives the room below.
pub fn heading(frame: &mut Frame<'_>, area: Rect, words: (&str, &str), look: Look) -> Rect {
    put(frame, area, 0, headed(words, usize::from(area.width), look));
    Rect { y: area.y.saturating_add(1), height: area.height.saturating_sub(1), ..area }
}

/// The heading of a region as a line.
pub fn headed((name, remark): (&str, &str), cells: usize, look: Look) -> Line<'static> {
    let name = name.to_uppercase();
    let room = cells.saturating_sub(usize::from(width(&name)).saturating_add(2));
    let text = if remark.is_empty() { name } else { format!("{name}  {}", shorten(remark, room)) };
    Line::from(Span::styled(text, look.style(Role::Dim)))
}
