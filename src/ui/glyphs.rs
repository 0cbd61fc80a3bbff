//! The few signs beyond plain letters. Each is one cell wide on every terminal, or has an ASCII replacement.

use crate::input::Look;

/// The signs of a look.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Glyphs {
    /// The cursor, next to its line.
    pub here: &'static str,
    /// Not computed yet.
    pub later: &'static str,
    /// A day or check without a reading.
    pub none: &'static str,
    /// Done.
    pub done: &'static str,
    /// Between two facts of a line.
    pub between: &'static str,
    /// A rule across the page is made of these.
    pub rule: &'static str,
}

impl Look {
    /// The signs of this look.
    pub const fn glyphs(self) -> Glyphs {
        if self.ascii {
            Glyphs { here: ">", later: "~", none: ".", done: "x", between: "|", rule: "-" }
        } else {
            Glyphs { here: "\u{25b8}", later: "\u{2026}", none: ".", done: "\u{2713}", between: "|", rule: "-" }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use unicode_width::UnicodeWidthStr;

    #[test]
    fn every_sign_is_one_cell_wide_and_the_ascii_ones_are_ascii() {
        for ascii in [false, true] {
            let g = Look { color: true, ascii }.glyphs();
            for sign in [g.here, g.later, g.none, g.done, g.between, g.rule] {
                assert_eq!(sign.width(), 1, "{sign}");
                // The three dots are the one sign that some East Asian terminals draw two wide; ASCII is the way round it.
                assert!(sign == "\u{2026}" || sign.width_cjk() == 1, "{sign}");
                assert!(!ascii || sign.is_ascii(), "{sign}");
            }
        }
    }
}
