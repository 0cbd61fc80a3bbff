//! What is mixed: reckoned and put into words once, for the command line and for the Mixing page.
//!
//! Each file takes what was asked as quantities and gives an answer: numbers of the crop arithmetic, lines to read, fields for
//! other programs. Reading typed text is left to those who ask; a [`Refused`] says which of the things asked cannot be.

pub mod feed;
pub mod growth_regulator;
pub mod nutrient;
pub mod topdress;

mod growth_words;
mod page;
mod solution;
mod tank;
mod weighing;
mod words;

pub use page::{Page, Row, Tone};
pub use solution::{Solution, rate};
pub use tank::{BESIDE, apart};
pub use weighing::{Into, Weighing};
pub use words::{both, mass, off, volume};

use crate::crop::growth_regulator::Caution;
use serde_json::{Value, json};

/// What was asked, to say which of it cannot be.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Asked {
    /// The strength of a product and the ppm it is to make.
    Mixed,
    /// The ppm.
    Ppm,
    /// The volume of the finished solution.
    Volume,
    /// The area sprayed.
    Area,
    /// The spray on an area.
    Rate,
    /// The number of pots.
    Pots,
    /// What a pot gets.
    PerPot,
    /// The share of the element in a bag.
    Percent,
    /// The injector.
    Injector,
    /// The volume of stock.
    Stock,
    /// The volume of feed.
    Feed,
    /// The step of the scale.
    Scale,
    /// The three numbers of a bag.
    Analysis,
    /// The EC and ppm of the bag's chart.
    Chart,
    /// The EC of the plain water.
    WaterEc,
    /// The EC of the feed.
    FeedEc,
    /// Fertilizer a pot.
    Grams,
}

/// Something asked cannot be: which, and why.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{reason}")]
pub struct Refused {
    /// Which.
    pub asked: Asked,
    /// The part of a tank it belongs to, from 0.
    pub part: usize,
    /// Why, and what would be right.
    pub reason: String,
}

/// Turns a reason into a refusal: `.map_err(refuse(Asked::Volume))`.
fn refuse<E: std::fmt::Display>(asked: Asked) -> impl Fn(E) -> Refused {
    move |reason| Refused { asked, part: 0, reason: reason.to_string() }
}

/// Cautions for other programs.
fn cautions_json(cautions: &[Caution]) -> Value {
    cautions.iter().map(|c| json!({ "caution": c.id, "text": c.text })).collect()
}
