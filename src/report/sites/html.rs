//! The review over many sites as one HTML page: the overview, and each site's own review below it, behind a link.

use super::words;
use crate::dates;
use crate::report::html::{escape, page, review_below, table_of};
use crate::review::{Change, Problem, SiteReview, Sites};

/// The review as one document.
pub fn html(sites: &Sites) -> String {
    let title = words::title(sites.on);
    let mut body = format!(
        "<h1 id=\"top\">{}</h1>\n<p class=\"soft\">{} · limits: {}</p>\n",
        escape(&title),
        escape(&words::head(sites)),
        escape(&sites.limits)
    );
    not_known(sites, &mut body);
    flagged(sites, &mut body);
    table(sites, &mut body);
    for (number, site) in (1..).zip(&sites.sites) {
        own(number, site, &mut body);
    }
    page(&title, &body)
}

/// The number of a site's own review in the page.
fn number(sites: &Sites, site: &SiteReview) -> usize {
    sites.sites.iter().position(|other| other.file == site.file).map_or(0, |at| at.saturating_add(1))
}

/// The name of a site as a link to its own review.
fn link(sites: &Sites, site: &SiteReview) -> String {
    format!("<a href=\"#site-{}\">{}</a>", number(sites, site), escape(&site.name))
}

fn not_known(sites: &Sites, body: &mut String) {
    let silent = sites.silent();
    if !silent.is_empty() {
        body.push_str(&format!("<h2>{}</h2>\n<ul>\n", words::SILENT_HEAD));
        for site in silent {
            body.push_str(&format!("<li>{}: {}</li>\n", link(sites, site), escape(&words::silent(site))));
        }
        body.push_str("</ul>\n");
    }
    if !sites.not_reviewed.is_empty() {
        body.push_str(&format!("<h2>{}</h2>\n<ul>\n", words::NOT_REVIEWED));
        for file in &sites.not_reviewed {
            body.push_str(&format!("<li>{}: {}</li>\n", escape(&file.file), escape(&file.why)));
        }
        body.push_str("</ul>\n");
    }
    for file in &sites.same_season {
        body.push_str(&format!("<p>{}</p>\n", escape(&words::same_season(file))));
    }
}

/// A table whose cells are HTML already.
fn rows(heads: &[&str], rows: impl Iterator<Item = Vec<String>>) -> String {
    let heads: Vec<String> = heads.iter().map(ToString::to_string).collect();
    table_of(None, &heads, &rows.collect::<Vec<_>>(), |html, out| out.push_str(html))
}

fn flagged(sites: &Sites, body: &mut String) {
    let all = sites.flagged();
    if all.is_empty() {
        return;
    }
    let row = |(site, problem, change): &(&SiteReview, &Problem, Change)| {
        vec![
            link(sites, site),
            escape(&words::place(problem)),
            format!("<span class=\"level\">{}</span>", problem.level.code()),
            escape(&words::problem(problem, *change)),
        ]
    };
    body.push_str("<h2>Flagged, worst first</h2>\n");
    body.push_str(&rows(&["site", "where", "level", "what"], all.iter().map(row)));
}

fn table(sites: &Sites, body: &mut String) {
    if sites.sites.is_empty() {
        return;
    }
    let row = |site: &SiteReview| {
        let day = words::other_day(site, sites.on).map_or_else(String::new, |day| format!(" ({day} there)"));
        let silent = if site.is_silent() { format!(": <b>{}</b>", words::SILENT) } else { String::new() };
        vec![
            link(sites, site),
            format!("{} of {}", site.review.walked, site.review.benches),
            site.flagged().to_string(),
            site.urgent().to_string(),
            site.review.to_settle.len().to_string(),
            format!("{}{silent}{day}", escape(&words::heard(site))),
        ]
    };
    body.push_str("<h2>Sites</h2>\n");
    let heads = ["site", "walked", "flagged", "urgent", "to settle", "heard last"];
    body.push_str(&rows(&heads, sites.sites.iter().map(row)));
}

/// A site's own review.
fn own(number: usize, site: &SiteReview, body: &mut String) {
    body.push_str(&format!(
        "<section class=\"site\" id=\"site-{number}\">\n<h1>{}</h1>\n<nav aria-label=\"Back to the list\"><a href=\"#top\">all sites</a></nav>\n<p class=\"soft\">{}</p>\n{}</section>\n",
        escape(&format!("{}, evening of {}", site.name, dates::long(site.review.on))),
        escape(&site.file),
        review_below(&site.review)
    ));
}
