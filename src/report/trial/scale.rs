//! How the values of a reading are shown: unit, step and the word for more.

use super::Found;
use crate::record::TrialReading;
use crate::trials::{Over, Reading};
use crate::units::{Length, Quantity, System};

/// How the values of a reading are shown.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scale {
    /// What was read, in words.
    pub name: &'static str,
    /// Its unit; empty of what has none.
    pub unit: &'static str,
    /// The word for more of it; of growth what the plots did.
    pub more: &'static str,
    /// True of growth over all days.
    pub is_growth: bool,
    /// What a value in the journal's unit is multiplied with.
    factor: f64,
    /// The step values are rounded to: that of the readings, never finer.
    step: f64,
}

impl Scale {
    /// The scale of a reading at a site with these units. Growth is shown over the days from the first reading to the last, in the steps
    /// of one reading.
    pub fn of(found: &Found, system: System) -> Self {
        let by_meter = found.data.as_ref().is_some_and(|data| data.reading == Reading::Measured);
        let mut scale = Self::of_reading(found.reading, by_meter, system);
        if found.over == Over::Growth {
            let (first, last) = found.span();
            scale.factor *= (last - first).num_days() as f64;
            (scale.name, scale.more) = growth(found.reading);
            scale.is_growth = true;
        }
        scale
    }

    fn of_reading(reading: TrialReading, by_meter: bool, system: System) -> Self {
        let scale = |name, unit, more, step| Self { name, unit, more, is_growth: false, factor: 1.0, step };
        let length = |name, more| {
            let unit = Length::unit_name(system);
            let (factor, step) = (Length::from_cm(1.0).in_system(system), if system == System::Us { 0.1 } else { 0.5 });
            Self { name, unit, more, is_growth: false, factor, step }
        };
        match reading {
            TrialReading::Height => length("height", "taller"),
            TrialReading::BractWidth => length("bract width", "wider"),
            TrialReading::Greenness if by_meter => scale("greenness by meter", "", "greener", 0.1),
            TrialReading::Greenness => scale("greenness", "classes", "greener", 0.1),
            TrialReading::Bracts => scale("bract stage", "stages", "further", 0.1),
            TrialReading::Roots => scale("roots score", "classes", "worse", 0.1),
            TrialReading::RootZone => scale("root zone EC", "mS/cm", "higher", 0.01),
            TrialReading::Water => scale("water", "classes", "wetter", 0.1),
            TrialReading::Grade => scale("salable", "%", "higher", 1.0),
        }
    }

    /// A value in the journal's unit as a number of this scale.
    pub fn value(&self, value: f64) -> f64 {
        value * self.factor
    }

    /// A value, rounded to the step: `11.5`.
    pub fn number(&self, value: f64) -> String {
        let rounded = (self.value(value) / self.step).round() * self.step;
        // Minus nothing is nothing.
        let rounded = if rounded.abs() < self.step / 2.0 { 0.0 } else { rounded };
        format!("{rounded:.*}", self.decimals())
    }

    /// A value with its unit: `11.5 in`.
    pub fn amount(&self, value: f64) -> String {
        format!("{}{}", self.number(value), self.with_unit())
    }

    /// The same, never under one step.
    pub(super) fn at_least_a_step(&self, value: f64) -> String {
        self.amount(value.max(self.step / self.factor))
    }

    /// A difference that is not zero: one that rounds to it is `under 0.1 in`.
    pub(super) fn difference(&self, value: f64) -> String {
        let amount = self.amount(value);
        if amount == self.amount(0.0) { format!("under {}", self.at_least_a_step(0.0)) } else { amount }
    }

    /// The unit as it follows a number.
    pub fn with_unit(&self) -> String {
        match self.unit {
            "" => String::new(),
            "%" => "%".to_owned(),
            unit => format!(" {unit}"),
        }
    }

    /// What was read with its unit: `height (in)`.
    pub fn head(&self) -> String {
        if self.unit.is_empty() { self.name.to_owned() } else { format!("{} ({})", self.name, self.unit) }
    }

    /// The interval of a difference that was found: it never reaches zero, though it may round to it.
    pub(super) fn beyond_zero(&self, (low, high): (f64, f64)) -> String {
        let zero = format!("{:.*}", self.decimals(), 0.0);
        let low = match self.number(low) {
            low if low == zero => "over 0".to_owned(),
            low => low,
        };
        format!("{low} to {}", self.number(high))
    }

    /// Digits after the point.
    fn decimals(&self) -> usize {
        if self.step < 0.05 { 2 } else { usize::from(self.step < 1.0) }
    }
}

/// What growth is called, and what the plots did.
fn growth(reading: TrialReading) -> (&'static str, &'static str) {
    match reading {
        TrialReading::Height => ("growth in height", "grew"),
        TrialReading::BractWidth => ("growth in bract width", "grew"),
        TrialReading::Greenness => ("change of greenness", "rose"),
        TrialReading::Bracts => ("change of bract stage", "rose"),
        TrialReading::Roots => ("change of roots score", "rose"),
        TrialReading::RootZone => ("change of root zone EC", "rose"),
        TrialReading::Water => ("change of water", "rose"),
        TrialReading::Grade => ("change of salable", "rose"),
    }
}
