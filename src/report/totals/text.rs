//! A season's end as lines of text, for the terminal and for the page of the screens.

use super::{SeasonEnd, Section, sections};
use crate::dates;
use crate::report::chart::Table;
use crate::report::layout::WIDTH;
use unicode_width::UnicodeWidthStr;

/// A line, by what it is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Row {
    /// The title of a section.
    Title(String),
    /// The heads of a table.
    Head(String),
    /// A line of a table, or of text.
    Text(String),
}

impl Row {
    /// Its text.
    pub fn text(&self) -> &str {
        match self {
            Self::Title(text) | Self::Head(text) | Self::Text(text) => text,
        }
    }
}

/// Everything as plain text of 80 columns.
pub fn text(end: &SeasonEnd) -> String {
    let mut out = format!("{}, the season up to {}\n", end.totals.site, dates::long(end.totals.on));
    for row in rows(&sections(end), WIDTH) {
        out.push_str(row.text());
        out.push('\n');
    }
    out
}

/// Sections as lines of so many columns at most.
pub fn rows(sections: &[Section], width: usize) -> Vec<Row> {
    let mut out = Vec::new();
    for section in sections {
        out.push(Row::Text(String::new()));
        out.push(Row::Title(section.title.to_owned()));
        for (at, (_, table)) in section.tables.iter().enumerate() {
            out.extend((at > 0).then(|| Row::Text(String::new())));
            columns(table, width, &mut out);
        }
        for note in &section.notes {
            out.extend(hung(note, width, 2).into_iter().map(Row::Text));
        }
    }
    out
}

/// Words over lines of so many columns, all but the first of which hang so far in.
fn hung(text: &str, width: usize, hang: usize) -> Vec<String> {
    let mut lines = vec![" ".repeat(hang)];
    let mut empty = true;
    for word in text.split_whitespace() {
        let Some(line) = lines.last_mut() else { continue };
        if !empty && line.width() + 1 + word.width() > width {
            lines.push(format!("{}{word}", " ".repeat(hang)));
            continue;
        }
        if !empty {
            line.push(' ');
        }
        line.push_str(word);
        empty = false;
    }
    lines
}

/// Blanks between two columns.
const GAP: usize = 2;
/// The least a column of words is narrowed to.
const LEAST: usize = 10;

/// A table in columns: numbers stand to the right, words that are too wide go on below.
fn columns(table: &Table, width: usize, out: &mut Vec<Row>) {
    let cells = |at: usize| table.rows.iter().filter_map(move |row| row.get(at));
    let number = |text: &String| {
        text.is_empty() || text.parse::<f64>().is_ok() || text.trim_end_matches('%').parse::<f64>().is_ok()
    };
    let right: Vec<bool> = (0..table.heads.len()).map(|at| cells(at).all(number)).collect();
    let mut wide: Vec<usize> = table
        .heads
        .iter()
        .enumerate()
        .map(|(at, head)| cells(at).map(|cell| cell.width()).chain([head.width()]).max().unwrap_or(0))
        .collect();
    let all = |wide: &[usize]| wide.iter().sum::<usize>() + GAP * wide.len();
    while all(&wide) > width {
        // The widest column of words gives way.
        let widest = wide.iter_mut().zip(&right).filter(|(w, right)| !**right && **w > LEAST).max_by_key(|(w, _)| **w);
        let Some((widest, _)) = widest else { break };
        *widest = widest.saturating_sub(1);
    }
    let shape: Vec<(usize, bool)> = wide.into_iter().zip(right).collect();
    out.extend(line(&table.heads, &shape).into_iter().map(Row::Head));
    for row in &table.rows {
        out.extend(line(row, &shape).into_iter().map(Row::Text));
    }
}

/// One row of a table, over as many lines as its longest cell takes.
fn line(row: &[String], shape: &[(usize, bool)]) -> Vec<String> {
    let cells: Vec<Vec<String>> = row.iter().zip(shape).map(|(cell, (wide, _))| hung(cell, *wide, 0)).collect();
    let many = cells.iter().map(Vec::len).max().unwrap_or(1);
    let of = |n: usize| {
        let mut out = String::new();
        for (cell, (wide, right)) in cells.iter().zip(shape) {
            let text = cell.get(n).map_or("", String::as_str);
            let blank = " ".repeat(wide.saturating_sub(text.width()));
            out.push_str(&" ".repeat(GAP));
            if *right {
                out.push_str(&blank);
                out.push_str(text);
            } else {
                out.push_str(text);
                out.push_str(&blank);
            }
        }
        out.trim_end().to_owned()
    };
    (0..many).map(of).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_table_keeps_to_its_width_and_numbers_stand_to_the_right() {
        let table = Table {
            heads: ["cause", "pots"].map(str::to_owned).to_vec(),
            rows: vec![
                vec!["knocked off the bench by the cart of the morning".to_owned(), "7".to_owned()],
                vec!["frost".to_owned(), "120".to_owned()],
            ],
        };
        let mut out = Vec::new();
        columns(&table, 30, &mut out);
        let lines: Vec<&str> = out.iter().map(Row::text).collect();
        assert!(lines.iter().all(|line| line.width() <= 30), "{lines:#?}");
        assert!(lines[0].starts_with("  cause") && lines[0].ends_with("pots"), "{lines:#?}");
        assert!(
            lines.iter().any(|line| line.trim_start().starts_with("frost") && line.ends_with(" 120")),
            "{lines:#?}"
        );
        assert!(lines.len() > 3, "a long cause goes on below: {lines:#?}");
    }
}
