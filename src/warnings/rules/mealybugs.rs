//! `mealybugs`: any mealybug is too many (Cornell and trade notes by university entomologists: act on any find).
//!
//! **Level** act. **Ends** with two clean checks 6 days or more apart after the last that found some: one clean check can
//! overlook them. After 14 days without a check it says since when.
//! **Class** state: it stands until a newer look of its kind.

use crate::record::{KindName, PestName};
use crate::warnings::pest_counts::{ANY_FIND, any};
use crate::warnings::{Answer, BenchDay, Cause, Class, Find, FollowUp, Remedy, Rule, Step, Warning, WarningName as N};

/// Everything about `mealybugs`.
pub(super) static RULE: Rule = Rule {
    name: N::Mealybugs,
    code: "mealybugs",
    find: Find::Bench(rule),
    cause: Cause::Pest(N::Mealybugs),
    class: Class::State,
    title: "mealybugs",
    why: "They hide in axils and on roots and spread with the pots.",
    next: &[Step::todo("Bag the plant and its neighbors; check axils and pot bases.")],
    answers: &[
        Answer { title: "sprayed", remedy: Remedy::Spray { against: "mealybugs" } },
        Answer { title: "rechecked", remedy: Remedy::Count(PestName::Mealybug) },
    ],
    basis: ANY_FIND,
    signs: None,
    follow_up: Some(FollowUp { kinds: &[KindName::Sprayed, KindName::Released], against: &["mealy"] }),
    recheck: &[],
    is_sick: true,
    house_wide: true,
};

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    any(bench, PestName::Mealybug, N::Mealybugs)
}
