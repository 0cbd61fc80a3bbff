//! `gray-mold`: gray fuzz on leaves or bracts (Georgia 2023, Maryland).
//!
//! **Level** act. **Ends** with a look without the sign; after 7 days it says since when nobody looked.
//! **Class** state: it stands until a newer look of its kind.

use crate::crop::symptoms::Cause as Possible;
use crate::record::{KindName, LeafSign};
use crate::warnings::builder::of_sign;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Find, FollowUp, Remedy, Rule, Signs, Step, Warning, WarningName as N,
};

/// Everything about `gray-mold`.
pub(super) static RULE: Rule = Rule {
    name: N::GrayMold,
    code: "gray-mold",
    find: Find::Bench(rule),
    cause: Cause::Damp,
    class: Class::State,
    title: "gray mold",
    why: "Gray fuzz spreads spores through the house in damp air.",
    next: &[Step::todo("Bag the moldy tissue at the bench; heat and vent at the end of the day.")],
    answers: &[
        Answer { title: "leaves checked", remedy: Remedy::Entry(KindName::Leaves) },
        Answer { title: "sprayed", remedy: Remedy::Spray { against: "gray mold" } },
        Answer { title: "pots dumped", remedy: Remedy::Entry(KindName::Losses) },
    ],
    basis: GRAY,
    signs: Some(Signs { leaves: &[LeafSign::GrayFuzz, LeafSign::EdgeBrown], roots: false, but: &[Possible::Botrytis] }),
    follow_up: Some(FollowUp { kinds: &[KindName::Sprayed], against: &["mold", "botrytis"] }),
    recheck: &[],
    is_sick: true,
    house_wide: false,
};

const GRAY: Basis = Basis::Published("University of Georgia 2023; University of Maryland: gray mold");

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    of_sign(bench, N::GrayMold, LeafSign::GrayFuzz)
}
