//! The analysis of one reading: what treatment takes of the spread, what position takes, what is left.

use super::checks::{Checks, checks};
use super::compare::{Against, Comparisons, compare, usual};
use super::means::{Mean, means};
use super::model::{Model, terms};
use super::refuse::{Caution, Refused, cautions, refused};
use super::reshuffle::Reshuffle;
use super::response::{Response, response};
use super::unequal::{by_pairs, logarithms};
use super::{Data, Difference, Rules};
use crate::stats::{Draw, Squares, f_tail};
use crate::terms::Design;

/// A part of the spread.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Part {
    /// Degrees of freedom and sum of squares.
    pub squares: Squares,
    /// Its share of the whole.
    pub share: f64,
    /// Its F; `None` of the rest, or with no rest.
    pub f: Option<f64>,
    /// How often as much comes about by chance.
    pub p: Option<f64>,
}

/// What a reading says of treatment and position.
#[derive(Debug, Clone)]
pub struct Analysis {
    /// What position takes, first.
    pub position: Part,
    /// What treatment takes beyond position.
    pub treatment: Part,
    /// What is left.
    pub rest: Part,
    /// The means over all places.
    pub means: Vec<Mean>,
    /// The comparisons by the trial's line.
    pub comparisons: Option<Comparisons>,
    /// The same with position that was left over, where that speaks.
    pub with_position: Option<Comparisons>,
    /// True where those are the verdict: nothing of position was in the design.
    pub position_decides: bool,
    /// Differences of logarithms, or pairs by their own spread, where the usual intervals do not hold.
    pub instead: Option<Instead>,
    /// The response to rates.
    pub response: Option<Response>,
    /// The checks.
    pub checks: Checks,
    /// How much better blocks were than none (Cochran and Cox, from memory); of randomized blocks only.
    pub efficiency: Option<f64>,
    /// Why nothing is separated, where there is not enough to judge by: the means still stand.
    pub refused: Option<Refused>,
    /// What is said beside it.
    pub cautions: Vec<Caution>,
    model: Model,
    data: Data,
}

/// The differences that count where the usual intervals do not hold.
#[derive(Debug, Clone, PartialEq)]
pub enum Instead {
    /// Differences of logarithms: ratios.
    Ratios(Comparisons),
    /// Pairs by their own spread.
    Pairs(Vec<Difference>),
}

impl Analysis {
    /// The differences that decide.
    pub fn verdict(&self) -> &[Difference] {
        if self.refused.is_some() {
            return &[];
        }
        match &self.instead {
            Some(Instead::Ratios(ratios)) => return &ratios.differences,
            Some(Instead::Pairs(pairs)) => return pairs,
            None => {}
        }
        let with = self.with_position.as_ref().filter(|_| self.position_decides);
        with.or(self.comparisons.as_ref()).map(|c| c.differences.as_slice()).unwrap_or_default()
    }

    /// Other comparisons than those of the trial's line.
    pub fn compare(&self, against: Against, rules: Rules) -> Option<Comparisons> {
        compare(&self.model, &self.data, against, (rules.alpha, rules.power))
    }

    /// Begins to reshuffle the treatments with a draw of its own; `None` of a layout that was not drawn.
    pub fn reshuffle(&self, draw: Draw) -> Option<Reshuffle> {
        Reshuffle::of(&self.data, &self.model, draw)
    }

    /// The plots read, with what each lies above its fit.
    pub fn residuals(&self) -> Vec<(u32, f64)> {
        self.data.read().map(|(plot, _)| plot.number).zip(self.model.fit.residuals()).collect()
    }

    /// The trial as it was analyzed: benches as plots, where every bench has one treatment.
    pub const fn data(&self) -> &Data {
        &self.data
    }
}

/// Analyzes the values of one reading.
///
/// # Errors
/// Why nothing can be separated: see [`Refused`].
pub fn analyze(data: &Data, rules: Rules) -> Result<Analysis, Refused> {
    let benches = data.by_bench();
    let (data, by_bench) = (benches.as_ref().unwrap_or(data), benches.is_some());
    if let Some(refused) = refused(data) {
        return Err(if by_bench && refused == Refused::Once { Refused::OwnBench } else { refused });
    }
    let model = Model::of(data, &[]).ok_or(Refused::NoSpread)?;
    if model.is_aliased() {
        let first = model.treatment.clone().position(|column| model.fit.is_aliased(column)).unwrap_or_default();
        return Err(Refused::Together(first.saturating_add(1)));
    }
    let rest = model.fit.rest();
    let whole = model.fit.squares(1..model.columns.len()).ss + rest.ss;
    if rest.df > 0 && rest.ss <= whole.max(f64::MIN_POSITIVE) * 1e-14 {
        return Err(Refused::NoSpread);
    }
    let part = |squares: Squares| {
        let f = squares.mean().zip(rest.mean()).map(|(of, rest)| of / rest);
        let p = f.map(|f| f_tail(f, squares.df as f64, rest.df as f64));
        Part { squares, share: squares.ss / whole, f, p }
    };
    let (position, treatment) =
        (part(model.fit.squares(model.position.clone())), part(model.fit.squares(model.treatment.clone())));
    let chances = (rules.alpha, rules.power);
    let enough = rest.df >= rules.least_df;
    let against = usual(data);
    let comparisons = if enough { compare(&model, data, against, chances) } else { None };
    let checks = checks(&model, data);
    let left_over = checks.left_over.as_ref().filter(|l| enough && l.p < rules.alpha);
    let with_position =
        left_over.and_then(|l| Model::of(data, &l.columns)).and_then(|m| compare(&m, data, against, chances));
    let instead = comparisons.as_ref().filter(|_| checks.doubt_intervals()).and_then(|c| instead(data, c, chances));
    Ok(Analysis {
        position,
        treatment,
        rest: Part { f: None, p: None, ..part(rest) },
        means: means(&model, data.treatments.len(), (rules.alpha, rules.least_df)),
        comparisons,
        with_position,
        position_decides: terms(data).is_empty(),
        instead,
        response: if enough { response(&model, data, rules.alpha) } else { None },
        efficiency: efficiency(data, &position, &part(rest)),
        refused: (!enough).then_some(Refused::FewLeft(rest.df)),
        cautions: cautions(data, by_bench, (rest.df, rules.good_df)),
        checks,
        model,
        data: data.clone(),
    })
}

/// What decides where spread or shape speak.
fn instead(data: &Data, usual: &Comparisons, (alpha, power): (f64, f64)) -> Option<Instead> {
    let logs = logarithms(data).and_then(|logs| {
        let model = Model::of(&logs, &[])?;
        let sound = !checks(&model, &logs).doubt_intervals();
        compare(&model, &logs, usual.against, (alpha, power)).filter(|_| sound)
    });
    if let Some(ratios) = logs {
        return Some(Instead::Ratios(ratios));
    }
    let pairs: Vec<(usize, usize)> = usual.differences.iter().map(|d| d.pair).collect();
    let pairs = by_pairs(data, (&pairs, alpha));
    (!pairs.is_empty()).then_some(Instead::Pairs(pairs))
}

/// How much better blocks were than none: `[(b-1) MSB + b (t-1) MSE] / [(bt-1) MSE]`.
fn efficiency(data: &Data, position: &Part, rest: &Part) -> Option<f64> {
    if data.design != Design::RandomizedBlocks {
        return None;
    }
    let (between, error) = (position.squares.mean()?, rest.squares.mean()?);
    let (blocks, treatments) = (position.squares.df as f64 + 1.0, data.treatments.len() as f64);
    let (above, below) =
        ((blocks - 1.0) * between + blocks * (treatments - 1.0) * error, (blocks * treatments - 1.0) * error);
    (data.read().count() as f64 - blocks * treatments).abs().lt(&0.5).then(|| above / below)
}
