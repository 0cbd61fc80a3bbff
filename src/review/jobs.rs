//! Tomorrow's jobs: what the flagged problems ask for, one line a job over all its benches, in the order of the day, without
//! two lines for one bench that cannot both be done.
//!
//! A bench that must dry down is on none of the lines that wet it; each such line names the bench and when its turn comes. A step
//! that the record shows as done is not listed again. Checks come before watering, sprays late, sick benches last.

use super::program::{self, Feeding};
use super::ticks::{Tick, Ticks};
use super::walk::Walk;
use super::{amounts, places};
use crate::crop::growth_regulator::Caution;
use crate::record::{JobOutcome, KindName, Place};
use crate::season::Season;
use crate::units::System;
use crate::warnings::{Act, Dry, Severity, Step, StepKind, Warning, WarningName};
use chrono::NaiveDate;
use std::collections::{BTreeMap, BTreeSet};
use uuid::Uuid;

/// One line of tomorrow's work.
#[derive(Debug, Clone, PartialEq)]
pub struct Job {
    /// What is done to the benches; its order is that of the day.
    pub act: Act,
    /// The step in words, without place and amounts: with its benches, or its houses, it is what the job is known by.
    pub step: &'static str,
    /// The houses it is for as a whole; none where it is for benches.
    pub houses: Vec<String>,
    /// The warnings that ask for it.
    pub names: Vec<WarningName>,
    /// The N of the feed program that asks for it, as typed for the lot, ppm.
    pub planned_n: Option<f64>,
    /// It stood on the list of the evening before and was not ticked.
    pub left: bool,
    /// Sick benches come last.
    pub sick: bool,
    /// Its benches in walking order; none where each of them has to wait.
    pub benches: Vec<String>,
    /// Where, in words, with the benches that wait: ` R6 (all of Mill; 400 pots)`; the pots are those of its benches.
    pub place: String,
    /// What to do, with what is to be weighed for it.
    pub what: String,
    /// Benches that would belong to it but have to wait.
    pub waits: Vec<Waits>,
    /// The cautions of what is weighed.
    pub cautions: Vec<Caution>,
}

impl Job {
    /// The line: where, what, and which benches have to wait.
    pub fn text(&self) -> String {
        let waits: Vec<String> = self.waits.iter().map(|w| format!("{} {}", w.place, w.why.text())).collect();
        let last = if self.sick { " Walk it last." } else { "" };
        if self.benches.is_empty() {
            return format!("{}: {}{last}", waits.join("; "), self.what);
        }
        let waits = if waits.is_empty() { String::new() } else { format!(", but {}", waits.join("; ")) };
        format!("{}{waits}: {}{last}", self.place, self.what)
    }

    /// Its heading in the list: the time of the day it is done at.
    pub const fn heading(&self) -> &'static str {
        if self.sick {
            return "last";
        }
        heading(self.act)
    }

    /// All its benches: those that have to wait too.
    pub fn all(&self) -> impl Iterator<Item = &String> {
        self.benches.iter().chain(self.waits.iter().flat_map(|waits| &waits.benches))
    }

    /// Its place in few words, for a line about several jobs: `hold E3`.
    pub fn short(&self) -> String {
        let waits = self.waits.first().map(|waits| waits.place.as_str());
        let place = if self.benches.is_empty() { waits.unwrap_or_default() } else { self.place.as_str() };
        format!("{} {place}", self.heading())
    }
}

/// The time of the day that work is done at, in a word.
const fn heading(act: Act) -> &'static str {
    match act {
        Act::Check => "check",
        Act::Hold(_) => "hold",
        Act::Water | Act::Leach => "water",
        Act::Nutrient | Act::Feed => "feed",
        Act::Work => "work",
        Act::Spray => "spray",
    }
}

/// A job that was ticked, with the benches or houses it was ticked on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ticked {
    /// What is done to the benches; `None` where nothing asks for it any more.
    pub act: Option<Act>,
    /// The step in words.
    pub step: String,
    /// What became of it.
    pub outcome: JobOutcome,
    /// The reason.
    pub why: Option<String>,
    /// Its benches in walking order.
    pub benches: Vec<String>,
    /// Where, in words.
    pub place: String,
    /// Its entries.
    pub entries: Vec<Uuid>,
}

impl Ticked {
    /// The line: where, what, and what became of it where it was not simply done. `next` is the day it was put to.
    pub fn text(&self, next: &str) -> String {
        let end = match (self.outcome, &self.why) {
            (JobOutcome::Done, _) => String::new(),
            (JobOutcome::Postponed, _) => format!(" (put to {next})"),
            (outcome, None) => format!(" ({})", crate::terms::Term::text(outcome)),
            (outcome, Some(why)) => format!(" ({}: {why})", crate::terms::Term::text(outcome)),
        };
        format!("{}: {}{end}", self.place, self.step)
    }

    /// The sign in its box: a letter or sign, never a color.
    pub const fn sign(&self) -> &'static str {
        match self.outcome {
            JobOutcome::Done | JobOutcome::Otherwise => "x",
            JobOutcome::NotNeeded => "-",
            JobOutcome::Postponed => ">",
        }
    }

    /// Its heading in the list; empty where nothing asks for it any more.
    pub fn heading(&self) -> &'static str {
        self.act.map_or("", heading)
    }

    /// True for an order that binds all day though it is ticked: to keep the water off.
    pub const fn binds(&self) -> bool {
        matches!(self.act, Some(Act::Hold(_))) && matches!(self.outcome, JobOutcome::Done | JobOutcome::Otherwise)
    }
}

/// Benches that have to wait for a job, and why.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Waits {
    /// The benches, in words.
    pub place: String,
    /// The benches, in walking order.
    pub benches: Vec<String>,
    /// Why.
    pub why: Why,
}

/// Why a bench has to wait.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Why {
    /// The mix has to dry down first.
    Wet,
    /// The roots are checked first.
    Roots,
    /// It is leached first.
    Leached,
    /// Plants that are dry, wilting or stand too wet are not sprayed.
    Stressed,
}

impl Why {
    /// In words, after the bench.
    pub const fn text(self) -> &'static str {
        match self {
            Self::Wet => "only when it reads 2",
            Self::Roots => "not before its roots are checked",
            Self::Leached => "only at the watering after leaching",
            Self::Stressed => "not while it is dry, wilting or too wet",
        }
    }
}

/// A step on benches, before it is known which of them have to wait.
struct Draft {
    act: Act,
    text: &'static str,
    /// The houses it is for as a whole; none where it is for benches.
    houses: Vec<String>,
    benches: BTreeSet<usize>,
    /// How it is given where the mix is wet now.
    when_dry: Option<&'static str>,
    names: Vec<WarningName>,
    /// The feed program that asks for it.
    planned: Option<Feeding>,
}

/// What is known of the benches before the lines are put together. Benches are places in the walk.
#[derive(Default)]
struct Known {
    hold: BTreeMap<usize, BTreeSet<Dry>>,
    leach: BTreeSet<usize>,
    dry: BTreeSet<usize>,
    sick: BTreeSet<usize>,
}

impl Known {
    /// Why a bench has to wait for something.
    fn why(&self, act: Act, bench: usize) -> Option<Why> {
        let hold = self.hold.get(&bench);
        if act == Act::Spray {
            return (hold.is_some() || self.dry.contains(&bench)).then_some(Why::Stressed);
        }
        if !act.wets() {
            return None;
        }
        if let Some(until) = hold {
            return Some(if until.contains(&Dry::Roots) { Why::Roots } else { Why::Wet });
        }
        let leached = matches!(act, Act::Nutrient | Act::Feed) && self.leach.contains(&bench);
        leached.then_some(Why::Leached)
    }
}

/// The words of a hold for the surface and the base at once.
const TOP_AND_BASE: &str = "Do not water until top and base read 2.";

/// What a list of jobs is made with.
#[derive(Debug, Clone, Copy)]
pub(super) struct Sheet<'a> {
    /// The season with its plan of the day.
    pub(super) season: &'a Season,
    /// The day whose findings it goes by.
    pub(super) on: NaiveDate,
    /// The day it is for.
    pub(super) listed_for: NaiveDate,
    /// The units of amounts.
    pub(super) units: System,
}

/// The steps of a list, before they are put in words.
struct Drafted<'s> {
    walk: Walk<'s>,
    ticks: Ticks<'s>,
    known: Known,
    drafts: Vec<Draft>,
}

/// What flagging warnings and feed programs ask for, ticked or not.
fn drafted<'s, 'w>(sheet: Sheet<'s>, warnings: impl Iterator<Item = &'w Warning>) -> Drafted<'s> {
    let walk = Walk::of(sheet.season);
    let ticks = Ticks::of(sheet.season, walk.codes(), sheet.on);
    let mut known = Known::default();
    let mut drafts: Vec<Draft> = Vec::new();
    for warning in warnings.filter(|warning| warning.level >= Severity::Act) {
        draft((sheet, &walk, &ticks), warning, &mut drafts, &mut known);
    }
    join_holds(&mut drafts, &known);
    plan_feeding(&mut drafts, (sheet, &walk));
    Drafted { walk, ticks, known, drafts }
}

/// The jobs that flagging warnings ask for, in the order of the day, and those that were ticked for it.
pub(super) fn jobs<'w>(sheet: Sheet<'_>, warnings: impl Iterator<Item = &'w Warning>) -> (Vec<Job>, Vec<Ticked>) {
    let Drafted { walk, ticks, known, mut drafts } = drafted(sheet, warnings);
    let finish = Finish { sheet, walk: &walk, known: &known };
    let ticked = finish.ticked(&ticks, &drafts);
    leave_out(&mut drafts, (sheet, &walk, &ticks));
    let mut all: Vec<Job> = drafts.iter().flat_map(|draft| finish.lines(draft)).collect();
    let first = |job: &Job| job.benches.first().and_then(|bench| walk.at(bench));
    all.sort_by_cached_key(|job| (job.sick, order(job.act), first(job)));
    (all, ticked)
}

/// The steps on a list with each of their benches, those that have to wait too: a job is known by them. Nothing is put in words.
pub(super) fn listed<'w>(
    sheet: Sheet<'_>,
    warnings: impl Iterator<Item = &'w Warning>,
) -> BTreeSet<(&'static str, String)> {
    let Drafted { walk, ticks, mut drafts, .. } = drafted(sheet, warnings);
    leave_out(&mut drafts, (sheet, &walk, &ticks));
    let of = |draft: &Draft| -> Vec<(&'static str, String)> {
        let benches = draft.benches.iter().filter_map(|at| walk.code(*at));
        benches.map(|code| (draft.text, code.to_owned())).collect()
    };
    drafts.iter().flat_map(of).collect()
}

/// The words of a feeding of a lot's program, by which its job is known, and of its clear turn.
const PLANNED: [&str; 2] = ["Feed as planned.", "Clear water as planned."];

/// Adds what the feed programs ask for; what they feed is not asked for by a warning as well.
fn plan_feeding(drafts: &mut Vec<Draft>, (sheet, walk): (Sheet<'_>, &Walk<'_>)) {
    for feeding in program::feedings(sheet.season, (sheet.on, sheet.listed_for)) {
        let benches: BTreeSet<usize> = feeding.benches.iter().filter_map(|code| walk.at(code)).collect();
        for draft in drafts.iter_mut().filter(|draft| draft.act == Act::Feed && draft.planned.is_none()) {
            draft.benches.retain(|bench| !benches.contains(bench));
        }
        let [feed, clear] = PLANNED;
        let (act, text) = if feeding.clear { (Act::Water, clear) } else { (Act::Feed, feed) };
        let (houses, names, planned) = (Vec::new(), Vec::new(), Some(feeding));
        drafts.push(Draft { act, text, houses, benches, when_dry: None, names, planned });
    }
    drafts.retain(|draft| !draft.benches.is_empty());
}

/// Takes what is ticked for the day off the drafts: benches, and houses as a whole.
fn leave_out(drafts: &mut Vec<Draft>, (sheet, walk, ticks): (Sheet<'_>, &Walk<'_>, &Ticks<'_>)) {
    for draft in drafts.iter_mut() {
        let tick = |bench: usize| ticks.find(bench, draft.text, sheet.listed_for);
        let is_ticked: BTreeSet<usize> = draft.benches.iter().copied().filter(|bench| tick(*bench).is_some()).collect();
        if draft.houses.is_empty() {
            draft.benches.retain(|bench| !is_ticked.contains(bench));
            continue;
        }
        let house = |bench: usize| Some(sheet.season.bench(walk.code(bench)?)?.house.as_str());
        let done: BTreeSet<&str> = is_ticked.iter().filter_map(|bench| house(*bench)).collect();
        draft.houses.retain(|name| !done.contains(name.as_str()));
        draft.benches.retain(|bench| house(*bench).is_some_and(|name| !done.contains(name)));
    }
    drafts.retain(|draft| !draft.benches.is_empty());
}

/// The order of the day: what holds the water and what is checked stand before what is watered.
const fn order(act: Act) -> u8 {
    match act {
        Act::Check => 1,
        Act::Hold(_) => 0,
        Act::Water => 2,
        Act::Leach => 3,
        Act::Nutrient => 4,
        Act::Feed => 5,
        Act::Work => 6,
        Act::Spray => 7,
    }
}

/// The steps of a warning that are jobs: the first that is something to do, and each later one that says what it does.
fn steps(warning: &Warning) -> impl Iterator<Item = Step> {
    let mut first = true;
    warning.steps_in_order().into_iter().filter(move |step| match step.kind {
        StepKind::Remark | StepKind::WhenDry => false,
        StepKind::Do | StepKind::Leach | StepKind::NoLeaching | StepKind::Instead => {
            std::mem::take(&mut first) || !matches!(step.act, Act::Work)
        }
    })
}

fn draft(
    (sheet, walk, ticks): (Sheet<'_>, &Walk<'_>, &Ticks<'_>),
    warning: &Warning,
    drafts: &mut Vec<Draft>,
    known: &mut Known,
) {
    let Sheet { season, on, .. } = sheet;
    let codes: Vec<&str> = match &warning.place {
        Place::Lot(lot) => season.benches_of_lot(lot, on),
        Place::Bench(_) | Place::House(_) => warning.benches.iter().map(String::as_str).collect(),
    };
    let at: BTreeSet<usize> = codes.iter().filter_map(|code| walk.at(code)).collect();
    if warning.name.rule().is_sick {
        known.sick.extend(&at);
    }
    let when_dry = warning.steps.iter().find(|step| step.kind == StepKind::WhenDry).map(|step| step.text);
    let house = match &warning.place {
        Place::House(house) => Some(house.to_string()),
        Place::Bench(_) | Place::Lot(_) => None,
    };
    for step in steps(warning) {
        let left = |bench: &usize| {
            let settled = ticks.is_settled(*bench, &step, warning.since, sheet.listed_for);
            !settled && !walk.code(*bench).is_some_and(|code| is_done(season, code, (warning, &step), on))
        };
        let benches: BTreeSet<usize> = at.iter().copied().filter(left).collect();
        match step.act {
            Act::Hold(until) => {
                for bench in &benches {
                    known.hold.entry(*bench).or_default().insert(until);
                }
            }
            Act::Leach => known.leach.extend(&benches),
            Act::Water => known.dry.extend(&benches),
            Act::Check | Act::Nutrient | Act::Feed | Act::Work | Act::Spray => {}
        }
        let same = |d: &&mut Draft| (d.act, d.text, d.houses.is_empty()) == (step.act, step.text, house.is_none());
        if let Some(draft) = drafts.iter_mut().find(same) {
            draft.benches.extend(benches);
            draft.houses.extend(house.clone());
            draft.when_dry = draft.when_dry.or(when_dry);
            draft.names.push(warning.name);
        } else if !benches.is_empty() {
            let (houses, names) = (house.iter().cloned().collect(), vec![warning.name]);
            drafts.push(Draft { act: step.act, text: step.text, houses, benches, when_dry, names, planned: None });
        }
    }
}

/// True where the record shows a step as done since the warning began.
fn is_done(season: &Season, bench: &str, (warning, step): (&Warning, &Step), on: NaiveDate) -> bool {
    let since = |kind: KindName| season.history_of(bench, on, kind).iter().any(|e| e.day() >= warning.since);
    step.done_by.is_some_and(since)
}

/// A bench has one line that keeps the water off: of the roots before those of the mix, of the surface and the base in one.
fn join_holds(drafts: &mut Vec<Draft>, known: &Known) {
    let mut both = BTreeSet::new();
    let mut held = BTreeSet::new();
    let is_hold = |draft: &Draft, of: Dry| draft.act == Act::Hold(of);
    for draft in drafts.iter_mut().filter(|d| is_hold(d, Dry::Roots)) {
        draft.benches.retain(|bench| held.insert(*bench));
    }
    for (bench, until) in known.hold.iter().filter(|(bench, _)| !held.contains(bench)) {
        if until.contains(&Dry::Top) && until.contains(&Dry::Base) {
            both.insert(*bench);
        }
    }
    held.extend(&both);
    for draft in drafts.iter_mut().filter(|d| is_hold(d, Dry::Top) || is_hold(d, Dry::Base)) {
        draft.benches.retain(|bench| held.insert(*bench));
    }
    if !both.is_empty() {
        let (act, houses, names) = (Act::Hold(Dry::Top), Vec::new(), Vec::new());
        drafts.push(Draft { act, text: TOP_AND_BASE, houses, benches: both, when_dry: None, names, planned: None });
    }
    drafts.retain(|draft| !draft.benches.is_empty());
}

/// The ticks of one outcome of a step.
struct Group<'t> {
    tick: &'t Tick<'t>,
    benches: Vec<usize>,
    houses: BTreeSet<&'t str>,
    entries: BTreeSet<Uuid>,
}

/// What the lines are finished with.
struct Finish<'a> {
    sheet: Sheet<'a>,
    walk: &'a Walk<'a>,
    known: &'a Known,
}

impl Finish<'_> {
    /// The lines of a draft: of the benches that are well, then of the sick.
    fn lines(&self, draft: &Draft) -> Vec<Job> {
        let of = |sick: bool| -> Vec<usize> {
            let is = |bench: &&usize| draft.houses.is_empty() && self.known.sick.contains(bench);
            draft.benches.iter().filter(|bench| is(bench) == sick).copied().collect()
        };
        let lines = |sick: bool| -> Vec<Job> {
            let parts = self.apart(draft.act, of(sick));
            parts.into_iter().filter(|part| !part.is_empty()).map(|part| self.line(draft, &part, sick)).collect()
        };
        [lines(false), lines(true)].into_iter().flatten().collect()
    }

    /// The ticked jobs of the day, each outcome of a step in one line, in the order of the day.
    fn ticked(&self, ticks: &Ticks<'_>, drafts: &[Draft]) -> Vec<Ticked> {
        let mut groups: Vec<Group<'_>> = Vec::new();
        for (bench, tick) in ticks.all_for(self.sheet.listed_for) {
            let same = |of: &&Tick<'_>| {
                (of.step, of.outcome, of.why, of.house.is_some())
                    == (tick.step, tick.outcome, tick.why, tick.house.is_some())
            };
            if let Some(group) = groups.iter_mut().find(|group| same(&group.tick)) {
                group.benches.push(bench);
                group.houses.extend(tick.house);
                group.entries.insert(tick.id);
            } else {
                let (houses, entries) = (tick.house.into_iter().collect(), [tick.id].into());
                groups.push(Group { tick, benches: vec![bench], houses, entries });
            }
        }
        let line = |Group { tick, benches, houses, entries }: Group<'_>| {
            let benches = self.codes(&benches);
            let houses: Vec<String> = houses.into_iter().map(str::to_owned).collect();
            let place = match houses.as_slice() {
                [] => places::ranges(self.sheet.season, &benches, self.sheet.on),
                [_, ..] => places::named("house", &houses),
            };
            Ticked {
                act: drafts.iter().find(|draft| draft.text == tick.step).map(|draft| draft.act),
                step: tick.step.to_owned(),
                outcome: tick.outcome,
                why: tick.why.map(str::to_owned),
                benches,
                place,
                entries: entries.into_iter().collect(),
            }
        };
        let mut all: Vec<Ticked> = groups.into_iter().map(line).collect();
        all.sort_by_key(|ticked| ticked.act.map_or(u8::MAX, order));
        all
    }

    /// The benches of each line: of a drench, the lots whose volume is known and the others, so that what is known is said.
    fn apart(&self, act: Act, benches: Vec<usize>) -> [Vec<usize>; 2] {
        if act != Act::Nutrient {
            return [benches, Vec::new()];
        }
        let Sheet { season, on, .. } = self.sheet;
        let lot = |at: usize| season.standing(self.walk.code(at)?, on).map(|standing| standing.lot);
        let known = |at: usize| self.walk.code(at).is_some_and(|code| amounts::is_known(season, code, on));
        let open: BTreeSet<Option<String>> = benches.iter().filter(|at| !known(**at)).map(|at| lot(*at)).collect();
        let (known, open) = benches.into_iter().partition(|at| !open.contains(&lot(*at)));
        [known, open]
    }

    fn codes(&self, benches: &[usize]) -> Vec<String> {
        benches.iter().filter_map(|at| self.walk.code(*at)).map(str::to_owned).collect()
    }

    fn line(&self, draft: &Draft, benches: &[usize], sick: bool) -> Job {
        let mut go = Vec::new();
        let mut wait: BTreeMap<Why, Vec<usize>> = BTreeMap::new();
        for bench in benches {
            match self.known.why(draft.act, *bench) {
                Some(why) => wait.entry(why).or_default().push(*bench),
                None => go.push(*bench),
            }
        }
        let (benches, all) = (self.codes(&go), self.codes(benches));
        let Sheet { season, on, .. } = self.sheet;
        let in_words = |codes: &[String]| places::ranges(season, codes, on);
        let waits = wait.into_iter().map(|(why, of)| {
            let benches = self.codes(&of);
            Waits { place: in_words(&benches), benches, why }
        });
        let waits: Vec<Waits> = waits.collect();
        let (amount, cautions) = self.amount(draft, &benches);
        let how = draft.when_dry.map_or_else(String::new, |how| format!(" {how}"));
        let codes: Vec<&str> = benches.iter().map(String::as_str).collect();
        let what = draft.planned.as_ref().map_or_else(
            || format!("{}{amount}{how}", draft.text),
            |feeding| feeding.text(season, (&codes, on), self.sheet.units),
        );
        let place = match draft.houses.as_slice() {
            [_, ..] => places::named("house", &draft.houses),
            [] if draft.planned.is_some()
                || matches!(draft.act, Act::Leach | Act::Nutrient | Act::Feed | Act::Spray) =>
            {
                places::with_pots(season, (&all, &benches), on)
            }
            [] => in_words(&all),
        };
        Job {
            act: draft.act,
            step: draft.text,
            houses: draft.houses.clone(),
            names: draft.names.clone(),
            planned_n: draft.planned.as_ref().filter(|feeding| !feeding.clear).map(|feeding| feeding.n_ppm),
            left: false,
            sick,
            benches,
            place,
            what,
            waits,
            cautions,
        }
    }

    /// What is to be weighed in all, after the words of the step, and its cautions.
    fn amount(&self, draft: &Draft, benches: &[String]) -> (String, Vec<Caution>) {
        if !matches!(draft.act, Act::Nutrient | Act::Spray) || benches.is_empty() {
            return (String::new(), Vec::new());
        }
        let codes: Vec<&str> = benches.iter().map(String::as_str).collect();
        let Sheet { season, on, units, .. } = self.sheet;
        let weighed = draft.names.iter().find_map(|name| amounts::in_all(season, *name, (&codes, on), units));
        weighed.map_or_else(Default::default, |(text, cautions)| (format!(" {text}"), cautions))
    }
}
