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
    /// A rule down the page is made of these.
    pub upright: &'static str,
    /// Where the axes of a chart meet.
    pub corner: &'static str,
}

impl Look {
    /// The signs of this look.
    pub const fn glyphs(self) -> Glyphs {
        if self.ascii {
            Glyphs { here: ">", later: "~", none: ".", done: "x", between: "|", rule: "-", upright: "|", corner: "+" }
        } else {
            Glyphs {
                here: "\u{25b8}",
                later: "\u{2026}",
                none: ".",
                done: "\u{2713}",
                between: "|",
                rule: "\u{2500}",
                upright: "\u{2502}",
                corner: "\u{2514}",
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::input::Palette;
    use unicode_width::UnicodeWidthStr;

    #[test]
    fn every_sign_is_one_cell_wide_and_the_ascii_ones_are_ascii() {
        for ascii in [false, true] {
            let g = Look { color: true, ascii, palette: Palette::Usual }.glyphs();
            for sign in [g.here, g.later, g.none, g.done, g.between, g.rule, g.upright, g.corner] {
                assert_eq!(sign.width(), 1, "{sign}");
                // Some East Asian terminals draw the three dots and the rules two wide; ASCII is the way round it.
                let rules = [g.rule, g.upright, g.corner];
                assert!(sign == "\u{2026}" || rules.contains(&sign) || sign.width_cjk() == 1, "{sign}");
                assert!(!ascii || sign.is_ascii(), "{sign}");
            }
        }
    }
}
