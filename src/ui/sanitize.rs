//! The final pass over a frame before output.

use ratatui::buffer::{Buffer, Cell};
use ratatui::layout::Position;

/// Replaces every character that must not reach a terminal cell: controls, and those that turn the direction of text.
/// Text is cleaned where it enters; this catches what an old file may hold.
pub fn sanitize(buffer: &mut Buffer, hidden: impl Fn(char) -> bool) {
    for cell in &mut buffer.content {
        if cell.symbol().chars().any(&hidden) {
            let kept: String = cell.symbol().chars().filter(|c| !hidden(*c)).collect();
            cell.set_symbol(if kept.is_empty() { "?" } else { &kept });
        }
    }
}

/// Replaces the program's own signs with ASCII: `73 F` for degrees, `-` between a record and its note. Letters stay as they
/// are, and so does what is being typed: the cells left of the cursor on its row, up to a rule between regions.
pub fn plain_signs(buffer: &mut Buffer, cursor: Option<Position>) {
    let (top, left, wide) = (buffer.area.y, buffer.area.x, usize::from(buffer.area.width).max(1));
    for (row, cells) in buffer.content.chunks_mut(wide).enumerate() {
        let y = top.saturating_add(u16::try_from(row).unwrap_or(u16::MAX));
        let typed = cursor.filter(|at| at.y == y).map_or(0, |at| usize::from(at.x.saturating_sub(left)));
        let rule = |cells: &[Cell]| cells.iter().map(Cell::symbol).eq([" ", "|", " "]);
        let first = cells.get(..typed).unwrap_or_default().windows(3).rposition(rule).unwrap_or(0);
        for x in (0..first).chain(typed..cells.len()) {
            let unit = cells.get(x.saturating_add(1)).is_some_and(|next| matches!(next.symbol(), "C" | "F"));
            let Some(cell) = cells.get_mut(x) else { continue };
            match cell.symbol() {
                "\u{b0}" if unit => close_up(cells.get_mut(x..).unwrap_or_default()),
                sign => {
                    if let Some(plain) = stand_in(sign) {
                        cell.set_symbol(plain);
                    }
                }
            }
        }
    }
}

/// The ASCII replacement of a sign.
fn stand_in(sign: &str) -> Option<&'static str> {
    Some(match sign {
        "\u{b0}" => " ",
        "\u{b7}" | "\u{2013}" | "\u{2014}" | "\u{2212}" => "-",
        "\u{2026}" => ".",
        "\u{b5}" | "\u{3bc}" => "u",
        "\u{d7}" => "x",
        "\u{b2}" => "2",
        _ => return None,
    })
}

/// Removes the first cell; what follows moves left up to the next gap of two blanks, so that columns stay aligned.
fn close_up(cells: &mut [Cell]) {
    let gap = |pair: &[Cell]| pair.iter().all(|cell| cell.symbol() == " ");
    let end = cells.windows(2).position(gap).unwrap_or(cells.len().saturating_sub(1));
    if let Some(moved) = cells.get_mut(..=end) {
        moved.rotate_left(1);
        if let Some(last) = moved.last_mut() {
            last.set_symbol(" ");
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plain(text: &str, cursor: Option<Position>) -> String {
        let mut buffer = Buffer::with_lines([text]);
        plain_signs(&mut buffer, cursor);
        buffer.content.iter().map(Cell::symbol).collect()
    }

    #[test]
    fn our_signs_have_stand_ins_and_columns_keep_their_place() {
        assert_eq!(plain("night 73 °F, day 80 °F  E2 · caf\u{e9}", None), "night 73 F, day 80 F    E2 - caf\u{e9}");
        assert_eq!(plain("5 µS, 3 m², 2 × 4 …", None), "5 uS, 3 m2, 2 x 4 .");
        assert_eq!(plain("at 97° or 20 °C", None), "at 97  or 20 C ");
    }

    #[test]
    fn what_is_being_typed_stays_as_it_is() {
        assert_eq!(plain("> 20 °C", Some(Position { x: 7, y: 0 })), "> 20 °C");
        assert_eq!(plain("> 20 °C", Some(Position { x: 0, y: 0 })), "> 20 C ");
    }
}
