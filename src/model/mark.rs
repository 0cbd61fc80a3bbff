//! The mark in a list, moved by keys.

use crate::keys::Command;

/// Where the mark of a list goes from `at`: by one line, by a page of so many, to an end; never beyond `last`. `None` for a
/// command that moves no mark.
pub fn moved(command: Command, at: usize, last: usize, page: usize) -> Option<usize> {
    let to = match command {
        Command::Down => at.saturating_add(1),
        Command::Up => at.saturating_sub(1),
        Command::PageDown => at.saturating_add(page),
        Command::PageUp => at.saturating_sub(page),
        Command::First => 0,
        Command::Last => last,
        _ => return None,
    };
    Some(to.min(last))
}
