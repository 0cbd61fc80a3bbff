//! `losses-rising`: pots that die one after another.
//!
//! **Sees** 2 pots or more logged as lost on a bench within 7 days to rot, wilt or no named cause. Losses of another cause
//! (dropped, sold off, frozen) do not count; nor does a loss logged for a whole house or lot, since it names no bench.
//! **Why** growers lost 2 to 15% of their plants to wilts between September and mid-November in one region (Ontario, 2017);
//! the first lost pots are the signal.
//! **Numbers** house rules. **Ends** when the last 7 days hold fewer.
//! **Class** event: it fades by days.

use crate::limits::Water;
use crate::record::{Entry, Kind, KindName, Place};
use crate::warnings::builder::of_bench;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Figure, Find, Remedy, Rule, Severity, Step, Warning, WarningName as N,
};

/// Everything about `losses-rising`.
pub(super) static RULE: Rule = Rule {
    name: N::LossesRising,
    code: "losses-rising",
    find: Find::Bench(rule),
    cause: Cause::Wet,
    class: Class::Event,
    title: "losses rising",
    why: "Losses to rot or wilt on one bench seldom stop on their own.",
    next: &[Step::check("Knock out the neighbors of the lost pots."), Step::todo("Log a cause for each loss.")],
    answers: &[
        Answer { title: "roots checked", remedy: Remedy::Entry(KindName::Roots) },
        Answer { title: "pots dumped", remedy: Remedy::Entry(KindName::Losses) },
    ],
    basis: Basis::HouseRule,
    signs: None,
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: true,
};

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().water;
    let counts = |e: &&&Entry| bench.age(e) <= limits.losses_days && matches!(e.place, Place::Bench(_));
    let losses: Vec<(&Entry, u32)> = bench
        .of(KindName::Losses)
        .iter()
        .filter(counts)
        .filter_map(|e| match &*e.kind {
            Kind::Losses { pots, cause } if is_wilt(cause.as_deref()) => Some((*e, *pots)),
            _ => None,
        })
        .collect();
    let lost = losses.iter().fold(0_u32, |sum, (_, pots)| sum.saturating_add(*pots));
    if lost < limits.losses {
        return None;
    }
    let since = losses.first()?.0.day();
    let warning = of_bench(bench, N::LossesRising, Severity::Act, since).saw_all(losses.iter().map(|(e, _)| *e));
    Some(warning.figure(Figure::Lost, f64::from(lost), bench.context.limit(Water::losses)))
}

/// Rot, wilt, or no cause given.
fn is_wilt(cause: Option<&str>) -> bool {
    const UNSAID: [&str; 4] = ["", "?", "unknown", "unsaid"];
    const WORDS: [&str; 8] = ["rot", "rots", "rotted", "rotten", "wilt", "wilts", "wilted", "wilting"];
    let Some(cause) = cause.map(|c| c.trim().to_lowercase()) else { return true };
    UNSAID.contains(&cause.as_str()) || cause.split(|c: char| !c.is_alphanumeric()).any(|w| WORDS.contains(&w))
}

#[cfg(test)]
mod tests {
    use super::is_wilt;

    #[test]
    fn only_rot_wilt_and_the_unsaid_count() {
        for cause in [None, Some(""), Some("Root rot"), Some("wilted, roots gone"), Some("unknown")] {
            assert!(is_wilt(cause), "{cause:?}");
        }
        for cause in ["dropped", "broken stem", "rotated out", "carrot"] {
            assert!(!is_wilt(Some(cause)), "{cause}");
        }
    }
}
