//! The steps of one lot: planting, pinch, growth regulators, magnesium and molybdenum, short days, color, sale.

use super::calendar::{State, Step};
use crate::crop::color::Milestone;
use crate::crop::growth_regulator::Ingredient;
use crate::dates::{self, add_days, range};
use crate::limits::Limits;
use crate::record::{Entry, KindName, Lot, Nights, Pinch};
use crate::season::Season;
use crate::warnings::{BenchView, last_spray, short_days};
use chrono::NaiveDate;

/// What the steps are made from.
struct Ground<'a> {
    lot: &'a Lot,
    benches: &'a [BenchView<'a>],
    on: NaiveDate,
    limits: &'a Limits,
}

/// All steps of a lot, in the order of the crop.
pub(super) fn of(season: &Season, lot: &Lot, benches: &[BenchView<'_>], on: NaiveDate, limits: &Limits) -> Vec<Step> {
    let ground = Ground { lot, benches, on, limits };
    let start = short_days(season, lot, on, limits);
    let mut steps = vec![planting(&ground)];
    steps.extend(pinch(&ground));
    steps.extend(growth_regulators(&ground, season));
    steps.push(magnesium(&ground));
    steps.push(molybdenum(&ground));
    steps.extend(start.map(|d| nights(&ground, d)));
    steps.extend(Milestone::ALL.into_iter().filter_map(|m| color(&ground, m)));
    steps.push(sale(&ground, season));
    steps
}

fn planting(ground: &Ground<'_>) -> Step {
    let d = ground.lot.planted;
    let state = if d <= ground.on { State::Done } else { State::Planned };
    Step { name: "planting", from: d, to: d, state, marks: Vec::new(), words: dates::short(d) }
}

/// A piece of work that every bench of the lot needs once: from when it is due, from when it is late, on which day each
/// bench got it.
fn work(
    ground: &Ground<'_>,
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
    let step = |from, to, state, words| Step { name, from, to, state, marks: days.clone(), words };
    match first_last.filter(|_| done == all) {
        Some((from, to)) => step(from, to, State::Done, range(from, to)),
        None if ground.on >= late => step(due, ground.on, State::Late, format!("due was {}{part}", dates::short(due))),
        None if ground.on >= due => {
            step(due, late, State::Due, format!("until {}{part}", dates::short(late.pred_opt().unwrap_or(late))))
        }
        None => step(due, late, State::Planned, format!("from {}{part}", dates::short(due))),
    }
}

fn pinch(ground: &Ground<'_>) -> Option<Step> {
    if ground.lot.pinch == Pinch::None {
        return None;
    }
    let limits = &ground.limits.growth;
    let days = (add_days(ground.lot.planted, limits.pinch_due), add_days(ground.lot.planted, limits.pinch_overdue));
    let given: Vec<_> = ground.benches.iter().map(|b| b.pinched).collect();
    Some(work(ground, "pinch", days, &given))
}

/// The time in which sprays do no harm to bracts and date. No one has to use it, so it is never late.
fn growth_regulators(ground: &Ground<'_>, season: &Season) -> Option<Step> {
    let spray = |ingredient| last_spray(season, ground.lot, ingredient, ground.on, ground.limits);
    let last = spray(Ingredient::Chlormequat)?;
    let others = spray(Ingredient::Daminozide)?;
    let pinched = ground.benches.iter().filter_map(|b| b.pinched).min();
    let from = pinched.unwrap_or_else(|| add_days(ground.lot.planted, ground.limits.growth.pinch_due)).min(last);
    let mut marks: Vec<NaiveDate> =
        ground.benches.iter().flat_map(|b| b.of(KindName::GrowthRegulator)).map(Entry::day).collect();
    marks.sort_unstable();
    marks.dedup();
    let state = match ground.on {
        d if d < from => State::Planned,
        d if d <= last => State::Open,
        _ => State::Over,
    };
    let given =
        marks.last().map_or_else(String::new, |d| format!("; {} given, last {}", marks.len(), dates::short(*d)));
    let words = format!("sprays to {}, chlormequat to {}{given}", dates::short(others), dates::short(last));
    Some(Step { name: "growth regulator", from, to: last, state, marks, words })
}

fn supplement(ground: &Ground<'_>, name: &'static str, constant: bool, given: &[Option<NaiveDate>]) -> Step {
    let limits = &ground.limits.feed;
    let due = add_days(ground.lot.planted, limits.magnesium_first);
    if constant {
        let words = "the constant feed carries it".to_owned();
        return Step { name, from: due, to: due, state: State::Done, marks: Vec::new(), words };
    }
    work(ground, name, (due, add_days(ground.lot.planted, limits.magnesium_missed)), given)
}

fn magnesium(ground: &Ground<'_>) -> Step {
    let limits = &ground.limits.feed;
    let constant = ground.lot.feed_mg_ppm.is_some_and(|ppm| ppm >= limits.magnesium_feed_ppm);
    let given: Vec<_> = ground.benches.iter().map(|b| b.magnesium).collect();
    let mut step = supplement(ground, "magnesium", constant, &given);
    let next = given.iter().flatten().min().map(|d| add_days(*d, limits.magnesium_every));
    let until = add_days(ground.lot.ready_by, -limits.magnesium_until);
    if let Some(next) = next.filter(|d| step.state == State::Done && !constant && *d <= until) {
        step.words.push_str(&format!(", again from {}", dates::short(next)));
    }
    step
}

fn molybdenum(ground: &Ground<'_>) -> Step {
    let constant = ground.lot.feed_mo_ppm.is_some_and(|ppm| ppm >= ground.limits.feed.molybdenum_ppm);
    let given: Vec<_> = ground.benches.iter().map(|b| b.molybdenum).collect();
    supplement(ground, "molybdenum", constant, &given)
}

fn nights(ground: &Ground<'_>, start: NaiveDate) -> Step {
    let how = match ground.lot.nights {
        Nights::Natural => "natural nights",
        Nights::Blackout => "black cloth",
        Nights::Lights => "after the lamps",
    };
    let (state, words) = if start <= ground.on {
        (State::Done, format!("since {}, {how}", dates::short(start)))
    } else {
        (State::Forecast, format!("{}, {how}", dates::short(start)))
    };
    Step { name: "short days", from: start, to: start, state, marks: Vec::new(), words }
}

/// A color stage over all benches: from the earliest to the latest day it may come.
fn color(ground: &Ground<'_>, milestone: Milestone) -> Option<Step> {
    let days: Vec<_> = ground.benches.iter().filter_map(|b| b.color.as_ref()).map(|f| f.of(milestone)).collect();
    let from = days.iter().map(|d| d.low).min()?;
    let to = days.iter().map(|d| d.high).max()?;
    let seen = days.iter().all(|d| d.low == d.high && d.high <= ground.on);
    let ready = milestone == Milestone::FullColor;
    let late = ready && !seen && to > ground.lot.ready_by;
    let state = match (seen, late) {
        (true, _) => State::Done,
        (false, true) => State::Late,
        (false, false) => State::Forecast,
    };
    let mut words = range(from, to);
    if ready && !seen {
        words.push_str(if late { ", may miss the sale" } else { ", before the sale" });
    }
    if !seen && to < ground.on {
        words.push_str(", not seen yet");
    }
    let name = match milestone {
        Milestone::FirstColor => "first color",
        Milestone::Cyathia => "cyathia visible",
        Milestone::FullColor => "full color, ready",
        Milestone::FirstPollen => "first pollen",
    };
    Some(Step { name, from, to, state, marks: Vec::new(), words })
}

fn sale(ground: &Ground<'_>, season: &Season) -> Step {
    let orders: Vec<_> = season.orders(&ground.lot.lot).into_iter().filter(|o| o.pots > 0).collect();
    let promised: u64 = orders.iter().map(|o| u64::from(o.pots)).sum();
    let marks: Vec<NaiveDate> = orders.iter().map(|o| o.date).collect();
    let ready = ground.lot.ready_by;
    let to = marks.iter().copied().max().unwrap_or(ready).max(ready);
    let state = if to < ground.on { State::Over } else { State::Planned };
    let left = (ready - ground.on).num_days();
    let when = if left >= 0 { format!("{} in {left} days", dates::short(ready)) } else { dates::short(ready) };
    let promised = if promised > 0 { format!(", {promised} promised") } else { String::new() };
    Step { name: "sale", from: ready, to, state, marks, words: format!("{when}{promised}") }
}
