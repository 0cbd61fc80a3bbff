//! Tomorrow's jobs on paper for the crew: closed benches first, then the jobs in the order of the day, each with a box.
//!
//! A job that was ticked is not printed, but for an order to keep the water off: it binds all day, so it stands there ticked.

use super::html::{escape, page};
use super::layout::wrap;
use crate::dates;
use crate::mix::cautions::KEEP_OUT;
use crate::review::Review;

/// What stands at the end of the sheet.
const LAST: &str = "What was done is logged the same day; what was not stays on the list.";

/// The day that the jobs are for.
fn day(review: &Review) -> String {
    review.on.succ_opt().map_or_else(String::new, dates::long)
}

/// Benches whose closure reaches into the day of the jobs, and its end.
fn closed(review: &Review) -> Vec<String> {
    let reaching = review.closed_at(None).into_iter().filter(|(_, until)| until.date_naive() > review.on);
    let words = reaching.map(|(benches, until)| {
        format!("{benches} until {} {}", dates::weekday(until.date_naive()), dates::time(&until))
    });
    words.collect()
}

/// The lines of the jobs: heading, sign in the box, text.
fn lines(review: &Review) -> Vec<(&'static str, &'static str, String)> {
    let binds = review.ticked.iter().filter(|ticked| ticked.binds());
    let binds = binds.map(|ticked| (ticked.heading(), ticked.sign(), ticked.text("")));
    let mut all: Vec<_> = binds.chain(review.jobs.iter().map(|job| (job.heading(), " ", job.text()))).collect();
    // Orders about water come first of all jobs: they stay together.
    all.sort_by_key(|(heading, sign, _)| (*heading != HOLD, *heading == HOLD && *sign != " "));
    all
}

/// The heading of orders to keep the water off.
const HOLD: &str = "hold";

/// The sheet for an 80-column printer.
pub fn text(review: &Review) -> String {
    let mut out = format!("{}: jobs for {}     crew ______\n", review.site.name, day(review));
    let closed = closed(review);
    if !closed.is_empty() {
        out.push_str("\nCLOSED\n");
        for line in &closed {
            wrap(&mut out, "  ", line);
        }
        wrap(&mut out, "  ", &format!("Stay out ({KEEP_OUT})."));
    }
    let mut heading = "";
    let lines = lines(review);
    for (of, sign, text) in &lines {
        if *of != heading {
            heading = of;
            out.push_str(&format!("\n{}\n", heading.to_uppercase()));
        }
        wrap(&mut out, &format!("  [{sign}] "), text);
    }
    if lines.is_empty() {
        out.push_str("\nNo jobs but the round.\n");
    }
    let cautions = review.cautions();
    if !cautions.is_empty() {
        out.push_str("\nCAUTIONS\n");
        for caution in cautions {
            wrap(&mut out, "  - ", caution.text);
        }
    }
    out.push_str(&format!("\n{LAST}\n"));
    out
}

/// The sheet for the printer of the office, in large type.
pub fn html(review: &Review) -> String {
    let title = format!("{}: jobs for {}", review.site.name, day(review));
    let mut body = format!("<div class=\"large\">\n<h1>{}</h1>\n<p>crew ____________</p>\n", escape(&title));
    let closed = closed(review);
    if !closed.is_empty() {
        let lines = closed.iter().fold(String::new(), |out, line| format!("{out}<li><b>{}</b></li>\n", escape(line)));
        body.push_str(&format!("<h2>Closed</h2>\n<ul>\n{lines}</ul>\n<p>Stay out ({KEEP_OUT}).</p>\n"));
    }
    let mut heading = "";
    for (of, sign, text) in lines(review) {
        if of != heading {
            if !heading.is_empty() {
                body.push_str("</ul>\n");
            }
            heading = of;
            body.push_str(&format!("<h2>{}</h2>\n<ul class=\"tasks\">\n", capital(heading)));
        }
        let sign = if sign == " " { "" } else { sign };
        body.push_str(&format!("<li><span class=\"box\">{sign}</span>{}</li>\n", escape(&text)));
    }
    body.push_str(if heading.is_empty() { "<p>No jobs but the round.</p>\n" } else { "</ul>\n" });
    let cautions = review.cautions();
    if !cautions.is_empty() {
        let items = cautions.iter().fold(String::new(), |out, c| format!("{out}<li>{}</li>\n", escape(c.text)));
        body.push_str(&format!("<h2>Cautions</h2>\n<ul>\n{items}</ul>\n"));
    }
    body.push_str(&format!("<p class=\"soft\">{LAST}</p>\n</div>\n"));
    page(&title, &body)
}

/// A word with a capital first letter.
fn capital(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
