//! How many blocks: the least difference that each number of them would show.

use super::{Against, Rules};
use crate::stats::{Dunnett, Sides, least_seen, range_quantile};
use crate::terms::Design;

/// Most blocks that are thought of.
const MOST: usize = 100;

/// What so many blocks would show.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Planned {
    /// Blocks, or plots a treatment.
    pub blocks: usize,
    /// Degrees of freedom of the rest.
    pub df: usize,
    /// The least difference found with the power wanted; `None` where nothing is left to judge by.
    pub seen: Option<f64>,
}

/// Degrees of freedom of the rest, for so many treatments and blocks (or plots a treatment).
pub const fn error_df(design: Design, treatments: usize, blocks: usize) -> usize {
    match design {
        Design::RandomizedBlocks | Design::AsLaid => treatments.saturating_sub(1) * blocks.saturating_sub(1),
        Design::CompletelyRandomized => treatments * blocks.saturating_sub(1),
        Design::LatinSquare => treatments.saturating_sub(1) * treatments.saturating_sub(2),
    }
}

/// What so many blocks would show, for plots with the standard deviation `sd`.
pub fn seen(
    (design, treatments, blocks): (Design, usize, usize),
    sd: f64,
    against: Against,
    (alpha, power): (f64, f64),
) -> Planned {
    let df = error_df(design, treatments, blocks);
    let critical = match against {
        Against::All => range_quantile(alpha, treatments, df as f64).map(|q| q / std::f64::consts::SQRT_2),
        Against::Control => {
            let others = vec![blocks.max(1); treatments.saturating_sub(1)];
            Dunnett::of_counts(&others, blocks.max(1)).quantile(alpha, df as f64, Sides::Two)
        }
    };
    let error = sd * (2.0 / blocks as f64).sqrt();
    let seen = critical.and_then(|c| least_seen(power, c, df as f64)).map(|d| d * error).filter(|d| d.is_finite());
    Planned { blocks, df, seen }
}

/// The rows to choose from, and the one that is offered: the fewest blocks that show `matters` and leave the degrees of freedom that
/// the limits want; two fewer to four more. `None` where even a hundred do not show it.
pub fn planned(
    (design, treatments): (Design, usize),
    (sd, matters): (f64, f64),
    against: Against,
    rules: Rules,
) -> Option<(Vec<Planned>, usize)> {
    let of = |blocks| seen((design, treatments, blocks), sd, against, (rules.alpha, rules.power));
    let shows = |row: &Planned| row.seen.is_some_and(|d| d <= matters) && row.df >= rules.good_df;
    // More blocks always show more: the fewest are found by halving.
    let (mut low, mut high) = (1, MOST);
    if !shows(&of(high)) {
        return None;
    }
    while high - low > 1 {
        let middle = usize::midpoint(low, high);
        if shows(&of(middle)) { high = middle } else { low = middle }
    }
    let rows = (high.saturating_sub(2).max(2)..=high + 4).map(of).collect();
    Some((rows, high))
}
