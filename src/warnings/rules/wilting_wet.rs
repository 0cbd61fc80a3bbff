//! `wilting-wet`: leaves that wilt over a wet mix.
//!
//! **Sees** leaves logged as wilted on a day whose water in force is 4-5.
//! **Why** wilting in wet mix points at dead roots (Michigan State Extension on problem poinsettias): look at the roots, do
//! **not** water. Up to day 10 it may be a plug that is dry inside wet mix (common practice): act, and feel the plug.
//! **Level** urgent; act when the crop was 10 days old or less on the day it wilted.
//! **Ends** with a roots check after it, however late that comes: roots 0-1 lower it to watch while the sign counts (7 days, or
//! a look without it), and then it asks for what wilts over sound roots: a broken branch, a canker, fumes; roots 2 or more end
//! it, since the roots then speak for themselves.
//! **Class** state: it stands until a newer look of its kind.

use crate::crop::symptoms::Cause as Possible;
use crate::record::{Entry, KindName, LeafSign};
use crate::warnings::bench_day::{has_sign, score};
use crate::warnings::builder::of_bench;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, CheckName, Class, Dry, Find, Recheck, Remedy, Rule, Severity, Signs, Step, Warning,
    WarningName as N,
};

/// Everything about `wilting-wet`.
pub(super) static RULE: Rule = Rule {
    name: N::WiltingWet,
    code: "wilting-wet",
    find: Find::Bench(rule),
    cause: Cause::Wet,
    class: Class::State,
    title: "wilting in wet mix",
    why: "A plant that wilts in wet mix has roots that no longer take up water; more water kills it.",
    next: &[
        Step::hold("Do not water. Knock out pots and check the roots.", Dry::Roots),
        Step::todo("Set the worst aside; keep hose ends off the floor; clean hands and tools."),
    ],
    answers: &[Answer { title: "roots checked", remedy: Remedy::Entry(KindName::Roots) }],
    basis: MSU,
    signs: Some(Signs {
        leaves: &[LeafSign::LowerYellow, LeafSign::Wilted, LeafSign::Rolled],
        roots: true,
        but: &[Possible::OverWet],
    }),
    follow_up: None,
    recheck: &[Recheck { check: CheckName::Roots, after: 7 }],
    is_sick: true,
    house_wide: true,
};

impl Step {
    /// The roots are sound: a crack in the branch.
    const FEEL_BRANCH: Self =
        Self::check_instead("Feel the branch where it joins the stem: loose like a tooth is broken. Take it off.");
    /// Or a canker, or fumes.
    const SOIL_LINE: Self = Self::check_instead("Look at the soil line for a canker.");
    /// Leaves bent down that are firm.
    const FUMES: Self =
        Self::check_instead("Leaves bent down but firm: think of fumes; check the heater and its flue, people first.");
    /// Of a young plant: the plug may be dry inside wet mix.
    pub const FEEL_THE_PLUG: Self =
        Self::todo("Feel the plug: it may be dry inside wet mix. If dry, water the plug only.");
}

const MSU: Basis =
    Basis::Published("Michigan State Extension, problem poinsettias: wilting in wet mix points to the roots");

const BREAKAGE: Basis =
    Basis::Published("UMass Extension, photo note Lateral stem breakage on poinsettia; Ontario floriculture IPM 2017");

/// The reason once the roots were found sound.
const SOUND: &str =
    "The roots are sound: what wilts over them is a cracked branch, a canker at the soil line, or fumes.";

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().water;
    let (wilted, water) = wilted_wet(bench)?;
    let young = bench.crop_day_of(wilted.day()) <= limits.young_plug_until;
    let check = bench.last(KindName::Roots).filter(|e| e.instant() > wilted.instant());
    let level = match check.and_then(score) {
        None if young => Severity::Act,
        None => Severity::Urgent,
        Some(score) if score < limits.roots_watch && bench.sign(LeafSign::Wilted).is_some() => Severity::Watch,
        Some(_) => return None,
    };
    let basis = if young { Basis::CommonPractice } else { MSU };
    let warning = of_bench(bench, N::WiltingWet, level, wilted.day()).saw(water).saw(wilted);
    let warning = warning.saw_all(check).on(basis);
    let warning = if check.is_none() { warning.carried(bench, wilted, limits.leaves_days) } else { warning };
    Some(if level == Severity::Watch {
        let warning = warning.because(SOUND).on(BREAKAGE);
        warning.step(Step::FEEL_BRANCH).step(Step::SOIL_LINE).step(Step::FUMES)
    } else {
        warning.step_if(young, Step::FEEL_THE_PLUG)
    })
}

/// The latest look that saw wilting on a wet day, and the reading that says wet.
fn wilted_wet<'a>(bench: &BenchDay<'a>) -> Option<(&'a Entry, &'a Entry)> {
    let wet_from = bench.limits().water.wet_from;
    let looks = bench.of(KindName::Leaves).iter().rev().filter(|e| has_sign(e, LeafSign::Wilted));
    looks.copied().find_map(|look| {
        let water = bench.water_on(look.day()).filter(|r| r.level >= wet_from)?;
        Some((look, water.entry))
    })
}
