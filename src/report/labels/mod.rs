//! Labels for benches and plots to scan, and care cards for the pots that are sold: sheets for a printer, as HTML.
//!
//! A label has its code large, as QR code and as Code 128. Printed codes begin with `=`, the key that begins a code on the
//! screens: a scanner types it like a keyboard.

pub mod care;
mod codes;
mod sheet;

pub use sheet::Paper;

use crate::record::Plot;
use crate::season::Season;
use sheet::Cut;

/// The sign before a printed code; the same key begins a code on the screens.
pub const SIGN: char = '=';

/// One label.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Label {
    /// The code of the bench or plot.
    code: String,
    /// What is printed largest: the code, or the number of a plot.
    large: String,
    /// Where it is, in words.
    place: String,
}

impl Label {
    /// Of a bench; `None` where the season has none of this code.
    pub fn of_bench(season: &Season, code: &str) -> Option<Self> {
        let bench = season.bench(code)?;
        let place = format!("house {}", bench.house);
        Some(Self { code: bench.bench.clone(), large: bench.bench.clone(), place })
    }

    /// Of a plot: its number and place, never its treatment.
    pub fn of_plot(plot: &Plot) -> Self {
        let place = format!("plot {}, bench {} row {} column {}", plot.plot, plot.bench, plot.row, plot.column);
        Self { code: plot.plot.clone(), large: plot.number().to_string(), place }
    }

    /// What a scanner reads.
    fn scanned(&self) -> String {
        format!("{SIGN}{}", self.code)
    }
}

/// The labels as sheets of two columns and five rows.
pub fn html(labels: &[Label], site: &str, paper: Paper) -> String {
    let drawn: Vec<String> = labels.iter().map(|label| codes::drawn(label, site)).collect();
    sheet::html(&format!("Labels, {site}"), &drawn, (paper, Cut::Labels))
}
