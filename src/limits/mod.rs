//! The numbers the rules go by: each has a default, a unit and a basis, and may be changed in the grower's limits file.
//!
//! The tables (one file a family of rules) are the only place of a default. From them come the fields the rules
//! read, the commented file that `benchwalk limits` prints, and the checks of a grower's own file.
//!
//! ```
//! use benchwalk::limits::Limits;
//!
//! let own = Limits::parse("[light]\ncold_night_c = 14.0\n").unwrap();
//! assert!(own.is_own("light.cold_night_c"));
//! assert_eq!(own.water, Limits::default().water);
//!
//! // A name that is no limit is reported with its line.
//! let faults = Limits::parse("[light]\ncold_nights = 14.0\n").unwrap_err();
//! assert!(faults[0].to_string().starts_with("line 2"));
//! ```

mod choice;
mod feed;
mod file;
mod growth;
mod leaves;
mod light;
mod pests;
mod round;
mod table;
mod trial;
mod water;

pub use choice::{Choices, CurveChoice};
pub use feed::Feed;
pub use file::{LimitsError, changed, commented};
pub use growth::Growth;
pub use leaves::Leaves;
pub use light::Light;
pub use pests::Pests;
pub use round::Round;
pub use table::{Basis, Key, Limit, Number, Row};
pub use trial::Trial;
pub use water::Water;

use std::collections::BTreeSet;

/// Every limit in force.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Limits {
    /// Water and roots.
    pub water: Water,
    /// Feed.
    pub feed: Feed,
    /// Pinch, height and growth regulators.
    pub growth: Growth,
    /// Night light, color and climate.
    pub light: Light,
    /// Signs on leaves, stems and bracts.
    pub leaves: Leaves,
    /// Pests and scouting.
    pub pests: Pests,
    /// The round and its house-wide signs.
    pub round: Round,
    /// Trials on the benches.
    pub trial: Trial,
    /// What is chosen rather than measured.
    pub choices: Choices,
    /// Keys (`group.name`) that the grower's file set to something other than the default.
    own: BTreeSet<&'static str>,
}

impl Limits {
    /// True when the grower's file changed this limit.
    pub fn is_own(&self, key: &str) -> bool {
        self.own.contains(key)
    }

    /// The keys that the grower's file changed.
    pub fn own(&self) -> impl Iterator<Item = &'static str> + '_ {
        self.own.iter().copied()
    }

    /// Every number in force, by its key.
    fn pairs(&self) -> Vec<(&'static str, f64)> {
        [
            self.water.pairs(),
            self.feed.pairs(),
            self.growth.pairs(),
            self.light.pairs(),
            self.leaves.pairs(),
            self.pests.pairs(),
            self.round.pairs(),
            self.trial.pairs(),
        ]
        .concat()
    }

    fn set(&mut self, key: &str, value: f64) {
        let _taken = self.water.set(key, value)
            || self.feed.set(key, value)
            || self.growth.set(key, value)
            || self.light.set(key, value)
            || self.leaves.set(key, value)
            || self.pests.set(key, value)
            || self.round.set(key, value)
            || self.trial.set(key, value);
    }

    /// Every numeric limit with its meaning, in the order of the printed file.
    pub fn rows() -> Vec<Row> {
        [Water::ROWS, Feed::ROWS, Growth::ROWS, Light::ROWS, Leaves::ROWS, Pests::ROWS, Round::ROWS, Trial::ROWS]
            .concat()
    }
}
