//! `scab`: raised spots together with one stem stretched (NC State 2012, Purdue 2013): either alone has look-alikes.
//!
//! **Level** act. **Ends** 7 days after the signs were seen, or with a check without them.
//! **Class** state: it stands until a newer look of its kind.

use crate::record::{KindName, LeafSign};
use crate::warnings::builder::of_bench;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Find, FollowUp, Remedy, Rule, Severity, Signs, Step, Warning,
    WarningName as N,
};

/// Everything about `scab`.
pub(super) static RULE: Rule = Rule {
    name: N::Scab,
    code: "scab",
    find: Find::Bench(rule),
    cause: Cause::Pest(N::Scab),
    class: Class::State,
    title: "scab suspected",
    why: "Raised spots with one stretched stem suggest scab, which splashes with water.",
    next: &[Step::todo("Move these plants away from the rest; keep leaves dry; send a sample to a lab.")],
    answers: &[
        Answer { title: "leaves checked", remedy: Remedy::Entry(KindName::Leaves) },
        Answer { title: "pots dumped", remedy: Remedy::Entry(KindName::Losses) },
    ],
    basis: SCAB,
    signs: Some(Signs { leaves: &[LeafSign::RaisedSpots, LeafSign::Stretched], roots: false, but: &[] }),
    follow_up: Some(FollowUp { kinds: &[KindName::Sprayed], against: &["scab"] }),
    recheck: &[],
    is_sick: true,
    house_wide: false,
};

const SCAB: Basis = Basis::Published("NC State 2012, Purdue 2013: scab spots and a stretched stem");

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    let (spots, stem) = (bench.sign(LeafSign::RaisedSpots)?, bench.sign(LeafSign::Stretched)?);
    let since = spots.day().max(stem.day());
    let warning = of_bench(bench, N::Scab, Severity::Act, since).saw(spots);
    Some(if spots.id == stem.id { warning } else { warning.saw(stem) })
}
