//! Shares and chances in words.

/// The shares that are named, and their names.
const NAMED: [(f64, &str); 6] = [
    (0.1, "a tenth"),
    (0.2, "a fifth"),
    (0.25, "a quarter"),
    (1.0 / 3.0, "a third"),
    (0.5, "half"),
    (2.0 / 3.0, "two thirds"),
];
/// Below this share it is almost none, above the other most.
const NONE: f64 = 0.05;
const MOST: f64 = 0.8;

/// A share by the nearest name: `a quarter`.
///
/// ```
/// use benchwalk::report::trial::words::share;
/// assert_eq!([0.02, 0.2525, 0.29, 0.55, 0.93].map(share), ["almost none", "a quarter", "a quarter", "half", "most"]);
/// ```
pub fn share(share: f64) -> &'static str {
    if share < NONE {
        return "almost none";
    }
    if share > MOST {
        return "most";
    }
    let nearest = NAMED.iter().min_by(|a, b| (a.0 - share).abs().total_cmp(&(b.0 - share).abs()));
    nearest.map_or("most", |(_, name)| name)
}

/// A share in hundredths: `62%`.
pub fn percent(share: f64) -> String {
    format!("{:.0}%", share * 100.0)
}

/// A chance with as many digits as carry meaning: `p 0.31`, `p 0.004`, `p under 0.001`.
pub fn chance(p: f64) -> String {
    if p < 0.001 {
        "p under 0.001".to_owned()
    } else if p < 0.1 {
        format!("p {p:.3}")
    } else {
        format!("p {p:.2}")
    }
}

/// A chance as a count: `1 in 10,000`, `31 in 100`.
///
/// ```
/// use benchwalk::report::trial::words::one_in;
/// assert_eq!([0.0001, 0.0033, 0.31].map(one_in), ["1 in 10,000", "1 in 303", "31 in 100"]);
/// ```
pub fn one_in(p: f64) -> String {
    if p >= 0.05 {
        return format!("{:.0} in 100", p * 100.0);
    }
    let all = format!("{:.0}", 1.0 / p.max(1e-9));
    let (thousands, rest) = all.split_at(all.len().saturating_sub(3));
    if thousands.is_empty() { format!("1 in {rest}") } else { format!("1 in {thousands},{rest}") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_share_has_its_name() {
        let named = [0.049, 0.05, 0.1, 0.14, 0.16, 0.224, 0.23, 0.3, 0.4, 0.43, 0.6, 0.8, 0.81].map(share);
        let wanted = [
            "almost none",
            "a tenth",
            "a tenth",
            "a tenth",
            "a fifth",
            "a fifth",
            "a quarter",
            "a third",
            "a third",
            "half",
            "two thirds",
            "two thirds",
            "most",
        ];
        assert_eq!(named, wanted);
        assert_eq!([0.616, 0.131].map(percent), ["62%", "13%"]);
    }

    #[test]
    fn chances_have_no_more_digits_than_they_carry() {
        assert_eq!([0.314, 0.0501, 0.0042, 0.000_02].map(chance), ["p 0.31", "p 0.050", "p 0.004", "p under 0.001"]);
    }
}
