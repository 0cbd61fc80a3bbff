//! Escape sequences that a slow line delivers in pieces: Esc, then `[` or `O`, then the rest as if it were typed.
//!
//! Where characters are commands the rest is left out, so that half an arrow key scores and logs nothing.

use crate::input::{Code, Key};
use crate::keys::Context;

/// The rest of a sequence comes within this time, milliseconds.
const LATE: u64 = 1_000;

/// How far a sequence has come, and when its last piece came, milliseconds.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(super) enum Split {
    /// No sequence.
    #[default]
    None,
    /// Its Esc.
    Escape(u64),
    /// Its `[` or `O`, and perhaps digits.
    Begun(u64),
}

impl Split {
    /// True for a key that is the rest of a sequence. In text, forms and lists every key counts.
    pub(super) fn takes(&mut self, key: Key, context: Context, ms: u64) -> bool {
        let before = std::mem::take(self);
        if key.code == Code::Esc {
            *self = Self::Escape(ms);
            return false;
        }
        let typed = key.typed().filter(|_| !context.types());
        let soon = |then: u64| ms.saturating_sub(then) < LATE;
        match (before, typed) {
            (Self::Escape(then), Some('[' | 'O')) if soon(then) => {
                *self = Self::Begun(ms);
                true
            }
            (Self::Begun(then), Some('0'..='9' | ';')) if soon(then) => {
                *self = Self::Begun(ms);
                true
            }
            (Self::Begun(then), Some('A'..='Z' | '~')) => soon(then),
            _ => false,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Which keys of a row are taken for the rest of a sequence, so many milliseconds apart.
    fn taken(row: &str, context: Context, gap: u64) -> Vec<bool> {
        let mut split = Split::default();
        let keys = Key::row(row).unwrap();
        (0..).zip(keys).map(|(n, key)| split.takes(key, context, n * gap)).collect()
    }

    #[test]
    fn half_an_arrow_or_page_key_is_left_out() {
        for row in ["{Esc}[A", "{Esc}OD", "{Esc}OH"] {
            assert_eq!(taken(row, Context::Walk, 200), [false, true, true], "{row}");
        }
        assert_eq!(taken("{Esc}[5~d", Context::Walk, 200), [false, true, true, true, false]);
        assert_eq!(taken("{Esc}[1;5Dd", Context::Round, 200), [false, true, true, true, true, true, false]);
    }

    #[test]
    fn keys_pressed_by_hand_are_not() {
        assert_eq!(taken("{Esc}od", Context::Round, 200), [false; 3], "small letters");
        assert_eq!(taken("{Esc}OD", Context::Round, 1_000), [false; 3], "after a second");
        assert_eq!(taken("{Esc}[A", Context::Line, 10), [false; 3], "in text");
        assert_eq!(taken("DO5", Context::Walk, 10), [false; 3]);
    }
}
