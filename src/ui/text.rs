//! Text cut, wrapped and put on a row.

use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::Line;
use unicode_segmentation::UnicodeSegmentation;
use unicode_width::UnicodeWidthStr;

/// The cells a text takes.
pub fn width(text: &str) -> u16 {
    u16::try_from(text.width()).unwrap_or(u16::MAX)
}

/// A text made exactly so wide: filled up with blanks, or cut with `..` at its end.
pub fn fit(text: &str, cells: usize) -> String {
    let wide = text.width();
    if wide <= cells {
        return format!("{text}{}", " ".repeat(cells.saturating_sub(wide)));
    }
    let keep = cells.saturating_sub(2);
    let (mut cut, mut used) = (String::new(), 0_usize);
    for grapheme in text.graphemes(true) {
        let w = grapheme.width();
        if used.saturating_add(w) > keep {
            break;
        }
        cut.push_str(grapheme);
        used = used.saturating_add(w);
    }
    let left = cells.saturating_sub(used);
    cut.push_str(&".".repeat(left.min(2)));
    cut.push_str(&" ".repeat(left.saturating_sub(2)));
    cut
}

/// A text no wider than `cells`: cut at a blank, with `..` for what is left out.
pub fn shorten(text: &str, cells: usize) -> String {
    if text.width() <= cells {
        return text.to_owned();
    }
    if cells < 4 {
        return fit(text, cells);
    }
    let kept = fit(text, cells.saturating_sub(1));
    let kept = kept.trim_end().trim_end_matches('.');
    // One long word is cut where the room ends, like everywhere.
    let whole = text.get(kept.len()..).is_some_and(|rest| rest.starts_with(' '));
    let word = kept.rfind(' ').filter(|_| !whole).filter(|at| at.saturating_mul(2) > kept.len());
    let kept = word.and_then(|at| kept.get(..at)).unwrap_or(kept);
    format!("{} ..", kept.trim_end_matches([' ', ',', ':', '-']))
}

/// The blank that holds two words together.
const TIED: &str = "\u{a0}";

/// A text broken at blanks into lines no wider than `cells`; words too long for a line are broken where it ends. A no-break
/// blank is shown as a blank, but no line ends there.
pub fn wrap(text: &str, cells: usize) -> Vec<String> {
    let cells = cells.max(2);
    let mut lines = Vec::new();
    for paragraph in text.split('\n') {
        let indent: String = paragraph.chars().take_while(|c| *c == ' ').take(cells / 2).collect();
        // Widths are counted along: measuring the line again at each word makes long texts slow.
        let (mut line, mut used, mut fresh) = (indent.clone(), indent.len(), true);
        for word in paragraph.split(' ').filter(|word| !word.is_empty()) {
            let wide = word.width();
            let gap = usize::from(!fresh);
            let fits = used.saturating_add(gap).saturating_add(wide) <= cells;
            if !fits && !fresh && indent.len().saturating_add(wide) <= cells {
                lines.push(std::mem::replace(&mut line, indent.clone()));
                (used, fresh) = (indent.len(), true);
            }
            if !fresh {
                line.push(' ');
                used = used.saturating_add(1);
            }
            fresh = false;
            if used.saturating_add(wide) <= cells {
                push(&mut line, word);
                used = used.saturating_add(wide);
                continue;
            }
            for grapheme in word.graphemes(true) {
                let wide = grapheme.width();
                if used.saturating_add(wide) > cells {
                    lines.push(std::mem::replace(&mut line, indent.clone()).trim_end().to_owned());
                    used = indent.len();
                }
                push(&mut line, grapheme);
                used = used.saturating_add(wide);
            }
        }
        lines.push(line);
    }
    lines
}

/// Adds a word, or a part of it, to a line; a no-break blank as a blank.
fn push(line: &mut String, word: &str) {
    for (at, part) in word.split(TIED).enumerate() {
        if at > 0 {
            line.push(' ');
        }
        line.push_str(part);
    }
}

/// Puts a line on a row of an area; rows outside it are left out.
pub fn put<'a>(frame: &mut Frame<'_>, area: Rect, row: usize, line: impl Into<Line<'a>>) {
    let place = line_of(area, row).intersection(frame.area());
    if !place.is_empty() {
        frame.render_widget(line.into(), place);
    }
}

/// The area of one row; empty where it lies outside.
pub fn line_of(area: Rect, row: usize) -> Rect {
    let row = u16::try_from(row).unwrap_or(u16::MAX);
    Rect { y: area.y.saturating_add(row), height: 1, ..area }.intersection(area)
}

/// Splits an area into a top of so many rows and the rest.
pub fn rows(area: Rect, top: u16) -> (Rect, Rect) {
    let top = top.min(area.height);
    let first = Rect { height: top, ..area };
    let rest = Rect { y: area.y.saturating_add(top), height: area.height.saturating_sub(top), ..area };
    (first, rest)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn text_is_wrapped_at_blanks() {
        assert_eq!(wrap("look at the roots", 8), ["look at", "the", "roots"]);
        assert_eq!(wrap("  two words", 7), ["  two", "  words"]);
        assert_eq!(wrap("", 5), [""]);
        assert_eq!(wrap("a\u{a0}yes b\u{a0}no", 7), ["a yes", "b no"]);
        assert_eq!(wrap("a longestword", 6), ["a long", "estwor", "d"]);
    }

    #[test]
    fn a_text_too_long_ends_at_a_word() {
        assert_eq!(shorten("saved: E1 water 4", 17), "saved: E1 water 4");
        assert_eq!(shorten("saved: E1 roots 3, on one side", 24), "saved: E1 roots 3, on ..");
        assert_eq!(shorten("saved: E1 roots 3, on one side", 21), "saved: E1 roots 3 ..");
    }

    proptest! {
        #[test]
        fn a_shortened_text_is_never_wider(text in "[a-z日. ]{0,40}", cells in 0usize..30) {
            prop_assert!(shorten(&text, cells).width() <= cells);
        }

        #[test]
        fn fitted_text_is_exactly_so_wide(text in "[a-z日é ]{0,20}", cells in 0usize..30) {
            prop_assert_eq!(fit(&text, cells).width(), cells);
        }

        #[test]
        fn wrapped_lines_are_never_wider(text in "[a-z日 \n]{0,80}", cells in 4usize..30) {
            for line in wrap(&text, cells) { prop_assert!(line.width() <= cells, "{line:?}"); }
        }
    }
}
