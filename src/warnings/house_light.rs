//! Whether a house is as low in light as the site says: its list beside what a logger measured. An observation, not a warning: the
//! rules go by the list, and it is the grower's to change.

use crate::limits::Limits;
use crate::record::{Entry, Kind};

/// What a logger says against the list of houses with little light.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LightDiffers {
    /// True where the house is on the list.
    pub listed: bool,
    /// Mean daily light integral of the days, mol/m2.
    pub mol: f64,
    /// The days.
    pub days: u32,
}

/// What the last days of a house's logger say against the list; `None` where they agree with it, or are too few. Days come oldest
/// first.
pub fn light_differs(days: &[&Entry], listed: bool, limits: &Limits) -> Option<LightDiffers> {
    let limits = &limits.light;
    let wanted = usize::try_from(limits.dull_mol_days).unwrap_or(usize::MAX);
    let light = |e: &&Entry| if let Kind::Climate { log, .. } = &*e.kind { log.light_mol } else { None };
    let last: Vec<f64> = days.iter().rev().filter_map(light).take(wanted).collect();
    if last.len() < wanted {
        return None;
    }
    let mol = last.iter().sum::<f64>() / f64::from(limits.dull_mol_days);
    let differs = if listed { mol > limits.bright_mol } else { mol < limits.dull_mol };
    differs.then_some(LightDiffers { listed, mol, days: limits.dull_mol_days })
}
