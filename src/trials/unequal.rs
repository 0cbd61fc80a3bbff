//! What is done where the usual intervals do not hold: logarithms of counts and wide ranges, else pairs block by block.

use super::model::{Term, terms};
use super::{Data, Difference, Reading};
use crate::stats::{mean, t_tails, t_two_sided, variance};

/// Readings whose largest is over so many times the smallest are taken as logarithms.
const WIDE: f64 = 10.0;

/// The trial with logarithms of its readings, where these are counts or span a wide range, and all above zero.
pub(super) fn logarithms(data: &Data) -> Option<Data> {
    let values: Vec<f64> = data.read().map(|(_, value)| value).collect();
    let (low, high) = values.iter().fold((f64::INFINITY, 0.0_f64), |(l, h), v| (l.min(*v), h.max(*v)));
    if low <= 0.0 || !(data.reading == Reading::Counted || high > WIDE * low) {
        return None;
    }
    let mut logs = data.clone();
    for plot in &mut logs.plots {
        plot.value = plot.value.map(f64::ln);
    }
    Some(logs)
}

/// Pairs compared by their own spread alone: in blocks the differences within them, else Welch's t; all at once by Bonferroni.
pub(super) fn by_pairs(data: &Data, (pairs, alpha): (&[(usize, usize)], f64)) -> Vec<Difference> {
    let times = pairs.len().max(1) as f64;
    let blocks = terms(data) == [Term::Block];
    let one = |pair: &(usize, usize)| {
        let (difference, error, df) = if blocks { within_blocks(data, *pair)? } else { welch(data, *pair)? };
        let half = t_two_sided(1.0 - alpha / times, df)? * error;
        let p = (times * t_tails(difference / error, df)).min(1.0);
        let interval = (difference - half, difference + half);
        Some(Difference { pair: *pair, difference, error, interval, p })
    };
    pairs.iter().filter_map(one).collect()
}

/// The mean of the differences within blocks, its standard error, its degrees of freedom.
fn within_blocks(data: &Data, (one, other): (usize, usize)) -> Option<(f64, f64, f64)> {
    let mut blocks: Vec<u32> = data.plots.iter().filter_map(|p| p.block).collect();
    blocks.sort_unstable();
    blocks.dedup();
    let of = |block: u32, treatment: usize| {
        let values: Vec<f64> =
            data.read().filter(|(p, _)| p.block == Some(block) && p.treatment == treatment).map(|(_, v)| v).collect();
        mean(&values)
    };
    let differences: Vec<f64> = blocks.iter().filter_map(|b| Some(of(*b, one)? - of(*b, other)?)).collect();
    let (mean, n) = (mean(&differences)?, differences.len() as f64);
    let error = (variance(&differences)? / n).sqrt();
    (error > 0.0).then_some((mean, error, n - 1.0))
}

/// Welch's difference of two means, its standard error, its degrees of freedom.
fn welch(data: &Data, (one, other): (usize, usize)) -> Option<(f64, f64, f64)> {
    let of = |treatment: usize| -> Vec<f64> {
        data.read().filter(|(p, _)| p.treatment == treatment).map(|(_, v)| v).collect()
    };
    let (a, b) = (of(one), of(other));
    let (na, nb) = (a.len() as f64, b.len() as f64);
    let (va, vb) = (variance(&a)? / na, variance(&b)? / nb);
    let df = (va + vb) * (va + vb) / (va * va / (na - 1.0) + vb * vb / (nb - 1.0));
    let error = (va + vb).sqrt();
    (error > 0.0).then_some((mean(&a)? - mean(&b)?, error, df))
}
