//! The comparison as one JSON object, for other programs: metric units, days as ISO dates.

use super::Comparison;
use crate::compare::{By, Come, LotBeside, Measure, Pots};
use crate::record::{Place, Term};
use chrono::NaiveDate;
use serde_json::{Value, json};

/// The comparison as JSON.
pub fn json(comparison: &Comparison) -> String {
    let by_hand = |pairs: &[crate::compare::Match]| -> Vec<Value> {
        pairs.iter().map(|hand| json!({ "last": hand.last, "this": hand.this })).collect()
    };
    let alone = comparison.pairs.pairs.iter().filter(|pair| pair.last.is_none());
    let out = json!({
        "on": comparison.on,
        "site": comparison.site.name,
        "last_year": comparison.last_file,
        "this_year": comparison.this_file,
        "lots": comparison.lots.iter().map(lot).collect::<Vec<_>>(),
        "only_this_year": alone.map(|pair| pair.this.clone()).collect::<Vec<_>>(),
        "only_last_year": comparison.pairs.left,
        "not_matched": by_hand(&comparison.pairs.unknown),
        "cost_most_last_year": comparison.costs.iter().map(cost).collect::<Vec<_>>(),
    });
    format!("{out:#}\n")
}

fn lot(lot: &LotBeside) -> Value {
    let stood = |it: Option<(NaiveDate, usize)>| it.map(|(began, days)| json!({ "began": began, "days": days }));
    json!({
        "this": lot.this.lot,
        "last": lot.last.lot,
        "cultivar": lot.this.cultivar,
        "container": lot.this.container,
        "matched": match lot.by { By::Hand => "by hand", By::CultivarAndContainer => "cultivar and container" },
        "crop_day": lot.crop_day,
        "last_on": lot.then,
        "came": lot.came.iter().map(|row| json!({
            "what": came(row.what), "this": row.this, "last": row.last, "days_later": row.later,
        })).collect::<Vec<_>>(),
        "measured": lot.measured.iter().map(|row| json!({
            "what": measure(row.what), "crop_week": row.week, "this": round(row.this), "last": round(row.last),
        })).collect::<Vec<_>>(),
        "waterings_a_bench_and_week": lot.watered.map(|(this, last)| json!({
            "this": round(this.a_week()), "last": round(last.a_week()),
        })),
        "pots": { "this": pots(lot.pots.this), "last_by_then": pots(lot.pots.last), "last_in_all": pots(lot.pots.whole) },
        "lost_by_cause": { "this": causes(&lot.causes.0), "last_in_all": causes(&lot.causes.1) },
        "warnings": lot.stood.iter().map(|row| json!({
            "name": row.name.code(), "this": stood(row.this), "last_by_then": stood(row.last), "last_in_all": stood(row.whole),
        })).collect::<Vec<_>>(),
    })
}

fn pots(pots: Pots) -> Value {
    json!({ "placed": pots.placed, "lost": pots.lost, "sold": pots.sold, "standing": pots.standing })
}

fn causes(causes: &[(String, u64)]) -> Vec<Value> {
    causes.iter().map(|(cause, pots)| json!({ "cause": cause, "pots": pots })).collect()
}

fn cost(cost: &crate::compare::Cost) -> Value {
    let (kind, of) = match &cost.of {
        Place::Bench(code) => ("bench", code),
        Place::Lot(code) => ("lot", code),
        Place::House(name) => ("house", name),
    };
    json!({
        "warning": cost.name.code(),
        kind: &**of,
        "benches": cost.benches,
        "began": cost.began,
        "days": cost.days,
        "pots_lost": cost.pots,
        "worst": cost.worst.code(),
        "then": cost.then.iter().map(|(name, began)| json!({ "warning": name.code(), "began": began })).collect::<Vec<_>>(),
    })
}

/// Two decimals: more says nothing of a mean of readings.
fn round(value: f64) -> f64 {
    (value * 100.0).round() / 100.0
}

const fn came(what: Come) -> &'static str {
    use crate::crop::color::Milestone as M;
    match what {
        Come::Planted => "planted",
        Come::Pinched => "pinched",
        Come::Spaced => "spaced",
        Come::GrowthRegulator => "growth-regulator",
        Come::ShortDays => "short-days",
        Come::Color(M::FirstColor) => "first-color",
        Come::Color(M::Cyathia) => "cyathia",
        Come::Color(M::FullColor) => "full-color",
        Come::Color(M::FirstPollen) => "first-pollen",
        Come::Sold => "sold",
    }
}

/// The name of a measure, with its unit.
fn measure(what: Measure) -> String {
    match what {
        Measure::Height => "height_cm".to_owned(),
        Measure::Water => "water".to_owned(),
        Measure::Roots => "roots".to_owned(),
        Measure::Bracts => "bracts".to_owned(),
        Measure::Ph => "ph".to_owned(),
        Measure::Salts(method) => format!("ec_ms_cm_{}", method.code().replace('-', "_")),
        Measure::Day => "day_c".to_owned(),
        Measure::Night => "night_c".to_owned(),
        Measure::Humidity => "humidity_percent".to_owned(),
    }
}
