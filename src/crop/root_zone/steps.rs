//! What to do about a root zone that is off, as an ordered list of steps.
//!
//! Two things are never advised: leaching a pot that is wet (it drowns the roots the salts have already hurt) and
//! leaching a mix with slow-release feed in it (water frees more salt; re-pot instead: Penn State Extension, "Roots
//! infected with Pythium", 2012; UMass Greenhouse Update, 13 Nov 2015). Where it is not known whether there is
//! slow-release, that is asked first.

use super::{PhState, SaltState};
use crate::crop::{CropError, within};

/// A step. Its words belong to the warnings.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Step {
    /// Test again with more pots before doing anything.
    TestAgainMorePots,
    /// Knock out pots and look at the roots.
    LookAtRoots,
    /// Lift the pots: how wet are they?
    CheckWater,
    /// Let the pots dry down first; no leaching while they are wet.
    DryDownFirst,
    /// Find out whether slow-release feed is in the mix before any leaching.
    AskSlowRelease,
    /// Do not leach: slow-release in the mix. Clear water at ordinary waterings; re-pot the worst.
    NoLeachingRepot,
    /// Leach with clear water until it runs through (volume: no published figure was read).
    LeachClearWater,
    /// Give clear water at the next waterings so that the pots do not dry further.
    ClearWaterNow,
    /// Then cut the feed rate in stages.
    LowerFeed,
    /// Check the injector: feed EC less water EC against the bag's chart.
    CheckInjector,
    /// Look for over-leaching and too many waterings without feed.
    CheckLeaching,
    /// Raise the feed's strength, or feed at every watering.
    RaiseFeed,
    /// Feed that raises pH: nitrate-based.
    NitrateFeed,
    /// Ease acid injection where there is any.
    EaseAcid,
    /// Lime drench of flowable dolomite, hydrated lime in solution or potassium bicarbonate, at the label's rate.
    LimeDrench,
    /// Never dry hydrated lime on the mix; eyes and skin.
    NoDryHydratedLime,
    /// Feed that lowers pH: ammonium-based, in warm bright weather only.
    AcidFeed,
    /// Test the water's alkalinity; above 2 meq/L inject acid or use less lime.
    CheckAlkalinity,
    /// Iron chelate of a kind that holds at this pH; rinse leaves.
    IronChelate,
    /// Iron sulfate drench; rinse leaves at once.
    IronSulfate,
    /// Magnesium and molybdenum are short at this pH: look at both.
    CheckMagnesiumMolybdenum,
}

/// How much water is in the mix, as it was last read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Moisture {
    /// Dry: watered soon.
    Dry,
    /// Neither.
    Moist,
    /// Wet: no drench on it.
    Wet,
}

/// What is known of the pots. Unknown is `None`, never assumed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Situation {
    /// The water in the mix as last read.
    pub water: Option<Moisture>,
    /// Is slow-release feed in the mix or on it?
    pub slow_release: Option<bool>,
    /// The reading is of fewer pots than a test takes.
    pub few_pots: bool,
}

/// Steps for a salt reading. Empty when it is in range.
pub fn salt_steps(state: SaltState, at: Situation) -> Vec<Step> {
    match state {
        SaltState::InRange => Vec::new(),
        SaltState::TooLow | SaltState::LowSide => {
            with_retest(at, [Step::CheckInjector, Step::CheckLeaching, Step::RaiseFeed])
        }
        SaltState::HighSide => with_retest(at, [Step::CheckInjector, Step::LowerFeed]),
        SaltState::TooHigh | SaltState::FarTooHigh => with_retest(at, too_high(at)),
    }
}

fn with_retest(at: Situation, steps: impl IntoIterator<Item = Step>) -> Vec<Step> {
    at.few_pots.then_some(Step::TestAgainMorePots).into_iter().chain(steps).collect()
}

/// What is done with water comes first, then what is looked at.
fn too_high(at: Situation) -> Vec<Step> {
    let leach = at.slow_release == Some(false) && matches!(at.water, Some(Moisture::Dry | Moisture::Moist));
    let first = match at.water {
        Some(Moisture::Wet) => Some(Step::DryDownFirst),
        // Dry pots with high salts hurt most: clear water, also where they may not be leached.
        Some(Moisture::Dry) if !leach => Some(Step::ClearWaterNow),
        None => Some(Step::CheckWater),
        Some(Moisture::Dry | Moisture::Moist) => None,
    };
    let then = match at.slow_release {
        Some(true) => Some(Step::NoLeachingRepot),
        None => Some(Step::AskSlowRelease),
        Some(false) => leach.then_some(Step::LeachClearWater),
    };
    first.into_iter().chain(then).chain([Step::LookAtRoots, Step::CheckInjector, Step::LowerFeed]).collect()
}

/// Steps for a pH reading. Empty when it is in range.
///
/// Sources: university newsletter notes on lime (Owen, Whipker, Henry); MSU Extension on limestones; University of Maryland
/// notes on iron (2009); "Avoiding top problems of poinsettias", 2002.
pub fn ph_steps(state: PhState, at: Situation) -> Vec<Step> {
    let dry_down = (at.water == Some(Moisture::Wet)).then_some(Step::DryDownFirst);
    match state {
        PhState::UnderTarget | PhState::OnTarget | PhState::OverTarget => Vec::new(),
        PhState::LowEdge => with_retest(at, [Step::NitrateFeed, Step::EaseAcid, Step::CheckMagnesiumMolybdenum]),
        PhState::TooLow => {
            let first = [Step::NitrateFeed, Step::EaseAcid].into_iter().chain(dry_down);
            with_retest(at, first.chain([Step::LimeDrench, Step::NoDryHydratedLime, Step::CheckMagnesiumMolybdenum]))
        }
        PhState::HighEdge => with_retest(at, [Step::CheckAlkalinity, Step::LookAtRoots]),
        PhState::TooHigh => {
            let first = [Step::LookAtRoots, Step::CheckAlkalinity, Step::AcidFeed].into_iter().chain(dry_down);
            with_retest(at, first.chain([Step::IronChelate, Step::IronSulfate]))
        }
    }
}

/// A kind of iron chelate, weakest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Chelate {
    /// Holds its iron up to pH 7.0.
    Edta,
    /// Up to 7.5.
    Dtpa,
    /// Up to 9.0 and beyond.
    Eddha,
}

/// The chelates that still hold their iron at this pH ("Benefits of using iron chelates", citing Argo and Fisher).
///
/// # Errors
/// [`CropError::Impossible`] outside 0 to 14.
pub fn chelates_at(ph: f64) -> Result<&'static [Chelate], CropError> {
    let ph = within("pH", ph, 0.0, 14.0, "")?;
    Ok(if ph <= 7.0 {
        &[Chelate::Edta, Chelate::Dtpa, Chelate::Eddha]
    } else if ph <= 7.5 {
        &[Chelate::Dtpa, Chelate::Eddha]
    } else {
        &[Chelate::Eddha]
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn leaching_is_advised_only_when_it_can_do_no_harm() {
        for state in [SaltState::TooHigh, SaltState::FarTooHigh] {
            for water in [None, Some(Moisture::Dry), Some(Moisture::Moist), Some(Moisture::Wet)] {
                for slow_release in [None, Some(true), Some(false)] {
                    let steps = salt_steps(state, Situation { water, slow_release, few_pots: false });
                    let leach = steps.contains(&Step::LeachClearWater);
                    let may = slow_release == Some(false) && matches!(water, Some(Moisture::Dry | Moisture::Moist));
                    assert_eq!(leach, may, "{water:?}");
                    assert_eq!(steps.contains(&Step::AskSlowRelease), slow_release.is_none());
                    assert_eq!(steps.contains(&Step::DryDownFirst), water == Some(Moisture::Wet));
                    assert!(!(leach && steps.contains(&Step::ClearWaterNow)), "one watering");
                }
            }
        }
    }

    #[test]
    fn a_reading_of_few_pots_is_taken_again_first() {
        let at = Situation { few_pots: true, ..Situation::default() };
        assert_eq!(salt_steps(SaltState::TooLow, at).first(), Some(&Step::TestAgainMorePots));
        assert_eq!(ph_steps(PhState::TooHigh, at).first(), Some(&Step::TestAgainMorePots));
        assert!(salt_steps(SaltState::InRange, at).is_empty());
    }

    #[test]
    fn dry_pots_with_high_salts_get_water_first() {
        let at = |slow_release| Situation { water: Some(Moisture::Dry), slow_release, few_pots: false };
        for slow_release in [Some(true), None] {
            assert_eq!(salt_steps(SaltState::TooHigh, at(slow_release)).first(), Some(&Step::ClearWaterNow));
        }
        assert_eq!(salt_steps(SaltState::TooHigh, at(Some(false))).first(), Some(&Step::LeachClearWater));
    }

    #[test]
    fn lime_never_comes_without_its_caution() {
        let steps = ph_steps(PhState::TooLow, Situation::default());
        assert!(steps.contains(&Step::LimeDrench) && steps.contains(&Step::NoDryHydratedLime));
        assert_eq!(chelates_at(7.2).map(<[_]>::len), Ok(2));
        assert!(chelates_at(16.0).is_err());
    }
}
