//! A chart of a few rows: the picture with a label at its left and the days below, without axis and legend.

use super::Plot;
use super::axes::{days, ticks};
use super::grid::Grid;
use super::plot::draw;
use super::scale::Cells;
use crate::input::Look;
use crate::ui::{Role, width};
use ratatui::text::{Line, Span};

/// The least cells across.
const LEAST: u16 = 10;

/// The rows of a small chart so many cells wide, `high` of them picture, then the days. None where there is no room.
pub fn spark(plot: &Plot, (cells, high): (u16, u16), look: Look) -> Vec<Line<'static>> {
    let left = plot.ticks.iter().map(|t| width(&t.1)).max().unwrap_or(0).min(9).saturating_add(2);
    let wide = cells.saturating_sub(left);
    if wide < LEAST || high == 0 {
        return Vec::new();
    }
    let dim = look.style(Role::Dim);
    let mut grid = Grid::new(wide, high, look.ascii);
    let to = Cells::new(plot.across, plot.upright, grid.fine());
    draw(&mut grid, plot, &to);
    let labels = ticks(plot, &to, high);
    let mut lines = Vec::new();
    for (row, picture) in grid.lines(look).into_iter().enumerate() {
        let label = labels.iter().find(|(at, _)| *at == row).map(|(_, text)| text.as_str()).unwrap_or_default();
        let lead = format!("{label:>0$} {1}", usize::from(left.saturating_sub(2)), look.glyphs().upright);
        let mut spans = vec![Span::styled(lead, dim)];
        spans.extend(picture.spans);
        lines.push(Line::from(spans));
    }
    lines.push(Line::from(Span::styled(days(plot, &to, (left, wide)), dim)));
    lines
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::input::Palette;
    use crate::ui::charts::{Dash, Ink};

    fn drawn(ascii: bool, (cells, high): (u16, u16)) -> Vec<String> {
        let plot = Plot {
            across: (0.0, 20.0),
            upright: (0.0, 10.0),
            ticks: vec![(0.0, "0.0".into()), (10.0, "10.0".into())],
            days: vec![(0.0, "Oct 1".into()), (14.0, "Oct 15".into())],
            here: None,
            inks: vec![
                Ink::Line("top".into(), vec![(0.0, 2.0), (20.0, 10.0)], Dash::Dashed),
                Ink::Dots("measured".into(), vec![(0.0, 0.0, None), (20.0, 9.0, None)], false),
            ],
        };
        let look = Look { color: false, ascii, palette: Palette::Usual };
        spark(&plot, (cells, high), look).into_iter().map(|line| line.to_string()).collect()
    }

    #[test]
    fn the_first_and_last_reading_stand_at_their_heights() {
        let rows = drawn(true, (30, 4));
        assert_eq!(rows.len(), 5, "{rows:?}");
        assert!(rows[0].starts_with("10.0 |") && rows[0].ends_with('o'), "{rows:?}");
        assert!(rows[3].starts_with(" 0.0 |o"), "{rows:?}");
        assert_eq!(rows[4].trim_end(), "      Oct 1           Oct 15");
        assert!(rows.concat().is_ascii());
    }

    #[test]
    fn in_fine_dots_the_window_is_braille_and_nothing_is_wider_than_its_room() {
        let rows = drawn(false, (30, 4));
        assert!(rows.concat().chars().any(|c| ('\u{2801}'..='\u{28ff}').contains(&c)), "{rows:?}");
        assert!(rows.iter().all(|row| width(row) <= 30), "{rows:?}");
        assert!(drawn(false, (12, 4)).is_empty(), "no room, no picture");
    }
}
