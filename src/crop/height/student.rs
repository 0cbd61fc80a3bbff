//! Student's t: how far the mean of a few plants may lie from the mean of all.

/// From this many degrees of freedom on the value is treated as constant: at 1000 it is 0.1% above the normal one.
const MOST_DEGREES: usize = 1_000;

/// The share of Student's distribution within `± √degrees · tan(angle)`, by the finite series of Abramowitz and Stegun,
/// Handbook of Mathematical Functions (1964), 26.7.3 (odd degrees) and 26.7.4 (even).
fn share_within(angle: f64, degrees: usize) -> f64 {
    let (sin, cos) = angle.sin_cos();
    let odd = degrees % 2 == 1;
    let (mut term, mut power) = if odd { (cos, 1) } else { (1.0, 0) };
    let mut sum = if degrees == 1 { 0.0 } else { term };
    // The powers of the cosine go up by two as far as degrees - 2.
    while power + 4 <= degrees {
        power += 2;
        term *= (power as f64 - 1.0) / power as f64 * cos * cos;
        sum += term;
    }
    if odd { (angle + sin * sum) * std::f64::consts::FRAC_2_PI } else { sin * sum }
}

/// How many standard errors either side of the mean hold the share `confidence` (0.90 for 90%) of Student's distribution.
///
/// `None` with no degree of freedom (one reading has no spread), or a share not between 0.01 and 0.999.
/// Solved by halving the series, so it is right to the last printed digit of the published tables.
pub fn t_two_sided(confidence: f64, degrees: usize) -> Option<f64> {
    if degrees == 0 || !(0.01..=0.999).contains(&confidence) {
        return None;
    }
    let degrees = degrees.min(MOST_DEGREES);
    let (mut low, mut high) = (0.0, std::f64::consts::FRAC_PI_2);
    for _ in 0..60 {
        let middle = f64::midpoint(low, high);
        if share_within(middle, degrees) < confidence {
            low = middle;
        } else {
            high = middle;
        }
    }
    Some((degrees as f64).sqrt() * f64::midpoint(low, high).tan())
}

#[cfg(test)]
mod tests {
    use super::t_two_sided;

    /// NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.2, upper critical values (columns 0.95 and 0.975).
    #[test]
    fn agrees_with_the_published_table() {
        let rows = [
            (1, 6.314, 12.706),
            (2, 2.920, 4.303),
            (3, 2.353, 3.182),
            (4, 2.132, 2.776),
            (5, 2.015, 2.571),
            (7, 1.895, 2.365),
            (9, 1.833, 2.262),
            (14, 1.761, 2.145),
            (19, 1.729, 2.093),
            (30, 1.697, 2.042),
            (100, 1.660, 1.984),
        ];
        for (degrees, ninety, ninety_five) in rows {
            let off = |share: f64, table: f64| (t_two_sided(share, degrees).unwrap() - table).abs();
            assert!(off(0.90, ninety) < 0.0006, "{degrees}: {:?}", t_two_sided(0.90, degrees));
            assert!(off(0.95, ninety_five) < 0.0006, "{degrees}: {:?}", t_two_sided(0.95, degrees));
        }
    }

    #[test]
    fn nothing_to_say_is_said() {
        assert_eq!(t_two_sided(0.9, 0), None);
        assert_eq!(t_two_sided(f64::NAN, 5), None);
        assert_eq!(t_two_sided(1.0, 5), None);
        assert!(t_two_sided(0.9, usize::MAX).unwrap().is_finite());
    }
}
