//! What is usual on this crop, by ingredient and method, and what is above it.

use super::{Ingredient, dose_per_pot, usual_drench};
use crate::limits::{Basis, Growth, Key, Limit, Limits};
use crate::terms::{Method, Region};
use crate::units::{Concentration, Length, Volume};

/// A usual range of concentrations.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PublishedRate {
    /// The ingredient.
    pub ingredient: Ingredient,
    /// How it is applied.
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
) -> PublishedRate {
    PublishedRate { ingredient, method, region, when, low_ppm, high_ppm, basis: Basis::Published(source) }
}

use Ingredient as I;
use Method::{Drench, Spray};

static USUAL: [PublishedRate; 16] = [
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
        "after the pinch, before October 15; 1,500 for tall cultivars",
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
    // 0.04 or 0.08 mg per 1.6-L pot, in the 118 mL of a 6-inch pot.
    row(
        (I::Uniconazole, Drench),
        None,
        "0.04 to 0.08 mg per 6-inch (1.6-L) pot",
        (0.34, 0.68),
        "University of Connecticut, 1990",
    ),
];

/// The usual ranges of an ingredient applied by a method, all that were found; where sources disagree there are several.
pub fn published_rates(ingredient: Ingredient, method: Method) -> impl Iterator<Item = &'static PublishedRate> {
    USUAL.iter().filter(move |u| u.ingredient == ingredient && u.method == method)
}

/// In what a dose is above the usual top.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum DoseUnit {
    /// ppm of the solution.
    Ppm,
    /// mg of active ingredient per pot.
    MgPerPot,
}

/// A treatment above the usual top.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strong {
    /// In what it is measured.
    pub unit: DoseUnit,
    /// What was given.
    pub given: f64,
    /// The top: of the usual range, or the grower's own.
    pub top: f64,
    /// The limit it comes from, in ppm.
    pub limit: Limit,
    /// Where the top comes from.
    pub basis: Basis,
}

/// The limit that holds the top of an ingredient applied by a method; `None` where no figure was found.
pub const fn top_key(ingredient: Ingredient, method: Method) -> Option<Key<f64>> {
    Some(match (ingredient, method) {
        (I::Ethephon, Spray) => Growth::top_ethephon_spray,
        (I::Chlormequat, Spray) => Growth::top_chlormequat_spray,
        (I::Daminozide, Spray) => Growth::top_daminozide_spray,
        (I::Paclobutrazol, Spray) => Growth::top_paclobutrazol_spray,
        (I::Paclobutrazol, Drench) => Growth::top_paclobutrazol_drench,
        (I::Uniconazole, Drench) => Growth::top_uniconazole_drench,
        (I::Flurprimidol, Drench) => Growth::top_flurprimidol_drench,
        (I::BaGa47, Spray) => Growth::top_ba_ga47_spray,
        (I::BaGa47, Drench) => Growth::top_ba_ga47_drench,
        (I::Ga3, Spray) => Growth::top_ga3_spray,
        _ => return None,
    })
}

/// Whether a treatment is above its top, the usual one or the grower's: its ppm, or for a drench its mg per pot where the volume per pot and the pot's rim
/// are known (a large volume of a usual solution is a large dose). Half a percent of leeway is given for rounding.
///
/// `None` is no complaint: at or under the top, or no figure was found.
pub fn strong(
    (ingredient, method): (Ingredient, Method),
    limits: &Limits,
    ppm: Concentration,
    per_pot: Option<Volume>,
    rim: Option<Length>,
) -> Option<Strong> {
    const LEEWAY: f64 = 1.005;
    let limit = top_key(ingredient, method)?.limit(limits);
    let (top_ppm, basis) = (limit.value, Limits::rows().into_iter().find(|row| row.key == limit.key)?.basis);
    if !ppm.ppm().is_finite() {
        return None;
    }
    if method == Drench
        && let (Some(per_pot), Some(usual)) = (per_pot, rim.and_then(usual_drench))
        && let (Ok(dose), Ok(most)) =
            (dose_per_pot(ppm, per_pot), dose_per_pot(Concentration::from_ppm(top_ppm), usual))
    {
        let (given, top) = (dose.g() * 1000.0, most.g() * 1000.0);
        return (given > top * LEEWAY).then_some(Strong { unit: DoseUnit::MgPerPot, given, top, limit, basis });
    }
    let (given, top) = (ppm.ppm(), top_ppm);
    (given > top * LEEWAY).then_some(Strong { unit: DoseUnit::Ppm, given, top, limit, basis })
}

#[cfg(test)]
mod tests {
    use super::{DoseUnit, Ingredient, Limits, Method, USUAL, published_rates, strong, top_key};
    use crate::units::{Concentration, Length, Volume};
    use proptest::prelude::*;

    fn is_strong(ingredient: Ingredient, method: Method, ppm: f64) -> bool {
        strong((ingredient, method), &Limits::default(), Concentration::from_ppm(ppm), None, None).is_some()
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
                (Ingredient::Paclobutrazol, Method::Drench),
                &Limits::default(),
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

    /// The tops are those of the ranges; only chlormequat's has a source of its own (yellow spots tend to come above it), with the same figure.
    #[test]
    fn every_top_is_the_top_of_what_is_usual() {
        let limits = Limits::default();
        for ingredient in Ingredient::ALL.iter().copied() {
            for method in [Method::Spray, Method::Drench] {
                let highest = published_rates(ingredient, method).map(|u| u.high_ppm).reduce(f64::max);
                let limit = top_key(ingredient, method).map(|key| key.of(&limits));
                assert_eq!(limit, highest, "{ingredient:?} {method:?}");
            }
        }
    }

    #[test]
    fn a_growers_top_is_held_to_and_named_as_his() {
        let limits = Limits::parse("[growth]\ntop_chlormequat_spray = 1000\n").expect("good limits");
        let at =
            |ppm| strong((Ingredient::Chlormequat, Method::Spray), &limits, Concentration::from_ppm(ppm), None, None);
        assert_eq!(at(1000.0), None);
        assert!(at(1100.0).is_some_and(|s| s.limit.own && (s.top - 1000.0).abs() < 1e-9));
    }

    #[test]
    fn every_range_is_in_order_and_has_its_source() {
        for row in &USUAL {
            assert!(row.low_ppm > 0.0 && row.low_ppm <= row.high_ppm, "{row:?}");
        }
        assert_eq!(published_rates(Ingredient::Ancymidol, Method::Spray).count(), 0);
        assert_eq!(published_rates(Ingredient::Paclobutrazol, Method::Drench).count(), 4);
    }

    proptest! {
        #[test]
        fn any_number_is_answered(ppm: f64, ml: f64, rim: f64) {
            let limits = Limits::default();
            for ingredient in Ingredient::ALL {
                let (per_pot, rim) = (Some(Volume::from_ml(ml)), Some(Length::from_cm(rim)));
                if let Some(s) = strong((ingredient, Method::Drench), &limits, Concentration::from_ppm(ppm), per_pot, rim) {
                    prop_assert!(s.given.is_finite() && s.top.is_finite());
                }
            }
        }
    }
}
