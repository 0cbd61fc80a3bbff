//! Whether the readings meet what their analysis takes for granted, and whether position is left over.

use super::Data;
use super::model::{Model, Term, terms};
use crate::stats::{Fit, Test, brown_forsythe, centered, f_tail, nonadditivity, odd_one, shapiro_francia};
use crate::terms::Design;
use std::collections::BTreeSet;

/// A check speaks below this chance: they are many and blunt.
pub(super) const SPEAKS: f64 = 0.01;

/// Position that the design did not take up: straight gradients along row and column, after treatment.
#[derive(Debug, Clone, PartialEq)]
pub struct LeftOver {
    /// Its F.
    pub f: f64,
    /// How often as much comes about by chance.
    pub p: f64,
    /// The gradients, centered.
    pub(super) columns: Vec<Vec<f64>>,
}

/// What the checks found; `None` where one cannot be made.
#[derive(Debug, Clone, PartialEq)]
pub struct Checks {
    /// Spread: of a completely randomized trial whether the treatments spread differently, else whether position and treatment add up.
    pub spread: Option<Test>,
    /// Whether the residuals are normal.
    pub normal: Option<Test>,
    /// The oddest plot by its place among those read, and how odd it is.
    pub odd: Option<(usize, Test)>,
    /// Position left over.
    pub left_over: Option<LeftOver>,
}

impl Checks {
    /// True where spread or shape speak: the usual intervals do not hold then.
    pub fn doubt_intervals(&self) -> bool {
        [self.spread, self.normal].into_iter().flatten().any(|test| test.p < SPEAKS)
    }

    /// The odd plot, where it speaks.
    pub fn odd_plot(&self) -> Option<(usize, Test)> {
        self.odd.filter(|(_, test)| test.p < SPEAKS)
    }
}

/// Makes the checks.
pub(super) fn checks(model: &Model, data: &Data) -> Checks {
    let spread = if data.design == Design::CompletelyRandomized {
        let of = |t: usize| data.read().filter(|(p, _)| p.treatment == t).map(|(_, v)| v).collect();
        brown_forsythe(&(0..data.treatments.len()).map(of).collect::<Vec<Vec<f64>>>())
    } else {
        nonadditivity(&model.columns, &model.values)
    };
    Checks {
        spread,
        normal: shapiro_francia(&model.fit.residuals()),
        odd: odd_one(&model.fit),
        left_over: left_over(model, data),
    }
}

/// The straight gradients of row and column that the model does not hold, where they have three levels or more.
fn left_over(model: &Model, data: &Data) -> Option<LeftOver> {
    let held = terms(data);
    let mut columns = Vec::new();
    for term in [Term::Row, Term::Column].into_iter().filter(|term| !held.contains(term)) {
        let places: Vec<u32> =
            data.read().map(|(plot, _)| if term == Term::Row { plot.row } else { plot.column }).collect();
        if places.iter().collect::<BTreeSet<_>>().len() > 2 {
            columns.push(centered(&places.iter().map(|p| f64::from(*p)).collect::<Vec<_>>()));
        }
    }
    let all = [model.columns.clone(), columns.clone()].concat();
    let fit = Fit::of(&all, &model.values)?;
    let (part, rest) = (fit.squares(model.columns.len()..all.len()), fit.rest());
    let f = part.mean()? / rest.mean()?;
    f.is_finite().then(|| LeftOver { f, p: f_tail(f, part.df as f64, rest.df as f64), columns })
}
