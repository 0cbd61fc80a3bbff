//! A frame as text, and its styles as runs: a lost highlight is a changed line.

use ratatui::buffer::{Buffer, Cell};
use ratatui::style::{Color, Modifier};

/// The characters, blanks at the end of each row left out.
pub(crate) fn text(buffer: &Buffer) -> String {
    let rows = buffer.content.chunks(usize::from(buffer.area.width.max(1)));
    let mut text = String::new();
    for row in rows {
        let line: String = row.iter().map(Cell::symbol).collect();
        text.push_str(line.trim_end());
        text.push('\n');
    }
    text
}

/// Every run of cells that is not plain: row, first and last column, style, characters.
pub(crate) fn styles(buffer: &Buffer) -> String {
    let mut text = String::new();
    for (y, row) in buffer.content.chunks(usize::from(buffer.area.width.max(1))).enumerate() {
        let mut x = 0;
        while x < row.len() {
            let style = style(&row[x]);
            let end = (x..row.len()).find(|i| self::style(&row[*i]) != style).unwrap_or(row.len());
            if !style.is_empty() {
                let shown: String = row[x..end].iter().map(Cell::symbol).collect();
                text.push_str(&format!("{y:>2} {x:>3}-{:<3} {style:<24} |{}\n", end - 1, shown.trim_end()));
            }
            x = end;
        }
    }
    text
}

fn style(cell: &Cell) -> String {
    let mut parts = Vec::new();
    if cell.fg != Color::Reset {
        parts.push(format!("{}", cell.fg));
    }
    if cell.bg != Color::Reset {
        parts.push(format!("on {}", cell.bg));
    }
    for (modifier, name) in [
        (Modifier::BOLD, "bold"),
        (Modifier::DIM, "dim"),
        (Modifier::UNDERLINED, "underlined"),
        (Modifier::REVERSED, "reversed"),
        (Modifier::CROSSED_OUT, "struck"),
    ] {
        if cell.modifier.contains(modifier) {
            parts.push(name.to_owned());
        }
    }
    parts.join(" ")
}
