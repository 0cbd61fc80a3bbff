//! Guards against slips of a digit: the same digit right after a change of bench or plot, and a key held down.

use super::{Repeats, SETTLED};
use crate::input::{Code, Key};

/// The verdict on a digit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// Accepted.
    Take,
    /// Ignored: the bench or plot has just changed.
    JustChanged,
    /// Ignored: the key is held down.
    Held,
}

/// The state of the guard.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Guard {
    repeats: Repeats,
    /// The digit that brought this bench or plot up, and when.
    brought: Option<(Key, u64)>,
}

impl Guard {
    /// Checks a digit pressed at a time.
    pub fn judge(&mut self, digit: u8, ms: u64) -> Verdict {
        let key = key_of(digit);
        let since = self.brought.filter(|(brought, _)| *brought == key).map(|(_, then)| ms.saturating_sub(then));
        if since.is_some_and(|since| since < SETTLED) {
            self.repeats.ignore(key, ms);
            return Verdict::JustChanged;
        }
        if self.repeats.is_held(key, ms) {
            return Verdict::Held;
        }
        // Another digit came in between, so the digit that brought the bench up counts again.
        self.brought = None;
        Verdict::Take
    }

    /// True for a digit that is held down; one pressed again counts at once. For digits that begin a number.
    pub fn is_held(&mut self, digit: u8, ms: u64) -> bool {
        self.repeats.is_held(key_of(digit), ms)
    }

    /// The guard of the bench or plot that a digit brought up.
    #[must_use]
    pub const fn on_next(self, ms: u64) -> Self {
        let brought = match self.repeats.last() {
            Some(key) => Some((key, ms)),
            None => None,
        };
        Self { repeats: self.repeats, brought }
    }
}

fn key_of(digit: u8) -> Key {
    Key::new(Code::Char(char::from(b'0'.saturating_add(digit))))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_same_digit_right_after_a_bench_change_is_not_taken() {
        let mut guard = Guard::default();
        assert_eq!(guard.judge(3, 1_000), Verdict::Take);
        let mut guard = guard.on_next(1_000);
        assert_eq!(guard.judge(3, 1_250), Verdict::JustChanged);
        assert_eq!(guard.judge(4, 1_260), Verdict::Take, "another digit is meant");
        assert_eq!(guard.judge(3, 1_290), Verdict::Take, "and after it the first one too");
        let mut guard = Guard::default();
        guard.judge(3, 1_000);
        let mut guard = guard.on_next(1_000);
        assert_eq!(guard.judge(3, 1_300), Verdict::Take, "after 300 ms it is meant");
    }

    #[test]
    fn a_key_held_down_is_taken_once() {
        let mut guard = Guard::default();
        assert_eq!(guard.judge(3, 0), Verdict::Take);
        let mut guard = guard.on_next(0);
        for ms in (33..2_000).step_by(33) {
            assert_ne!(guard.judge(3, ms), Verdict::Take, "{ms}");
        }
        assert_eq!(guard.judge(3, 2_400), Verdict::Take, "let go and pressed again");
    }

    #[test]
    fn two_checks_of_one_bench_may_have_the_same_digit() {
        let mut guard = Guard::default();
        assert_eq!(guard.judge(3, 0), Verdict::Take);
        assert_eq!(guard.judge(3, 150), Verdict::Take);
    }
}
