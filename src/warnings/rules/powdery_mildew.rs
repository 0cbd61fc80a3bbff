//! `powdery-mildew`: white powder on leaves (Cornell 2016 and 2023).
//!
//! **Level** act. **Ends** with a look without the sign; after 7 days it says since when nobody looked.
//! **Class** state: it stands until a newer look of its kind.

use crate::crop::symptoms::Cause as Possible;
use crate::record::{KindName, LeafSign};
use crate::warnings::builder::of_sign;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Find, FollowUp, Remedy, Rule, Signs, Step, Warning, WarningName as N,
};

/// Everything about `powdery-mildew`.
pub(super) static RULE: Rule = Rule {
    name: N::PowderyMildew,
    code: "powdery-mildew",
    find: Find::Bench(rule),
    cause: Cause::Pest(N::PowderyMildew),
    class: Class::State,
    title: "powdery mildew",
    why: "White patches spread fast in cool, damp weather and make the pot unsalable.",
    next: &[
        Step::todo("Bag the leaf or plant at the bench, before it is moved."),
        Step::todo("Check the undersides of its neighbors."),
    ],
    answers: &[
        Answer { title: "sprayed", remedy: Remedy::Spray { against: "powdery mildew" } },
        Answer { title: "leaves checked", remedy: Remedy::Entry(KindName::Leaves) },
    ],
    basis: MILDEW,
    signs: Some(Signs {
        leaves: &[LeafSign::WhitePowder, LeafSign::PaleSpots],
        roots: false,
        but: &[Possible::PowderyMildew],
    }),
    follow_up: Some(FollowUp { kinds: &[KindName::Sprayed], against: &["mildew"] }),
    recheck: &[],
    is_sick: true,
    house_wide: false,
};

const MILDEW: Basis = Basis::Published("Cornell 2016 and 2023, powdery mildew on poinsettia");

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    of_sign(bench, N::PowderyMildew, LeafSign::WhitePowder)
}
