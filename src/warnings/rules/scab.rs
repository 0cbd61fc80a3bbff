//! `scab`: raised spots together with one stem stretched (NC State 2012, Purdue 2013): either alone has look-alikes.
//!
//! **Level** act. **Ends** with a look without the signs; after 7 days it says since when nobody looked.
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
    let (spots, stem) = (bench.standing_sign(LeafSign::RaisedSpots)?, bench.standing_sign(LeafSign::Stretched)?);
    let since = spots.day().max(stem.day());
    let newest = if spots.order() > stem.order() { spots } else { stem };
    let warning = of_bench(bench, N::Scab, Severity::Act, since).saw(spots);
    let warning = if spots.id == stem.id { warning } else { warning.saw(stem) };
    Some(warning.carried(bench, newest, bench.limits().water.leaves_days))
}
