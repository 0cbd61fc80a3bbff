//! A scan that is typed into a text: `=`, the code and Enter, faster than anybody types.

use crate::input::{Code, Key};
use crate::report::labels::SIGN;

/// Each key of a scan follows the one before within this time, milliseconds: scanners type every 1 to 20, hands every 60 or more.
const FAST: u64 = 40;

/// What was typed fast since the sign, and what stood there before it.
#[derive(Debug, Clone)]
pub(super) struct Scan<T> {
    begun: Option<(T, String)>,
    last: u64,
}

impl<T> Default for Scan<T> {
    fn default() -> Self {
        Self { begun: None, last: 0 }
    }
}

impl<T> Scan<T> {
    /// Takes note of a key typed into a text at a time. Where Enter ends a scan: what stood there before it, and the code.
    pub(super) fn takes(&mut self, key: Key, ms: u64, before: impl FnOnce() -> T) -> Option<(T, String)> {
        let fast = ms.saturating_sub(self.last) < FAST;
        self.last = ms;
        let begun = self.begun.take().filter(|_| fast);
        match (key.code, key.typed(), begun) {
            (_, Some(SIGN), _) => self.begun = Some((before(), String::new())),
            (_, Some(c), Some((before, code))) => self.begun = Some((before, format!("{code}{c}"))),
            (Code::Enter, _, begun) => return begun.filter(|(_, code)| !code.is_empty()),
            _ => {}
        }
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The scan found in a row of keys so many milliseconds apart.
    fn found(row: &str, gap: u64) -> Option<String> {
        let mut scan = Scan::default();
        let keys = Key::row(row).unwrap();
        let mut codes = (0..).zip(keys).filter_map(|(n, key)| scan.takes(key, n * gap, || ()));
        codes.next().map(|((), code)| code)
    }

    #[test]
    fn a_code_typed_fast_with_enter_is_a_scan() {
        assert_eq!(found("=M7{Enter}", 1).as_deref(), Some("M7"));
        assert_eq!(found("cut=E11{Enter}", 20).as_deref(), Some("E11"), "behind what was typed before");
        assert_eq!(found("=M=E3{Enter}", 1).as_deref(), Some("E3"), "scanned again");
    }

    #[test]
    fn what_is_typed_by_hand_is_text() {
        for (row, gap) in [("=M7{Enter}", 60), ("M7{Enter}", 1), ("={Enter}", 1), ("=M{Left}7{Enter}", 1)] {
            assert_eq!(found(row, gap), None, "{row} {gap}");
        }
    }
}
