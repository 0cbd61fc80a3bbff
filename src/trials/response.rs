//! The response to rates: does it rise, does it bend, and from which rate on does more do nothing.

use super::model::Model;
use super::{Data, Plot};
use crate::stats::{Fit, Plateau, f_tail, plateau, t_two_sided};

/// A part of the response, tested against the rest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Contrast {
    /// Its F.
    pub f: f64,
    /// How often as much comes about by chance.
    pub p: f64,
}

/// The response to rates.
#[derive(Debug, Clone, PartialEq)]
pub struct Response {
    /// The straight line.
    pub linear: Contrast,
    /// What bends beyond it; `None` with two rates.
    pub quadratic: Option<Contrast>,
    /// What neither takes; `None` with three rates.
    pub more: Option<Contrast>,
    /// The rate at which the bent line is highest or lowest; `None` where it is straight.
    pub turn: Option<f64>,
    /// A line that ends in a plateau, fitted where the response is there; `None` with under four rates.
    pub plateau: Option<Plateau>,
    /// Whether the treatments' means lie off that line: lack of fit.
    pub lack_of_fit: Option<Contrast>,
}

impl Response {
    /// The plateau where it may be said: its join lies surely below the highest rate, and a straight line fits worse.
    pub fn said_plateau(&self, rates: &[f64], alpha: f64) -> Option<Plateau> {
        let highest = rates.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        self.plateau.filter(|p| p.high < highest && p.line_p < alpha)
    }
}

/// The response of a trial with rates; `None` without rates, or with nothing left to judge by.
pub(super) fn response(model: &Model, data: &Data, alpha: f64) -> Option<Response> {
    let rates = data.rates.as_ref()?;
    let plots: Vec<&Plot> = data.read().map(|(plot, _)| plot).collect();
    let rate: Vec<f64> = plots.iter().filter_map(|p| rates.get(p.treatment).copied()).collect();
    let position = model.before_treatment();
    let start = position.len();
    let square: Vec<f64> = rate.iter().map(|r| r * r).collect();
    let treatment = model.columns.get(model.treatment.clone())?.to_vec();
    let columns = [position.clone(), vec![rate.clone(), square.clone()], treatment].concat();
    let full = Fit::of(&columns, &model.values)?;
    let rest = full.rest();
    let contrast = |columns: std::ops::Range<usize>| {
        let part = full.squares(columns);
        let f = part.mean()? / rest.mean()?;
        f.is_finite().then(|| Contrast { f, p: f_tail(f, part.df as f64, rest.df as f64) })
    };
    let linear = contrast(start..start + 1)?;
    let quadratic = contrast(start + 1..start + 2);
    let more = contrast(start + 2..columns.len());
    let is_there = linear.p < alpha || quadratic.is_some_and(|q| q.p < alpha);
    let critical = |df: usize| t_two_sided(1.0 - alpha, df as f64).map(|t| t * t);
    let plateau = is_there.then(|| plateau(&position, &rate, &model.values, critical)).flatten();
    let lack_of_fit = plateau.and_then(|p| {
        let df = p.df.checked_sub(rest.df).filter(|df| *df > 0)? as f64;
        let f = (p.rest - rest.ss).max(0.0) / df / rest.mean()?;
        Some(Contrast { f, p: f_tail(f, df, rest.df as f64) })
    });
    let bent = [position, vec![rate, square]].concat();
    let turn = quadratic.and_then(|_| turn(&Fit::of(&bent, &model.values)?, start));
    Some(Response { linear, quadratic, more, turn, plateau, lack_of_fit })
}

/// Where a bent line turns.
fn turn(fit: &Fit, start: usize) -> Option<f64> {
    let weight = |at: usize| -> Vec<f64> { (0..start + 2).map(|c| if c == at { 1.0 } else { 0.0 }).collect() };
    let (slope, bend) = (fit.estimate(&weight(start))?.0, fit.estimate(&weight(start + 1))?.0);
    let at = -slope / (2.0 * bend);
    at.is_finite().then_some(at)
}
