//! One evening review over many sites: the reviews of their season files side by side, and how far each site is known.
//!
//! Nothing is assessed here: what is flagged is what each site's own review flags. A site that nothing was heard of on its day is
//! known only up to then, so it is never taken for one without trouble.

use super::{Change, Problem, Review};
use crate::dates::{Tz, days_between};
use crate::warnings::{Flagged, Severity};
use chrono::{DateTime, FixedOffset, NaiveDate, TimeDelta, Utc};
use std::cmp::Reverse;
use std::collections::BTreeMap;
use std::path::Path;

/// How far a line may lie ahead of this laptop's clock and still count as heard.
const AHEAD: TimeDelta = TimeDelta::minutes(10);

/// A laptop that writes a season, and up to when its lines are here.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Laptop {
    /// As it calls itself.
    pub name: String,
    /// The instant of its newest line here; `None` where there is none.
    pub known_to: Option<DateTime<FixedOffset>>,
}

/// How far a season is known.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Heard {
    /// The newest line of all, in the site's own time.
    pub last: Option<DateTime<Tz>>,
    /// Of a shared season the laptops that write it, by name, each with its newest line.
    pub laptops: Vec<(String, Option<DateTime<Tz>>)>,
    /// The newest line that lies ahead of the clock: it says nothing of how far the season is known.
    pub ahead: Option<DateTime<Tz>>,
}

impl Heard {
    /// Of the instants of a season's lines and of its laptops, read at an instant.
    pub fn of(
        lines: impl IntoIterator<Item = DateTime<FixedOffset>>,
        laptops: impl IntoIterator<Item = Laptop>,
        zone: Tz,
        now: DateTime<Utc>,
    ) -> Self {
        let (mut heard, limit) = (Self::default(), now.checked_add_signed(AHEAD).unwrap_or(now));
        let mut by_name: BTreeMap<String, Option<DateTime<Tz>>> = BTreeMap::new();
        for line in lines {
            heard.count(line.with_timezone(&zone), limit);
        }
        for laptop in laptops {
            let known = laptop.known_to.map(|at| at.with_timezone(&zone));
            if let Some(at) = known {
                heard.count(at, limit);
            }
            // A laptop that began a second stream goes on under its name.
            let newest = by_name.entry(laptop.name).or_default();
            *newest = (*newest).max(known.filter(|at| *at <= limit));
        }
        heard.laptops = by_name.into_iter().collect();
        heard
    }

    fn count(&mut self, at: DateTime<Tz>, limit: DateTime<Utc>) {
        let newest = if at <= limit { &mut self.last } else { &mut self.ahead };
        *newest = (*newest).max(Some(at));
    }

    /// True where a line of a day, or of a later one, is here.
    pub fn reaches(&self, on: NaiveDate) -> bool {
        reaches(self.last, on)
    }

    /// The laptops that are not heard of on a day.
    pub fn silent(&self, on: NaiveDate) -> impl Iterator<Item = (&str, Option<DateTime<Tz>>)> {
        let late = self.laptops.iter().filter(move |(_, last)| !reaches(*last, on));
        late.map(|(name, last)| (name.as_str(), *last))
    }
}

fn reaches(last: Option<DateTime<Tz>>, on: NaiveDate) -> bool {
    last.is_some_and(|at| at.date_naive() >= on)
}

/// A season that was read.
#[derive(Debug, Clone, PartialEq)]
pub struct SiteReview {
    /// What it is called: the site, with its file where several sites have one name.
    pub name: String,
    /// Its file.
    pub file: String,
    /// Its own review, of its own day.
    pub review: Review,
    /// How far it is known.
    pub heard: Heard,
}

impl SiteReview {
    /// True where nothing was heard of it on its day.
    pub fn is_silent(&self) -> bool {
        !self.heard.reaches(self.review.on)
    }

    /// How many benches, lots and houses are flagged.
    pub fn flagged(&self) -> usize {
        sum(&self.review.flags())
    }

    /// How many of them are urgent.
    pub fn urgent(&self) -> usize {
        sum(&self.review.flags_at(Severity::Urgent))
    }
}

/// What each site is called: by its name; with the name of its file where several have that, with all of its path where even
/// those are the same.
fn names(sites: &[SiteReview]) -> Vec<String> {
    let site = |site: &SiteReview| site.review.site.name.clone();
    let file = |site: &SiteReview| {
        let name = Path::new(&site.file).file_name().map(|name| name.to_string_lossy().into_owned());
        format!("{} ({})", site.review.site.name, name.unwrap_or_else(|| site.file.clone()))
    };
    let path = |site: &SiteReview| format!("{} ({})", site.review.site.name, site.file);
    let all = |of: &dyn Fn(&SiteReview) -> String| -> Vec<String> { sites.iter().map(of).collect() };
    let levels = [all(&site), all(&file), all(&path)];
    let once = |names: &[String], name: &str| names.iter().filter(|other| *other == name).count() < 2;
    let name = |at: usize| {
        let found = levels.iter().find_map(|names| names.get(at).filter(|name| once(names, name)));
        found.or_else(|| levels.last().and_then(|names| names.get(at))).cloned().unwrap_or_default()
    };
    (0..sites.len()).map(name).collect()
}

fn sum(flags: &Flagged) -> usize {
    let (benches, lots, houses) = flags.counts();
    benches.saturating_add(lots).saturating_add(houses)
}

/// A file that could not be reviewed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NotReviewed {
    /// Its name.
    pub file: String,
    /// What is wrong with it, in words.
    pub why: String,
}

/// A second file of a season.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SameSeason {
    /// Its name.
    pub file: String,
    /// The file that is reviewed in its place.
    pub used: String,
    /// Records in it that the other does not have.
    pub lacking: usize,
}

/// Many sites in one review.
#[derive(Debug, Clone, PartialEq)]
pub struct Sites {
    /// The day under review at most sites; each site's own review has its own.
    pub on: NaiveDate,
    /// The sites, by name.
    pub sites: Vec<SiteReview>,
    /// Files that could not be reviewed, in the order they were named.
    pub not_reviewed: Vec<NotReviewed>,
    /// Files of a season that another file goes further in.
    pub same_season: Vec<SameSeason>,
    /// Which limits were used.
    pub limits: String,
}

impl Sites {
    /// Puts reviews side by side, as of the day that most sites have (without sites, of the day given); sites of one name get their
    /// file beside it.
    pub fn of(on: NaiveDate, mut sites: Vec<SiteReview>, limits: String) -> Self {
        let mut days: BTreeMap<NaiveDate, usize> = BTreeMap::new();
        for site in &sites {
            let many = days.entry(site.review.on).or_default();
            *many = many.saturating_add(1);
        }
        let on = days.into_iter().max_by_key(|(day, many)| (*many, *day)).map_or(on, |(day, _)| day);
        let names = names(&sites);
        for (site, name) in sites.iter_mut().zip(names) {
            site.name = name;
        }
        sites.sort_by(|a, b| (&a.name, &a.file).cmp(&(&b.name, &b.file)));
        Self { on, sites, limits, not_reviewed: Vec::new(), same_season: Vec::new() }
    }

    /// The flagged problems of all sites, worst first: urgent before act, what is new or worse before what goes on, then what stands
    /// longest.
    pub fn flagged(&self) -> Vec<(&SiteReview, &Problem, Change)> {
        let mut all: Vec<(&SiteReview, &Problem, Change)> = Vec::new();
        for site in &self.sites {
            all.extend(site.review.flagged().map(|(problem, change)| (site, problem, *change)));
        }
        all.sort_by_key(|(site, problem, change)| {
            let days = problem.since().map_or(0, |since| days_between(since, site.review.on));
            (Reverse(problem.level), *change == Change::Same, Reverse(days))
        });
        all
    }

    /// The sites that nothing was heard of on their day, the longest silent first.
    pub fn silent(&self) -> Vec<&SiteReview> {
        let mut all: Vec<&SiteReview> = self.sites.iter().filter(|site| site.is_silent()).collect();
        all.sort_by_key(|site| site.heard.last);
        all
    }

    /// Benches walked, and benches with pots, of all sites.
    pub fn walked(&self) -> (usize, usize) {
        let add = |(walked, benches): (usize, usize), site: &SiteReview| {
            (walked.saturating_add(site.review.walked), benches.saturating_add(site.review.benches))
        };
        self.sites.iter().fold((0, 0), add)
    }

    /// What is flagged at all sites, and how much of that is urgent.
    pub fn flags(&self) -> (usize, usize) {
        let add = |(flagged, urgent): (usize, usize), site: &SiteReview| {
            (flagged.saturating_add(site.flagged()), urgent.saturating_add(site.urgent()))
        };
        self.sites.iter().fold((0, 0), add)
    }
}
