//! The review over many sites as text for an 80-column screen: what is not known first, then what is flagged, then a line a site.

use super::words;
use crate::report::layout::{WIDTH, hung, wrap};
use crate::review::{SiteReview, Sites};
use unicode_width::UnicodeWidthStr;

/// Columns that a site's name, and a place, take at most before their rows are no longer aligned.
const MOST: (usize, usize) = (24, 16);

/// The whole review.
pub fn text(sites: &Sites) -> String {
    let mut out = String::new();
    wrap(&mut out, "", &format!("{}: {}", words::title(sites.on), words::head(sites)));
    wrap(&mut out, "", &format!("limits: {}", sites.limits));
    not_known(sites, &mut out);
    flagged(sites, &mut out);
    table(sites, &mut out);
    out
}

fn not_known(sites: &Sites, out: &mut String) {
    let silent = sites.silent();
    if !silent.is_empty() {
        out.push_str(&format!("\n{}\n", words::SILENT_HEAD));
    }
    for site in silent {
        hung(out, "  ", 6, &format!("{}: {}", site.name, words::silent(site)));
    }
    if !sites.not_reviewed.is_empty() {
        out.push_str(&format!("\n{}\n", words::NOT_REVIEWED));
    }
    for file in &sites.not_reviewed {
        hung(out, "  ", 6, &format!("{}: {}", file.file, file.why));
    }
    if !sites.same_season.is_empty() {
        out.push('\n');
    }
    for file in &sites.same_season {
        hung(out, "", 6, &words::same_season(file));
    }
}

/// The widest of some texts, up to a limit.
fn widest<'t>(texts: impl Iterator<Item = &'t str>, most: usize) -> usize {
    texts.map(UnicodeWidthStr::width).filter(|width| *width <= most).max().unwrap_or(0)
}

/// A text with blanks after it up to a width.
fn padded(text: &str, width: usize) -> String {
    format!("{text}{}", " ".repeat(width.saturating_sub(text.width())))
}

fn flagged(sites: &Sites, out: &mut String) {
    let all = sites.flagged();
    if all.is_empty() {
        return;
    }
    out.push_str("\nFlagged, worst first\n");
    let places: Vec<String> = all.iter().map(|(_, problem, _)| words::place(problem)).collect();
    let site = widest(all.iter().map(|(site, ..)| site.name.as_str()), MOST.0);
    let place = widest(places.iter().map(String::as_str), MOST.1);
    for ((of, problem, change), at) in all.iter().zip(&places) {
        let level = problem.level.code().to_uppercase();
        let label = format!("  {}  {}  {level:<6}  ", padded(&of.name, site), padded(at, place));
        // A long place is wrapped with the rest.
        let hang = if label.width() > WIDTH / 2 + 8 { 6 } else { label.width() };
        hung(out, "", hang, &format!("{label}{}", words::problem(problem, *change)));
    }
}

fn table(sites: &Sites, out: &mut String) {
    if sites.sites.is_empty() {
        return;
    }
    let width = widest(sites.sites.iter().map(|site| site.name.as_str()), MOST.0).max("site".len());
    let walked = |site: &SiteReview| format!("{} of {}", site.review.walked, site.review.benches);
    let round = sites.sites.iter().map(|site| walked(site).len()).max().unwrap_or(0).max("walked".len());
    out.push('\n');
    let head = format!("{}  {:<round$}  flagged  urgent  settle  ", padded("site", width), "walked");
    out.push_str(&format!("{head}heard last\n"));
    for site in &sites.sites {
        let (flagged, urgent, settle) = (site.flagged(), site.urgent(), site.review.to_settle.len());
        let numbers = format!("{:<round$}  {flagged:>7}  {urgent:>6}  {settle:>6}  ", walked(site));
        let mut heard = words::heard(site);
        if site.is_silent() {
            heard = format!("{heard}: {}", words::SILENT);
        }
        if let Some(day) = words::other_day(site, sites.on) {
            heard = format!("{heard} ({day} there)");
        }
        if site.name.width() > width {
            wrap(out, "", &site.name);
            hung(out, &format!("{}  {numbers}", " ".repeat(width)), head.width(), &heard);
        } else {
            hung(out, &format!("{}  {numbers}", padded(&site.name, width)), head.width(), &heard);
        }
    }
}
