//! What the warnings said of a season, day by day, against what happened.

use crate::faults::Fault;
use crate::grow::{after, date, days};
use crate::lived::{FIRST, LAST, Lived};
use benchwalk::limits::Limits;
use benchwalk::record::Term;
use benchwalk::warnings::{Severity, Warning, WarningName, assess_all};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;

/// Lines about leaf signs.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct LeafLines {
    /// Each counted once, on the evening it begins; noted ones among them.
    begun: usize,
    /// Of every evening, what is to be watched.
    watched: usize,
    /// Of every evening, what is only noted.
    noted: usize,
}

/// One season's outcome.
pub(crate) struct Outcome {
    pub(crate) fault: Fault,
    /// Days from the fault to the warning; `None` when it was never told.
    pub(crate) told_after: Option<i64>,
    /// Days from the warning to the visible loss.
    pub(crate) lead: Option<i64>,
    /// False act or urgent warnings: each told once, on the day it begins.
    pub(crate) wolves: Vec<&'static str>,
    /// What is to be watched of single benches, lots and houses, a line an evening each.
    pub(crate) watched: BTreeMap<&'static str, usize>,
    /// Lines about leaf signs.
    pub(crate) leaf_lines: LeafLines,
    pub(crate) bench_weeks: f64,
}

pub(crate) fn outcome(lived: &Lived) -> Outcome {
    let limits = Limits::default();
    let (mut told, mut wolves, mut bench_days) = (None, Vec::new(), 0);
    let (mut watched, mut leaf_lines) = (BTreeMap::new(), LeafLines::default());
    let mut leaves: BTreeSet<String> = BTreeSet::new();
    let mut standing: BTreeSet<(&'static str, String)> = BTreeSet::new();
    let mut day = date(FIRST.0, FIRST.1);
    while day < date(LAST.0, LAST.1) {
        day = after(day, 1);
        let benches = lived.season.benches();
        bench_days += benches.iter().filter(|b| lived.season.standing(&b.bench, day).is_some()).count();
        let assessed = assess_all(&lived.season, day, &limits);
        let mut now = BTreeSet::new();
        for warning in assessed.all() {
            let mine = day >= lived.began && concerns(lived, warning);
            if mine && warning.level >= lived.fault.told_at() && lived.fault.told_by().contains(&warning.name) {
                told = told.or(Some(day));
            }
            let of_fault = lived.fault.told_by().contains(&warning.name) || lived.fault.also().contains(&warning.name);
            let behind = if warning.level == Severity::Watch { &lived.near } else { &lived.late };
            let is_late =
                warning.name == WarningName::ColorBehind && warning.benches.iter().all(|b| behind.contains(b));
            let right = mine && of_fault || is_late;
            if warning.level == Severity::Watch && !right {
                *watched.entry(warning.name.code()).or_insert(0) += 1;
            }
            if warning.level >= Severity::Act && !right {
                // What is of a whole lot counts once, as it is shown.
                let lot = warning.lot.clone().filter(|_| warning.name.rule().cause.is_of_lot());
                now.insert((warning.name.code(), lot.unwrap_or_else(|| warning.benches.join(" "))));
            }
        }
        let signs = || assessed.all().filter(|w| w.name == WarningName::LeafSigns);
        let of_leaves: BTreeSet<String> = signs().flat_map(|w| w.benches.clone()).collect();
        leaf_lines.begun += of_leaves.difference(&leaves).count();
        leaf_lines.noted += signs().filter(|w| w.noted).count();
        leaf_lines.watched += signs().filter(|w| !w.noted).count();
        leaves = of_leaves;
        wolves.extend(now.difference(&standing).map(|(name, _)| *name));
        standing = now;
    }
    let lead = told.zip(lived.loss).map(|(told, loss)| days(told, loss));
    let bench_weeks = bench_days as f64 / 7.0;
    Outcome {
        fault: lived.fault,
        told_after: told.map(|t| days(lived.began, t)),
        lead,
        wolves,
        watched,
        leaf_lines,
        bench_weeks,
    }
}

fn concerns(lived: &Lived, warning: &Warning) -> bool {
    warning.benches.iter().any(|b| lived.benches.contains(b))
}

/// The middle and the worst of some days.
fn spread(mut of: Vec<i64>, worst_is_high: bool) -> Option<(i64, i64)> {
    of.sort_unstable();
    let middle = *of.get(of.len() / 2)?;
    let worst = if worst_is_high { *of.last()? } else { *of.first()? };
    Some((middle, worst))
}

/// One row of the table.
pub(crate) struct Row {
    pub(crate) fault: Fault,
    pub(crate) seasons: usize,
    pub(crate) told: usize,
    /// Days from fault to warning: median, longest.
    pub(crate) after: Option<(i64, i64)>,
    /// Days from warning to visible loss: median, shortest.
    pub(crate) lead: Option<(i64, i64)>,
}

pub(crate) struct Table {
    pub(crate) rows: Vec<Row>,
    pub(crate) seasons: usize,
    pub(crate) bench_weeks: f64,
    /// False warnings by fault and name.
    pub(crate) wolves: BTreeMap<(&'static str, &'static str), usize>,
    /// Of the seasons without a fault: lines to be watched, and bench-weeks.
    pub(crate) watched: (BTreeMap<&'static str, usize>, f64),
    /// Of the seasons with trifles: lines about leaf signs a bench-week: begun, to be watched, noted.
    pub(crate) leaf_lines: [f64; 3],
}

impl Table {
    pub(crate) fn of(outcomes: &[Outcome]) -> Self {
        let rows = Fault::ALL.into_iter().filter(|f| !f.is_none()).map(|fault| {
            let mine: Vec<&Outcome> = outcomes.iter().filter(|o| o.fault == fault).collect();
            let told = mine.iter().filter(|o| o.told_after.is_some()).count();
            let after = spread(mine.iter().filter_map(|o| o.told_after).collect(), true);
            let lead = spread(mine.iter().filter_map(|o| o.lead).collect(), false);
            Row { fault, seasons: mine.len(), told, after, lead }
        });
        let mut wolves = BTreeMap::new();
        for (fault, name) in outcomes.iter().flat_map(|o| o.wolves.iter().map(|name| (o.fault.text(), *name))) {
            *wolves.entry((fault, name)).or_insert(0) += 1;
        }
        let mut watched = (BTreeMap::new(), 0.0);
        for sound in outcomes.iter().filter(|o| o.fault == Fault::None) {
            watched.1 += sound.bench_weeks;
            for (name, n) in &sound.watched {
                *watched.0.entry(*name).or_insert(0) += n;
            }
        }
        let trifles: Vec<&Outcome> = outcomes.iter().filter(|o| o.fault == Fault::Trifles).collect();
        let weeks: f64 = trifles.iter().map(|o| o.bench_weeks).sum();
        let a_week = |of: fn(&Outcome) -> usize| trifles.iter().map(|o| of(o)).sum::<usize>() as f64 / weeks.max(1.0);
        let leaf_lines =
            [a_week(|o| o.leaf_lines.begun), a_week(|o| o.leaf_lines.watched), a_week(|o| o.leaf_lines.noted)];
        let bench_weeks = outcomes.iter().map(|o| o.bench_weeks).sum();
        Self { rows: rows.collect(), seasons: outcomes.len(), bench_weeks, wolves, watched, leaf_lines }
    }

    /// False act or urgent warnings per 100 bench-weeks.
    pub(crate) fn false_alarms(&self) -> f64 {
        100.0 * self.wolves.values().sum::<usize>() as f64 / self.bench_weeks
    }

    /// Lines to be watched a bench-week, where nothing is wrong.
    pub(crate) fn watched_lines(&self) -> f64 {
        self.watched.0.values().sum::<usize>() as f64 / self.watched.1
    }

    pub(crate) fn text(&self) -> String {
        let pair = |p: Option<(i64, i64)>| p.map_or("-".to_owned(), |(a, b)| format!("{a} ({b})"));
        let mut text = String::new();
        let head = ("fault", "seasons", "told", "days to warning", "days before loss");
        writeln!(text, "{:<28}{:>8}{:>8}{:>18}{:>18}", head.0, head.1, head.2, head.3, head.4).unwrap();
        for r in &self.rows {
            let share = format!("{:.0} %", 100.0 * r.told as f64 / r.seasons.max(1) as f64);
            let (name, after, lead) = (r.fault.text(), pair(r.after), pair(r.lead));
            writeln!(text, "{name:<28}{:>8}{share:>8}{after:>18}{lead:>18}", r.seasons).unwrap();
        }
        writeln!(text, "days: median (worst); {} seasons, {:.0} bench-weeks", self.seasons, self.bench_weeks).unwrap();
        write!(text, "false act or urgent warnings per 100 bench-weeks: {:.2}", self.false_alarms()).unwrap();
        for ((fault, name), n) in &self.wolves {
            write!(text, "\n  {fault}: {name} {n}").unwrap();
        }
        write!(text, "\nlines to watch a bench-week where nothing is wrong: {:.3}", self.watched_lines()).unwrap();
        for (name, n) in &self.watched.0 {
            write!(text, "; {name} {n}").unwrap();
        }
        let [begun, watched, noted] = self.leaf_lines;
        write!(
            text,
            "\nlines about leaf signs a bench-week where trifles are noted: {begun:.2} begin; on all evenings "
        )
        .unwrap();
        write!(text, "{watched:.2} to watch, {noted:.2} noted").unwrap();
        text
    }
}
