//! A text field of one line: sanitized, capped, with a cursor that moves by grapheme clusters.
//!
//! It wraps a library's text field that has no paste, accepts control characters and has no maximum length.

use crate::characters::{Fate, fates};
use crate::input::{Code, Key};
use tui_input::{Input, InputRequest};
use unicode_segmentation::UnicodeSegmentation;

/// Maximum length, in grapheme clusters.
pub const MOST: usize = 500;

/// A text field.
#[derive(Debug, Clone, Default)]
pub struct Field {
    input: Input,
    /// True after input was cut because the field was full.
    pub full: bool,
}

impl Field {
    /// A field with a text and the cursor at its end.
    pub fn holding(text: &str) -> Self {
        let mut field = Self::default();
        field.paste(text);
        field
    }

    /// What was typed.
    pub fn text(&self) -> &str {
        self.input.value()
    }

    /// True when nothing but blanks was typed.
    pub fn is_blank(&self) -> bool {
        self.text().trim().is_empty()
    }

    /// The column of the cursor, counted in cells from the start of the text.
    pub fn cursor(&self) -> usize {
        self.input.visual_cursor()
    }

    /// Horizontal scroll, in cells, that keeps the cursor visible within a width.
    pub fn scroll(&self, width: usize) -> usize {
        self.input.visual_scroll(width.max(1))
    }

    /// Handles a key; false when a text field does not use it.
    pub fn key(&mut self, key: &Key) -> bool {
        if let Some(c) = key.typed() {
            self.insert(c);
            return true;
        }
        let request = match (key.code, key.ctrl) {
            (Code::Backspace, false) => InputRequest::DeletePrevChar,
            (Code::Char('w') | Code::Backspace, true) => InputRequest::DeletePrevWord,
            (Code::Char('u'), true) => InputRequest::DeleteLine,
            (Code::Delete, false) => InputRequest::DeleteNextChar,
            (Code::Left, false) => InputRequest::GoToPrevChar,
            (Code::Right, false) => InputRequest::GoToNextChar,
            (Code::Left, true) => InputRequest::GoToPrevWord,
            (Code::Right, true) => InputRequest::GoToNextWord,
            (Code::Home, false) => InputRequest::GoToStart,
            (Code::End, false) => InputRequest::GoToEnd,
            _ => return false,
        };
        self.input.handle(request);
        self.full = false;
        true
    }

    /// Inserts a pasted text. Line ends and tabs become blanks, what cannot be seen is left out, excess length is cut.
    pub fn paste(&mut self, text: &str) {
        let at = self.input.cursor();
        let cleaned = one_line(at.checked_sub(1).and_then(|last| self.text().chars().nth(last)), text);
        let room = MOST.saturating_sub(self.text().graphemes(true).count());
        let taken: String = cleaned.graphemes(true).take(room).collect();
        self.full = taken.len() < cleaned.len();
        let mut all: String = self.text().chars().take(at).collect();
        all.push_str(&taken);
        let cursor = all.chars().count();
        all.extend(self.text().chars().skip(at));
        self.input = Input::new(all).with_cursor(cursor);
    }

    fn insert(&mut self, c: char) {
        self.paste(c.encode_utf8(&mut [0; 4]));
    }
}

/// A text as one clean line, to be put behind `before`. It is cleaned as every record is; several blanks where a line broke
/// become one.
fn one_line(before: Option<char>, text: &str) -> String {
    let mut line = String::with_capacity(text.len().min(4096));
    let broken = text.contains(['\n', '\r', '\t']);
    let mut blank = false;
    for (c, fate) in fates(before, text).take(MOST.saturating_mul(32)) {
        let c = match fate {
            Fate::Keep => c,
            Fate::Space => ' ',
            Fate::Drop => continue,
        };
        if c == ' ' && blank && broken {
            continue;
        }
        blank = c == ' ';
        line.push(c);
    }
    line
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_paste_is_cleaned() {
        assert_eq!(Field::holding("a\r\nb\tc\u{1b}[31m").text(), "a b c[31m");
        assert_eq!(Field::holding("a\u{202e}b").text(), "ab");
        assert_eq!(Field::holding("wilted\u{200b} at\u{ad} noon\u{2028}again").text(), "wilted at noon again");
        assert_eq!(Field::holding("\u{3164}").text(), "");
    }

    #[test]
    fn an_emoji_typed_piece_by_piece_is_the_emoji() {
        let mut field = Field::default();
        for c in "👩\u{200d}🌾 x\u{200d}".chars() {
            field.key(&Key::new(Code::Char(c)));
        }
        assert_eq!(field.text(), "👩\u{200d}🌾 x");
    }

    #[test]
    fn a_long_paste_is_cut_and_said() {
        let mut field = Field::default();
        field.paste(&"x".repeat(100_000));
        assert!(field.full);
        assert_eq!(field.text().len(), MOST);
    }

    #[test]
    fn the_cursor_counts_cells_and_backspace_takes_whole_characters() {
        let mut field = Field::holding("e\u{301}日");
        assert_eq!(field.cursor(), 3);
        field.key(&Key::new(Code::Backspace));
        assert_eq!(field.text(), "e\u{301}");
        field.key(&Key::new(Code::Backspace));
        assert_eq!(field.text(), "");
    }

    #[test]
    fn the_keys_of_a_line_work() {
        let typed = |row: &str| {
            let mut field = Field::holding("mid red pinched");
            for key in Key::row(row).unwrap() {
                field.key(&key);
            }
            field.text().to_owned()
        };
        assert_eq!(typed("{Ctrl-U}x"), "x");
        assert_eq!(typed("{Ctrl-W}x"), "mid red x");
        assert_eq!(typed("{Home}{Delete}d"), "did red pinched");
        assert_eq!(typed("{Home}{Right}{Delete}{End}!"), "md red pinched!");
    }

    #[test]
    fn text_goes_in_where_the_cursor_stands() {
        let mut field = Field::holding("ac");
        field.key(&Key::new(Code::Left));
        field.key(&Key::new(Code::Char('b')));
        assert_eq!((field.text(), field.cursor()), ("abc", 2));
        for ctrl_alt in ['}', '\\'] {
            field.key(&Key { code: Code::Char(ctrl_alt), ctrl: true, alt: true, repeat: false });
        }
        assert_eq!(field.text(), "ab}\\c");
    }
}
