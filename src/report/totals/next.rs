//! What is said of the next season's plan.

use crate::crop::calendar::Darkness;
use crate::dates;
use crate::totals::{LotDates, Next};
use crate::units::plain;

/// A line for each lot and for what was left out.
pub fn words(next: &Next) -> Vec<String> {
    let mut all: Vec<String> = next.lots.iter().map(lot).collect();
    for (placement, why) in &next.left_out {
        let day = dates::short(placement.from);
        all.push(format!("Left out: lot {} on bench {} from {day}: {why}.", placement.lot, placement.bench));
    }
    all
}

fn lot(of: &LotDates) -> String {
    let moved = match (of.days, of.days % 7) {
        (days, 0) => format!("{} weeks on", days / 7),
        (days, _) => format!("{days} days on"),
    };
    let mut text = format!(
        "Lot {}: planted {}, ready {} ({moved}). Short days must begin {}; {}.",
        of.lot.lot,
        dates::long(of.lot.planted),
        dates::long(of.lot.ready_by),
        dates::short(of.short_days),
        nights(&of.darkness)
    );
    if let Some((grams, basis)) = &of.slow_release {
        let by = basis.as_ref().map_or_else(String::new, |basis| format!(", by {basis}"));
        text.push_str(&format!(" Slow-release {} g per pot{by}.", plain(*grams)));
    }
    text
}

fn nights(darkness: &Darkness) -> String {
    let days = |n: i64| if n == 1 { "1 day".to_owned() } else { format!("{n} days") };
    match darkness {
        Darkness::Natural => "as planned they do".to_owned(),
        Darkness::LightUntil { last, days: n } => {
            format!("as planned they begin {} sooner: lights until {}, or ready sooner", days(*n), dates::short(*last))
        }
        Darkness::CoverFrom { first, days: n } => {
            format!(
                "as planned they begin {} later: black cloth from {}, or ready later",
                days(*n),
                dates::short(*first)
            )
        }
        Darkness::CoverAlways { first } => {
            format!("the nights never get long enough: black cloth from {}", dates::short(*first))
        }
    }
}
