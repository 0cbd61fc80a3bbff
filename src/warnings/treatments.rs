//! Growth regulators as the rules read them: the treatments that still speak, and the last safe days of the site.

use super::BenchDay;
use super::day_context::DayContext;
use crate::crop::growth_regulator::{Cutoff, CutoffDays, Ingredient, cutoff};
use crate::record::{Entry, Kind, KindName, Lot, Method, Part, Region};
use chrono::NaiveDate;

/// The parts of a treatment, how it was applied, and the solution per pot.
pub(super) fn tank(entry: &Entry) -> Option<(&[Part], Method, Option<f64>)> {
    let Kind::GrowthRegulator { parts, how, ml_per_pot, .. } = &*entry.kind else { return None };
    Some((parts, *how, *ml_per_pot))
}

/// The treatments that still speak, latest first.
pub(super) fn treatments<'s, 'a>(bench: &'s BenchDay<'a>) -> impl Iterator<Item = &'a Entry> + use<'s, 'a> {
    let limits = &bench.limits().growth;
    let most = limits.stands + limits.lingers;
    bench.of(KindName::GrowthRegulator).iter().rev().copied().take_while(move |e| bench.age(e) <= most)
}

/// The days the rules go by.
pub(super) const fn last_safe_rules(context: &DayContext<'_>) -> CutoffDays {
    CutoffDays::of(context.limits)
}

pub(super) fn region(context: &DayContext<'_>) -> Region {
    let cool = context.site().is_some_and(|s| s.region == Region::Cool && s.latitude >= 0.0);
    if cool { Region::Cool } else { Region::Warm }
}

/// The last day a lot may be sprayed with an ingredient without being late; `None` where no figure was found.
pub(super) fn last_spray(context: &DayContext<'_>, lot: &Lot, ingredient: Ingredient) -> Option<NaiveDate> {
    let short_days = context.short_days(lot)?;
    match cutoff(ingredient, Method::Spray, region(context), short_days, lot.ready_by, last_safe_rules(context)) {
        Cutoff::Day { day, .. } => Some(day),
        Cutoff::None { .. } | Cutoff::NoFigure => None,
    }
}
