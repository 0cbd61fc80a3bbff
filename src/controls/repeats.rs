//! Keys held down. Few terminals say that a key repeats; most send it again as if it were pressed. Repeats are recognized by
//! their rate, which is faster than double presses.

use crate::input::Key;

/// The same key twice within this time is a repeat, milliseconds: keyboards repeat every 30 to 90.
const HELD: u64 = 100;
/// After a key that was ignored the same one is ignored within this time too, milliseconds.
pub const SETTLED: u64 = 300;

/// What tells a key held down from one pressed again.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Repeats {
    /// The last key, taken or not, and when.
    last: Option<(Key, u64)>,
    /// It was ignored.
    refused: bool,
}

impl Repeats {
    /// Takes note of a key pressed at a time; true where it is held down.
    pub fn is_held(&mut self, key: Key, ms: u64) -> bool {
        let pressed = key.pressed();
        let gap = self.last.filter(|(last, _)| *last == pressed).map(|(_, then)| ms.saturating_sub(then));
        let held = key.repeat || gap.is_some_and(|gap| gap < HELD || (self.refused && gap < SETTLED));
        self.last = Some((pressed, ms));
        self.refused = held;
        held
    }

    /// Takes note of a key that is ignored for another reason.
    pub const fn ignore(&mut self, key: Key, ms: u64) {
        self.last = Some((key.pressed(), ms));
        self.refused = true;
    }

    /// The last key.
    pub const fn last(&self) -> Option<Key> {
        match self.last {
            Some((key, _)) => Some(key),
            None => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::input::Code;

    const U: Key = Key::new(Code::Char('u'));

    #[test]
    fn a_key_held_down_counts_once_until_it_is_let_go() {
        let mut repeats = Repeats::default();
        assert!(!repeats.is_held(U, 0));
        for ms in (33..2_000).step_by(33) {
            assert!(repeats.is_held(U, ms), "{ms}");
        }
        assert!(!repeats.is_held(U, 2_400), "let go and pressed again");
    }

    #[test]
    fn the_same_key_pressed_twice_counts_twice_and_another_key_at_once() {
        let mut repeats = Repeats::default();
        assert!(!repeats.is_held(U, 0));
        assert!(!repeats.is_held(U, 150));
        assert!(!repeats.is_held(Key::new(Code::Enter), 160));
        assert!(repeats.is_held(Key { repeat: true, ..U }, 5_000), "the terminal says so");
    }
}
