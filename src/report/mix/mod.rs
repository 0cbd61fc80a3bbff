//! Mixing answers in words, shared by the command line and the Mixing page.

mod feed;
mod growth_regulator;
mod nutrient;
mod page;
mod topdress;
mod weighing;

pub use growth_regulator::{last_words, usual_growth_regulator};
pub use nutrient::usual_nutrient;
pub use page::{Page, Row, Tone};

use crate::crop::growth_regulator::Caution;
use crate::mix::MixAnswer;
use crate::units::{System, plain};
use serde_json::{Value, json};

/// An answer to read.
pub fn page(answer: &MixAnswer, units: System) -> Page {
    match answer {
        MixAnswer::GrowthRegulator(answer) => growth_regulator::page(answer, units),
        MixAnswer::Nutrient(answer) => nutrient::page(answer, units),
        MixAnswer::Feed(answer) => feed::page(answer, units),
        MixAnswer::Topdress(answer) => topdress::page(answer, units),
    }
}

/// An answer for other programs.
pub fn json(answer: &MixAnswer) -> Value {
    match answer {
        MixAnswer::GrowthRegulator(answer) => growth_regulator::json(answer),
        MixAnswer::Nutrient(answer) => nutrient::json(answer),
        MixAnswer::Feed(answer) => feed::json(answer),
        MixAnswer::Topdress(answer) => topdress::json(answer),
    }
}

/// Cautions for other programs.
fn cautions_json(cautions: &[Caution]) -> Value {
    cautions.iter().map(|c| json!({ "caution": c.id, "text": c.text })).collect()
}

/// A deviation in words: `+1.4%`, or `exact`.
fn off(share: f64) -> String {
    if share.abs() < 0.0005 { "exact".to_owned() } else { format!("{:+.1}%", share * 100.0) }
}

/// A range of ppm: `750 to 1000`, or the one number.
fn range(low: f64, high: f64) -> String {
    if (high - low).abs() < f64::EPSILON { plain(low) } else { format!("{} to {}", plain(low), plain(high)) }
}
