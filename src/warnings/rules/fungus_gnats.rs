//! `fungus-gnats`: larvae in the mix.
//!
//! **Sees** 15 larvae per wedge at the latest wedge, until the next; after 14 days it says since when nobody counted (Rutgers
//! 2009: 15 to
//! 20 in 6-inch pots), 3 up to day 21 (3 to 5 in propagation): act. Larvae seen at a roots check with no wedge counted since:
//! watch.
//! **Ends** with the next wedge under it; larvae at the roots with the next check.
//! **Class** state: it stands until a newer look of its kind.

use crate::limits::Pests;
use crate::record::{Entry, Kind, KindName, PestCount, PestName, RootSign};
use crate::warnings::builder::of_bench;
use crate::warnings::pest_counts::latest;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Figure, Find, FollowUp, Remedy, Rule, Severity, Signs, Step, Warning,
    WarningName as N,
};

/// Everything about `fungus-gnats`.
pub(super) static RULE: Rule = Rule {
    name: N::FungusGnats,
    code: "fungus-gnats",
    find: Find::Bench(rule),
    cause: Cause::Wet,
    class: Class::State,
    title: "fungus gnats",
    why: "Larvae eat root hairs, carry rot, and show that the mix stays wet.",
    next: &[
        Step::todo("Let the mix dry down; clear algae and puddles."),
        Step::todo("Apply nematodes or predators early, by their label."),
    ],
    answers: &[
        Answer { title: "beneficials released", remedy: Remedy::Entry(KindName::Released) },
        Answer { title: "treated", remedy: Remedy::Spray { against: "fungus gnats" } },
        Answer { title: "counted again", remedy: Remedy::Count(PestName::FungusGnat) },
    ],
    basis: RUTGERS,
    signs: Some(Signs { leaves: &[], roots: true, but: &[] }),
    follow_up: Some(FollowUp { kinds: &[KindName::Sprayed, KindName::Released], against: &["gnat"] }),
    recheck: &[],
    is_sick: false,
    house_wide: true,
};

const RUTGERS: Basis = Basis::Published("Rutgers, pest counts and action thresholds; fungus gnats 2009");

impl Step {
    /// Larvae were seen, not counted.
    const COUNT_LARVAE: Self =
        Self::check_instead("Lay potato wedges on the mix and count the larvae after 48 hours; let the mix dry down.");
}

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    counted(bench).or_else(|| seen_at_roots(bench))
}

/// Larvae seen at the roots, where no wedge has been counted since.
fn seen_at_roots(bench: &BenchDay<'_>) -> Option<Warning> {
    let (check, _) = bench.roots().filter(|_| bench.root_signs().contains(&RootSign::Larvae))?;
    let wedge = |e: &&Entry| {
        matches!(*e.kind, Kind::Pests { pest: PestName::FungusGnat, count: PestCount::Wedge { .. } })
            && e.instant() > check.instant()
    };
    let counted = bench.of(KindName::Pests).iter().copied().any(|e| wedge(&e));
    (!counted).then(|| {
        let warning = of_bench(bench, N::FungusGnats, Severity::Watch, check.day()).saw(check);
        warning.step(Step::COUNT_LARVAE).again(bench.in_days(2))
    })
}

fn counted(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().pests;
    let (entry, larvae) = latest(bench, PestName::FungusGnat, |count| match count {
        PestCount::Wedge { larvae } => Some(*larvae),
        PestCount::Plants { .. } | PestCount::Cards { .. } => None,
    })?;
    let young = bench.crop_day_of(entry.day()) <= limits.whitefly_young_until;
    let (limit, key) = if young {
        (limits.gnat_larvae_young, Pests::gnat_larvae_young)
    } else {
        (limits.gnat_larvae, Pests::gnat_larvae)
    };
    (larvae >= limit).then(|| {
        let warning = of_bench(bench, N::FungusGnats, Severity::Act, entry.day()).saw(entry);
        let warning = warning.carried(bench, entry, limits.finding_days);
        warning.figure(Figure::Larvae, larvae, bench.context.limit(key)).again(bench.in_days(7))
    })
}
