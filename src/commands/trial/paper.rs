//! `benchwalk trial CODE --map` and `--labels`: the layout of a trial on paper.

use crate::report::trial::map::{self, Purpose};
use crate::report::trial::{Laid, labels};
use clap::{Args, ValueEnum};

/// Options for the layout of a trial on paper.
#[derive(Debug, Args)]
pub(super) struct PaperArgs {
    /// Print its map: for giving the treatments, or for reading without them.
    #[arg(
        long, value_enum, num_args = 0..=1, default_missing_value = "giving", value_name = "FOR", requires = "code",
        conflicts_with_all = ["csv", "reading", "before"]
    )]
    map: Option<MapFor>,
    /// Print labels for its plots: number and place, never the treatment.
    #[arg(long, requires = "code", conflicts_with_all = ["map", "csv", "reading", "before"])]
    labels: bool,
}

/// What a map is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum MapFor {
    /// For giving the treatments, with what to weigh out.
    Giving,
    /// For reading: numbers only.
    Reading,
}

impl PaperArgs {
    /// True where a map or labels are asked for.
    pub(super) const fn is_asked(&self) -> bool {
        self.labels || self.map.is_some()
    }

    /// The map or the labels, as a page or as text.
    pub(super) fn print(&self, laid: &Laid<'_>, html: bool) -> String {
        let purpose = match self.map {
            Some(MapFor::Reading) => Purpose::Reading,
            Some(MapFor::Giving) => Purpose::Giving,
            None if html => return labels::html(laid),
            None => return labels::text(laid),
        };
        if html { map::html(laid, purpose) } else { map::text(laid, purpose) }
    }
}
