//! What is said of many sites: how far each is known, and what was left out.

use crate::dates::{self, Tz};
use crate::review::{Change, Heard, Problem, SameSeason, SiteReview, Sites};
use chrono::{DateTime, Datelike, NaiveDate};

/// What stands at a site that nothing was heard of on its day.
pub(super) const SILENT: &str = "NOT HEARD TODAY";

/// The heading over these sites.
pub(super) const SILENT_HEAD: &str = "Not heard today";

/// The heading over files that could not be reviewed.
pub(super) const NOT_REVIEWED: &str = "Not reviewed";

/// What it is: `Evening of Wed Oct 14, 2026`.
pub(super) fn title(on: NaiveDate) -> String {
    format!("Evening of {}", dates::long(on))
}

/// `3 sites, 61 of 74 benches walked, 9 flagged (2 urgent)`, and what is not known.
pub(super) fn head(sites: &Sites) -> String {
    let ((walked, benches), (flagged, urgent)) = (sites.walked(), sites.flags());
    let mut parts = vec![
        counted(sites.sites.len(), "site", "sites"),
        format!("{walked} of {benches} benches walked"),
        if urgent > 0 { format!("{flagged} flagged ({urgent} urgent)") } else { format!("{flagged} flagged") },
    ];
    let (silent, not_reviewed) = (sites.silent().len(), sites.not_reviewed.len());
    if silent > 0 {
        parts.push(format!("{} not heard today", counted(silent, "site", "sites")));
    }
    if not_reviewed > 0 {
        parts.push(format!("{} not reviewed", counted(not_reviewed, "file", "files")));
    }
    parts.join(", ")
}

fn counted(n: usize, one: &str, many: &str) -> String {
    if n == 1 { format!("1 {one}") } else { format!("{n} {many}") }
}

/// When something was heard, as seen from a day: `18:04`, `yesterday 17:50`, `Mon Oct 12 07:10`.
fn when(at: &DateTime<Tz>, on: NaiveDate) -> String {
    let (day, time) = (at.date_naive(), dates::time(at));
    if day == on {
        time
    } else if Some(day) == on.pred_opt() {
        format!("yesterday {time}")
    } else if day.year() == on.year() {
        format!("{} {time}", dates::weekday(day))
    } else {
        format!("{} {time}", dates::long(day))
    }
}

/// How far a site is known on its day: `18:04; ann-2 yesterday 07:10`.
pub(super) fn heard(site: &SiteReview) -> String {
    let (heard, on) = (&site.heard, site.review.on);
    let mut parts = vec![heard.last.map_or_else(|| "never".to_owned(), |at| when(&at, on))];
    parts.extend(silent_laptops(heard, on));
    if let Some(at) = heard.ahead {
        parts.push(format!("a line is ahead of the clock ({})", when(&at, on)));
    }
    parts.join("; ")
}

/// The laptops of a site that are not heard of on its day.
fn silent_laptops(heard: &Heard, on: NaiveDate) -> Vec<String> {
    let one = |(name, last): (&str, Option<DateTime<Tz>>)| {
        let last = last.map_or_else(|| "never".to_owned(), |at| when(&at, on));
        format!("{name} {last}")
    };
    // Where the whole site is silent its newest line is said already.
    heard.silent(on).filter(|(_, last)| last.is_none() || *last != heard.last).map(one).collect()
}

/// What is said of a silent site: when it was last heard, and what that leaves open.
pub(super) fn silent(site: &SiteReview) -> String {
    let known = match site.heard.last {
        Some(at) => format!("last heard {}; what is said of it holds up to then", when(&at, site.review.on)),
        None => "never heard; nothing was logged in its file yet".to_owned(),
    };
    if site.review.benches == 0 { format!("{known}; no bench has pots") } else { known }
}

/// A second file of a season.
pub(super) fn same_season(of: &SameSeason) -> String {
    let lacking = match of.lacking {
        0 => "all of it is in that".to_owned(),
        1 => "1 record of it is not in that, join the two".to_owned(),
        n => format!("{n} records of it are not in that, join the two"),
    };
    format!("{}: the same season as {}; {lacking}", of.file, of.used)
}

/// Where a problem is: `M2 (R6)`.
pub(super) fn place(problem: &Problem) -> String {
    let lot = problem.lot_beside().map_or_else(String::new, |lot| format!(" ({lot})"));
    format!("{}{lot}", problem.place)
}

/// What it is, and since when: `new, whitefly, since Oct 13`.
pub(super) fn problem(problem: &Problem, change: Change) -> String {
    let since = problem.since().map_or_else(String::new, |day| format!(", since {}", dates::short(day)));
    format!("{}, {}{since}", change.text(), problem.title())
}

/// The day of a site, where it is not the day of the review.
pub(super) fn other_day(site: &SiteReview, on: NaiveDate) -> Option<String> {
    (site.review.on != on).then(|| dates::weekday(site.review.on))
}
