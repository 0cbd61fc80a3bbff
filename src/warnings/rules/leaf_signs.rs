//! `leaf-signs`: a sign on leaves, stems or bracts that no other warning of the bench explains.
//!
//! **Sees** every sign that stands (7 days, or until a look without it) and is not among the signs of a warning that stands on
//! the bench that day. **Why** published cases had only the sign to go on: mites are acted on at any find, spots of mildew and
//! scab at the first; the rest is a house rule. It names causes to check, two at most, each with a way to confirm it; never a
//! diagnosis.
//! **Level** watch at the first look. Only noted at first, and watched at a second look 5 to 14 days later, at once with another
//! sign or on two benches of the lot: lower leaves yellow, leaves rolled or red, chewed leaves, split bracts, crinkled young
//! leaves, wet bracts before the color (Penn State, Mattson: scattered suggests a pest, uniform the feed). Only noted: crinkled
//! young leaves up to day 35 or 14 days after the pinch with few thrips (they grow out); lower leaves yellow in the last 4 weeks
//! on a bench that is neither wet, nor unfed, nor bad at the root; and what shows on one plant in twenty or fewer. Act: brown
//! spots; leaves bent down from day 7 on (ethylene, and people breathe the same air). Those two are never only noted. The same
//! sign of a bench is raised once in 14 days, those two always.
//! **Ends** with a look without the sign, else after 7 days.
//! **Class** event: it fades by days.

use crate::dates::days_between;
use crate::record::{Entry, Kind, KindName, LeafSign, PestCount, PestName, Place, PlantPart, Term};
use crate::warnings::bench_day::score;
use crate::warnings::builder::of_bench;
use crate::warnings::likely_causes::of_signs;
use crate::warnings::pest_counts::latest;
use crate::warnings::sign_looks::{self, Looks};
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Find, Group, RULES, Remedy, Rule, Severity, Step, Warning, WarningName as N,
};
use std::cell::OnceCell;
use std::collections::BTreeMap;

/// Everything about `leaf-signs`.
pub(super) static RULE: Rule = Rule {
    name: N::LeafSigns,
    code: "leaf-signs",
    find: Find::BenchLast(rule),
    cause: Cause::Leaves,
    class: Class::Event,
    title: "leaf signs",
    why: "A sign on the plant is often the first there is of a pest, a disease or a want.",
    next: &[Step::check_logged("Check more plants with a lens; log the leaves again in a week.", KindName::Leaves)],
    answers: &[
        Answer { title: "leaves checked", remedy: Remedy::Entry(KindName::Leaves) },
        Answer { title: "roots checked", remedy: Remedy::Entry(KindName::Roots) },
        Answer { title: "pests counted", remedy: Remedy::Entry(KindName::Pests) },
    ],
    basis: SIGNS,
    // Which signs it is about differs from day to day; the warning itself names them.
    signs: None,
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

impl Step {
    /// A spot disease that splashes with water.
    const ISOLATE: Self =
        Self::todo("Move the spotted plants away from the rest; no overhead water; send a sample to a lab.");
    /// Ethylene, and with it carbon monoxide.
    const HEATER: Self = Self::check(
        "Look at the heater and its flue now. If anybody has a headache: everybody out first, then call the fire department.",
    );
    /// Wilting in a mix that is neither wet nor dry.
    const LOOK_EARLY: Self = Self::check(
        "Look again early, out of the sun; soil line for Rhizoctonia, Phytophthora or Botrytis canker; a lab decides.",
    );
    /// Crinkled young leaves of the first weeks.
    const GROWS_OUT: Self = Self::check_instead("It usually grows out: are later leaves clean?");
    /// What is only noted.
    const NOTED: Self = Self::check_instead("Nothing to do yet; log it where it is seen again.");
}

const SIGNS: Basis = Basis::Published(
    "plant clinics and entomologists: any find of mites, first spots of mildew and scab; the rest: Benchwalk's rule of thumb",
);

/// Signs that are only noted at the first look.
const NOTED_AT_FIRST: [LeafSign; 7] = [
    LeafSign::LowerYellow,
    LeafSign::Rolled,
    LeafSign::RedOld,
    LeafSign::Chewed,
    LeafSign::Split,
    LeafSign::Crinkled,
    LeafSign::WetBracts,
];

/// A sign that is raised today.
struct Raised<'a> {
    sign: LeafSign,
    look: &'a Entry,
    level: Severity,
    noted: bool,
    looks: Looks,
}

fn rule(bench: &BenchDay<'_>, standing: &[Warning]) -> Option<Warning> {
    let lot = LotOf { bench, benches: OnceCell::new() };
    let raised: Vec<Raised<'_>> = LeafSign::ALL
        .iter()
        .filter_map(|sign| raised(&lot, *sign, standing))
        .filter(|of| !explains(standing, of))
        .filter(|of| !lot.explains(of.sign))
        .collect();
    let since = raised.iter().map(|of| of.looks.since()).min()?;
    let level = raised.iter().map(|of| of.level).max()?;
    let noted = raised.iter().all(|of| of.noted);
    let mut seen: Vec<&Entry> = raised.iter().map(|of| of.look).collect();
    seen.sort_by_key(|e| e.order());
    seen.dedup_by_key(|e| e.id);
    let signs: Vec<LeafSign> = raised.iter().map(|of| of.sign).collect();
    let mut warning = of_bench(bench, N::LeafSigns, level, since).noted(noted).saw_all(seen);
    // People first: what may harm them stands above all else.
    let mut steps: Vec<Step> = raised.iter().filter_map(|of| step(bench, of)).collect();
    steps.sort_by_key(|step| *step != Step::HEATER);
    if noted && steps.is_empty() {
        steps.push(Step::NOTED);
    }
    for step in steps.into_iter().filter(|step| noted || *step != Step::GROWS_OUT) {
        warning = warning.step(step);
    }
    warning.likely_causes = of_signs(bench, &signs);
    let early = level > Severity::Watch || signs.contains(&LeafSign::Wilted);
    let again = if early { 1 } else { bench.limits().leaves.second_from };
    warning.signs = signs;
    Some(warning.again(bench.in_days(again)))
}

/// True where a sign is among those of a warning that stands: what is to be acted on is not silenced by what is only watched.
fn explains(standing: &[Warning], of: &Raised<'_>) -> bool {
    standing.iter().any(|w| w.level >= of.level && is_about(w.name.rule(), of.sign))
}

fn is_about(rule: &Rule, sign: LeafSign) -> bool {
    rule.signs.as_ref().is_some_and(|signs| signs.leaves.contains(&sign))
}

/// The lot of a bench, put together once and only where a sign asks for it.
struct LotOf<'b, 'a> {
    bench: &'b BenchDay<'a>,
    benches: OnceCell<Vec<BenchDay<'a>>>,
}

impl<'a> LotOf<'_, 'a> {
    /// Every bench of the lot with pots, this one among them.
    fn benches(&self) -> &[BenchDay<'a>] {
        let context = self.bench.context;
        let codes = || context.season.benches_of_lot(&self.bench.lot.lot, self.bench.day());
        self.benches.get_or_init(|| codes().into_iter().filter_map(|code| BenchDay::new(context, code)).collect())
    }

    /// True where a warning of the lot has the sign among its own and stands on this bench.
    fn explains(&self, sign: LeafSign) -> bool {
        let mut finds = RULES.iter().filter(|rule| is_about(rule, sign)).filter_map(|rule| lot_rule(rule)).peekable();
        if finds.peek().is_none() {
            return false;
        }
        let (place, of_bench) = (Place::Lot(self.bench.lot.lot.as_str().into()), BTreeMap::new());
        let group = Group { place, benches: self.benches().iter().collect(), of_bench: &of_bench };
        finds.filter_map(|find| find(&group)).any(|w| w.benches.iter().any(|code| code == self.bench.code()))
    }

    /// True where another of its benches shows the sign.
    fn shows_elsewhere(&self, sign: LeafSign) -> bool {
        self.benches().iter().any(|other| other.code() != self.bench.code() && other.sign(sign).is_some())
    }
}

/// How a warning is looked for on a lot.
const fn lot_rule(rule: &Rule) -> Option<fn(&Group<'_, '_>) -> Option<Warning>> {
    match rule.find {
        Find::Lot(find) | Find::LotAndHouse(find, _) => Some(find),
        _ => None,
    }
}

/// The sign, where it stands and is raised today.
fn raised<'a>(lot: &LotOf<'_, 'a>, sign: LeafSign, standing: &[Warning]) -> Option<Raised<'a>> {
    let bench = lot.bench;
    let look = bench.sign(sign)?;
    let looks = sign_looks::of(bench, sign, !NOTED_AT_FIRST.contains(&sign))?;
    if is_act(bench, sign, look) {
        return Some(Raised { sign, look, level: Severity::Act, noted: false, looks });
    }
    let noted = is_noted(lot, (sign, look), &looks, standing);
    looks.raises(bench, noted).then_some(Raised { sign, look, level: Severity::Watch, noted, looks })
}

/// True for what is done something about at once.
fn is_act(bench: &BenchDay<'_>, sign: LeafSign, look: &Entry) -> bool {
    let old_enough = || bench.crop_day_of(look.day()) >= bench.limits().leaves.bent_from;
    sign == LeafSign::BrownSpots || sign == LeafSign::BentDown && old_enough()
}

/// True where a sign is only noted.
fn is_noted(lot: &LotOf<'_, '_>, (sign, look): (LeafSign, &Entry), looks: &Looks, standing: &[Warning]) -> bool {
    let bench = lot.bench;
    if bench.is_on_few(look) {
        return true;
    }
    match sign {
        LeafSign::Crinkled if grows_out(bench, look) => true,
        LeafSign::LowerYellow if bench.days_to_sale() <= bench.limits().leaves.late_days => !is_weak(bench, standing),
        _ if NOTED_AT_FIRST.contains(&sign) => {
            let other = LeafSign::ALL.iter().any(|other| *other != sign && bench.sign(*other).is_some());
            !(looks.is_second() || other || lot.shows_elsewhere(sign))
        }
        _ => false,
    }
}

/// True of crinkled young leaves in the first weeks or after the pinch, with few thrips on the cards.
fn grows_out(bench: &BenchDay<'_>, look: &Entry) -> bool {
    let limits = &bench.limits().leaves;
    let young = matches!(*look.kind, Kind::Leaves { plant_part: Some(PlantPart::Young) | None, .. });
    let early = bench.crop_day_of(look.day()) <= limits.crinkled_until;
    let after_pinch =
        bench.pinched().is_some_and(|p| (0..=limits.crinkled_pinch).contains(&days_between(p.day(), look.day())));
    let a_card = latest(bench, PestName::Thrips, |count| match count {
        PestCount::Cards { cards, count, .. } if *cards > 0 => Some(f64::from(*count) / f64::from(*cards)),
        PestCount::Cards { .. } | PestCount::Plants { .. } | PestCount::Wedge { .. } => None,
    });
    young && (early || after_pinch) && a_card.is_none_or(|(_, thrips)| thrips < limits.crinkled_thrips)
}

/// True where yellow lower leaves late in the crop mean more than age: salts low, unfed, wet, roots browning.
fn is_weak(bench: &BenchDay<'_>, standing: &[Warning]) -> bool {
    let limits = &bench.limits().water;
    let starved = standing.iter().any(|w| matches!(w.name, N::SaltsLow | N::Unfed));
    let run = bench.readings.iter().rev().take_while(|r| r.level >= limits.wet_from).count();
    let wet = bench.is_wet() && run >= usize::try_from(limits.readings).unwrap_or(usize::MAX);
    starved || wet || bench.roots().is_some_and(|(e, _)| score(e) >= Some(limits.roots_watch))
}

/// What is to be done about a sign, besides looking.
fn step(bench: &BenchDay<'_>, of: &Raised<'_>) -> Option<Step> {
    match of.sign {
        LeafSign::BrownSpots => Some(Step::ISOLATE),
        LeafSign::BentDown if of.level > Severity::Watch => Some(Step::HEATER),
        LeafSign::Wilted => Some(Step::LOOK_EARLY),
        LeafSign::Crinkled if of.noted && grows_out(bench, of.look) => Some(Step::GROWS_OUT),
        _ => None,
    }
}
