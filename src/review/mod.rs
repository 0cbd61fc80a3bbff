//! The evening review as data: what stands, what is new, what is closed, and tomorrow's work. `report` prints it; the Evening
//! review screen draws it.

mod amounts;
mod problems;

pub use problems::{Problem, problems};

use crate::crop::growth_regulator::Caution;
use crate::record::{KindName, Place, Site};
use crate::season::{Season, Unsettled};
use crate::units::System;
use crate::warnings::{Severity, Warning, WarningName};
use chrono::{DateTime, NaiveDate, Utc};
use chrono_tz::Tz;

/// How a problem stands against the evening before.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Change {
    /// Not there yesterday.
    New,
    /// There, but weaker.
    Worse,
    /// As it was.
    Same,
}

impl Change {
    /// The word shown.
    pub const fn text(self) -> &'static str {
        match self {
            Self::New => "new",
            Self::Worse => "worse",
            Self::Same => "ongoing",
        }
    }
}

/// A bench under keep-out.
#[derive(Debug, Clone, PartialEq)]
pub struct Closed {
    /// Its code.
    pub bench: String,
    /// The end of the interval, in the site's own time.
    pub until: DateTime<Tz>,
}

/// One line of tomorrow's work.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Task {
    /// The house; empty for a lot that stands in several.
    pub house: String,
    /// Where.
    pub place: String,
    /// What to do.
    pub what: String,
    /// Sick benches are walked last.
    pub sick: bool,
    /// The cautions of what is weighed for it.
    pub cautions: Vec<Caution>,
}

/// Everything the evening review says.
#[derive(Debug, Clone, PartialEq)]
pub struct Review {
    /// The day under review.
    pub on: NaiveDate,
    /// The site.
    pub site: Site,
    /// Benches with pots.
    pub benches: usize,
    /// Benches with a finding other than a note on that day.
    pub walked: usize,
    /// Every warning by itself, in the order of the walk.
    pub warnings: Vec<Warning>,
    /// One problem, one line.
    pub problems: Vec<(Problem, Change)>,
    /// What was flagged yesterday and is not today: the title and where.
    pub over: Vec<(&'static str, String)>,
    /// Benches whose interval runs at any time of that day, those that are over among them.
    pub closed: Vec<Closed>,
    /// The instant it is read at, where that is known.
    pub now: Option<DateTime<Utc>>,
    /// Tomorrow's work, by house in walking order, sick benches last.
    pub work: Vec<Task>,
    /// What the joined records of two laptops leave open.
    pub to_settle: Vec<Unsettled>,
    /// Which limits were used: a file, or the defaults.
    pub limits: String,
}

impl Review {
    /// Problems that flag their benches: at act or urgent, not put off.
    pub fn flagged(&self) -> impl Iterator<Item = &(Problem, Change)> {
        self.problems.iter().filter(|(t, _)| t.level >= Severity::Act && t.put_off_until.is_none())
    }

    /// Problems to watch, not put off.
    pub fn watched(&self) -> impl Iterator<Item = &(Problem, Change)> {
        self.problems.iter().filter(|(t, _)| t.level == Severity::Watch && t.put_off_until.is_none())
    }

    /// Problems put off until a day.
    pub fn put_off(&self) -> impl Iterator<Item = &Problem> {
        self.problems.iter().map(|(t, _)| t).filter(|t| t.put_off_until.is_some())
    }
}

impl Review {
    /// The same, read at an instant: on its own day a closure that is over by then is not listed. The review of another day
    /// lists all of that day.
    #[must_use]
    pub fn as_of(self, now: DateTime<Utc>) -> Self {
        Self { now: Some(now), ..self }
    }

    /// The benches under keep-out with the end of it; those that open together are named together, in walking order.
    pub fn closed_together(&self) -> Vec<(String, DateTime<Tz>)> {
        self.closed_at(self.now)
    }

    /// As [`Review::closed_together`], read at an instant.
    pub fn closed_at(&self, now: Option<DateTime<Utc>>) -> Vec<(String, DateTime<Tz>)> {
        let now = now.filter(|now| now.with_timezone(&self.site.time_zone).date_naive() == self.on);
        let mut all: Vec<(String, DateTime<Tz>)> = Vec::new();
        for closed in self.closed.iter().filter(|closed| now.is_none_or(|now| closed.until > now)) {
            match all.iter_mut().find(|(_, until)| *until == closed.until) {
                Some((benches, _)) => {
                    benches.push(' ');
                    benches.push_str(&closed.bench);
                }
                None => all.push((closed.bench.clone(), closed.until)),
            }
        }
        all
    }

    /// The cautions of all that is weighed for tomorrow's work, each once.
    pub fn cautions(&self) -> Vec<Caution> {
        let mut all: Vec<Caution> = Vec::new();
        for caution in self.work.iter().flat_map(|task| &task.cautions) {
            if !all.contains(caution) {
                all.push(*caution);
            }
        }
        all
    }
}

/// Puts the review of a day together from the warnings of that day and of the day before.
/// `None` when the season has no site yet.
pub fn build(
    season: &Season,
    on: NaiveDate,
    today: Vec<Warning>,
    yesterday: &[Warning],
    limits: String,
) -> Option<Review> {
    let season = &season.on(on);
    let site = season.site()?.clone();
    let walk: Vec<String> = season.benches().iter().map(|b| b.bench.clone()).collect();
    let standing: Vec<&String> = walk.iter().filter(|b| season.standing(b, on).is_some()).collect();
    let walked = standing.iter().filter(|b| is_walked(season, b, on)).count();
    let problems: Vec<(Problem, Change)> =
        problems(&today, &walk).into_iter().map(|t| (t.clone(), change(&t, yesterday))).collect();
    let closed = walk
        .iter()
        .filter_map(|bench| {
            let until = season.closed_on(bench, on)?.with_timezone(&site.time_zone);
            Some(Closed { bench: bench.clone(), until })
        })
        .collect();
    let work = work(season, &problems, (on, site.units));
    let over = over(&today, yesterday, &walk);
    let (benches, to_settle) = (standing.len(), season.to_settle());
    Some(Review {
        on,
        benches,
        walked,
        problems,
        over,
        closed,
        work,
        to_settle,
        limits,
        warnings: today,
        now: None,
        site,
    })
}

/// True when a finding other than a note was written for a bench on a day.
pub fn is_walked(season: &Season, bench: &str, on: NaiveDate) -> bool {
    season.history(bench, on).on(on).any(|e| e.name().is_finding() && e.name() != KindName::Note)
}

fn change(problem: &Problem, yesterday: &[Warning]) -> Change {
    let before = |w: &Warning| yesterday.iter().find(|y| y.name == w.name && y.place == w.place).map(|y| y.level);
    let known: Vec<_> = problem.parts.iter().filter_map(|w| before(w).map(|b| (b, w.level))).collect();
    if known.is_empty() {
        Change::New
    } else if known.iter().map(|(b, _)| *b).max() < Some(problem.level) {
        Change::Worse
    } else {
        Change::Same
    }
}

fn over(today: &[Warning], yesterday: &[Warning], walk: &[String]) -> Vec<(&'static str, String)> {
    let pair = |w: &Warning| (w.name, w.place.clone());
    let still: Vec<(WarningName, Place)> = today.iter().map(pair).collect();
    let gone: Vec<Warning> =
        yesterday.iter().filter(|w| w.level >= Severity::Act && !still.contains(&pair(w))).cloned().collect();
    problems(&gone, walk).iter().filter_map(|t| Some((t.lead()?.name.title(), t.place()))).collect()
}

/// Tomorrow's work: the first step of every flagged problem, with what it takes in all where that is weighed.
fn work(season: &Season, problems: &[(Problem, Change)], (on, units): (NaiveDate, System)) -> Vec<Task> {
    let houses = season.houses();
    // Each with the place of its first bench in the walk; lots and houses have none and come first.
    let mut tasks: Vec<(Option<usize>, Task)> = Vec::new();
    for (problem, _) in problems.iter().filter(|(t, _)| t.level >= Severity::Act && t.put_off_until.is_none()) {
        let Some(what) = problem.next().into_iter().next() else { continue };
        let sick = problem.is_sick();
        let what = |benches: &[&str]| amounts::with_weights(season, problem, &what, (benches, on), units);
        if let Some(Place::Bench(_)) = problem.lead().map(|w| &w.place) {
            for house in &houses {
                let here: Vec<&str> = problem
                    .benches
                    .iter()
                    .map(String::as_str)
                    .filter(|b| season.bench(b).is_some_and(|b| b.house == *house))
                    .collect();
                if let Some(first) = here.first() {
                    let step = season.benches().iter().position(|b| b.bench == *first);
                    let house = (*house).to_owned();
                    let (what, cautions) = what(&here);
                    tasks.push((step, Task { house, place: here.join(" "), what, sick, cautions }));
                }
            }
        } else {
            let house = house_of(season, problem, &houses);
            // A line that names the lot is for all of it, whichever of its benches showed first.
            let benches: Vec<&str> = match problem.lead().map(|w| &w.place) {
                Some(Place::Lot(lot)) => season.benches_of_lot(lot, on),
                Some(Place::Bench(_) | Place::House(_)) | None => problem.benches.iter().map(String::as_str).collect(),
            };
            let (what, cautions) = what(&benches);
            tasks.push((None, Task { house, place: problem.place(), what, sick, cautions }));
        }
    }
    tasks.sort_by_cached_key(|(step, t)| (t.sick, houses.iter().position(|h| *h == t.house), *step));
    tasks.into_iter().map(|(_, task)| task).collect()
}

/// The one house a lot or house problem concerns, or nothing when it is several.
fn house_of(season: &Season, problem: &Problem, houses: &[&str]) -> String {
    let mut of =
        houses.iter().filter(|h| problem.benches.iter().any(|b| season.bench(b).is_some_and(|b| b.house == **h)));
    match (of.next(), of.next()) {
        (Some(house), None) => (*house).to_owned(),
        _ => String::new(),
    }
}
