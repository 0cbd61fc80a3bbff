//! Amounts in the units they are read in, in both systems.

use crate::crop::growth_regulator::Amount;
use crate::units::{Mass, Quantity, System, Volume, plain};

/// A value in a unit system, with the other system's beside it.
pub fn both(first: System, show: impl Fn(System) -> String) -> String {
    let second = match first {
        System::Us => System::Metric,
        System::Metric => System::Us,
    };
    format!("{} ({})", show(first), show(second))
}

/// A weight as it is read at its size: oz and g when small, lb and kg when large.
pub fn mass(first: System, mass: Mass) -> String {
    const POUND_G: f64 = 453.592_37;
    both(first, |system| match system {
        System::Us if mass.g() >= POUND_G => format!("{} lb", plain(mass.g() / POUND_G)),
        System::Metric if mass.g() >= 1000.0 => format!("{} kg", plain(mass.g() / 1000.0)),
        _ => mass.show(system),
    })
}

/// A volume as it is measured at its size: fl oz and mL when small, gal and L when large.
pub fn volume(first: System, volume: Volume) -> String {
    const HALF_GALLON_ML: f64 = 1892.7;
    if volume.ml() < HALF_GALLON_ML {
        let small = Amount::Volume(volume);
        return both(first, |system| small.show(system));
    }
    both(first, |system| volume.show(system))
}
