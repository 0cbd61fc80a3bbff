//! Typed text parsed into quantities; errors are reported by field.

use super::chosen_benches::ChosenBenches;
use crate::controls::Fields;
use crate::crop::feed::{Carries, Injector};
use crate::crop::growth_regulator::SprayRate;
use crate::mix::{BESIDE, Into, MixRefusal, Solution, rate};
use crate::model::{MixingField as F, Model};
use crate::terms::Method;
use crate::units::{Area, Mass, Quantity, System, Unit, Volume, parse, parse_in};

const G: Unit = Unit { names: &["g"], factor: 1.0, offset: 0.0 };

/// Reads the fields of a page.
pub(super) struct Reader<'a> {
    fields: &'a Fields<F>,
    pub(super) system: System,
    pub(super) chosen: ChosenBenches,
    pub(super) faults: Vec<(F, String)>,
}

impl<'a> Reader<'a> {
    pub(super) fn new(fields: &'a Fields<F>, model: &Model) -> Self {
        let mut faults = Vec::new();
        let chosen = ChosenBenches::of(fields.typed(F::Benches).unwrap_or_default(), model).unwrap_or_else(|fault| {
            faults.push((F::Benches, fault.to_string()));
            ChosenBenches::default()
        });
        Self { fields, system: model.system(), chosen, faults }
    }

    pub(super) fn text(&self, name: F) -> Option<&'a str> {
        self.fields.typed(name)
    }

    pub(super) fn fault(&mut self, name: F, text: impl std::fmt::Display) {
        if !self.faults.iter().any(|(at, _)| *at == name) {
            self.faults.push((name, text.to_string()));
        }
    }

    fn got<T, E: std::fmt::Display>(&mut self, name: F, read: Result<T, E>) -> Option<T> {
        read.map_err(|e| self.fault(name, e)).ok()
    }

    /// A quantity with any of its units.
    pub(super) fn quantity<Q: Quantity>(&mut self, name: F) -> Option<Q> {
        let text = self.text(name)?;
        let read = parse::<Q>(text, self.system);
        self.got(name, read)
    }

    /// A weight; grams without a unit.
    pub(super) fn grams(&mut self, name: F) -> Option<Mass> {
        let text = self.text(name)?;
        self.got(name, parse_in::<Mass>(text, &G))
    }

    /// A volume per pot; fluid ounces or mL without a unit.
    pub(super) fn small_volume(&mut self, name: F) -> Option<Volume> {
        let unit = match self.system {
            System::Us => "fl oz",
            System::Metric => "mL",
        };
        let unit = Volume::UNITS.iter().find(|u| u.names.contains(&unit)).unwrap_or_else(|| Volume::unit(self.system));
        let text = self.text(name)?;
        self.got(name, parse_in::<Volume>(text, unit))
    }

    /// A plain number, with or without a percent sign.
    pub(super) fn number(&mut self, name: F) -> Option<f64> {
        let text = self.text(name)?;
        let number = text.trim_end_matches('%').trim_end();
        let read = number.parse::<f64>().ok().filter(|n| n.is_finite());
        self.got(name, read.ok_or_else(|| format!("'{text}' is not a number; type one such as 10")))
    }

    /// One of some words, or the only one that begins so.
    pub(super) fn word<T: Copy>(&mut self, name: F, known: &[(&'static str, T)]) -> Option<T> {
        let typed = self.text(name)?.to_lowercase().replace([' ', '_'], "-");
        let found = pick(&typed, known);
        if found.is_none() {
            let known: Vec<&str> = known.iter().map(|(word, _)| *word).collect();
            self.fault(name, format!("'{typed}' is not one of {}", known.join(", ")));
        }
        found
    }

    /// Spray or drench.
    pub(super) fn method(&mut self, name: F) -> Option<Method> {
        self.word(name, &[("spray", Method::Spray), ("drench", Method::Drench)])
    }

    /// The pots typed, or those on the benches.
    pub(super) fn pots(&mut self) -> Option<u32> {
        match self.text(F::Pots) {
            Some(text) => {
                let read = text
                    .parse::<u32>()
                    .ok()
                    .ok_or_else(|| format!("'{text}' is not a whole number; type one such as 120"));
                self.got(F::Pots, read)
            }
            None => (self.chosen.pots > 0).then_some(self.chosen.pots),
        }
    }

    /// The pots; where there are none, that they are needed is said next to their field.
    pub(super) fn needed_pots(&mut self) -> Option<u32> {
        let pots = self.pots();
        if pots.is_none() {
            self.fault(F::Pots, "type how many, or benches that have pots");
        }
        pots
    }

    /// The spray on the area, which is needed.
    pub(super) fn spray(&mut self) -> Option<Result<Solution, MixRefusal>> {
        let rate = self.rate();
        let area = self.area();
        if area.is_none() {
            self.fault(F::Area, "type it, or benches whose area is in the plan");
        }
        if rate.is_none() && self.text(F::Rate).is_some() {
            return None;
        }
        let pots = self.pots();
        Some(Solution::spray(area?, rate, pots))
    }

    /// The area typed, or that of the benches.
    pub(super) fn area(&mut self) -> Option<Area> {
        if self.text(F::Area).is_some() { self.quantity(F::Area) } else { self.chosen.area }
    }

    pub(super) fn rate(&mut self) -> Option<SprayRate> {
        let text = self.text(F::Rate)?;
        let read = rate(text, self.system).map_err(|refused| refused.reason.text(self.system));
        self.got(F::Rate, read)
    }

    /// Into what is weighed: `volume` is that of the finished solution.
    pub(super) fn into(&mut self, volume: Option<Volume>) -> Option<Into> {
        let Some(text) = self.text(F::Injector) else { return volume.map(Into::Tank) };
        let number = text.trim_start_matches("1:").trim().parse::<f64>();
        let read = match number {
            Ok(n) => Injector::one_to(n).map_err(|e| e.to_string()),
            Err(_) => Err(format!("'{text}' is not an injector ratio; type it as 1:100")),
        };
        let injector = self.got(F::Injector, read)?;
        match self.quantity(F::Stock) {
            Some(stock) => Some(Into::Stock(injector, stock)),
            None => volume.map(|v| Into::Feed(injector, v)),
        }
    }

    pub(super) fn scale(&mut self) -> Mass {
        self.grams(F::Scale).unwrap_or(Mass::from_g(1.0))
    }

    /// What else goes into the tank.
    pub(super) fn beside(&self) -> Vec<(&'static str, Carries)> {
        let picked = self.fields.text(F::Beside);
        BESIDE.iter().filter(|(name, _)| picked.split(", ").any(|one| one == *name)).copied().collect()
    }
}

/// The word typed whole, or the only one that begins so.
fn pick<T: Copy>(typed: &str, known: &[(&'static str, T)]) -> Option<T> {
    if let Some((_, value)) = known.iter().find(|(word, _)| *word == typed) {
        return Some(*value);
    }
    let mut begun = known.iter().filter(|(word, _)| word.starts_with(typed));
    match (begun.next(), begun.next()) {
        (Some((_, value)), None) => Some(*value),
        _ => None,
    }
}
