//! Sheets of labels or cards: two columns to a page, cut along the lines. On a phone one column.

use crate::report::html::{escape, sheet};
use crate::units::System;

/// The paper in the printer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Paper {
    /// 8.5 by 11 inches.
    Letter,
    /// 210 by 297 mm.
    A4,
}

impl Paper {
    /// What is common where a site types its units.
    pub const fn of(system: System) -> Self {
        match system {
            System::Us => Self::Letter,
            System::Metric => Self::A4,
        }
    }

    /// Its class on the page: each has its own page size and cells.
    const fn class(self) -> &'static str {
        match self {
            Self::Letter => "letter",
            Self::A4 => "a4",
        }
    }
}

/// What the sheets are cut into.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Cut {
    /// Labels, five rows a page.
    Labels,
    /// Care cards, four rows a page.
    Cards,
}

impl Cut {
    const fn a_page(self) -> usize {
        match self {
            Self::Labels => 10,
            Self::Cards => 8,
        }
    }

    const fn class(self) -> &'static str {
        match self {
            Self::Labels => "labels",
            Self::Cards => "cards",
        }
    }
}

/// The sheets as a page; each of `cells` is HTML already.
pub(super) fn html(title: &str, cells: &[String], (paper, cut): (Paper, Cut)) -> String {
    let pages = cells.chunks(cut.a_page()).map(|page| {
        let cells = page.iter().fold(String::new(), |out, cell| format!("{out}<div class=\"cell\">{cell}</div>\n"));
        format!("<section class=\"sheet {} {}\">\n{cells}</section>\n", cut.class(), paper.class())
    });
    let count = match (cells.len(), cut) {
        (1, Cut::Labels) => "1 label".to_owned(),
        (1, Cut::Cards) => "1 card".to_owned(),
        (n, Cut::Labels) => format!("{n} labels"),
        (n, Cut::Cards) => format!("{n} cards"),
    };
    let size = match paper {
        Paper::Letter => "Letter paper (8.5 by 11 in)",
        Paper::A4 => "A4 paper (210 by 297 mm)",
    };
    let head = format!(
        "<header><h1>{}</h1>\n<p>{count} for {size}. Print at 100%, without the browser's own headers; cut along the lines.</p></header>\n",
        escape(title)
    );
    sheet(title, &pages.fold(head, |out, page| out + &page))
}
