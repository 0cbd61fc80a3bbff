//! The evening review as data: what stands, what is new, what is closed, and tomorrow's work. `report` prints it; the Evening
//! review screen draws it.

mod amounts;
mod jobs;
mod left;
mod places;
mod problems;
mod program;
mod sites;
mod ticks;
mod walk;

pub use amounts::{Figures, figures};
pub use jobs::{Job, Ticked, Waits, Why};
pub use places::{ranges, ranges_of};
pub use problems::{Problem, problems};
pub use sites::{Heard, Laptop, NotReviewed, SameSeason, SiteReview, Sites};

use crate::crop::growth_regulator::Caution;
use crate::dates::Tz;
use crate::record::{Place, Site};
use crate::season::{Season, Unsettled};
use crate::trials::{DueOn, due_on_benches};
use crate::warnings::{Cause, Flagged, NotKnown, Severity, Shared, Slower, Warning, WarningName, is_walk};
use chrono::{DateTime, NaiveDate, Utc};
use jobs::Sheet;

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

/// Which day a list of jobs is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum ListedFor {
    /// The next day: the list of an evening.
    #[default]
    Tomorrow,
    /// The day itself: in the morning what the evening before listed is still to be done.
    Today,
}

/// A bench under keep-out.
#[derive(Debug, Clone, PartialEq)]
pub struct Closed {
    /// Its code.
    pub bench: String,
    /// The end of the interval, in the site's own time.
    pub until: DateTime<Tz>,
}

/// What is only watched, of one kind.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Watched {
    /// Where, in words.
    pub places: Vec<String>,
    /// What it is.
    pub title: String,
    /// What to do, causes to check among it.
    pub next: Vec<String>,
    /// The day it is looked at again.
    pub again: Option<NaiveDate>,
    /// True where it is only noted.
    pub noted: bool,
    /// Since when nobody checked, where a finding no longer counts by its age.
    pub not_checked: Option<NaiveDate>,
}

impl Watched {
    /// True where another says the same of other places.
    fn says_the_same(&self, other: &Self) -> bool {
        let said = |of: &Self| (of.again, of.noted, of.not_checked);
        (&self.title, &self.next, said(self)) == (&other.title, &other.next, said(other))
    }
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
    /// Benches walked on that day.
    pub walked: usize,
    /// Every warning by itself, in the order of the walk.
    pub warnings: Vec<Warning>,
    /// What of them is a trouble of whole lots.
    pub shared: Shared,
    /// One problem, one line.
    pub problems: Vec<(Problem, Change)>,
    /// What was flagged yesterday and is not today: the title and where.
    pub over: Vec<(&'static str, String)>,
    /// Benches whose interval runs at any time of that day, those that are over among them.
    pub closed: Vec<Closed>,
    /// The instant it is read at, where that is known.
    pub now: Option<DateTime<Utc>>,
    /// The jobs to be done in the order of the day, sick benches last.
    pub jobs: Vec<Job>,
    /// The jobs ticked for that day.
    pub ticked: Vec<Ticked>,
    /// Which day the jobs are for.
    pub listed: ListedFor,
    /// Trials with plots to be read on that day.
    pub plots_due: Vec<DueOn>,
    /// What the joined records of two laptops leave open.
    pub to_settle: Vec<Unsettled>,
    /// What is not known of lots whose record began later than the crop, and heights that wait for a pinch.
    pub not_known: Vec<NotKnown>,
    /// Benches that dry slower than their lot, in walking order, but for those where a rule of wet mix flags the bench already.
    pub slower: Vec<Slower>,
    /// Which limits were used: a file, or the defaults.
    pub limits: String,
}

impl Review {
    /// Problems that flag their benches: at act or urgent, not put off.
    pub fn flagged(&self) -> impl Iterator<Item = &(Problem, Change)> {
        self.problems.iter().filter(|(t, _)| t.level >= Severity::Act && t.put_off_until.is_none())
    }

    /// How many benches, lots and houses are flagged, a trouble of a lot once.
    pub fn flags(&self) -> Flagged {
        self.flags_at(Severity::Act)
    }

    /// The same, of what is at least so severe.
    pub fn flags_at(&self, least: Severity) -> Flagged {
        let mut flags = Flagged::default();
        for part in self.flagged().flat_map(|(problem, _)| &problem.parts).filter(|part| part.level >= least) {
            flags.add(self.shared.whose(part));
        }
        flags
    }

    /// Problems to watch, not put off.
    pub fn watched(&self) -> impl Iterator<Item = &(Problem, Change)> {
        self.problems.iter().filter(|(t, _)| t.level == Severity::Watch && t.put_off_until.is_none())
    }

    /// The same, those with the same words in one: what lies behind them, what to do and when they are looked at again.
    pub fn watched_together(&self) -> Vec<Watched> {
        let mut all: Vec<Watched> = Vec::new();
        for (problem, _) in self.watched() {
            let (title, next) = (problem.title(), problem.next());
            let (places, not_checked) = (vec![problem.place.clone()], problem.not_checked_since());
            let (again, noted) = (problem.lead().map(|lead| lead.look_again), problem.is_noted());
            let one = Watched { places, title, next, again, noted, not_checked };
            match all.iter_mut().find(|w| w.says_the_same(&one)) {
                Some(known) => known.places.extend(one.places),
                None => all.push(one),
            }
        }
        all
    }

    /// Problems put off until a day.
    pub fn put_off(&self) -> impl Iterator<Item = &(Problem, Change)> {
        self.problems.iter().filter(|(t, _)| t.put_off_until.is_some())
    }
}

impl Review {
    /// True where nothing is listed for its day: no job, no closed bench at this instant, no plot to be read.
    pub fn lists_nothing(&self, now: Option<DateTime<Utc>>) -> bool {
        let closed = self.closed_at(now.or(self.now));
        self.jobs.is_empty() && self.ticked.is_empty() && closed.is_empty() && self.plots_due.is_empty()
    }

    /// The day its jobs are for.
    pub fn listed_for(&self) -> NaiveDate {
        listed_for(self.on, self.listed)
    }

    /// The jobs that stood on the list of the evening before and were not ticked.
    pub fn left(&self) -> impl Iterator<Item = &Job> {
        self.jobs.iter().filter(|job| job.left)
    }

    /// The benches of a problem that do not have to wait for its jobs: those on hold, or too stressed for a spray, are left out.
    pub fn ready(&self, problem: &Problem) -> Vec<String> {
        let asks = |job: &&Job| job.names.iter().any(|name| problem.parts.iter().any(|part| part.name == *name));
        let waits: Vec<&String> =
            self.jobs.iter().filter(asks).flat_map(|job| job.waits.iter().flat_map(|w| &w.benches)).collect();
        problem.benches.iter().filter(|bench| !waits.contains(bench)).cloned().collect()
    }

    /// The same, read at an instant: on its own day a closure that is over by then is not listed. The review of another day
    /// lists all of that day.
    #[must_use]
    pub fn as_of(self, now: DateTime<Utc>) -> Self {
        Self { now: Some(now), ..self }
    }

    /// The same, with what the joined records of several laptops leave open.
    #[must_use]
    pub fn with_to_settle(self, to_settle: Vec<Unsettled>) -> Self {
        Self { to_settle, ..self }
    }

    /// The same, with what is not known of its lots.
    #[must_use]
    pub fn with_not_known(self, not_known: Vec<NotKnown>) -> Self {
        Self { not_known, ..self }
    }

    /// The same, with the benches that dry slower than their lot. One that is flagged for wet mix is left out: more is said of
    /// it there.
    #[must_use]
    pub fn with_slower(self, mut slower: Vec<Slower>) -> Self {
        let is_wet = |w: &&Warning| w.name.rule().cause == Cause::Wet && w.level >= Severity::Act;
        let flagged = |bench: &String| self.warnings.iter().filter(is_wet).any(|w| w.benches.contains(bench));
        slower.retain(|s| !flagged(&s.bench));
        Self { slower, ..self }
    }

    /// The benches under keep-out with the end of it; those that open together are named together, in walking order.
    pub fn closed_together(&self) -> Vec<(String, DateTime<Tz>)> {
        self.closed_at(self.now)
    }

    /// The benches that are closed when it is read at an instant: on its own day those whose interval is not over by then, of
    /// another day all of that day.
    fn closed_when(&self, now: Option<DateTime<Utc>>) -> impl Iterator<Item = &Closed> {
        let now = now.filter(|now| now.with_timezone(&self.site.time_zone).date_naive() == self.on);
        self.closed.iter().filter(move |closed| now.is_none_or(|now| closed.until > now))
    }

    /// How many benches are closed when it is read at an instant; without one, when it was made to be read.
    pub fn closed_count(&self, now: Option<DateTime<Utc>>) -> usize {
        self.closed_when(now.or(self.now)).count()
    }

    /// As [`Review::closed_together`], read at an instant.
    pub fn closed_at(&self, now: Option<DateTime<Utc>>) -> Vec<(String, DateTime<Tz>)> {
        let mut all: Vec<(String, DateTime<Tz>)> = Vec::new();
        for closed in self.closed_when(now) {
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
        for caution in self.jobs.iter().flat_map(|job| &job.cautions) {
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
    let then = &season.on(on);
    let walked = season.benches().iter().filter(|b| is_walked(then, &b.bench, on)).count();
    let review = build_for(season, (on, ListedFor::Tomorrow), (today, walked), yesterday, limits)?;
    Some(review.with_to_settle(season.on(on).to_settle()))
}

/// As [`build`], with the jobs for the next day or, of a morning, for the day itself, and without what is to settle. It is given
/// how many benches were walked, which those who assessed the day know.
pub fn build_for(
    season: &Season,
    (on, listed): (NaiveDate, ListedFor),
    (today, walked): (Vec<Warning>, usize),
    yesterday: &[Warning],
    limits: String,
) -> Option<Review> {
    let whole = season;
    let season = &season.on(on);
    let site = season.site()?.clone();
    let walk: Vec<String> = season.benches().iter().map(|b| b.bench.clone()).collect();
    let benches = walk.iter().filter(|b| season.standing(b, on).is_some()).count();
    let shared = Shared::of(season, on, today.iter());
    let mut problems: Vec<(Problem, Change)> =
        problems(&today, &walk, &shared).into_iter().map(|t| (t.clone(), change(&t, yesterday))).collect();
    for (problem, _) in &mut problems {
        problem.name_place(season, on);
    }
    let closed = walk
        .iter()
        .filter_map(|bench| {
            let until = season.closed_on(bench, on)?.with_timezone(&site.time_zone);
            Some(Closed { bench: bench.clone(), until })
        })
        .collect();
    let sheet = Sheet { season, on, listed_for: listed_for(on, listed), units: site.units };
    let flagging = problems
        .iter()
        .map(|(problem, _)| problem)
        .filter(|problem| problem.level >= Severity::Act && problem.put_off_until.is_none());
    let (mut jobs, ticked) = jobs::jobs(sheet, flagging.flat_map(|problem| &problem.parts));
    left::mark(&mut jobs, whole, (on, yesterday));
    let over = over(season, (&today, yesterday), (&walk, on));
    Some(Review {
        on,
        benches,
        walked,
        shared,
        problems,
        over,
        closed,
        jobs,
        ticked,
        listed,
        plots_due: due_on_benches(season, listed_for(on, listed)),
        to_settle: Vec::new(),
        not_known: Vec::new(),
        slower: Vec::new(),
        limits,
        warnings: today,
        now: None,
        site,
    })
}

/// The day that jobs listed on a day are for.
fn listed_for(on: NaiveDate, listed: ListedFor) -> NaiveDate {
    match listed {
        ListedFor::Today => on,
        ListedFor::Tomorrow => on.succ_opt().unwrap_or(on),
    }
}

/// True when a bench was walked on a day: a finding of its own was written, other than a note.
pub fn is_walked(season: &Season, bench: &str, on: NaiveDate) -> bool {
    season.written_on(bench, on).any(is_walk)
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

fn over(
    season: &Season,
    (today, yesterday): (&[Warning], &[Warning]),
    (walk, on): (&[String], NaiveDate),
) -> Vec<(&'static str, String)> {
    let pair = |w: &Warning| (w.name, w.place.clone());
    let still: Vec<(WarningName, Place)> = today.iter().map(pair).collect();
    let gone: Vec<Warning> =
        yesterday.iter().filter(|w| w.level >= Severity::Act && !still.contains(&pair(w))).cloned().collect();
    let shared = Shared::of(season, on, gone.iter());
    let mut gone = problems(&gone, walk, &shared);
    for problem in &mut gone {
        problem.name_place(season, on);
    }
    gone.into_iter().filter_map(|t| Some((t.lead()?.name.title(), t.place))).collect()
}
