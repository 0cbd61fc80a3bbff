//! The review over many sites as one JSON object: each site's own review as it is written by itself, and what is flagged at all.

use crate::dates::Tz;
use crate::record::Term;
use crate::report::review::{Out, out};
use crate::review::{Change, Problem, SiteReview, Sites};
use chrono::{DateTime, SecondsFormat};
use serde::Serialize;

#[derive(Serialize)]
struct SitesOut<'a> {
    on: String,
    sites: Vec<SiteOut<'a>>,
    flagged: Vec<FlaggedOut<'a>>,
    not_reviewed: Vec<NotReviewedOut<'a>>,
    same_season: Vec<SameSeasonOut<'a>>,
}

#[derive(Serialize)]
struct SiteOut<'a> {
    site: &'a str,
    file: &'a str,
    heard: Option<String>,
    heard_today: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    ahead_of_clock: Option<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    laptops: Vec<LaptopOut<'a>>,
    flagged: usize,
    urgent: usize,
    review: Out<'a>,
}

/// A laptop that writes the season.
#[derive(Serialize)]
struct LaptopOut<'a> {
    laptop: &'a str,
    heard: Option<String>,
}

/// A flagged problem.
#[derive(Serialize)]
struct FlaggedOut<'a> {
    site: &'a str,
    file: &'a str,
    place: &'a str,
    benches: &'a [String],
    lots: &'a [String],
    level: &'static str,
    change: &'static str,
    title: String,
    since: Option<String>,
    warnings: Vec<&'static str>,
}

#[derive(Serialize)]
struct NotReviewedOut<'a> {
    file: &'a str,
    why: &'a str,
}

#[derive(Serialize)]
struct SameSeasonOut<'a> {
    file: &'a str,
    used: &'a str,
    lacking: usize,
}

/// One JSON object and a line end.
///
/// # Errors
/// Only what the JSON writer says, which these plain values do not give cause for.
pub fn json(sites: &Sites) -> Result<String, serde_json::Error> {
    let all = SitesOut {
        on: sites.on.to_string(),
        sites: sites.sites.iter().map(site).collect(),
        flagged: sites.flagged().into_iter().map(flagged).collect(),
        not_reviewed: sites.not_reviewed.iter().map(|n| NotReviewedOut { file: &n.file, why: &n.why }).collect(),
        same_season: sites
            .same_season
            .iter()
            .map(|s| SameSeasonOut { file: &s.file, used: &s.used, lacking: s.lacking })
            .collect(),
    };
    Ok(serde_json::to_string_pretty(&all)? + "\n")
}

fn instant(at: DateTime<Tz>) -> String {
    at.to_rfc3339_opts(SecondsFormat::Secs, false)
}

fn site(of: &SiteReview) -> SiteOut<'_> {
    let laptops = of.heard.laptops.iter();
    SiteOut {
        site: &of.name,
        file: &of.file,
        heard: of.heard.last.map(instant),
        heard_today: !of.is_silent(),
        ahead_of_clock: of.heard.ahead.map(instant),
        laptops: laptops.map(|(name, at)| LaptopOut { laptop: name, heard: at.map(instant) }).collect(),
        flagged: of.flagged(),
        urgent: of.urgent(),
        review: out(&of.review),
    }
}

fn flagged<'a>((site, problem, change): (&'a SiteReview, &'a Problem, Change)) -> FlaggedOut<'a> {
    let mut warnings: Vec<&'static str> = Vec::new();
    for part in &problem.parts {
        if !warnings.contains(&part.name.code()) {
            warnings.push(part.name.code());
        }
    }
    FlaggedOut {
        site: &site.name,
        file: &site.file,
        place: &problem.place,
        benches: &problem.benches,
        lots: &problem.lots,
        level: problem.level.code(),
        change: change.text(),
        title: problem.title(),
        since: problem.since().map(|day| day.to_string()),
        warnings,
    }
}
