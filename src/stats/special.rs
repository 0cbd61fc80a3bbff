//! The usual distributions: normal, t, F, chi-square, their tails and quantiles.

use super::quadrature::reached;
use std::cell::RefCell;

/// What stands in for a zero that would be divided by.
const TINY: f64 = 1e-300;
/// From so many degrees of freedom on Student's distribution is taken as constant: it is within 0.002% of the normal one.
const MOST_DF: f64 = 100_000.0;
/// Steps of a continued fraction after which it is left as it is.
const MOST_STEPS: u32 = 1000;

/// The share of the normal distribution below `z`.
pub fn normal(z: f64) -> f64 {
    0.5 * libm::erfc(-z * std::f64::consts::FRAC_1_SQRT_2)
}

/// The height of the normal curve at `z`.
pub(super) fn normal_density(z: f64) -> f64 {
    (-0.5 * z * z).exp() / (2.0 * std::f64::consts::PI).sqrt()
}

/// Where the share `p` of the normal distribution lies below; `p` strictly between 0 and 1. Newton's method on the tail itself,
/// from the estimate of Abramowitz and Stegun, 26.2.23.
pub fn normal_quantile(p: f64) -> f64 {
    let tail = p.min(1.0 - p).max(f64::MIN_POSITIVE);
    let t = (-2.0 * tail.ln()).sqrt();
    let numerator = 2.515_517 + t * (0.802_853 + t * 0.010_328);
    let denominator = 1.0 + t * (1.432_788 + t * (0.189_269 + t * 0.001_308));
    let mut z = t - numerator / denominator;
    for _ in 0..4 {
        let off = normal(-z) - tail;
        z += off / normal_density(z).max(f64::MIN_POSITIVE);
    }
    if p < 0.5 { -z } else { z }
}

/// The regularized incomplete beta function I_x(a, b), by the continued fraction of DLMF 8.17.22 (Lentz's method).
pub fn beta_share(x: f64, a: f64, b: f64) -> f64 {
    if x <= 0.0 {
        return 0.0;
    }
    if x >= 1.0 {
        return 1.0;
    }
    // The fraction converges fast below the mean; above it the other end is taken.
    if x > (a + 1.0) / (a + b + 2.0) {
        return 1.0 - beta_share(1.0 - x, b, a);
    }
    let scale = libm::lgamma(a + b) - libm::lgamma(a) - libm::lgamma(b) + a * x.ln() + b * (-x).ln_1p();
    scale.exp() * beta_fraction(x, a, b) / a
}

fn beta_fraction(x: f64, a: f64, b: f64) -> f64 {
    let first = 1.0 - (a + b) * x / (a + 1.0);
    let steps = (1..MOST_STEPS).flat_map(|m| {
        let m = f64::from(m);
        let even = m * (b - m) * x / ((a + 2.0 * m - 1.0) * (a + 2.0 * m));
        let odd = -(a + m) * (a + b + m) * x / ((a + 2.0 * m) * (a + 2.0 * m + 1.0));
        [(even, 1.0), (odd, 1.0)]
    });
    lentz(first, 1.0, steps)
}

/// Evaluates one over a continued fraction `first + n1/(d1 + n2/(d2 + ...))` by Lentz's method in Thompson and Barnett's form, from
/// the steps (n, d); `above` is what the method starts with in the place of the numerator.
fn lentz(first: f64, above: f64, steps: impl Iterator<Item = (f64, f64)>) -> f64 {
    let safe = |v: f64| if v.abs() < TINY { TINY } else { v };
    let (mut above, mut below) = (above, 1.0 / safe(first));
    let mut fraction = below;
    for (numerator, denominator) in steps {
        below = 1.0 / safe(denominator + numerator * below);
        above = safe(denominator + numerator / above);
        fraction *= above * below;
        if (above * below - 1.0).abs() < 1e-16 {
            break;
        }
    }
    fraction
}

/// The share of the F distribution above `f`, with so many degrees of freedom for the treatment and for the rest.
pub fn f_tail(f: f64, treatment: f64, rest: f64) -> f64 {
    if f <= 0.0 {
        return 1.0;
    }
    beta_share(rest / (rest + treatment * f), rest / 2.0, treatment / 2.0)
}

/// The share of Student's distribution further from zero than `t`, both sides together.
pub fn t_tails(t: f64, df: f64) -> f64 {
    beta_share(df / (df + t * t), df / 2.0, 0.5)
}

/// How many standard errors either side of an estimate hold the share `confidence` (0.95 for 95%) of Student's distribution;
/// `None` without a degree of freedom, or for a share that is not between 0 and 1.
///
/// ```
/// use benchwalk::stats::t_two_sided;
///
/// // NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.2: 2.262 with 9 degrees of freedom.
/// let t = t_two_sided(0.95, 9.0).unwrap();
/// assert!((t - 2.262).abs() < 0.0005);
/// ```
pub fn t_two_sided(confidence: f64, df: f64) -> Option<f64> {
    if !(df > 0.0 && confidence > 0.0 && confidence < 1.0) {
        return None;
    }
    let df = df.min(MOST_DF);
    let asked = [confidence.to_bits(), df.to_bits()];
    FOUND.with_borrow_mut(|found| {
        if let Some((_, known)) = found.iter().find(|(of, _)| *of == asked) {
            return *known;
        }
        let t = reached(|t| t_tails(t, df), 1.0 - confidence, 2.0);
        if found.len() == KEPT {
            found.clear();
        }
        found.push((asked, t));
        t
    })
}

/// Searched quantiles that are kept: the rules ask for the same few for every bench.
const KEPT: usize = 32;

thread_local! {
    /// Confidence and degrees of freedom as asked for, with what was found.
    static FOUND: RefCell<Vec<([u64; 2], Option<f64>)>> = const { RefCell::new(Vec::new()) };
}

/// The share of the chi-square distribution above `x`: the regularized incomplete gamma function Q(df/2, x/2), by its series below
/// the mean and by a continued fraction above (DLMF 8.11.4, 8.9.2).
pub fn chi_square_tail(x: f64, df: f64) -> f64 {
    if x <= 0.0 {
        return 1.0;
    }
    let (a, x) = (df / 2.0, x / 2.0);
    let scale = (a * x.ln() - x - libm::lgamma(a)).exp();
    if x < a + 1.0 {
        let (mut term, mut sum, mut n) = (1.0 / a, 1.0 / a, a);
        while term > sum * 1e-17 {
            n += 1.0;
            term *= x / n;
            sum += term;
        }
        return 1.0 - scale * sum;
    }
    let first = x + 1.0 - a;
    let steps = (1..MOST_STEPS).map(|i| {
        let i = f64::from(i);
        (-i * (i - a), first + 2.0 * i)
    });
    scale * lentz(first, 1.0 / TINY, steps)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.2, upper critical values (columns 0.95 and 0.975).
    #[test]
    fn agrees_with_the_published_table() {
        let rows = [
            (1.0, 6.314, 12.706),
            (2.0, 2.920, 4.303),
            (3.0, 2.353, 3.182),
            (4.0, 2.132, 2.776),
            (5.0, 2.015, 2.571),
            (7.0, 1.895, 2.365),
            (9.0, 1.833, 2.262),
            (14.0, 1.761, 2.145),
            (19.0, 1.729, 2.093),
            (30.0, 1.697, 2.042),
            (100.0, 1.660, 1.984),
        ];
        for (degrees, ninety, ninety_five) in rows {
            let off = |share: f64, table: f64| (t_two_sided(share, degrees).unwrap() - table).abs();
            assert!(off(0.90, ninety) < 0.0006, "{degrees}: {:?}", t_two_sided(0.90, degrees));
            assert!(off(0.95, ninety_five) < 0.0006, "{degrees}: {:?}", t_two_sided(0.95, degrees));
        }
    }

    #[test]
    fn nothing_to_say_is_said() {
        assert_eq!(t_two_sided(0.9, 0.0), None);
        assert_eq!(t_two_sided(f64::NAN, 5.0), None);
        assert_eq!(t_two_sided(1.0, 5.0), None);
        assert!(t_two_sided(0.9, f64::MAX).unwrap().is_finite());
    }

    #[test]
    fn tails_and_quantiles_are_each_others_inverse() {
        for p in [1e-6, 0.001, 0.025, 0.3, 0.5, 0.9, 0.999_999] {
            assert!((normal(normal_quantile(p)) / p - 1.0).abs() < 1e-9, "{p}");
        }
        for df in [1.0, 3.0, 21.0, 300.0] {
            let t = t_two_sided(0.99, df).unwrap();
            assert!((t_tails(t, df) / 0.01 - 1.0).abs() < 1e-8, "{df}");
            // The square of Student's t is F with one degree of freedom above.
            assert!((f_tail(t * t, 1.0, df) / 0.01 - 1.0).abs() < 1e-8, "{df}");
        }
    }
}
