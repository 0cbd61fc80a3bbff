//! Text for a page of 80 columns.

use unicode_width::UnicodeWidthStr;

/// Columns a line may take.
pub(super) const WIDTH: usize = 80;

/// Writes a label and its text, wrapped to the width and hung under the text's start.
pub(super) fn wrap(out: &mut String, label: &str, text: &str) {
    hung(out, label, label.width().min(WIDTH / 2), text);
}

/// The same, hung at a column.
pub(super) fn hung(out: &mut String, label: &str, hang: usize, text: &str) {
    let mut line = label.to_owned();
    let mut empty = true;
    for word in text.split(' ') {
        let space = usize::from(!empty);
        if !empty && line.width() + space + word.width() > WIDTH {
            out.push_str(line.trim_end());
            out.push('\n');
            line = " ".repeat(hang);
            line.push_str(word);
        } else {
            if !empty {
                line.push(' ');
            }
            line.push_str(word);
        }
        empty = false;
    }
    out.push_str(line.trim_end());
    out.push('\n');
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_keep_to_the_width_and_hang_under_their_text() {
        let mut out = String::new();
        wrap(&mut out, "  next    ", &"dry down ".repeat(12));
        for line in out.lines() {
            assert!(line.width() <= WIDTH, "{line}");
        }
        assert!(out.lines().nth(1).unwrap().starts_with("          down"));
    }
}
