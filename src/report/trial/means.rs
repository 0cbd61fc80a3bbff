//! The means of the treatments, a row each; where nothing is separated those of the plots as they stand.

use super::{Found, Words};
use crate::stats::mean;

/// A treatment with its mean.
#[derive(Debug, Clone, PartialEq)]
pub struct MeanRow {
    /// The treatment.
    pub treatment: String,
    /// Its mean, in the journal's unit; `None` where no plot of it was read.
    pub mean: Option<f64>,
    /// Its interval; `None` where too little is left for one.
    pub interval: Option<(f64, f64)>,
    /// Plots read.
    pub read: usize,
    /// Plots lost.
    pub lost: usize,
}

/// The mean of each treatment.
pub(super) fn means(found: &Found) -> Vec<Option<f64>> {
    let Some(data) = &found.data else { return vec![None; found.trial().treatments.len()] };
    let of = |treatment: usize| {
        if let Ok(analysis) = &found.analysis {
            return analysis.means.iter().find(|mean| mean.treatment == treatment).map(|mean| mean.mean);
        }
        let plots = data.plots.iter().filter(|plot| plot.treatment == treatment);
        mean(&plots.filter_map(|plot| plot.value).collect::<Vec<f64>>())
    };
    (0..data.treatments.len()).map(of).collect()
}

impl Found {
    /// The treatments with their means, in the trial's order.
    pub fn mean_rows(&self) -> Vec<MeanRow> {
        let means = means(self);
        let count = |treatment: usize, which: fn(&crate::trials::Plot) -> bool| {
            let plots = self.data.iter().flat_map(|data| &data.plots);
            plots.filter(|plot| plot.treatment == treatment && which(plot)).count()
        };
        let interval = |treatment: usize| {
            let analysis = self.analysis.as_ref().ok()?;
            analysis.means.iter().find(|mean| mean.treatment == treatment)?.interval
        };
        let row = |(at, (treatment, mean)): (usize, (&String, Option<f64>))| MeanRow {
            treatment: treatment.clone(),
            mean,
            interval: interval(at).filter(|_| !self.is_scored()),
            read: count(at, |plot| plot.value.is_some()),
            lost: count(at, |plot| plot.lost),
        };
        self.trial().treatments.iter().zip(means).enumerate().map(row).collect()
    }
}

impl Words<'_> {
    /// A mean or a difference as a number: `11.5`; `-` where there is none.
    pub fn number(&self, value: Option<f64>) -> String {
        value.map_or_else(|| "-".to_owned(), |value| self.scale.number(value))
    }

    /// The interval of a mean: `10.9 to 12.0`; empty where there is none.
    pub fn interval(&self, row: &MeanRow) -> String {
        row.interval.map_or_else(String::new, |(low, high)| {
            format!("{} to {}", self.scale.number(low), self.scale.number(high))
        })
    }
}

/// The intervals of all rows drawn with signs in so many columns: `|-o-|`; the mean alone where a row has no interval.
pub fn bar(rows: &[MeanRow], at: usize, columns: usize) -> String {
    let values = rows.iter().flat_map(|row| [row.mean, row.interval.map(|i| i.0), row.interval.map(|i| i.1)]).flatten();
    let (low, high) = values.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), v| (l.min(v), h.max(v)));
    let Some((row, mean)) = rows.get(at).and_then(|row| Some((row, row.mean?))) else { return String::new() };
    let last = columns.saturating_sub(1);
    let column = |value: f64| {
        let share = if high > low { ((value - low) / (high - low)).clamp(0.0, 1.0) } else { 0.5 };
        // From 0 to the number of columns.
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a share of the columns")]
        let column = (share * last as f64).round() as usize;
        column
    };
    let (from, to) = row.interval.map_or((mean, mean), |interval| interval);
    let (from, middle, to) = (column(from), column(mean), column(to));
    let sign = |at: usize| match at {
        _ if at == middle => 'o',
        _ if at == from || at == to => '|',
        _ if from < at && at < to => '-',
        _ => ' ',
    };
    (0..columns).map(sign).collect::<String>().trim_end().to_owned()
}
