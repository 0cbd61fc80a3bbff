//! Answers laid out in lines: folded at any width, for a terminal or a page.

use std::fmt::Display;

/// Columns of an answer printed as text.
const WIDTH: usize = 80;

/// Columns of a label.
const LABEL: usize = 15;

/// The heading of the cautions.
const CAUTIONS: &str = "Cautions";

/// A line before it is folded.
#[derive(Debug, Clone, PartialEq, Eq)]
enum Line {
    Plain(String),
    Blank,
    Item(&'static str, String),
    Point(String),
}

/// What a row of an answer is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tone {
    /// What is mixed, or a heading.
    Head,
    /// A fact, or a caution.
    Plain,
    /// An alert.
    Alarm,
}

/// One row of an answer as it fits a width.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row {
    /// Its text.
    pub text: String,
    /// What it is.
    pub tone: Tone,
}

/// An answer that grows line by line.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Page(Vec<Line>);

impl Page {
    /// A line as given.
    pub fn line(&mut self, text: impl Display) {
        self.0.push(Line::Plain(text.to_string()));
    }

    /// A blank line.
    pub fn blank(&mut self) {
        self.0.push(Line::Blank);
    }

    /// A labeled line. A label in capitals is an alert.
    pub fn item(&mut self, label: &'static str, text: impl Display) {
        self.0.push(Line::Item(label, text.to_string()));
    }

    /// A point of a list.
    pub fn point(&mut self, text: impl Display) {
        self.0.push(Line::Point(text.to_string()));
    }

    /// The cautions, under their heading.
    pub fn cautions(&mut self, cautions: &[crate::crop::growth_regulator::Caution]) {
        self.blank();
        self.line(CAUTIONS);
        for caution in cautions {
            self.point(caution.text);
        }
    }

    /// The answer, and its cautions without their heading: to be read side by side.
    pub fn parts(&self) -> (Self, Self) {
        let heading = |line: &Line| matches!(line, Line::Plain(text) if text == CAUTIONS);
        let at = self.0.iter().position(heading).unwrap_or(self.0.len());
        let answer = self.0.iter().take(at).cloned().collect();
        (Self(answer), Self(self.0.iter().skip(at.saturating_add(1)).cloned().collect()))
    }

    /// The answer folded at a width.
    pub fn rows(&self, width: usize) -> Vec<Row> {
        let mut rows = Vec::new();
        for line in &self.0 {
            match line {
                Line::Plain(text) => fold(&mut rows, Tone::Head, ("", 2), text, width),
                Line::Blank => rows.push(Row { text: String::new(), tone: Tone::Plain }),
                Line::Item(label, text) => {
                    let loud = label.chars().any(|c| c.is_ascii_uppercase());
                    let tone = if loud { Tone::Alarm } else { Tone::Plain };
                    fold(&mut rows, tone, (&format!("  {label:<LABEL$}"), LABEL + 2), text, width);
                }
                Line::Point(text) => fold(&mut rows, Tone::Plain, ("  - ", 4), text, width),
            }
        }
        rows
    }

    /// The answer as text of 80 columns.
    pub fn text(&self) -> String {
        self.rows(WIDTH).into_iter().map(|row| row.text + "\n").collect()
    }
}

/// Folds a text under its start.
fn fold(rows: &mut Vec<Row>, tone: Tone, (start, hang): (&str, usize), text: &str, width: usize) {
    let mut line = start.to_owned();
    let mut wide = line.chars().count();
    let mut empty = true;
    for word in text.split_whitespace() {
        let length = word.chars().count();
        if !empty && wide + 1 + length > width {
            rows.push(Row { text: line.trim_end().to_owned(), tone });
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
    rows.push(Row { text: line.trim_end().to_owned(), tone });
}

#[cfg(test)]
mod tests {
    use super::{Page, Tone, WIDTH};

    #[test]
    fn lines_keep_to_the_width_and_hang_under_their_text() {
        let mut page = Page::default();
        page.item("usual", "early and middle of the crop ".repeat(6));
        page.point("word ".repeat(40));
        let text = page.text();
        assert!(text.lines().all(|l| l.chars().count() <= WIDTH), "{text}");
        assert!(text.lines().nth(1).unwrap().starts_with("                 "), "{text}");
        assert!(page.rows(40).iter().all(|r| r.text.chars().count() <= 40 && r.tone == Tone::Plain));
    }
}
