//! Warnings in the grower's words: a title, why it matters, what to do next. One file a family.

mod evidence;
mod feed;
mod growth;
mod light;
mod pests;
mod water;

pub use evidence::{piece, pieces};

use crate::record::Place;
use crate::warnings::{LikelyCause, Step, Warning, WarningName as N};

/// The standing words of a warning.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Words {
    /// What it is, in two to four words.
    pub title: &'static str,
    /// Why it matters, in one sentence.
    pub why: &'static str,
    /// What to do, the first thing first.
    pub next: &'static [&'static str],
}

/// The standing words of a warning by name.
pub const fn words(name: N) -> Words {
    match name {
        N::StayingWet
        | N::WateredWet
        | N::WiltingWet
        | N::WetBase
        | N::DryBase
        | N::TooDry
        | N::RootsBrowning
        | N::RootsFailing
        | N::RootsDiseased
        | N::RootsUnchecked
        | N::LossesRising => water::words(name),
        N::MagnesiumDue
        | N::MagnesiumMissed
        | N::MolybdenumDue
        | N::MolybdenumMissed
        | N::Unfed
        | N::SaltsHigh
        | N::SaltsLow
        | N::PhLow
        | N::PhHigh
        | N::RootZoneUntested
        | N::TaperFeed
        | N::CalciumDue => feed::words(name),
        N::PinchDue
        | N::PinchOverdue
        | N::PinchedInError
        | N::TooTall
        | N::TooShort
        | N::FinishingTall
        | N::FinishingShort
        | N::Unmeasured
        | N::GrowthRegulatorLate
        | N::GrowthRegulatorStrong => growth::words(name),
        N::NightLight
        | N::BlackoutMissed
        | N::LightsMissed
        | N::ColorBehind
        | N::ColorAhead
        | N::HeatDelay
        | N::ColdNights
        | N::MoldWeather => light::words(name),
        N::Whitefly
        | N::Thrips
        | N::FungusGnats
        | N::Mites
        | N::Mealybugs
        | N::PowderyMildew
        | N::GrayMold
        | N::Scab
        | N::Unscouted
        | N::NotWalked
        | N::HouseTrouble
        | N::ShortCount => pests::words(name),
    }
}

/// The title of a warning.
pub const fn title(name: N) -> &'static str {
    words(name).title
}

/// What to do next: the steps that follow from the evidence first, then the usual ones, with the causes to check after the
/// first of these.
pub fn next(warning: &Warning) -> Vec<String> {
    let usual = words(warning.name).next;
    let mut all: Vec<String> = warning.steps.iter().map(|s| step(*s).to_owned()).collect();
    let wet = warning.steps.contains(&Step::WaitUntilDry);
    let held = warning.steps.iter().any(|s| matches!(s, Step::NoLeachingWet | Step::NoLeachingSlowRelease));
    all.extend(usual.iter().filter(|t| !(held && t.starts_with("Leach"))).map(|t| (*t).to_owned()));
    if wet && all.len() > 1 {
        // What to give comes first, then how to give it to a wet bench.
        all.swap(0, 1);
    }
    if warning.steps.first() == Some(&Step::StartHeightReckoned) {
        // A remark, nothing to do: it stands last.
        all.rotate_left(1);
    }
    // After the usual first step: what else the sign may mean.
    let at = (warning.steps.len() + 1).min(all.len());
    all.splice(at..at, warning.likely_causes.iter().map(to_check));
    all
}

/// `Check for iron short at high pH: leaf analysis, sick and healthy leaves side by side.` A possibility, never a diagnosis.
pub fn to_check(likely: &LikelyCause) -> String {
    // The way to confirm hangs on one colon already.
    let how = likely.confirm.words().replace(':', ",");
    let end = if how.ends_with('?') { "" } else { "." };
    format!("Check for {}: {how}{end}", likely.cause.words())
}

const fn step(step: Step) -> &'static str {
    match step {
        Step::WaitUntilDry => "The mix is wet: give it as the next watering, once it reads 2.",
        Step::NoLeachingWet => "Do not leach now: the mix is wet. Let it dry down, then test again.",
        Step::NoLeachingSlowRelease => {
            "Do not leach: slow-release in the mix would free more salt. Hold back the feed."
        }
        Step::TestAgain => "Fewer than three pots were sampled: test again before acting.",
        Step::RecoveryUnlikely => "New roots before the sale are unlikely: sort out the worst and plan for fewer pots.",
        Step::FeelThePlug => "Feel the plug: it may be dry inside wet mix. If dry, water the plug only.",
        Step::SlowRoots => "Roots are slow: wait for the pot wall and look again in three days.",
        Step::LatePinch => {
            "Short days are near: pinch now for fewer, shorter breaks, or leave it single and sell it so."
        }
        Step::StartHeightReckoned => "The start height was reckoned from the pot, not measured.",
        Step::LookAtMore => "Look at more plants: the share could still be over the limit.",
        Step::LastSprays => "Late September is the last time to change from beneficials to sprays.",
    }
}

/// Of what: `N1`, `N1 N2 N3`, `lot P6-R`, `North house`.
pub fn place(warning: &Warning) -> String {
    match &warning.place {
        Place::Bench(code) => code.clone(),
        Place::Lot(code) => format!("lot {code}"),
        Place::House(name) => format!("house {name}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::Term;

    #[test]
    fn every_warning_has_words_that_fit_a_line() {
        for name in N::ALL {
            let w = words(*name);
            assert!(w.title.chars().count() <= 28, "{}", w.title);
            assert!(!w.next.is_empty(), "{}", name.code());
            for text in w.next.iter().chain([&w.why]) {
                assert!(text.ends_with('.') && text.chars().count() <= 150, "{text}");
            }
        }
    }
}
