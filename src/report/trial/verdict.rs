//! Which treatments are told apart, and by what.

use super::Found;
use crate::trials::{Against, Analysis, Difference, Instead};

/// What the verdict goes by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum By {
    /// Intervals that hold together.
    Intervals,
    /// The same, with the position that was left over.
    Position,
    /// Ratios, of logarithms.
    Ratios,
    /// Pairs by their own spread.
    Pairs,
    /// Ranks or scores, reshuffled.
    Scores,
}

/// Two treatments that are compared, the one with more first.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Told {
    /// By a difference with its interval, in the journal's unit.
    Difference(Difference),
    /// By a difference of logarithms.
    Ratio(Difference),
    /// By scores: the pair, and how often reshuffling separates any pair as far.
    Score((usize, usize), f64),
}

impl Told {
    /// The two, the one with more first.
    pub const fn pair(&self) -> (usize, usize) {
        match self {
            Self::Difference(of) | Self::Ratio(of) => of.pair,
            Self::Score(pair, _) => *pair,
        }
    }
}

/// Which treatments are told apart.
#[derive(Debug, Clone, PartialEq)]
pub struct Verdict {
    /// What it goes by.
    pub by: By,
    /// What was compared.
    pub against: Against,
    /// Those told apart: the highest first, each against the lowest first.
    pub told: Vec<Told>,
    /// Those not told apart, in the trial's order.
    pub untold: Vec<Told>,
}

impl Found {
    /// Which treatments are told apart; `None` where nothing is separated, or while scores are still reshuffled.
    pub fn verdict(&self) -> Option<Verdict> {
        let analysis = self.judged()?;
        let usual = analysis.comparisons.as_ref()?;
        if self.is_scored() && self.goes_by_reshuffling() {
            return self.by_scores(analysis, usual.against);
        }
        let by = match &analysis.instead {
            Some(Instead::Ratios(_)) => By::Ratios,
            Some(Instead::Pairs(_)) => By::Pairs,
            None if analysis.position_decides && analysis.with_position.is_some() => By::Position,
            None => By::Intervals,
        };
        Some(sorted(analysis, (by, usual.against), analysis.verdict()))
    }

    /// The same with position that was left over, where it speaks and does not decide.
    pub fn with_position(&self) -> Option<Verdict> {
        let analysis = self.judged().filter(|analysis| !analysis.position_decides)?;
        let with = analysis.with_position.as_ref()?;
        Some(sorted(analysis, (By::Position, with.against), &with.differences))
    }

    /// The same without the odd plot.
    pub fn verdict_without_odd(&self) -> Option<(u32, Verdict)> {
        let (number, analysis) = self.without_odd.as_ref()?;
        let usual = analysis.comparisons.as_ref()?;
        Some((*number, sorted(analysis, (By::Intervals, usual.against), analysis.verdict())))
    }

    /// Other comparisons than those of the trial's line.
    pub fn compared(&self, against: Against) -> Option<Verdict> {
        let analysis = self.judged()?;
        if self.is_scored() && self.goes_by_reshuffling() {
            return self.by_scores(analysis, against);
        }
        let other = analysis.compare(against, self.rules)?;
        Some(sorted(analysis, (By::Intervals, against), &other.differences))
    }

    fn by_scores(&self, analysis: &Analysis, against: Against) -> Option<Verdict> {
        let control = self.data.as_ref()?.control;
        let compared = |(a, b): (usize, usize)| against == Against::All || control == Some(a) || control == Some(b);
        let pairs = self.reshuffled.as_ref()?.pairs.iter().filter(|(pair, _)| compared(*pair));
        let (found, other): (Vec<_>, Vec<_>) = pairs.copied().partition(|(_, p)| *p < self.rules.alpha);
        let score = |(pair, p): ((usize, usize), f64)| Told::Score(higher_first(analysis, pair), p);
        let mut told: Vec<Told> = found.into_iter().map(score).collect();
        sort(analysis, &mut told);
        Some(Verdict { by: By::Scores, against, told, untold: other.into_iter().map(score).collect() })
    }
}

fn sorted(analysis: &Analysis, (by, against): (By, Against), all: &[Difference]) -> Verdict {
    let (found, other): (Vec<Difference>, Vec<Difference>) = all.iter().copied().partition(Difference::is_found);
    let one = |of: Difference| {
        let of = up(of);
        if by == By::Ratios { Told::Ratio(of) } else { Told::Difference(of) }
    };
    let mut told: Vec<Told> = found.into_iter().map(one).collect();
    sort(analysis, &mut told);
    Verdict { by, against, told, untold: other.into_iter().map(one).collect() }
}

/// The difference turned so that it is above zero.
fn up(of: Difference) -> Difference {
    if of.difference >= 0.0 {
        return of;
    }
    let ((a, b), (low, high)) = (of.pair, of.interval);
    Difference { pair: (b, a), difference: -of.difference, interval: (-high, -low), ..of }
}

fn mean(analysis: &Analysis, treatment: usize) -> f64 {
    analysis.means.iter().find(|mean| mean.treatment == treatment).map_or(f64::NAN, |mean| mean.mean)
}

fn higher_first(analysis: &Analysis, (a, b): (usize, usize)) -> (usize, usize) {
    if mean(analysis, a) < mean(analysis, b) { (b, a) } else { (a, b) }
}

/// The highest first, and of those against the same one the largest difference first.
fn sort(analysis: &Analysis, told: &mut [Told]) {
    told.sort_by(|one, other| {
        let ((a, b), (c, d)) = (one.pair(), other.pair());
        let high = mean(analysis, c).total_cmp(&mean(analysis, a));
        high.then(mean(analysis, b).total_cmp(&mean(analysis, d)))
    });
}
