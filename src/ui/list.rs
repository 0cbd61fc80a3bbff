//! Drawing a list: the rows seen around the cursor, and where the terminal's cursor belongs.

use super::{Role, fit, panel, put};
use crate::input::Look;
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::style::Modifier;
use ratatui::text::{Line, Span};

/// How what is seen follows the cursor.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Follow {
    /// The list stands still until the cursor would leave its last row.
    Edge,
    /// The cursor stays in the middle row, but near the ends of the list.
    Center,
}

/// The first of `count` rows that is seen in so many rows of room.
pub fn first_seen(cursor: usize, count: usize, room: usize, follow: Follow) -> usize {
    match follow {
        Follow::Edge => cursor.saturating_sub(room.saturating_sub(1)),
        Follow::Center => cursor.saturating_sub(room / 2).min(count.saturating_sub(room)),
    }
}

/// Draws the rows of a list that are seen; gives the place of the cursor. `row` makes one row: which it is, and whether the
/// cursor is on it.
pub fn list<'a>(
    frame: &mut Frame<'_>,
    area: Rect,
    (cursor, count): (usize, usize),
    follow: Follow,
    row: impl Fn(usize, bool) -> Line<'a>,
) -> Position {
    let room = usize::from(area.height);
    let top = first_seen(cursor, count, room, follow);
    for (line, at) in (top..count).take(room).enumerate() {
        put(frame, area, line, row(at, at == cursor));
    }
    on_row(area, cursor.saturating_sub(top))
}

/// A row as it looks under the cursor, over its whole width. What stands out of it keeps its weight; what is reversed elsewhere is
/// the other way round.
pub fn under_cursor(line: Line<'_>, look: Look) -> Line<'_> {
    let kept = Modifier::BOLD.union(Modifier::UNDERLINED).union(Modifier::CROSSED_OUT);
    let ground = look.style(Role::Chosen);
    let spans = line.spans.into_iter().map(|span| {
        let style = ground.add_modifier(span.style.add_modifier.intersection(kept));
        let reversed = span.style.add_modifier.contains(Modifier::REVERSED);
        let style = if reversed { style.remove_modifier(Modifier::REVERSED) } else { style };
        Span::styled(span.content, style)
    });
    Line::from(spans.collect::<Vec<_>>()).style(ground)
}

/// Draws a panel of lines to choose from, each behind a letter; gives the place of the cursor. `line` gives the letter and the
/// words of one.
pub fn lettered(
    frame: &mut Frame<'_>,
    area: Rect,
    title: &str,
    (cursor, count): (usize, usize),
    look: Look,
    line: impl Fn(usize) -> (char, String),
) -> Position {
    let body = panel(frame, area, count.saturating_add(1), title, look);
    let row = |at: usize, chosen: bool| {
        let (letter, words) = line(at);
        let text = fit(&format!("{letter}  {words}"), usize::from(body.width));
        Line::from(Span::styled(text, look.style(if chosen { Role::Chosen } else { Role::Plain })))
    };
    list(frame, body, (cursor, count), Follow::Edge, row)
}

/// Draws the rows of a text from the first one seen.
pub fn text<'a>(frame: &mut Frame<'_>, area: Rect, top: usize, lines: impl IntoIterator<Item = Line<'a>>) {
    for (row, line) in lines.into_iter().skip(top).take(usize::from(area.height)).enumerate() {
        put(frame, area, row, line);
    }
}

/// The start of a row.
pub fn on_row(area: Rect, row: usize) -> Position {
    Position { x: area.x, y: area.y.saturating_add(u16::try_from(row).unwrap_or(u16::MAX)) }
}

/// The part of the width that an entry of a list in columns takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Column {
    /// All of it.
    Whole,
    /// The left half.
    Left,
    /// The right half.
    Right,
}

/// Row and column of an entry of a list in two columns, `half` entries in the first.
pub const fn two_columns(at: usize, half: usize) -> (usize, Column) {
    match at.checked_sub(half) {
        Some(row) => (row, Column::Right),
        None => (at, Column::Left),
    }
}

/// Draws an entry of a list in columns; gives the place of its first character.
pub fn entry(
    frame: &mut Frame<'_>,
    area: Rect,
    (row, column): (usize, Column),
    (text, chosen): (&str, bool),
    look: Look,
) -> Position {
    let half = area.width / 2;
    let (left, width) = match column {
        Column::Whole => (0, area.width),
        Column::Left => (0, half),
        Column::Right => (half, half),
    };
    let place = Rect { x: area.x.saturating_add(left), width, ..area }.intersection(area);
    let role = if chosen { Role::Chosen } else { Role::Plain };
    put(frame, place, row, Span::styled(fit(text, usize::from(width.saturating_sub(1))), look.style(role)));
    on_row(place, row)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_list_scrolls_at_its_edge_or_around_its_middle() {
        let seen = |cursor, follow| first_seen(cursor, 20, 6, follow);
        assert_eq!([0, 5, 6, 19].map(|c| seen(c, Follow::Edge)), [0, 0, 1, 14]);
        assert_eq!([0, 3, 4, 19].map(|c| seen(c, Follow::Center)), [0, 0, 1, 14]);
        assert_eq!(first_seen(2, 3, 6, Follow::Center), 0);
    }

    #[test]
    fn a_row_under_the_cursor_is_reversed_and_a_soaked_digit_in_it_is_not() {
        let look = Look { color: true, ascii: false, palette: crate::input::Palette::Usual };
        let row = Line::from(vec![
            Span::raw("E1 "),
            Span::styled("5", look.digit(5)),
            Span::styled("1", look.digit(1)),
            Span::styled("! wet", look.style(Role::Act)),
        ]);
        let shown = under_cursor(row, look);
        let is = |at: usize, modifier| shown.style.patch(shown.spans[at].style).add_modifier.contains(modifier);
        assert!(is(0, Modifier::REVERSED) && is(2, Modifier::REVERSED) && is(3, Modifier::REVERSED));
        assert!(!is(1, Modifier::REVERSED) && is(1, Modifier::BOLD) && is(2, Modifier::UNDERLINED));
        assert!(shown.spans.iter().all(|span| span.style.fg.is_none()));
    }

    #[test]
    fn entries_fill_the_left_column_first() {
        assert_eq!(two_columns(2, 3), (2, Column::Left));
        assert_eq!(two_columns(3, 3), (0, Column::Right));
        assert_eq!(two_columns(0, 0), (0, Column::Right));
    }

    proptest! {
        #[test]
        fn the_cursor_is_always_seen(cursor in 0usize..50, more in 1usize..50, room in 1usize..30, center: bool) {
            let count = cursor.saturating_add(more);
            let follow = if center { Follow::Center } else { Follow::Edge };
            let top = first_seen(cursor, count, room, follow);
            prop_assert!((top..top + room).contains(&cursor));
            prop_assert!(count <= room || top + room <= count);
        }
    }
}
