//! What a reading says by itself, beside the field it is typed into: the root zone, the water at the hose, a pot's use.

use crate::crop::feed::Alkalinity;
use crate::crop::root_zone::{EcClass, PhBounds, class_of, convert};
use crate::crop::water::typical_use;
use crate::limits::Limits;
use crate::record::{Term, TestMethod};
use crate::units::{Conductivity, Quantity, System, plain};

/// The ways the EC of the root zone is taken.
const METHODS: [TestMethod; 3] = [TestMethod::PourThrough, TestMethod::Sme, TestMethod::OneToTwo];

/// Rims for which the use of a 15-cm (6-inch) pot stands, cm (house rule).
const SIX_INCH_CM: std::ops::RangeInclusive<f64> = 14.0..=16.6;

const fn class(class: EcClass) -> &'static str {
    match class {
        EcClass::VeryLow => "very low",
        EcClass::Low => "low",
        EcClass::Normal => "normal",
        EcClass::High => "high",
        EcClass::VeryHigh => "very high",
        EcClass::Extreme => "extreme",
    }
}

/// The class of an EC by its method, and what it would be by the others: `EC 2.60 by pour-through is low …`.
pub fn salts(method: TestMethod, ec_ms_cm: f64) -> Option<String> {
    let ec = Conductivity::from_ms_cm(ec_ms_cm);
    let is = class(class_of(method, ec).ok()?);
    let others = METHODS.into_iter().filter(|other| *other != method);
    let about =
        |other: TestMethod| Some(format!("{:.1} by {}", convert(ec, method, other).ok()?.ms_cm(), other.text()));
    let about: Vec<String> = others.filter_map(about).collect();
    Some(format!(
        "EC {ec_ms_cm:.2} by {} is {is} for greenhouse crops (UMass classes): about {} (rule of thumb).",
        method.text(),
        about.join(", ")
    ))
}

/// The target of the pH of the root zone.
pub fn ph_target() -> String {
    let PhBounds { target_low, target_high, .. } = PhBounds::ESTABLISHED;
    format!("Target pH of the root zone: {target_low} to {target_high} (Ontario floriculture 2016).")
}

/// Alkalinity in the other units that laboratories print: `180 ppm is 3.6 meq/L, or 220 ppm as bicarbonate`.
pub fn alkalinity(caco3_ppm: f64) -> Option<String> {
    let of = Alkalinity::from_caco3_ppm(caco3_ppm).ok()?;
    let ppm = plain(caco3_ppm);
    Some(format!(
        "{ppm} ppm as calcium carbonate is {:.1} meq/L, or {:.0} ppm as bicarbonate.",
        of.meq_l(),
        of.hco3_ppm()
    ))
}

/// What alkalinity over the limit asks for; `None` where it is not over it.
pub fn alkalinity_high(limits: &Limits, caco3_ppm: f64) -> Option<String> {
    let most = Alkalinity::from_meq_l(limits.feed.alkalinity_high).ok()?;
    let over = Alkalinity::from_caco3_ppm(caco3_ppm).is_ok_and(|of| of > most);
    let (meq, ppm) = (limits.feed.alkalinity_high, most.caco3_ppm());
    over.then(|| {
        format!("Over {meq:.1} meq/L ({ppm:.0} ppm): ask for less lime in the mix, or for acid, by trained staff.")
    })
}

/// What a pot of this rim usually uses in a day so many days after planting; `None` for other pots than were weighed.
pub fn water_use(rim_cm: f64, crop_day: i64, system: System) -> Option<String> {
    let days = f64::from(u16::try_from(crop_day).ok()?);
    let volume = typical_use(days / 7.0).ok().filter(|_| SIX_INCH_CM.contains(&rim_cm))?;
    let amount = match system {
        System::Us => format!("{:.1} fl oz", volume.in_unit("fl oz")?),
        System::Metric => format!("{:.0} mL", volume.ml()),
    };
    Some(format!("A 6-inch pot used about {amount} a day at this age (weighed pots, Mexico 2014): a guide only."))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_reading_is_classed_by_its_method_and_carried_to_the_others() {
        let said = salts(TestMethod::PourThrough, 2.6).unwrap();
        assert_eq!(
            said,
            "EC 2.60 by pour-through is low for greenhouse crops (UMass classes): about 2.0 by saturated media extract, \
             0.8 by 1:2 extract (rule of thumb)."
        );
        assert!(salts(TestMethod::OneToTwo, 2.6).unwrap().contains("is extreme"));
        assert_eq!(salts(TestMethod::Sme, 80.0), None);
    }

    #[test]
    fn alkalinity_over_two_meq_asks_for_less_lime() {
        let limits = Limits::default();
        assert_eq!(alkalinity_high(&limits, 100.0), None);
        assert!(alkalinity_high(&limits, 101.0).unwrap().starts_with("Over 2.0 meq/L (100 ppm): ask for less lime"));
        assert_eq!(alkalinity(180.0).unwrap(), "180 ppm as calcium carbonate is 3.6 meq/L, or 219 ppm as bicarbonate.");
    }

    #[test]
    fn the_use_of_a_pot_is_said_only_of_pots_that_were_weighed() {
        assert!(water_use(15.2, 49, System::Metric).unwrap().starts_with("A 6-inch pot used about 110 mL a day"));
        assert_eq!(
            (water_use(20.3, 49, System::Metric), water_use(15.2, 3, System::Us), water_use(15.2, -2, System::Us)),
            (None, None, None)
        );
    }
}
