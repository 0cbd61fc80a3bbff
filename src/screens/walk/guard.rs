//! Guards against slips: the same digit right after a bench change, and a key held down.
//!
//! Few terminals report key repeats; most send the key again as if it were pressed. Repeats are recognized by their rate,
//! which is faster than double presses.

/// The same digit is ignored for this long after it brought up another bench, milliseconds.
const AFTER_BENCH: u64 = 300;
/// The same digit twice within this time is a repeat, milliseconds: keyboards repeat every 30 to 90.
const HELD: u64 = 100;

/// The verdict on a digit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Verdict {
    /// Accepted.
    Take,
    /// Ignored: the bench has just changed.
    JustChanged,
    /// Ignored: the key is held down.
    Held,
}

/// The state of the guard.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(super) struct Guard {
    /// The last digit, accepted or not, and when.
    last: Option<(u8, u64)>,
    /// The last digit was ignored.
    refused: bool,
    /// The digit that brought this bench up, and when.
    brought: Option<(u8, u64)>,
}

impl Guard {
    /// Checks a digit pressed at a time.
    pub(super) fn judge(&mut self, digit: u8, ms: u64) -> Verdict {
        let gap = self.last.filter(|(d, _)| *d == digit).map(|(_, then)| ms.saturating_sub(then));
        let since = self.brought.filter(|(d, _)| *d == digit).map(|(_, then)| ms.saturating_sub(then));
        let verdict = if since.is_some_and(|s| s < AFTER_BENCH) {
            Verdict::JustChanged
        } else if gap.is_some_and(|g| g < HELD || (self.refused && g < AFTER_BENCH)) {
            Verdict::Held
        } else {
            Verdict::Take
        };
        self.last = Some((digit, ms));
        self.refused = verdict != Verdict::Take;
        if verdict == Verdict::Take {
            // Another digit came in between, so the digit that brought the bench up counts again.
            self.brought = None;
        }
        verdict
    }

    /// The guard of the bench that a digit brought up.
    #[must_use]
    pub(super) const fn on_next_bench(self, ms: u64) -> Self {
        let brought = match self.last {
            Some((digit, _)) => Some((digit, ms)),
            None => None,
        };
        Self { last: self.last, refused: false, brought }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_same_digit_right_after_a_bench_change_is_not_taken() {
        let mut guard = Guard::default();
        assert_eq!(guard.judge(3, 1_000), Verdict::Take);
        let mut guard = guard.on_next_bench(1_000);
        assert_eq!(guard.judge(3, 1_250), Verdict::JustChanged);
        assert_eq!(guard.judge(4, 1_260), Verdict::Take, "another digit is meant");
        assert_eq!(guard.judge(3, 1_290), Verdict::Take, "and after it the first one too");
        let mut guard = Guard::default();
        guard.judge(3, 1_000);
        let mut guard = guard.on_next_bench(1_000);
        assert_eq!(guard.judge(3, 1_300), Verdict::Take, "after 300 ms it is meant");
    }

    #[test]
    fn a_key_held_down_is_taken_once() {
        let mut guard = Guard::default();
        assert_eq!(guard.judge(3, 0), Verdict::Take);
        let mut guard = guard.on_next_bench(0);
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
