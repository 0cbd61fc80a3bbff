//! What the symptom key adds to a warning with a sign: at most two causes to check, each with one way to confirm it.
//!
//! **Sees** what the key sees of the bench (`symptoms`), narrowed to the signs the warning is about: a pale leaf says nothing of
//! brown roots. **Why** one sign has several causes, and the usual step helps against one of them only. **Numbers** the key's own;
//! two causes at most is a house rule: a longer list stands on the bench's page. A cause that only says the warning again is left
//! out, and so is a way to confirm it that has been taken already (a tested pH, roots looked at). Never a diagnosis.

use super::bench_day::BenchDay;
use super::symptoms::of as seen_of;
use super::{LikelyCause, Signs, Warning};
use crate::crop::symptoms::{Cause, Confirm, Seen, causes};
use crate::terms::{LeafSign, RootSign};

/// Most causes with one warning (house rule).
const MOST: usize = 2;

/// Fills in the causes to check of every warning with a sign on this bench.
pub(super) fn fill(bench: &BenchDay<'_>, warnings: &mut [Warning]) {
    let mut seen: Option<Seen> = None;
    for warning in warnings {
        if let Some(about) = &warning.name.rule().signs {
            // The key looks at the bench once, and only where a warning asks for it.
            warning.likely_causes = pick(about, seen.get_or_insert_with(|| seen_of(bench)));
        }
    }
}

/// The causes to check for some signs on the leaves of a bench.
pub(super) fn of_signs(bench: &BenchDay<'_>, signs: &[LeafSign]) -> Vec<LikelyCause> {
    pick_of(signs, &Signs { leaves: &[], roots: false, but: &[] }, &seen_of(bench))
}

fn pick(about: &Signs, seen: &Seen) -> Vec<LikelyCause> {
    pick_of(about.leaves, about, seen)
}

fn pick_of(leaves: &[LeafSign], about: &Signs, seen: &Seen) -> Vec<LikelyCause> {
    let mut narrow = seen.clone();
    narrow.signs.retain(|sign| leaves.contains(sign));
    let roots = about.roots && (seen.roots.is_some_and(|score| score >= 2) || !seen.root_signs.is_empty());
    if narrow.signs.is_empty() && !roots {
        return Vec::new();
    }
    if !about.roots {
        narrow.root_signs.clear();
    }
    let mut picked: Vec<LikelyCause> = Vec::new();
    for cause in causes(&narrow).into_iter().map(|s| s.cause) {
        let again = about.but.contains(&cause) || OWN_WARNING.contains(&cause);
        // The species of one rot are one cause: a laboratory tells them apart.
        let twin = is_pythium(cause) && picked.iter().any(|p| is_pythium(p.cause));
        if !again && !twin && picked.len() < MOST {
            let confirm = way(cause, seen, &picked);
            picked.extend(confirm.map(|confirm| LikelyCause { cause, confirm }));
        }
    }
    picked
}

/// Causes with a warning of their own, by a count.
const OWN_WARNING: [Cause; 2] = [Cause::FungusGnats, Cause::ShoreFlies];

const fn is_pythium(cause: Cause) -> bool {
    matches!(cause, Cause::Pythium | Cause::PythiumCool | Cause::PythiumWarm)
}

/// The quickest way to confirm a cause that is not used yet for this or another cause.
fn way(cause: Cause, seen: &Seen, picked: &[LikelyCause]) -> Option<Confirm> {
    let open = |c: &&Confirm| !taken(**c, seen);
    let new = |c: &&Confirm| !picked.iter().any(|p| p.confirm == **c);
    let ways = || cause.confirm().iter();
    ways().filter(open).find(new).or_else(|| ways().find(open)).or_else(|| ways().last()).copied()
}

/// True where the record holds the answer already.
fn taken(confirm: Confirm, seen: &Seen) -> bool {
    match confirm {
        Confirm::RootZoneEc => seen.salts.is_some(),
        Confirm::RootZonePh => seen.ph.is_some(),
        Confirm::KnockOut => seen.roots.is_some(),
        Confirm::PullSleeve => seen.root_signs.contains(&RootSign::SleeveOff),
        Confirm::SoilLine => seen.root_signs.contains(&RootSign::Canker),
        Confirm::PotatoPiece => seen.root_signs.contains(&RootSign::Larvae),
        Confirm::CountFlies => seen.small_flies,
        Confirm::Fuzz => seen.signs.contains(&LeafSign::GrayFuzz),
        Confirm::Laboratory
        | Confirm::MixTemperature
        | Confirm::WetOrDryCanker
        | Confirm::Webbing
        | Confirm::BoxTemperature
        | Confirm::WaterDays
        | Confirm::PotWeight
        | Confirm::LineAndEmitter
        | Confirm::Undersides
        | Confirm::StrongLens
        | Confirm::Axils
        | Confirm::WhitePatch
        | Confirm::StemScabs
        | Confirm::LightSide
        | Confirm::RegulatorLog
        | Confirm::HumidityLog
        | Confirm::FeedLog
        | Confirm::WaterMagnesium
        | Confirm::FeedMolybdenum
        | Confirm::FeedSulfurPhosphorus
        | Confirm::Tissue
        | Confirm::AmmoniumShare
        | Confirm::WaterBoron
        | Confirm::NewLeaves
        | Confirm::TipLens
        | Confirm::SprayLog
        | Confirm::SpotEdges
        | Confirm::FeelJoint
        | Confirm::HeaterFlue
        | Confirm::IndicatorPlant
        | Confirm::Unpacked
        | Confirm::PrickBlister
        | Confirm::LightsLog
        | Confirm::LightAndNights
        | Confirm::SlimeTrails
        | Confirm::Droppings
        | Confirm::NightsLog
        | Confirm::WingsAndLegs => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::terms::PlantPart;
    use crate::warnings::WarningName as N;

    fn picked(name: N, seen: &Seen) -> Vec<(Cause, Confirm)> {
        pick(name.rule().signs.as_ref().unwrap(), seen).into_iter().map(|s| (s.cause, s.confirm)).collect()
    }

    #[test]
    fn a_sign_of_something_else_is_not_told_with_a_warning() {
        let seen = Seen { signs: vec![LeafSign::Crinkled], ..Seen::default() };
        assert!(picked(N::SaltsHigh, &seen).is_empty());
        assert!(picked(N::RootsFailing, &seen).is_empty());
    }

    #[test]
    fn young_leaves_yellow_between_the_veins_at_high_ph_ask_for_the_roots_once() {
        let mut seen = Seen {
            signs: vec![LeafSign::BetweenVeins],
            place: Some(PlantPart::Young),
            ph: Some(6.7),
            ..Seen::default()
        };
        assert_eq!(picked(N::PhHigh, &seen)[0], (Cause::Iron, Confirm::KnockOut), "the pH is known");
        seen.roots = Some(0);
        assert_eq!(picked(N::PhHigh, &seen)[0], (Cause::Iron, Confirm::Tissue), "and so are the roots");
    }

    #[test]
    fn no_warning_says_itself_again_or_more_than_two() {
        let wet = Seen { signs: vec![LeafSign::LowerYellow, LeafSign::Wilted], water: Some(5), ..Seen::default() };
        let causes = picked(N::StayingWet, &wet);
        assert!(!causes.is_empty() && causes.len() <= 2);
        assert!(causes.iter().all(|(c, _)| *c != Cause::OverWet), "{causes:?}");
        assert!(picked(N::GrayMold, &Seen { signs: vec![LeafSign::GrayFuzz], ..Seen::default() }).is_empty());
    }

    #[test]
    fn one_rot_is_told_once_whatever_its_species() {
        let cool = Seen { water: Some(5), roots: Some(3), night_c: Some(17.0), ..Seen::default() };
        let causes = picked(N::RootsFailing, &cool);
        assert_eq!(causes.iter().filter(|(c, _)| is_pythium(*c)).count(), 1, "{causes:?}");
        assert_eq!(causes.len(), 2);
    }
}
