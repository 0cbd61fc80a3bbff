//! The panel of a popup: the lowest rows of a page, under a title bar.

use super::{Role, fit, put};
use crate::input::Look;
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::Span;
use ratatui::widgets::Clear;

/// Cells of the rule left of a popup and of the blanks beside it.
const EDGE: u16 = 3;

/// Clears the lowest rows of an area, titles them, and gives the room below the title. Beside a page a rule stands left of them.
pub fn panel(frame: &mut Frame<'_>, area: Rect, height: usize, title: &str, look: Look) -> Rect {
    let height = u16::try_from(height).unwrap_or(u16::MAX).min(area.height);
    let y = area.y.saturating_add(area.height.saturating_sub(height));
    let place = Rect { y, height, ..area }.intersection(frame.area());
    frame.render_widget(Clear, place);
    let edge = Rect { x: place.x.saturating_sub(EDGE), width: EDGE, ..place };
    if place.x >= EDGE {
        frame.render_widget(Clear, edge);
        let rule = Rect { x: edge.x.saturating_add(1), width: 1, ..edge };
        for row in 0..usize::from(place.height) {
            put(frame, rule, row, Span::styled(look.glyphs().upright, look.style(Role::Dim)));
        }
    }
    let bar = fit(&format!(" {title}"), usize::from(place.width));
    put(frame, place, 0, Span::styled(bar, look.style(Role::Chosen)));
    Rect { y: place.y.saturating_add(1), height: place.height.saturating_sub(1), ..place }
}

/// A text being typed: what fits of it around the cursor. Gives the cursor's place.
pub fn typed(
    frame: &mut Frame<'_>,
    area: Rect,
    (text, cursor, scroll): (&str, usize, usize),
    look: Look,
) -> Option<ratatui::layout::Position> {
    use unicode_segmentation::UnicodeSegmentation;
    use unicode_width::UnicodeWidthStr;
    if area.is_empty() {
        return None;
    }
    let prompt = "> ";
    let mut left = scroll;
    let rest: String = text
        .graphemes(true)
        .skip_while(|g| {
            let skip = left > 0;
            left = left.saturating_sub(g.width());
            skip
        })
        .collect();
    put(frame, area, 0, ratatui::text::Line::from(vec![Span::styled(prompt, look.style(Role::Key)), Span::raw(rest)]));
    let column = cursor.saturating_sub(scroll).saturating_add(prompt.len());
    let x = area.x.saturating_add(u16::try_from(column).unwrap_or(u16::MAX)).min(area.right().saturating_sub(1));
    Some(ratatui::layout::Position { x, y: area.y })
}
