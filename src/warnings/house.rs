//! `house-trouble`: the same trouble on many benches is the house's.
//!
//! **Sees** the same water, root or pest warning at act or above, and not put off, on 3 benches or more of a house: one warning
//! for each such trouble. A round not made (roots unchecked) and a feed not given are no troubles of a house, nor are lot-wide
//! warnings.
//! **Why** look at what the benches share: line, boiler, drain, door.
//! **Numbers** house rule. **Ends** when fewer benches have it.

use super::bench_day::BenchDay;
use super::builder::of_place;
use super::{Evidence, Figure, Level, Warning, WarningName};
use crate::limits::Round;
use crate::record::Place;
use std::collections::BTreeMap;

/// What a house can cause.
const SHARED: [WarningName; 14] = [
    WarningName::StayingWet,
    WarningName::WateredWet,
    WarningName::WiltingWet,
    WarningName::WetBase,
    WarningName::DryBase,
    WarningName::TooDry,
    WarningName::RootsBrowning,
    WarningName::RootsFailing,
    WarningName::RootsDiseased,
    WarningName::LossesRising,
    WarningName::Thrips,
    WarningName::FungusGnats,
    WarningName::Mites,
    WarningName::Mealybugs,
];

/// A house's shared troubles.
pub(super) fn rule(house: &str, sights: &[&BenchDay<'_>], per_bench: &BTreeMap<String, Vec<Warning>>) -> Vec<Warning> {
    let Some(first) = sights.first() else { return Vec::new() };
    let least = usize::try_from(first.limits().round.house_benches).unwrap_or(usize::MAX);
    let told = |name: WarningName| {
        let found: Vec<(&str, &Warning)> = sights
            .iter()
            .filter_map(|s| per_bench.get_key_value(s.code()))
            .filter_map(|(code, all)| Some((code.as_str(), all.iter().find(|w| counts(w, name))?)))
            .collect();
        if found.len() < least {
            return None;
        }
        // It became the house's with the bench that made the number full.
        let mut began: Vec<_> = found.iter().map(|(_, w)| w.since).collect();
        began.sort_unstable();
        let since = began.get(least.saturating_sub(1)).copied().unwrap_or(first.day());
        let benches = found.iter().map(|(code, _)| (*code).to_owned()).collect();
        let place = Place::House(house.to_owned());
        let warning = of_place(place, (WarningName::HouseTrouble, Level::Act), since, first.day(), benches);
        let limit = first.context.limit(Round::house_benches);
        Some(warning.also(Evidence::Warning(name)).figure(Figure::Benches, found.len() as f64, limit))
    };
    SHARED.into_iter().filter_map(told).collect()
}

fn counts(warning: &Warning, name: WarningName) -> bool {
    warning.name == name && warning.level >= Level::Act && warning.put_off_until.is_none()
}
