//! The water and the hose: alkalinity in its three units, and feed EC against what the injector should give.

use crate::crop::{CropError, within};
use crate::units::{Concentration, Conductivity};

/// Alkalinity of the water, kept in meq/L.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Alkalinity(f64);

/// mg of CaCO3 in a milliequivalent: (40.078 + 12.011 + 3 x 15.999) / 2 (IUPAC 2021). The trade rounds it to 50.
const CACO3_MG_A_MEQ: f64 = 100.086 / 2.0;
/// mg of bicarbonate in a milliequivalent: 1.008 + 12.011 + 3 x 15.999 (IUPAC 2021).
const HCO3_MG_A_MEQ: f64 = 61.016;
/// Highest alkalinity accepted, meq/L.
const MOST_MEQ: f64 = 100.0;

impl Alkalinity {
    /// From milliequivalents per liter.
    ///
    /// # Errors
    /// [`CropError::Impossible`] outside 0 to 100 meq/L.
    pub fn from_meq_l(meq: f64) -> Result<Self, CropError> {
        within("alkalinity", meq, 0.0, MOST_MEQ, "meq/L").map(Self)
    }

    /// From ppm of CaCO3, as most reports print it.
    ///
    /// # Errors
    /// [`CropError::Impossible`] outside 0 to 5,000 ppm.
    pub fn from_caco3_ppm(ppm: f64) -> Result<Self, CropError> {
        within("alkalinity as CaCO3", ppm, 0.0, 5000.0, "ppm").map(|ppm| Self(ppm / CACO3_MG_A_MEQ))
    }

    /// In meq/L.
    pub const fn meq_l(self) -> f64 {
        self.0
    }

    /// In ppm of CaCO3.
    pub fn caco3_ppm(self) -> f64 {
        self.0 * CACO3_MG_A_MEQ
    }

    /// In ppm of bicarbonate.
    pub fn hco3_ppm(self) -> f64 {
        self.0 * HCO3_MG_A_MEQ
    }
}

/// One line of a bag's own chart: this EC at this much N. It varies nearly twofold from bag to bag, so there is no
/// default.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LabelEc {
    ec: Conductivity,
    at_n: Concentration,
}

impl LabelEc {
    /// As typed from the chart, such as 0.74 mS/cm at 100 ppm N.
    ///
    /// # Errors
    /// [`CropError::Impossible`] outside 0.01 to 20 mS/cm or 1 to 5,000 ppm.
    pub fn from_chart(ec: Conductivity, at_n: Concentration) -> Result<Self, CropError> {
        within("EC on the chart", ec.ms_cm(), 0.01, 20.0, "mS/cm")?;
        within("N on the chart", at_n.ppm(), 1.0, 5000.0, "ppm")?;
        Ok(Self { ec, at_n })
    }

    /// mS/cm a ppm of N; EC rises in a straight line with the feed (a supplier's chart for 15-5-15 does to the last
    /// digit).
    pub fn per_ppm(self) -> f64 {
        self.ec.ms_cm() / self.at_n.ppm()
    }

    /// EC the feed should show: the water's own and the fertilizer's.
    ///
    /// # Errors
    /// [`CropError::Impossible`] for N outside 0 to 5,000 ppm or a water EC outside 0 to 20 mS/cm.
    pub fn expected(self, n: Concentration, water: Conductivity) -> Result<Conductivity, CropError> {
        let ppm = within("N in the feed", n.ppm(), 0.0, 5000.0, "ppm")?;
        let water = within("EC of the plain water", water.ms_cm(), 0.0, 20.0, "mS/cm")?;
        Ok(Conductivity::from_ms_cm(water + ppm * self.per_ppm()))
    }
}

/// What a feed's EC says about the injector.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct InjectorCheck {
    /// EC the feed should have shown.
    pub expected: Conductivity,
    /// N the feed really carries.
    pub delivers: Concentration,
    /// That over the N wanted: 1 is right, 0.5 is half strength.
    pub of_wanted: f64,
}

/// Holds the feed's EC against the chart: (feed EC less water EC) over the chart's EC a ppm ("Check your fertilizer
/// injectors", UMass Floriculture 2008).
///
/// # Errors
/// [`CropError::Impossible`] for numbers that cannot be (N wanted at least 1 ppm); [`CropError::Contradiction`] when
/// the feed reads less than the plain water: then the two are mixed up, or the meter is off.
pub fn injector_check(
    label: LabelEc,
    wanted: Concentration,
    feed: Conductivity,
    water: Conductivity,
) -> Result<InjectorCheck, CropError> {
    within("N wanted", wanted.ppm(), 1.0, 5000.0, "ppm")?;
    let expected = label.expected(wanted, water)?;
    let fed = within("EC of the feed", feed.ms_cm(), 0.0, 200.0, "mS/cm")? - water.ms_cm();
    if fed < 0.0 {
        return Err(CropError::Contradiction {
            first: format!("feed {} mS/cm", feed.ms_cm()).into(),
            second: format!("plain water {} mS/cm", water.ms_cm()).into(),
            why: "feed cannot read less than its water; read both again",
        });
    }
    let delivers = fed / label.per_ppm();
    Ok(InjectorCheck { expected, delivers: Concentration::from_ppm(delivers), of_wanted: delivers / wanted.ppm() })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::num::f64::ANY;
    use proptest::prelude::*;

    fn ms(ec: f64) -> Conductivity {
        Conductivity::from_ms_cm(ec)
    }

    #[test]
    fn a_feed_under_its_water_is_read_again() {
        let label = LabelEc::from_chart(ms(0.74), Concentration::from_ppm(100.0)).unwrap();
        let check = |feed| injector_check(label, Concentration::from_ppm(200.0), ms(feed), ms(0.4));
        assert!(check(0.3).unwrap_err().to_string().contains("read both again"));
        let half = check(1.14).unwrap();
        assert!((half.of_wanted - 0.5).abs() < 1e-9 && (half.expected.ms_cm() - 1.88).abs() < 1e-9);
    }

    proptest! {
        #[test]
        fn the_expected_ec_delivers_what_was_wanted(n in 1.0..1000.0f64, water in 0.0..2.0f64, chart in 0.3..1.0f64) {
            let label = LabelEc::from_chart(ms(chart), Concentration::from_ppm(100.0)).unwrap();
            let wanted = Concentration::from_ppm(n);
            let feed = label.expected(wanted, ms(water)).unwrap();
            let check = injector_check(label, wanted, feed, ms(water)).unwrap();
            prop_assert!((check.of_wanted - 1.0).abs() < 1e-9 && (check.delivers.ppm() - n).abs() < 1e-6);
        }

        // The highest of each unit is a round number: 5,000 ppm are a little less than 100 meq/L.
        #[test]
        fn alkalinity_goes_round(meq in 0.0..99.9f64) {
            let one = Alkalinity::from_meq_l(meq).unwrap();
            let back = Alkalinity::from_caco3_ppm(one.caco3_ppm()).unwrap();
            prop_assert!((back.meq_l() - meq).abs() < 1e-9 && one.hco3_ppm() >= one.caco3_ppm());
        }

        #[test]
        fn nothing_is_not_finite(a in ANY, b in ANY, c in ANY, d in ANY) {
            if let Ok(label) = LabelEc::from_chart(ms(a), Concentration::from_ppm(b))
                && let Ok(check) = injector_check(label, Concentration::from_ppm(c), ms(d), ms(a)) {
                prop_assert!(check.of_wanted.is_finite() && check.delivers.ppm().is_finite());
            }
        }
    }
}
