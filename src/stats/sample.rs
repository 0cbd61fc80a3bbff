//! The mean, the median and the variance of some readings.

/// The mean; `None` of none.
pub fn mean(readings: &[f64]) -> Option<f64> {
    (!readings.is_empty()).then(|| readings.iter().sum::<f64>() / readings.len() as f64)
}

/// The median; `None` of none. Of an even number it is the mean of the two in the middle.
pub fn median(readings: &[f64]) -> Option<f64> {
    let mut sorted = readings.to_vec();
    sorted.sort_by(f64::total_cmp);
    let upper = sorted.get(sorted.len() / 2).copied()?;
    let lower = sorted.get(sorted.len().checked_sub(1)? / 2).copied()?;
    Some(f64::midpoint(lower, upper))
}

/// The variance, with one degree of freedom fewer than readings; `None` of fewer than two.
pub fn variance(readings: &[f64]) -> Option<f64> {
    let middle = mean(readings)?;
    let squares: f64 = readings.iter().map(|v| (v - middle) * (v - middle)).sum();
    (readings.len() > 1).then(|| squares / (readings.len() - 1) as f64)
}

/// Readings less their mean.
pub fn centered(readings: &[f64]) -> Vec<f64> {
    let middle = mean(readings).unwrap_or_default();
    readings.iter().map(|v| v - middle).collect()
}

/// A column of ones and zeros.
pub fn marks(flags: impl Iterator<Item = bool>) -> Vec<f64> {
    flags.map(|is| if is { 1.0 } else { 0.0 }).collect()
}
