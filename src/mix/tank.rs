//! What must not share a stock tank.

use crate::crop::feed::{Carries, Clash, clashes};

const CALCIUM_FEED: Carries = Carries { calcium: true, sulfate: false, phosphate: true };

/// Materials that can be listed beside another in one tank, by the name that is typed, and the ions of each that precipitate
/// together.
pub const BESIDE: [(&str, Carries); 14] = [
    ("calcium", Carries::CALCIUM),
    ("sulfate", Carries::SULFATE),
    ("phosphate", Carries::PHOSPHATE),
    ("magnesium-sulfate", Carries::SULFATE),
    ("potassium-sulfate", Carries::SULFATE),
    ("iron-sulfate", Carries::SULFATE),
    ("sulfuric-acid", Carries::SULFATE),
    ("phosphoric-acid", Carries::PHOSPHATE),
    ("calcium-nitrate", Carries::CALCIUM),
    ("calcium-chloride", Carries::CALCIUM),
    ("calcium-feed", CALCIUM_FEED),
    ("potassium-nitrate", Carries { calcium: false, sulfate: false, phosphate: false }),
    ("sodium-molybdate", Carries { calcium: false, sulfate: false, phosphate: false }),
    ("ammonium-molybdate", Carries { calcium: false, sulfate: false, phosphate: false }),
];

/// True for a material of [`BESIDE`] that is an acid: those are listed by the names they are sold by, such as `sulfuric-acid`.
pub fn is_acid(beside: &str) -> bool {
    beside.ends_with("-acid")
}

/// Two materials that must not share a stock tank.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Apart {
    /// One, as it is named.
    pub first: String,
    /// The other.
    pub second: String,
    /// What precipitates.
    pub clash: Clash,
}

/// The pairs of materials that must not share a stock tank.
pub fn apart(tank: &[(&str, Carries)]) -> Vec<Apart> {
    let carries: Vec<Carries> = tank.iter().map(|(_, carries)| *carries).collect();
    let name = |at: usize| tank.get(at).map_or_else(String::new, |(name, _)| (*name).to_owned());
    let pair = |(first, second, clash)| Apart { first: name(first), second: name(second), clash };
    clashes(&carries).into_iter().map(pair).collect()
}

#[cfg(test)]
mod tests {
    use super::{BESIDE, apart};
    use crate::crop::feed::Carries;

    #[test]
    fn every_pair_that_clashes_is_named() {
        let pairs = apart(&[("calcium-nitrate", Carries::CALCIUM), ("magnesium-sulfate", Carries::SULFATE)]);
        assert_eq!(pairs.len(), 1);
        assert_eq!((pairs[0].first.as_str(), pairs[0].second.as_str()), ("calcium-nitrate", "magnesium-sulfate"));
        assert!(apart(&[BESIDE[3], BESIDE[4]]).is_empty());
        assert_eq!(apart(&[BESIDE[10], BESIDE[3]]).len(), 1);
    }
}
