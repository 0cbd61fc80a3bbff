//! What must not share a stock tank, in words.

use crate::crop::feed::{Carries, Clash, clashes};

const CALCIUM_FEED: Carries = Carries { calcium: true, sulfate: false, phosphate: true };

/// What may stand beside a material in one tank, by the name it is typed with, and what each brings of the ions that fall out
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

/// Why the materials of one stock tank do not go together: a sentence a pair.
pub fn apart(tank: &[(&str, Carries)]) -> Vec<String> {
    let carries: Vec<Carries> = tank.iter().map(|(_, carries)| *carries).collect();
    let name = |at: usize| tank.get(at).map_or("", |(name, _)| name);
    let say = |(first, second, clash): &(usize, usize, Clash)| {
        let why = match clash {
            Clash::CalciumSulfate => "calcium and sulfate fall out as gypsum and clog lines (N.C. Agronomic Division)",
            Clash::CalciumPhosphate => "calcium and phosphate fall out (common practice, no source)",
        };
        format!("{} and {} not in one stock tank: {why}", name(*first), name(*second))
    };
    clashes(&carries).iter().map(say).collect()
}

#[cfg(test)]
mod tests {
    use super::{BESIDE, apart};
    use crate::crop::feed::Carries;

    #[test]
    fn every_pair_that_clashes_is_told() {
        let told = apart(&[("calcium-nitrate", Carries::CALCIUM), ("magnesium-sulfate", Carries::SULFATE)]);
        assert_eq!(told.len(), 1);
        assert!(told[0].starts_with("calcium-nitrate and magnesium-sulfate not in one stock tank"), "{told:?}");
        assert!(apart(&[BESIDE[3], BESIDE[4]]).is_empty());
        assert_eq!(apart(&[BESIDE[10], BESIDE[3]]).len(), 1);
    }
}
