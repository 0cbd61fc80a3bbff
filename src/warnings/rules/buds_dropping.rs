//! `buds-dropping`: the small true flowers yellow or fall.
//!
//! **Sees** buds written as yellow or dropped, while the sign counts; or from stage 4 on nights of 21 °C or more on 3 of 7 days
//! in a house that is listed as low in light (days: house rule).
//! **Why** low light with warm nights makes them fall (NC State diagnostic key 2009); cooler nights help, but under 67 °F some
//! cultivars are delayed badly (P. A. Hammer 2012): both are shown.
//! **Level** watch. **Ends** when neither counts any more, and at the sale.
//! **Class** event: it fades by days.

use crate::crop::color::Milestone;
use crate::crop::symptoms::Cause as Possible;
use crate::limits::Leaves;
use crate::record::{Entry, KindName, LeafSign};
use crate::warnings::builder::of_bench;
use crate::warnings::temperatures::nights;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Figure, Find, Remedy, Rule, Severity, Signs, Step, Warning, WarningName as N,
};

/// Everything about `buds-dropping`.
pub(super) static RULE: Rule = Rule {
    name: N::BudsDropping,
    code: "buds-dropping",
    find: Find::Bench(rule),
    cause: Cause::Leaves,
    class: Class::Event,
    title: "buds dropping",
    why: "Plants that have lost their true flowers look old at the sale.",
    next: &[
        Step::todo("Cooler nights help: 65 °F (18 °C), then 60 °F (16 °C) as they finish."),
        Step::todo("But under 67 °F (19.5 °C) some cultivars are delayed badly: not before they have their color."),
        Step::check("Give them light; keep ripe fruit, engines and leaking heaters away from them."),
    ],
    answers: &[
        Answer { title: "leaves checked", remedy: Remedy::Entry(KindName::Leaves) },
        Answer { title: "temperatures read", remedy: Remedy::Entry(KindName::Climate) },
    ],
    basis: KEY,
    signs: Some(Signs { leaves: &[LeafSign::DroppedBuds], roots: false, but: &[Possible::WarmDull] }),
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

const KEY: Basis = Basis::Published(
    "NC State diagnostic key 2009 (65, then 60 °F); P. A. Hammer 2012 (67 °F); days: Benchwalk's rule of thumb",
);

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    if bench.past_sale() {
        return None;
    }
    let dropped = bench.sign(LeafSign::DroppedBuds);
    let warm = warm_nights(bench);
    let last = warm.last().map(|(_, c)| *c);
    let since = [dropped.map(|e| bench.sign_since(LeafSign::DroppedBuds, e)), warm.first().map(|(e, _)| e.day())];
    let since = since.into_iter().flatten().min()?;
    let mut seen: Vec<&Entry> = warm.into_iter().map(|(e, _)| e).chain(dropped).collect();
    seen.sort_by_key(|e| e.order());
    let warning = of_bench(bench, N::BudsDropping, Severity::Watch, since).saw_all(seen);
    let warning = match last {
        Some(c) => warning.figure(Figure::Celsius, c, bench.context.limit(Leaves::buds_night_c)),
        None => warning,
    };
    Some(warning.again(bench.in_days(bench.limits().light.climate_days)))
}

/// Warm nights of the last days in a low-light house at full color, where there are enough of them; else none.
fn warm_nights<'a>(bench: &BenchDay<'a>) -> Vec<(&'a Entry, f64)> {
    let limits = &bench.limits().leaves;
    if !bench.is_low_light() || bench.stage_reached().is_none_or(|(_, stage)| stage < Milestone::FullColor.stage()) {
        return Vec::new();
    }
    let mut warm = nights(bench);
    warm.retain(|(e, c)| bench.age(e) < limits.buds_days && *c >= limits.buds_night_c);
    warm.dedup_by_key(|(e, _)| e.day());
    if warm.len() >= usize::try_from(limits.buds_nights).unwrap_or(usize::MAX) { warm } else { Vec::new() }
}
