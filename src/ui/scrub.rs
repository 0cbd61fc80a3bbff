//! The last look at a frame before it goes out.

use ratatui::buffer::Buffer;

/// Replaces every character that must not reach a terminal cell: controls, and those that turn the direction of text.
/// Text is cleaned where it enters; this catches what an old file may hold.
pub fn scrub(buffer: &mut Buffer, hidden: impl Fn(char) -> bool) {
    for cell in &mut buffer.content {
        if cell.symbol().chars().any(&hidden) {
            let kept: String = cell.symbol().chars().filter(|c| !hidden(*c)).collect();
            cell.set_symbol(if kept.is_empty() { "?" } else { &kept });
        }
    }
}
