//! The symptom key: from what is seen on a bench to a short ranked list of causes to check. Never a diagnosis.
//!
//! - `seen`: the input, and the single facts ("clues") in it.
//! - `causes`: the causes with their words, what confirms each, what it is mistaken for, and who says so.
//! - `weights`: which clues speak for which cause, and how much.
//!
//! The facts are published (each cause names its source); the order of the list is a house rule. A cause is listed
//! only when something seen on the plant points at it; what is known of water, salts, pH, week and temperature then
//! moves it up or down. Many of these cannot be distinguished by eye: a laboratory decides.

mod causes;
mod seen;
mod weights;

#[cfg(test)]
mod tests;

pub use causes::{Cause, Confirm};
pub use seen::{Clue, Seen, Unwritten};

use weights::{LEADS, Lead, TILTS};

/// A cause worth checking.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PossibleCause {
    /// The cause.
    pub cause: Cause,
    /// Its weight against the others of this list; it has no unit and means nothing between benches.
    pub points: i32,
    /// What was seen that speaks for it.
    pub clues: Vec<Clue>,
}

/// Most causes in an answer: a longer list is no help at the bench (house rule).
const MOST: usize = 5;
/// Fewest points for a place in it (house rule).
const FEWEST_POINTS: i32 = 10;
/// Cool mix favors the one Pythium below this, warm mix the other from the next, °C (the middle between the 17 °C
/// where the cool species is worst and the 25 °C above which the warm one is; Pythium root rot of poinsettias, a
/// supplier's text).
pub const COOL_BELOW_C: f64 = 21.0;
/// See [`COOL_BELOW_C`], °C.
pub const WARM_FROM_C: f64 = 25.0;

/// The causes to check for what is seen, most likely first, at most five. Empty when nothing seen points anywhere.
pub fn causes(seen: &Seen) -> Vec<PossibleCause> {
    let mut suspects: Vec<PossibleCause> = Vec::new();
    for lead in LEADS.iter().filter(|lead| lead.clues.iter().all(|clue| seen.shows(*clue))) {
        add(&mut suspects, lead);
    }
    for suspect in &mut suspects {
        let cause = suspect.cause;
        let tilts = TILTS.iter().filter(|t| t.cause == cause && t.clues.iter().all(|clue| seen.shows(*clue)));
        for tilt in tilts {
            count(suspect, tilt);
        }
    }
    split_pythium(&mut suspects, seen);
    suspects.retain(|suspect| suspect.points >= FEWEST_POINTS);
    // A stable sort: causes of equal weight stay in the order of the table.
    suspects.sort_by_key(|suspect| std::cmp::Reverse(suspect.points));
    suspects.truncate(MOST);
    suspects
}

fn add(suspects: &mut Vec<PossibleCause>, lead: &Lead) {
    if let Some(known) = suspects.iter_mut().find(|suspect| suspect.cause == lead.cause) {
        count(known, lead);
    } else {
        let mut new = PossibleCause { cause: lead.cause, points: 0, clues: Vec::new() };
        count(&mut new, lead);
        suspects.push(new);
    }
}

fn count(suspect: &mut PossibleCause, lead: &Lead) {
    suspect.points = suspect.points.saturating_add(lead.points);
    if lead.points > 0 {
        for clue in lead.clues {
            if !suspect.clues.contains(clue) {
                suspect.clues.push(*clue);
            }
        }
    }
}

/// Where the temperature of the mix is known and clearly cool or warm, the two Pythium species can be distinguished.
fn split_pythium(suspects: &mut Vec<PossibleCause>, seen: &Seen) {
    let Some(celsius) = seen.night_c.filter(|c| c.is_finite()) else { return };
    let (likely, other, clue) = if celsius < COOL_BELOW_C {
        (Cause::PythiumCool, Cause::PythiumWarm, Clue::CoolNight)
    } else if celsius >= WARM_FROM_C {
        (Cause::PythiumWarm, Cause::PythiumCool, Clue::WarmNight)
    } else {
        return;
    };
    let Some(at) = suspects.iter().position(|suspect| suspect.cause == Cause::Pythium) else { return };
    let mut first = suspects.remove(at);
    let second = PossibleCause { cause: other, points: first.points.saturating_sub(30), clues: first.clues.clone() };
    first.cause = likely;
    first.clues.push(clue);
    suspects.insert(at, first);
    suspects.insert(at + 1, second);
}
