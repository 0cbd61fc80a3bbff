//! The means of the treatments, over all places alike.

use super::model::Model;
use crate::stats::t_two_sided;

/// The mean of a treatment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mean {
    /// The treatment, by its place among them.
    pub treatment: usize,
    /// Its mean, as if it stood at every place alike.
    pub mean: f64,
    /// Its standard error.
    pub error: f64,
    /// Its interval of 95%; `None` where too little is left for one.
    pub interval: Option<(f64, f64)>,
}

/// The means of all treatments.
pub(super) fn means(model: &Model, treatments: usize, (alpha, least_df): (f64, usize)) -> Vec<Mean> {
    let rest = model.fit.rest();
    let square = rest.mean().unwrap_or_default();
    let t = t_two_sided(1.0 - alpha, rest.df as f64).filter(|_| rest.df >= least_df);
    let one = |treatment| {
        let (mean, variance) = model.fit.estimate(&model.weights(treatment))?;
        let error = (square * variance).sqrt();
        let interval = t.map(|t| (mean - t * error, mean + t * error));
        Some(Mean { treatment, mean, error, interval })
    };
    (0..treatments).filter_map(one).collect()
}
