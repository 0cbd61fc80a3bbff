//! Tests by rank for scores: Kruskal-Wallis and Friedman, ties corrected.

/// The ranks of some values from 1 on; equal values share the mean of theirs.
pub fn ranks(values: &[f64]) -> Vec<f64> {
    let rank = |value: &f64| {
        let below = values.iter().filter(|other| *other < value).count() as f64;
        let equal = values.iter().filter(|other| other.total_cmp(value).is_eq()).count() as f64;
        below + f64::midpoint(equal, 1.0)
    };
    values.iter().map(rank).collect()
}

/// The sum of n³ - n over the runs of equal values.
fn ties(values: &[f64]) -> f64 {
    // Each of n equal values adds n² - 1, so the run adds n³ - n.
    let one = |value: &f64| {
        let equal = values.iter().filter(|other| other.total_cmp(value).is_eq()).count() as f64;
        equal * equal - 1.0
    };
    values.iter().map(one).sum()
}

/// The Kruskal-Wallis statistic of several groups, ties corrected (Hollander and Wolfe 1973); `None` of under two groups, or where
/// all values are equal. Its distribution is near chi-square with one degree of freedom fewer than groups.
pub fn kruskal_wallis(groups: &[Vec<f64>]) -> Option<f64> {
    let all: Vec<f64> = groups.iter().flatten().copied().collect();
    let n = all.len() as f64;
    let ranked = ranks(&all);
    let mut rest = ranked.as_slice();
    let mut sum = 0.0;
    for group in groups {
        let (of_group, others) = rest.split_at_checked(group.len())?;
        rest = others;
        let total: f64 = of_group.iter().sum();
        if !group.is_empty() {
            sum += total * total / group.len() as f64;
        }
    }
    let correction = 1.0 - ties(&all) / (n * n * n - n);
    let statistic = (12.0 / (n * (n + 1.0)) * sum - 3.0 * (n + 1.0)) / correction;
    (groups.len() > 1 && correction > 0.0 && statistic.is_finite()).then_some(statistic)
}

/// Friedman's statistic of blocks of the same treatments in the same order, ties corrected (Hollander and Wolfe 1973); `None` of under
/// two blocks or treatments, of blocks of different length, or where all values of each block are equal. With few blocks its
/// distribution is far from chi-square: it is to be reshuffled.
pub fn friedman(blocks: &[Vec<f64>]) -> Option<f64> {
    let treatments = blocks.first()?.len();
    if blocks.len() < 2 || treatments < 2 || blocks.iter().any(|block| block.len() != treatments) {
        return None;
    }
    let (n, k) = (blocks.len() as f64, treatments as f64);
    let mut totals = vec![0.0; treatments];
    let mut tied = 0.0;
    for block in blocks {
        for (total, rank) in totals.iter_mut().zip(ranks(block)) {
            *total += rank;
        }
        tied += ties(block);
    }
    let middle = n * (k + 1.0) / 2.0;
    let squares: f64 = totals.iter().map(|total| (total - middle) * (total - middle)).sum();
    let statistic = 12.0 * squares / (n * k * (k + 1.0) - tied / (k - 1.0));
    statistic.is_finite().then_some(statistic)
}
