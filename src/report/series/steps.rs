//! The steps of one lot: planting, pinch, growth regulators, magnesium and molybdenum, short days, color, sale.

use super::{State, Step};
use crate::crop::color::Milestone;
use crate::crop::growth_regulator::Ingredient;
use crate::dates::{self, add_days, range};
use crate::limits::Limits;
use crate::record::{Entry, KindName, Lot, Nights, Pinch};
use crate::season::Season;
use crate::warnings::{BenchView, EarlierWork, last_spray, short_days};
use chrono::NaiveDate;

/// What the steps are made from.
struct StepInput<'a> {
    lot: &'a Lot,
    benches: &'a [BenchView<'a>],
    on: NaiveDate,
    limits: &'a Limits,
}

/// All steps of a lot, in the order of the crop.
pub(super) fn of(season: &Season, lot: &Lot, benches: &[BenchView<'_>], on: NaiveDate, limits: &Limits) -> Vec<Step> {
    let input = StepInput { lot, benches, on, limits };
    let start = short_days(season, lot, on, limits);
    let mut steps = vec![planting(&input)];
    steps.extend(pinch(&input));
    steps.extend(growth_regulators(&input, season));
    steps.push(magnesium(&input));
    steps.push(molybdenum(&input));
    steps.extend(start.map(|d| nights(&input, d)));
    steps.extend(Milestone::ALL.into_iter().filter_map(|m| color(&input, m)));
    steps.push(sale(&input, season));
    steps
}

fn planting(input: &StepInput<'_>) -> Step {
    let d = input.lot.planted;
    let state = if d <= input.on { State::Done } else { State::Planned };
    Step { name: "planting", from: d, to: d, state, marks: Vec::new(), next: None, words: dates::short(d) }
}

/// A piece of work that every bench of the lot needs once: from when it is due, from when it is late, on which day each
/// bench got it.
fn work(
    input: &StepInput<'_>,
    name: &'static str,
    (due, late): (NaiveDate, NaiveDate),
    given: &[Option<NaiveDate>],
) -> Step {
    let mut days: Vec<NaiveDate> = given.iter().flatten().copied().collect();
    days.sort_unstable();
    days.dedup();
    let (done, all) = (given.iter().flatten().count(), given.len());
    let first_last = days.first().zip(days.last()).map(|(a, b)| (*a, *b));
    let part = if done > 0 { format!("; {done} of {all} benches done") } else { String::new() };
    let step = |from, to, state, words| Step { name, from, to, state, marks: days.clone(), next: None, words };
    match first_last.filter(|_| done == all) {
        Some((from, to)) => step(from, to, State::Done, range(from, to)),
        None if input.on >= late => step(due, input.on, State::Late, format!("was due {}{part}", dates::short(due))),
        None if input.on >= due => {
            step(due, late, State::Due, format!("until {}{part}", dates::short(late.pred_opt().unwrap_or(late))))
        }
        None => step(due, late, State::Planned, format!("from {}{part}", dates::short(due))),
    }
}

fn pinch(input: &StepInput<'_>) -> Option<Step> {
    if input.lot.pinch == Pinch::None {
        return None;
    }
    let limits = &input.limits.growth;
    let days = (add_days(input.lot.planted, limits.pinch_due), add_days(input.lot.planted, limits.pinch_overdue));
    let given: Vec<_> = input.benches.iter().map(|b| b.pinched).collect();
    let mut step = work(input, "pinch", days, &given);
    // Once short days began a pinch comes too late to be asked for.
    let began = input.benches.iter().filter_map(|b| b.short_days).any(|start| start <= input.on);
    let not_known = input.benches.iter().any(|b| b.pinched.is_none() && b.not_known.contains(&EarlierWork::Pinch));
    if step.state == State::Late && (began || not_known) {
        step.state = State::Over;
        step.words = step.words.replacen("was due", "not logged; was due", 1);
    }
    Some(step)
}

/// The time in which sprays do no harm to bracts and date. No one has to use it, so it is never late.
fn growth_regulators(input: &StepInput<'_>, season: &Season) -> Option<Step> {
    let spray = |ingredient| last_spray(season, input.lot, ingredient, input.on, input.limits);
    let last = spray(Ingredient::Chlormequat)?;
    let others = spray(Ingredient::Daminozide)?;
    let pinched = input.benches.iter().filter_map(|b| b.pinched).min();
    let from = pinched.unwrap_or_else(|| add_days(input.lot.planted, input.limits.growth.pinch_due)).min(last);
    let mut marks: Vec<NaiveDate> =
        input.benches.iter().flat_map(|b| b.of(KindName::GrowthRegulator)).map(Entry::day).collect();
    marks.sort_unstable();
    marks.dedup();
    let state = match input.on {
        d if d < from => State::Planned,
        d if d <= last => State::Open,
        _ => State::Over,
    };
    let given =
        marks.last().map_or_else(String::new, |d| format!("; {} applied, last {}", marks.len(), dates::short(*d)));
    let window = if state == State::Over { "spray window closed" } else { "last spray day" };
    let words = format!("{window} {}, chlormequat {}{given}", dates::short(others), dates::short(last));
    Some(Step { name: "growth regulator", from, to: last, state, marks, next: None, words })
}

fn supplement(input: &StepInput<'_>, what: EarlierWork, constant: bool, given: &[Option<NaiveDate>]) -> Step {
    let name = what.text();
    let limits = &input.limits.feed;
    let due = add_days(input.lot.planted, limits.magnesium_first);
    if constant {
        let words = "covered by constant feed".to_owned();
        return Step { name, from: due, to: due, state: State::Done, marks: Vec::new(), next: None, words };
    }
    let mut step = work(input, name, (due, add_days(input.lot.planted, limits.magnesium_missed)), given);
    let not_known = input.benches.iter().zip(given).any(|(b, day)| day.is_none() && b.not_known.contains(&what));
    if not_known && matches!(step.state, State::Due | State::Late) {
        step.state = State::Over;
        step.words = format!("not known; was due {}", dates::short(due));
    }
    step
}

fn magnesium(input: &StepInput<'_>) -> Step {
    let limits = &input.limits.feed;
    let constant = input.lot.feed_mg_ppm.is_some_and(|ppm| ppm >= limits.magnesium_feed_ppm);
    let given: Vec<_> = input.benches.iter().map(|b| b.magnesium).collect();
    let mut step = supplement(input, EarlierWork::Magnesium, constant, &given);
    let next = given.iter().flatten().min().map(|d| add_days(*d, limits.magnesium_every));
    let until = add_days(input.lot.ready_by, -limits.magnesium_until);
    if let Some(next) = next.filter(|d| step.state == State::Done && !constant && *d <= until) {
        step.words.push_str(&format!(", next from {}", dates::short(next)));
        step.next = Some(next);
    }
    step
}

fn molybdenum(input: &StepInput<'_>) -> Step {
    let constant = input.lot.feed_mo_ppm.is_some_and(|ppm| ppm >= input.limits.feed.molybdenum_ppm);
    let given: Vec<_> = input.benches.iter().map(|b| b.molybdenum).collect();
    supplement(input, EarlierWork::Molybdenum, constant, &given)
}

fn nights(input: &StepInput<'_>, start: NaiveDate) -> Step {
    let how = match input.lot.nights {
        Nights::Natural => "natural nights",
        Nights::Blackout => "black cloth",
        Nights::Lights => "after lighting ends",
    };
    let (state, words) = if start <= input.on {
        (State::Done, format!("since {}, {how}", dates::short(start)))
    } else {
        (State::Forecast, format!("{}, {how}", dates::short(start)))
    };
    Step { name: "short days", from: start, to: start, state, marks: Vec::new(), next: None, words }
}

/// A color stage over all benches: from the earliest to the latest day it may come.
fn color(input: &StepInput<'_>, milestone: Milestone) -> Option<Step> {
    let days: Vec<_> = input.benches.iter().filter_map(|b| b.color.as_ref()).map(|f| f.of(milestone)).collect();
    let from = days.iter().map(|d| d.low).min()?;
    let to = days.iter().map(|d| d.high).max()?;
    let seen = days.iter().all(|d| d.low == d.high && d.high <= input.on);
    let ready = milestone == Milestone::FullColor;
    let late = ready && !seen && to > input.lot.ready_by;
    let state = match (seen, late) {
        (true, _) => State::Done,
        (false, true) => State::Late,
        (false, false) => State::Forecast,
    };
    let mut words = range(from, to);
    if ready && !seen {
        words.push_str(if late { ", may miss the sale" } else { ", before the sale" });
    }
    if !seen && to < input.on {
        words.push_str(", not seen yet");
    }
    let name = match milestone {
        Milestone::FirstColor => "first color",
        Milestone::Cyathia => "cyathia visible",
        Milestone::FullColor => "full color, ready",
        Milestone::FirstPollen => "first pollen",
    };
    Some(Step { name, from, to, state, marks: Vec::new(), next: None, words })
}

fn sale(input: &StepInput<'_>, season: &Season) -> Step {
    let orders: Vec<_> = season.orders(&input.lot.lot).into_iter().filter(|o| o.pots > 0).collect();
    let committed: u64 = orders.iter().map(|o| u64::from(o.pots)).sum();
    let marks: Vec<NaiveDate> = orders.iter().map(|o| o.date).collect();
    let ready = input.lot.ready_by;
    let to = marks.iter().copied().max().unwrap_or(ready).max(ready);
    let state = if to < input.on { State::Over } else { State::Planned };
    let left = (ready - input.on).num_days();
    let when = if left >= 0 { format!("{} in {left} days", dates::short(ready)) } else { dates::short(ready) };
    let committed = if committed > 0 { format!(", {committed} committed") } else { String::new() };
    Step { name: "sale", from: ready, to, state, marks, next: None, words: format!("{when}{committed}") }
}
