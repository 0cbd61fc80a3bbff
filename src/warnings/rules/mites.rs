//! `mites`: any mite is too many (trade notes by university entomologists: act on any find).
//!
//! **Level** act. **Ends** with two clean checks 6 days or more apart after the last that found some: one clean check can
//! overlook them. After 14 days without a check it says since when.
//! **Class** state: it stands until a newer look of its kind.

use crate::crop::symptoms::Cause as Possible;
use crate::record::{KindName, LeafSign, PestName};
use crate::warnings::pest_counts::{ANY_FIND, any};
use crate::warnings::{
    Answer, BenchDay, Cause, Class, Find, FollowUp, Remedy, Rule, Signs, Step, Warning, WarningName as N,
};

/// Everything about `mites`.
pub(super) static RULE: Rule = Rule {
    name: N::Mites,
    code: "mites",
    find: Find::Bench(rule),
    cause: Cause::Pest(N::Mites),
    class: Class::State,
    title: "mites",
    why: "Mites hide under leaves until the damage is done.",
    next: &[Step::todo("Bag the plant and its neighbors; look with a 20x lens on this cultivar.")],
    answers: &[
        Answer { title: "sprayed", remedy: Remedy::Spray { against: "mites" } },
        Answer { title: "beneficials released", remedy: Remedy::Entry(KindName::Released) },
        Answer { title: "rechecked", remedy: Remedy::Count(PestName::Mite) },
    ],
    basis: ANY_FIND,
    signs: Some(Signs { leaves: &[LeafSign::Stipple], roots: false, but: &[Possible::LewisMite] }),
    follow_up: Some(FollowUp { kinds: &[KindName::Sprayed, KindName::Released], against: &["mite"] }),
    recheck: &[],
    is_sick: false,
    house_wide: true,
};

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    any(bench, PestName::Mite, N::Mites)
}
