//! Short answers laid out for an 80-column terminal.

use std::fmt::Display;

/// Columns of the answer.
const WIDTH: usize = 80;

/// Columns of a label.
const LABEL: usize = 15;

/// A text that grows line by line.
#[derive(Debug, Default)]
pub(super) struct Page(String);

impl Page {
    /// A line as it stands, folded at the width.
    pub(super) fn line(&mut self, text: impl Display) {
        self.fold(String::new(), 2, &text.to_string());
    }

    /// A blank line.
    pub(super) fn blank(&mut self) {
        self.0.push('\n');
    }

    /// A labeled line, folded under its text.
    pub(super) fn item(&mut self, label: &str, text: impl Display) {
        self.fold(format!("  {label:<LABEL$}"), LABEL + 2, &text.to_string());
    }

    /// A point of a list.
    pub(super) fn point(&mut self, text: impl Display) {
        self.fold("  - ".to_owned(), 4, &text.to_string());
    }

    /// The whole text.
    pub(super) fn text(self) -> String {
        self.0
    }

    fn fold(&mut self, start: String, hang: usize, text: &str) {
        let mut line = start;
        let mut wide = line.chars().count();
        let mut empty = true;
        for word in text.split_whitespace() {
            let length = word.chars().count();
            if !empty && wide + 1 + length > WIDTH {
                self.0.push_str(line.trim_end());
                self.0.push('\n');
                line = " ".repeat(hang);
                wide = hang;
                empty = true;
            }
            if !empty {
                line.push(' ');
                wide += 1;
            }
            line.push_str(word);
            wide += length;
            empty = false;
        }
        self.0.push_str(line.trim_end());
        self.0.push('\n');
    }
}

#[cfg(test)]
mod tests {
    use super::{Page, WIDTH};

    #[test]
    fn lines_keep_to_the_width_and_hang_under_their_text() {
        let mut page = Page::default();
        page.item("usual", "early and middle of the crop ".repeat(6));
        page.point("word ".repeat(40));
        let text = page.text();
        assert!(text.lines().all(|l| l.chars().count() <= WIDTH), "{text}");
        assert!(text.lines().nth(1).unwrap().starts_with("                 "), "{text}");
    }
}
