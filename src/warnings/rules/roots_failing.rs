//! `roots-failing`: roots at score 3 or more.
//!
//! **Sees** the latest roots check (the worst pot, our classes 0-5), which holds until the next; after 21 days it says since
//! when nobody looked.
//! **Why** healthy tops prove nothing: in university trials some cultivars carried much root death with little to see above.
//! **Numbers** the score is our class; under 21 days before the sale it says that recovery is unlikely (UMass, Nov. 13, 2015: new
//! roots take time).
//! **Level** urgent. **Ends** with the next check.
//! **Class** state: it stands until a newer look of its kind.

use crate::crop::symptoms::Cause as Possible;
use crate::limits::Water;
use crate::record::{KindName, LeafSign};
use crate::warnings::builder::of_bench;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Dry, Figure, Find, Remedy, Rule, Severity, Signs, Step, Warning,
    WarningName as N,
};

/// Everything about `roots-failing`.
pub(super) static RULE: Rule = Rule {
    name: N::RootsFailing,
    code: "roots-failing",
    find: Find::Bench(rule),
    cause: Cause::Wet,
    class: Class::State,
    title: "roots failing",
    why: "Healthy tops prove nothing: much of the root can be dead before a leaf shows it.",
    next: &[
        Step::hold("Stop watering and pull the worst pots.", Dry::Roots),
        Step::todo("Send a sample to a lab before any treatment."),
        Step::todo("Walk this bench last; clean hands and tools after it."),
    ],
    answers: &[
        Answer { title: "roots checked", remedy: Remedy::Entry(KindName::Roots) },
        Answer { title: "pots dumped", remedy: Remedy::Entry(KindName::Losses) },
    ],
    basis: TOPS,
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

impl Step {
    /// The sale is too near for new roots.
    pub const RECOVERY_UNLIKELY: Self =
        Self::todo("New roots before the sale are unlikely: cull the worst and plan for fewer pots.");
}

const TOPS: Basis = Basis::Published("NC State trials: roots can die while tops look sound; the score is Benchwalk's");

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().water;
    let (last, _) = bench.standing_roots().filter(|(_, s)| *s >= limits.roots_failing)?;
    let left = bench.days_to_sale();
    let late = left < limits.regrow_days;
    let since = bench.roots_bad_since(last, limits.roots_failing);
    let warning = of_bench(bench, N::RootsFailing, Severity::Urgent, since).saw(last);
    let warning = warning.figure(Figure::DaysToSale, left as f64, bench.context.limit(Water::regrow_days));
    let warning = warning.carried(bench, last, limits.roots_days);
    Some(warning.step_if(late, Step::RECOVERY_UNLIKELY))
}
