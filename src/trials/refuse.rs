//! What cannot be judged, and what must be said beside a judgment.

use super::{Data, Plot};
use crate::terms::Design;
use chrono::NaiveDate;

/// Hundredths of the living plots that must be read on a day.
pub(super) const READ: usize = 90;

/// Why nothing is separated.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Refused {
    /// Each treatment stands once.
    Once,
    /// Each treatment has its own bench.
    OwnBench,
    /// Treatment and position run together: the first treatment that cannot be separated.
    Together(usize),
    /// So few degrees of freedom are left for the rest.
    FewLeft(usize),
    /// All readings of a treatment are equal.
    NoSpread,
    /// So many of so many living plots are not read.
    NotRead(usize, usize),
    /// A treatment has fewer than two plots read.
    Thin(usize),
}

/// What is said beside a judgment.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Caution {
    /// Few degrees of freedom.
    FewDegrees(usize),
    /// Not drawn by lot.
    NotDrawn,
    /// Plots lost, of each treatment.
    Lost(Vec<usize>),
    /// Every bench has one treatment: the benches are the plots.
    Benches,
    /// Pots were moved to another bench, first on this day.
    Moved(NaiveDate),
    /// Feed runs together on the bench.
    SharedFeed,
    /// So many readings of the trial are looked at.
    Readings(usize),
}

/// What can be seen of the plots before anything is fitted.
pub(super) fn refused(data: &Data) -> Option<Refused> {
    let living = data.plots.iter().filter(|p| !p.lost).count();
    let read = data.read().count();
    if data.counts(|_| true).iter().all(|n| *n <= 1) {
        let benches = data.plots.iter().all(|p| data.plots.iter().filter(|o| o.bench == p.bench).count() == 1);
        return Some(if benches && data.plots.len() > 1 { Refused::OwnBench } else { Refused::Once });
    }
    if read * 100 < living * READ {
        return Some(Refused::NotRead(living.saturating_sub(read), living));
    }
    let thin = data.counts(|plot| plot.value.is_some()).iter().position(|n| *n < 2);
    thin.map(Refused::Thin)
}

/// What is to be said beside a judgment, with the degrees of freedom of the rest and those it should have.
pub(super) fn cautions(data: &Data, by_bench: bool, (df, good): (usize, usize)) -> Vec<Caution> {
    let mut all = Vec::new();
    if by_bench {
        all.push(Caution::Benches);
    }
    if df < good {
        all.push(Caution::FewDegrees(df));
    }
    if data.design == Design::AsLaid {
        all.push(Caution::NotDrawn);
    }
    let lost = data.counts(|plot: &Plot| plot.lost);
    if lost.iter().any(|n| *n > 0) {
        all.push(Caution::Lost(lost));
    }
    all
}
