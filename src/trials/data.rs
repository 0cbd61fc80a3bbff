//! What is analyzed: the plots of a trial with one value each.

use crate::stats::mean;
use crate::terms::Design;

/// What kind of reading the values are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reading {
    /// Measured: a length, a number.
    Measured,
    /// Counted.
    Counted,
    /// Judged in classes: the means are shown, ranks decide.
    Scored,
}

/// A plot and its value on the day.
#[derive(Debug, Clone, PartialEq)]
pub struct Plot {
    /// Its number in the trial.
    pub number: u32,
    /// Its treatment, by its place among them.
    pub treatment: usize,
    /// Its block.
    pub block: Option<u32>,
    /// The bench it stands on.
    pub bench: String,
    /// Its row on the bench.
    pub row: u32,
    /// Its column on the bench.
    pub column: u32,
    /// The mean of its pots' readings; `None` where it was not read.
    pub value: Option<f64>,
    /// What was read of it before the treatment.
    pub before: Option<f64>,
    /// All its pots are lost.
    pub lost: bool,
}

/// A trial with the values of one reading.
#[derive(Debug, Clone, PartialEq)]
pub struct Data {
    /// The treatments by name.
    pub treatments: Vec<String>,
    /// Their rates, where they are rates of one thing.
    pub rates: Option<Vec<f64>>,
    /// The treatment that others are compared with.
    pub control: Option<usize>,
    /// How places were given.
    pub design: Design,
    /// What the values are.
    pub reading: Reading,
    /// All plots laid, the lost ones too.
    pub plots: Vec<Plot>,
}

impl Data {
    /// The plots that were read, with their values.
    pub(super) fn read(&self) -> impl Iterator<Item = (&Plot, f64)> {
        self.plots.iter().filter_map(|plot| Some((plot, plot.value?)))
    }

    /// How many plots of each treatment fulfil something.
    pub(super) fn counts(&self, which: impl Fn(&Plot) -> bool) -> Vec<usize> {
        let of = |treatment| self.plots.iter().filter(|p| p.treatment == treatment && which(p)).count();
        (0..self.treatments.len()).map(of).collect()
    }

    /// The trial with its benches as plots, where every bench has one treatment: pots on a bench are subsamples then. `None` where the
    /// treatments share benches, or each bench is one plot already.
    pub(super) fn by_bench(&self) -> Option<Self> {
        let mut benches: Vec<(&str, Vec<&Plot>)> = Vec::new();
        for plot in &self.plots {
            match benches.iter_mut().find(|(bench, _)| *bench == plot.bench) {
                Some((_, plots)) => plots.push(plot),
                None => benches.push((&plot.bench, vec![plot])),
            }
        }
        let same = |plots: &[&Plot]| plots.windows(2).all(|pair| matches!(pair, [a, b] if a.treatment == b.treatment));
        if benches.len() < 2 || benches.len() == self.plots.len() || !benches.iter().all(|(_, plots)| same(plots)) {
            return None;
        }
        let plots = (1..).zip(&benches).filter_map(|(number, (_, plots))| {
            let first = *plots.first()?;
            let block = first.block.filter(|block| plots.iter().all(|p| p.block == Some(*block)));
            let (value, before) = (mean_of(plots.iter().map(|p| p.value)), mean_of(plots.iter().map(|p| p.before)));
            let lost = plots.iter().all(|p| p.lost);
            Some(Plot { number, block, value, before, lost, row: number, column: 1, ..first.clone() })
        });
        let blocks = benches.iter().all(|(_, plots)| plots.first().is_some_and(|p| p.block.is_some()));
        let design = if blocks { self.design } else { Design::CompletelyRandomized };
        Some(Self { plots: plots.collect(), design, ..self.clone() })
    }
}

/// The mean of the values there are.
fn mean_of(values: impl Iterator<Item = Option<f64>>) -> Option<f64> {
    mean(&values.flatten().collect::<Vec<f64>>())
}
