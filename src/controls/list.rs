//! Moving through a list or a text by keys: the cursor, and the first row seen of what is longer than its room.

use crate::input::Key;
use crate::keys::Command;
use std::ops::Range;

/// Where one is in a list or a text.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct List {
    cursor: usize,
    top: usize,
}

/// Where a command of movement leads from `at`: by one, by a page, to an end; never beyond `last`. `None` for other commands.
fn moved(command: Command, at: usize, last: usize, page: usize) -> Option<usize> {
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

impl List {
    /// The cursor on a line.
    pub const fn at(cursor: usize) -> Self {
        Self { cursor, top: 0 }
    }

    /// The line the cursor is on.
    pub const fn cursor(&self) -> usize {
        self.cursor
    }

    /// The first row seen.
    pub const fn top(&self) -> usize {
        self.top
    }

    /// Puts the cursor on a line.
    pub const fn set(&mut self, cursor: usize) {
        self.cursor = cursor;
    }

    /// Moves the cursor among `count` lines, `page` of them at a time. False for a command that moves no cursor.
    pub fn step(&mut self, command: Command, count: usize, page: usize) -> bool {
        let to = moved(command, self.cursor, count.saturating_sub(1), page);
        self.cursor = to.unwrap_or(self.cursor);
        to.is_some()
    }

    /// Moves what is seen of a text, up to the row `last`, `page` rows at a time. False for a command that moves nothing.
    pub fn scroll(&mut self, command: Command, last: usize, page: usize) -> bool {
        let to = moved(command, self.top, last, page);
        self.top = to.unwrap_or(self.top);
        to.is_some()
    }

    /// Keeps the cursor on one of `count` lines.
    pub fn clamp(&mut self, count: usize) {
        self.cursor = self.cursor.min(count.saturating_sub(1));
    }

    /// Keeps the first row seen at `last` or before.
    pub fn clamp_top(&mut self, last: usize) {
        self.top = self.top.min(last);
    }

    /// Brings rows into sight, with one row before them: nothing moves where all of them are seen.
    pub fn reveal(&mut self, rows: &Range<usize>, room: usize, last: usize) {
        if rows.start < self.top || rows.end > self.top.saturating_add(room) {
            self.top = rows.start.saturating_sub(1).min(last);
        }
    }
}

/// Lines moved by a page key, in a window of so many rows: the frame and the head of a list take the rest.
pub fn page(rows: u16) -> usize {
    usize::from(rows.saturating_sub(8)).max(1)
}

/// The letter that names a line: a, b, c, ...
pub fn letter(at: usize) -> char {
    u8::try_from(at).ok().and_then(|n| b'a'.checked_add(n)).map_or('?', char::from)
}

/// The line of `count` that a key names by its letter, in either case.
pub fn named(key: &Key, count: usize) -> Option<usize> {
    let typed = key.typed()?.to_ascii_lowercase();
    (0..count).find(|at| letter(*at) == typed)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::input::Code;
    use proptest::prelude::*;

    #[test]
    fn the_cursor_moves_by_lines_pages_and_to_the_ends() {
        let mut list = List::at(3);
        for (command, to) in [
            (Command::Down, 4),
            (Command::PageDown, 9),
            (Command::Down, 9),
            (Command::PageUp, 3),
            (Command::Up, 2),
            (Command::First, 0),
            (Command::Up, 0),
            (Command::Last, 9),
        ] {
            assert!(list.step(command, 10, 6));
            assert_eq!(list.cursor(), to, "{command:?}");
        }
        assert!(!list.step(Command::Accept, 10, 6));
        list.clamp(4);
        assert_eq!(list.cursor(), 3);
        list.clamp(0);
        assert_eq!(list.cursor(), 0);
    }

    #[test]
    fn what_is_in_sight_does_not_move() {
        let mut list = List { cursor: 0, top: 10 };
        list.reveal(&(12..15), 5, 90);
        assert_eq!(list.top(), 10);
        list.reveal(&(13..16), 5, 90);
        assert_eq!(list.top(), 12);
        list.reveal(&(4..6), 5, 90);
        assert_eq!(list.top(), 3);
        list.reveal(&(97..99), 5, 90);
        assert_eq!(list.top(), 90);
    }

    #[test]
    fn letters_name_lines() {
        let key = |c| Key::new(Code::Char(c));
        assert_eq!((letter(0), letter(25)), ('a', 'z'));
        assert_eq!(named(&key('c'), 3), Some(2));
        assert_eq!(named(&key('C'), 3), Some(2));
        assert_eq!(named(&key('d'), 3), None);
        assert_eq!(named(&Key::new(Code::Backspace), 3), None);
    }

    proptest! {
        #[test]
        fn the_cursor_never_leaves_the_list(
            steps in prop::collection::vec(0usize..6, 0..40), count in 0usize..30, page in 0usize..50,
        ) {
            let all = [Command::Down, Command::Up, Command::PageDown, Command::PageUp, Command::First, Command::Last];
            let mut list = List::default();
            for step in steps {
                list.step(all[step], count, page);
                list.scroll(all[step], count, page);
                prop_assert!(list.cursor() < count.max(1));
                prop_assert!(list.top() <= count);
            }
        }
    }
}
