//! What to do about a root zone that is off, in words: the steps of `crop::root_zone` for a bench as it was last read.

use super::root_zone::alkalinity;
use super::{Act, BenchDay, Dry, Severity, Step, Warning};
use crate::crop::feed::Alkalinity;
use crate::crop::root_zone::{self, Chelate, Moisture, PhBounds, PhState, SaltState, Situation, chelates_at, judge_ph};
use crate::limits::Feed as Limits;
use crate::record::KindName;

impl Step {
    /// Fewer pots were sampled than a test takes.
    pub const TEST_AGAIN: Self = Self::todo("Fewer than three pots were sampled: test again before acting.");
    /// Not to leach: the mix is wet.
    pub const NO_LEACHING_WET: Self = Self {
        act: Act::Hold(Dry::Top),
        ..Self::no_leaching("Do not leach now: the mix is wet. Let it dry down, then test again.")
    };
    /// Not to leach: slow-release fertilizer is in the mix.
    pub const NO_LEACHING_SLOW_RELEASE: Self = Self::no_leaching(
        "Do not leach: slow-release in the mix would release more salts. Clear water, no feed for now; re-pot the worst.",
    );
    /// Whether slow-release is in the mix is not known: to leach only where it is not.
    pub const LEACH_UNLESS_SLOW_RELEASE: Self = Self::leach(
        "If no slow-release is in the mix: leach with clear water once it reads 2, then test again; manage runoff by local rules.",
    );
    /// The same where it cannot be leached now.
    pub const ASK_SLOW_RELEASE: Self =
        Self::check("Find out whether slow-release is in the mix: if so, it is not to be leached.");
    /// The alkalinity of the water is over the limit.
    pub const ALKALINITY_HIGH: Self =
        Self::todo("The alkalinity of the water is high: ask for less lime in the mix, or for acid, by trained staff.");
    /// The alkalinity of the water is not known.
    pub const TEST_ALKALINITY: Self = Self::check(
        "Test the alkalinity of the water; where it is high, ask for less lime in the mix, or for acid, by trained staff.",
    );
}

const LEACH: Step = Step::leach(
    "Leach with clear water once it reads 2, then test again; collect or manage runoff as local rules require.",
);
const CLEAR_WATER: Step = Step::water("Water with clear water: dry roots in strong salts burn. No feed.");
const LIFT: Step = Step::check_logged("Lift the pots: is the mix wet or dry?", KindName::Water);
const INJECTOR: Step = Step::check_logged(
    "Check the injector: EC at the hose less that of the water, against the bag's chart.",
    KindName::FeedCheck,
);
const DRY_DOWN: Step = Step::hold("The mix is wet: let it dry down before any drench.", Dry::Top);
const LIME: [Step; 2] = [
    Step::todo("If a second test agrees: flowable lime (dolomite) by its label; rinse the leaves."),
    Step::todo(
        "Lime burns skin and eyes: trained staff only, by its label and SDS; goggles, face shield, gloves, eyewash at hand.",
    ),
];
const ACID: [Step; 2] = [
    Step::todo("Acid only by trained staff, by its label and SDS: goggles, face shield, gloves, eyewash at hand."),
    Step::todo("Acid goes into water, never water into acid."),
];

/// What is known of the pots of a bench when a test of so many pots is read.
fn situation(bench: &BenchDay<'_>, pots: Option<u32>) -> Situation {
    let limits = bench.limits();
    let moisture = |level: u8, is_dry: bool| match level {
        level if level >= limits.water.wet_from => Moisture::Wet,
        level if level <= limits.feed.salts_dry_at && is_dry => Moisture::Dry,
        _ => Moisture::Moist,
    };
    // What was watered since it was read as dry is no longer.
    let water = bench.water().map(|r| moisture(r.level, !bench.watered_after(r.entry.instant())));
    let none_planned = bench.lot.slow_release_g.is_some_and(|g| g <= 0.0);
    let slow_release = if bench.has_slow_release() { Some(true) } else { none_planned.then_some(false) };
    Situation { water, slow_release, few_pots: pots.is_some_and(|n| n < limits.feed.fewest_pots) }
}

/// With what to do about salts.
pub(super) fn of_salts(warning: Warning, bench: &BenchDay<'_>, state: SaltState, pots: Option<u32>) -> Warning {
    let at = situation(bench, pots);
    // What is raised to act, as by burned edges, is dealt with as salts over the bound.
    let is_act = warning.level >= Severity::Act;
    let state = if is_act && state == SaltState::HighSide { SaltState::TooHigh } else { state };
    let steps = root_zone::salt_steps(state, at);
    steps.into_iter().fold(warning, |warning, step| in_words(warning, bench, step, at))
}

/// With what to do about a pH, judged by the bounds of an established crop or those of a young one.
pub(super) fn of_ph(warning: Warning, bench: &BenchDay<'_>, (ph, young): (f64, bool), pots: Option<u32>) -> Warning {
    let Ok(state) = judge_ph(ph, &ph_bounds(&bench.limits().feed, young)) else { return warning };
    let at = situation(bench, pots);
    let state = match state {
        PhState::LowEdge if warning.level >= Severity::Act => PhState::TooLow,
        PhState::HighEdge if warning.level >= Severity::Act => PhState::TooHigh,
        other => other,
    };
    let steps = root_zone::ph_steps(state, at);
    steps.into_iter().fold(warning, |warning, step| match step {
        root_zone::Step::DryDownFirst => warning.step(DRY_DOWN),
        root_zone::Step::IronChelate => warning.step(iron(ph)),
        _ => in_words(warning, bench, step, at),
    })
}

/// The bounds of a pH by the limits; the target is the published one.
const fn ph_bounds(limits: &Limits, young: bool) -> PhBounds {
    PhBounds {
        low: if young { limits.ph_low_young } else { limits.ph_low },
        watch_low: limits.ph_watch_low,
        watch_high: limits.ph_watch_high,
        high: limits.ph_high,
        ..if young { PhBounds::YOUNG } else { PhBounds::ESTABLISHED }
    }
}

/// Iron, by the kinds of chelate that hold at a pH.
fn iron(ph: f64) -> Step {
    let holds = chelates_at(ph).unwrap_or_default();
    let text = if holds.contains(&Chelate::Edta) {
        "If new leaves are pale: iron chelate (EDTA, DTPA or EDDHA) or iron sulfate by its label; rinse the leaves at once."
    } else if holds.contains(&Chelate::Dtpa) {
        "If new leaves are pale: iron chelate DTPA or EDDHA (EDTA does not hold at this pH) by its label; rinse the leaves at once."
    } else {
        "If new leaves are pale: iron chelate EDDHA (others do not hold at this pH) by its label; rinse the leaves at once."
    };
    Step::todo(text)
}

/// With a step in words, and the cautions that belong to it.
fn in_words(warning: Warning, bench: &BenchDay<'_>, step: root_zone::Step, at: Situation) -> Warning {
    use root_zone::Step as S;
    let is_leached = !matches!(at.water, Some(Moisture::Dry | Moisture::Wet));
    match step {
        S::TestAgainMorePots => warning.step(Step::TEST_AGAIN),
        S::LookAtRoots => warning.step(Step::KNOCK_OUT),
        S::CheckWater => warning.step(LIFT),
        S::DryDownFirst => warning.step(Step::NO_LEACHING_WET),
        S::AskSlowRelease if is_leached => warning.step(Step::LEACH_UNLESS_SLOW_RELEASE),
        S::AskSlowRelease => warning.step(Step::ASK_SLOW_RELEASE),
        S::NoLeachingRepot => warning.step(Step::NO_LEACHING_SLOW_RELEASE),
        S::LeachClearWater => warning.step(LEACH),
        S::ClearWaterNow => warning.step(CLEAR_WATER),
        S::LowerFeed => warning.step(Step::todo("Reduce the feed rate until it is back in range.")),
        S::CheckInjector => warning.step(INJECTOR),
        S::CheckLeaching => {
            warning.step(Step::todo("Water less to run-through, and give fewer waterings without feed."))
        }
        S::RaiseFeed => warning.step(Step::feed("Raise the feed rate, or feed at every watering.")),
        S::NitrateFeed => warning.step(Step::todo("Change to a nitrate-based feed, which is less acidic.")),
        S::EaseAcid => warning.step(Step::todo("Where acid is injected, have trained staff ease it.")),
        S::LimeDrench => warning.step(LIME[0]).step(LIME[1]),
        S::NoDryHydratedLime => warning.step(Step::todo("Never put dry hydrated lime on the mix.")),
        S::AcidFeed => {
            warning.step(Step::todo("Change to an ammonium-based, more acidic feed, in warm, sunny weeks only."))
        }
        S::CheckAlkalinity => of_water(warning, bench),
        // Named with the chelate.
        S::IronChelate | S::IronSulfate => warning,
        S::CheckMagnesiumMolybdenum => {
            warning.step(Step::todo("Magnesium and molybdenum are short at this pH: see that both were given."))
        }
    }
}

/// With what the alkalinity of the water asks for: nothing where it was tested and is not high.
fn of_water(warning: Warning, bench: &BenchDay<'_>) -> Warning {
    let most = Alkalinity::from_meq_l(bench.limits().feed.alkalinity_high).ok();
    let (warning, step) = match alkalinity(bench) {
        None => (warning, Step::TEST_ALKALINITY),
        Some((entry, tested)) if Some(tested) > most => (warning.saw(entry), Step::ALKALINITY_HIGH),
        Some(_) => return warning,
    };
    ACID.into_iter().fold(warning.step(step), Warning::step)
}
