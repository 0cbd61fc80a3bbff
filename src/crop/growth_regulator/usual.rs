//! What is usual on this crop, by ingredient and method, and what is above it.

use super::{Ingredient, Method, Region, dose_per_pot, usual_drench};
use crate::limits::Basis;
use crate::units::{Concentration, Length, Volume};

/// A usual range of concentrations.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Usual {
    /// The ingredient.
    pub ingredient: Ingredient,
    /// How it is put on.
    pub method: Method,
    /// Where it holds; `None` everywhere.
    pub region: Option<Region>,
    /// When in the crop, in words.
    pub when: &'static str,
    /// The lower end, in ppm.
    pub low_ppm: f64,
    /// The upper end, in ppm.
    pub high_ppm: f64,
    /// Where it comes from.
    pub basis: Basis,
}

const fn row(
    (ingredient, method): (Ingredient, Method),
    region: Option<Region>,
    when: &'static str,
    (low_ppm, high_ppm): (f64, f64),
    source: &'static str,
) -> Usual {
    Usual { ingredient, method, region, when, low_ppm, high_ppm, basis: Basis::Published(source) }
}

use Ingredient as I;
use Method::{Drench, Spray};

static USUAL: [Usual; 16] = [
    row(
        (I::Ethephon, Spray),
        None,
        "3 to 7 days before and after the pinch",
        (250.0, 500.0),
        "Iowa State, 2017 and 2021",
    ),
    row(
        (I::Chlormequat, Spray),
        Some(Region::Cool),
        "after the pinch, in long days, 1 to 4 times",
        (750.0, 1000.0),
        "trade press, poinsettia height control strategies",
    ),
    row(
        (I::Chlormequat, Spray),
        Some(Region::Warm),
        "after the pinch, before 15 October; 1,500 for tall cultivars",
        (1000.0, 1500.0),
        "University of Georgia, 2011 and 2012",
    ),
    row(
        (I::Chlormequat, Spray),
        None,
        "in a tank with daminozide, 1 to 4 weeks after the pinch",
        (750.0, 1000.0),
        "Purdue, 2010 (750); trade press, poinsettia height control strategies (1,000)",
    ),
    row(
        (I::Daminozide, Spray),
        None,
        "in a tank with chlormequat, 1 to 4 weeks after the pinch",
        (1250.0, 1500.0),
        "Purdue, 2010 (1,250); trade press, poinsettia height control strategies (1,500)",
    ),
    row(
        (I::Daminozide, Spray),
        Some(Region::Cool),
        "in a tank with chlormequat, twice in September",
        (2000.0, 2000.0),
        "University of Massachusetts, 1999",
    ),
    row(
        (I::Paclobutrazol, Spray),
        Some(Region::Warm),
        "after the pinch, in long days",
        (5.0, 10.0),
        "trade press, poinsettia height control strategies",
    ),
    row(
        (I::Paclobutrazol, Drench),
        None,
        "early and middle of the crop, weekly at most; 0.2 for vigorous cultivars",
        (0.1, 0.2),
        "University of Florida, 2009 and 2011",
    ),
    row(
        (I::Paclobutrazol, Drench),
        None,
        "after initiation, before half color",
        (0.05, 0.1),
        "trade press, poinsettia height control strategies",
    ),
    row(
        (I::Paclobutrazol, Drench),
        Some(Region::Cool),
        "late, half an inch to an inch short of the final height, 1 to 2 weeks before the sale",
        (0.25, 0.5),
        "trade press, poinsettia height control strategies",
    ),
    row(
        (I::Paclobutrazol, Drench),
        Some(Region::Warm),
        "late, half an inch to an inch short of the final height, up to 3 weeks before the sale",
        (0.5, 1.0),
        "trade press, poinsettia height control strategies",
    ),
    row((I::Flurprimidol, Drench), None, "once, 2 weeks after the pinch, shoots 1 inch", (0.05, 0.15), "Purdue, 2010"),
    row((I::BaGa47, Spray), None, "too short: once, by first color", (3.0, 5.0), "Michigan State, 2007 and 2009"),
    row((I::BaGa47, Drench), None, "too short: 7 to 9 weeks after the pinch", (2.0, 2.0), "North Carolina State, 2023"),
    row(
        (I::Ga3, Spray),
        None,
        "too short after an overdose of paclobutrazol, as a last resort",
        (5.0, 10.0),
        "University of Florida, 2002",
    ),
    // 0.04 or 0.08 mg a 1.6-L pot, in the 118 mL of a 6-inch pot.
    row((I::Uniconazole, Drench), None, "0.04 to 0.08 mg a 1.6-L pot", (0.34, 0.68), "University of Connecticut, 1990"),
];

/// The usual ranges of an ingredient put on in a way, all that were found; where sources disagree there are several.
pub fn usual(ingredient: Ingredient, method: Method) -> impl Iterator<Item = &'static Usual> {
    USUAL.iter().filter(move |u| u.ingredient == ingredient && u.method == method)
}

/// In what a dose is above the usual top.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum DoseUnit {
    /// ppm of the solution.
    Ppm,
    /// mg of active ingredient a pot.
    MgPerPot,
}

/// A treatment above the usual top.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strong {
    /// In what it is measured.
    pub unit: DoseUnit,
    /// What was given.
    pub given: f64,
    /// The usual top.
    pub top: f64,
    /// Where the top comes from.
    pub basis: Basis,
}

/// The usual top of an ingredient: ppm, or for a triazole drench what a pot gets in its usual volume.
fn top(ingredient: Ingredient, method: Method) -> Option<(f64, Basis)> {
    if (ingredient, method) == (I::Chlormequat, Spray) {
        let why = "Purdue, 2010: yellow spots on new leaves usually above 1,500 ppm";
        return Some((1500.0, Basis::Published(why)));
    }
    usual(ingredient, method).map(|u| (u.high_ppm, u.basis)).max_by(|a, b| a.0.total_cmp(&b.0))
}

/// Whether a treatment is above the usual top: its ppm, or for a drench its mg a pot where the volume a pot and the pot's rim
/// are known (a large volume of a usual solution is a large dose). Half a percent of leeway is given for rounding.
///
/// `None` is no complaint: at or under the top, or no figure was found.
pub fn strong(
    ingredient: Ingredient,
    method: Method,
    ppm: Concentration,
    per_pot: Option<Volume>,
    rim: Option<Length>,
) -> Option<Strong> {
    const LEEWAY: f64 = 1.005;
    let (top_ppm, basis) = top(ingredient, method)?;
    if !ppm.ppm().is_finite() {
        return None;
    }
    if method == Drench
        && let (Some(per_pot), Some(usual)) = (per_pot, rim.and_then(usual_drench))
        && let (Ok(dose), Ok(most)) =
            (dose_per_pot(ppm, per_pot), dose_per_pot(Concentration::from_ppm(top_ppm), usual))
    {
        let (given, top) = (dose.g() * 1000.0, most.g() * 1000.0);
        return (given > top * LEEWAY).then_some(Strong { unit: DoseUnit::MgPerPot, given, top, basis });
    }
    let (given, top) = (ppm.ppm(), top_ppm);
    (given > top * LEEWAY).then_some(Strong { unit: DoseUnit::Ppm, given, top, basis })
}

#[cfg(test)]
mod tests {
    use super::{DoseUnit, Ingredient, Method, USUAL, strong, usual};
    use crate::units::{Concentration, Length, Volume};
    use proptest::prelude::*;

    fn is_strong(ingredient: Ingredient, method: Method, ppm: f64) -> bool {
        strong(ingredient, method, Concentration::from_ppm(ppm), None, None).is_some()
    }

    #[test]
    fn above_the_usual_top_is_strong() {
        assert!(!is_strong(Ingredient::Chlormequat, Method::Spray, 1500.0));
        assert!(is_strong(Ingredient::Chlormequat, Method::Spray, 1600.0));
        assert!(is_strong(Ingredient::Daminozide, Method::Spray, 2500.0));
        assert!(is_strong(Ingredient::Paclobutrazol, Method::Drench, 2.0));
        assert!(!is_strong(Ingredient::Ancymidol, Method::Spray, 2000.0), "no figure, no complaint");
    }

    #[test]
    fn a_large_volume_is_a_large_dose() {
        let pot = Some(Length::from_cm(15.2));
        let drench = |ppm: f64, ml: f64| {
            strong(
                Ingredient::Paclobutrazol,
                Method::Drench,
                Concentration::from_ppm(ppm),
                Some(Volume::from_ml(ml)),
                pot,
            )
        };
        assert_eq!(drench(1.0, 118.3), None);
        let twice = drench(1.0, 240.0).unwrap();
        assert_eq!(twice.unit, DoseUnit::MgPerPot);
        assert!((twice.given - 0.24).abs() < 1e-9 && (twice.top - 0.118).abs() < 1e-3);
        assert_eq!(drench(2.0, 59.0), None, "half the volume of twice the strength is the same dose");
    }

    #[test]
    fn every_range_is_in_order_and_has_its_source() {
        for row in &USUAL {
            assert!(row.low_ppm > 0.0 && row.low_ppm <= row.high_ppm, "{row:?}");
        }
        assert_eq!(usual(Ingredient::Ancymidol, Method::Spray).count(), 0);
        assert_eq!(usual(Ingredient::Paclobutrazol, Method::Drench).count(), 4);
    }

    proptest! {
        #[test]
        fn any_number_is_answered(ppm: f64, ml: f64, rim: f64) {
            for ingredient in Ingredient::ALL {
                let (per_pot, rim) = (Some(Volume::from_ml(ml)), Some(Length::from_cm(rim)));
                if let Some(s) = strong(ingredient, Method::Drench, Concentration::from_ppm(ppm), per_pot, rim) {
                    prop_assert!(s.given.is_finite() && s.top.is_finite());
                }
            }
        }
    }
}
