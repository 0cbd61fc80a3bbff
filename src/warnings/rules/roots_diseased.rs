//! `roots-diseased`: a sign at the roots that points to an organism.
//!
//! **Sees** the signs of the latest roots check, at any score, until the next; after 21 days it says since when nobody looked.
//! **Why** many cannot be distinguished by eye: a laboratory decides (Pacific Northwest and UMass disease guides).
//! **Level** act. **Ends** with the next check.
//! **Class** state: it stands until a newer look of its kind.

use crate::crop::symptoms::Cause as Possible;
use crate::record::{Entry, Kind, KindName, LeafSign, RootSign};
use crate::warnings::builder::of_bench;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Find, Remedy, Rule, Severity, Signs, Step, Warning, WarningName as N,
};

/// Everything about `roots-diseased`.
pub(super) static RULE: Rule = Rule {
    name: N::RootsDiseased,
    code: "roots-diseased",
    find: Find::Bench(rule),
    cause: Cause::Wet,
    class: Class::State,
    title: "signs of root disease",
    why: "This sign suggests a disease that spreads with water, tools and hands.",
    next: &[
        Step::todo("Send a sample to a lab: the lab decides, not your eye."),
        Step::todo("Set sick pots aside; walk this bench last."),
    ],
    answers: &[
        Answer { title: "roots checked", remedy: Remedy::Entry(KindName::Roots) },
        Answer { title: "pots dumped", remedy: Remedy::Entry(KindName::Losses) },
    ],
    basis: SIGNS,
    signs: Some(Signs {
        leaves: &[LeafSign::LowerYellow, LeafSign::Wilted, LeafSign::Rolled],
        roots: true,
        but: &[Possible::DeadRoots],
    }),
    follow_up: None,
    recheck: &[],
    is_sick: true,
    house_wide: true,
};

const SIGNS: Basis =
    Basis::Published("Pacific Northwest and UMass disease guides: sleeve-off, black firm roots, canker");

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    const POINTING: [RootSign; 3] = [RootSign::SleeveOff, RootSign::BlackFirm, RootSign::Canker];
    let (last, _) = bench.standing_roots()?;
    if !bench.last_root_signs().iter().any(|s| POINTING.contains(s)) {
        return None;
    }
    // What is shown is the entry that names the sign.
    let names =
        |e: &&&Entry| matches!(&*e.kind, Kind::Roots { signs, .. } if signs.iter().any(|s| POINTING.contains(s)));
    let named = bench.of(KindName::Roots).iter().rev().find(names).copied().unwrap_or(last);
    Some(of_bench(bench, N::RootsDiseased, Severity::Act, last.day()).saw(named).carried(
        bench,
        last,
        bench.limits().water.roots_days,
    ))
}
