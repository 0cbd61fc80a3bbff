//! `bract-burn`: brown edges on bracts.
//!
//! **Sees** burned margins written of the bracts. **Why** little calcium reaches the margin of a bract in dull, humid weather
//! (Maryland
//! 2007, 2009; trade press, Production pointers); a burned edge does not heal, and gray mold begins there.
//! **Level** act. **Ends** with a look without the sign; after 7 days it says since when nobody looked. From the first look on,
//! `calcium-due` speaks for every lot of the site.
//! **Class** state: it stands until a newer look of its kind.

use crate::crop::symptoms::Cause as Possible;
use crate::record::{Entry, Kind, KindName, LeafSign, PlantPart};
use crate::season::Season;
use crate::warnings::bench_day::has_sign;
use crate::warnings::builder::of_bench;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Find, Remedy, Rule, Severity, Signs, Step, Warning, WarningName as N,
};
use chrono::NaiveDate;

/// Everything about `bract-burn`.
pub(super) static RULE: Rule = Rule {
    name: N::BractBurn,
    code: "bract-burn",
    find: Find::Bench(rule),
    cause: Cause::Damp,
    class: Class::State,
    title: "bract edge burn",
    why: "Burned bract edges do not heal, and gray mold begins on them.",
    next: &[
        Step::check("Look for gray fuzz first, the morning after a humid night."),
        Step::todo("Move air; lower the humidity and the feed."),
        Step::todo(
            "Calcium sprays, where the label allows: first color to pollen, weekly or every two weeks, 200 to 400 ppm Ca.",
        ),
    ],
    // The calcium itself is answered where it is asked for: by `calcium-due`.
    answers: &[Answer { title: "leaves checked", remedy: Remedy::Entry(KindName::Leaves) }],
    basis: BURN,
    signs: Some(Signs { leaves: &[LeafSign::EdgeBrown], roots: false, but: &[Possible::BractEdgeBurn] }),
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

const BURN: Basis = Basis::Published(
    "University of Maryland 2007, 2009; University of Florida; trade press, Production pointers: calcium at the bract edge",
);

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    let seen = bench.standing_sign_on(LeafSign::EdgeBrown, PlantPart::Bract)?;
    let since = bench.sign_since(LeafSign::EdgeBrown, seen);
    let warning = of_bench(bench, N::BractBurn, Severity::Act, since).saw(seen);
    Some(warning.carried(bench, seen, bench.limits().water.leaves_days))
}

/// True where a look on any bench of the season saw it, up to a day.
pub(super) fn was_seen(season: &Season, day: NaiveDate) -> bool {
    let on_bracts = |e: &Entry| matches!(&*e.kind, Kind::Leaves { plant_part: Some(PlantPart::Bract), .. });
    let mut looks = season.entries_of(KindName::Leaves);
    looks.any(|e| on_bracts(e) && has_sign(e, LeafSign::EdgeBrown) && season.counts(e, day))
}
