//! The evening review as HTML: the same content as the text.

use super::{escape, page};
use crate::dates;
use crate::mix::cautions::KEEP_OUT;
use crate::report::words;
use crate::review::{Change, Problem, Review};
use crate::units::System;

/// Pieces of evidence shown for one warning; a page has room for more than a screen.
const SAW: usize = 12;

/// The review as one document.
pub fn review(review: &Review) -> String {
    let title = format!("{}, evening of {}", review.site.name, dates::long(review.on));
    page(&title, &format!("<h1>{}</h1>\n{}", escape(&title), review_below(review)))
}

/// What stands below its title.
pub(in crate::report) fn review_below(review: &Review) -> String {
    let mut body = format!(
        "<p class=\"soft\">{} · {} · limits: {}</p>\n",
        words::round(review, None),
        words::flagged(&review.flags()),
        escape(&review.limits)
    );
    settle(review, &mut body);
    work(review, &mut body);
    if review.flagged().next().is_some() {
        body.push_str("<h2>Flagged</h2>\n");
    }
    for (problem, change) in review.flagged() {
        article(problem, *change, review.site.units, &mut body);
    }
    watched(review, &mut body);
    slower(review, &mut body);
    not_known(review, &mut body);
    rest(review, &mut body);
    body
}

fn settle(review: &Review, body: &mut String) {
    if review.to_settle.is_empty() {
        return;
    }
    body.push_str("<h2>To settle</h2>\n<ul>\n");
    for unsettled in &review.to_settle {
        body.push_str(&format!("<li>{}</li>\n", escape(&words::settle(unsettled, review.site.units))));
    }
    body.push_str("</ul>\n");
}

fn work(review: &Review, body: &mut String) {
    body.push_str("<h2>Tomorrow</h2>\n");
    let closed = review.closed_together();
    if review.lists_nothing(None) {
        body.push_str("<p>No extra work.</p>\n");
        return;
    }
    if let Some(left) = words::left(review) {
        body.push_str(&format!("<p>{}</p>\n", escape(&left)));
    }
    body.push_str("<ul class=\"tasks\">\n");
    for (benches, until) in closed {
        body.push_str(&format!(
            "<li><b>{}</b> closed until {} {} ({KEEP_OUT})</li>\n",
            escape(&benches),
            dates::weekday(until.date_naive()),
            dates::time(&until)
        ));
    }
    for job in &review.jobs {
        body.push_str(&format!("<li><span class=\"box\"></span>{}: {}</li>\n", job.heading(), escape(&job.text())));
    }
    for ticked in &review.ticked {
        let text = ticked.text(&words::day_after(review));
        body.push_str(&format!("<li class=\"soft\">[{}] {}</li>\n", escape(ticked.sign()), escape(&text)));
    }
    for due in &review.plots_due {
        body.push_str(&format!("<li>{}</li>\n", escape(&words::plots_due(due))));
    }
    body.push_str("</ul>\n");
    let cautions = review.cautions();
    if !cautions.is_empty() {
        let items = cautions.iter().fold(String::new(), |out, c| format!("{out}<li>{}</li>\n", escape(c.text)));
        body.push_str(&format!("<h3>Cautions</h3>\n<ul>\n{items}</ul>\n"));
    }
}

fn article(problem: &Problem, change: Change, system: System, body: &mut String) {
    let Some(lead) = problem.lead() else { return };
    let lot =
        problem.lot_beside().map_or_else(String::new, |l| format!(" <span class=\"soft\">({})</span>", escape(l)));
    body.push_str(&format!(
        "<article class=\"{level}\"><h3>{}{lot} · <span class=\"level\">{level}</span> · {} <span class=\"soft\">({})</span></h3>\n",
        escape(&problem.place),
        escape(&problem.title()),
        change.text(),
        level = problem.level.code(),
    ));
    for part in &problem.parts {
        let saw: Vec<String> = words::pieces(&part.evidence, SAW, system).iter().map(|s| escape(s)).collect();
        if !saw.is_empty() {
            let whose = if problem.parts.len() > 1 {
                format!("{} {}: ", escape(&words::place(part)), part.title())
            } else {
                String::new()
            };
            body.push_str(&format!("<p>{whose}{}</p>\n", saw.join("; ")));
        }
    }
    body.push_str(&format!("<p>{}</p>\n<ul>\n", escape(lead.why())));
    for step in problem.next() {
        body.push_str(&format!("<li>{}</li>\n", escape(&step)));
    }
    body.push_str(&format!(
        "</ul>\n<p class=\"soft\">Recheck {} · first seen {} · {}</p></article>\n",
        dates::weekday(lead.look_again),
        dates::short(lead.since),
        escape(&lead.basis.to_string())
    ));
}

fn watched(review: &Review, body: &mut String) {
    let rows: String = review.watched_together().into_iter().fold(String::new(), |out, of| {
        format!(
            "{out}<tr><td>{}</td><td>{}</td><td>{}</td><td>{}</td></tr>\n",
            escape(&of.places.join("; ")),
            escape(&format!(
                "{}{}{}",
                of.title,
                of.not_checked.map_or_else(String::new, |day| format!(", {}", words::not_checked(day))),
                if of.noted { ", noted" } else { "" }
            )),
            escape(&of.next.join(" ")),
            of.again.map_or_else(String::new, dates::weekday)
        )
    });
    if !rows.is_empty() {
        body.push_str(&format!(
            "<h2>To watch</h2>\n<table><tr><th scope=\"col\">where</th><th scope=\"col\">what</th><th scope=\"col\">do</th><th scope=\"col\">recheck</th></tr>\n{rows}</table>\n"
        ));
    }
}

fn slower(review: &Review, body: &mut String) {
    if !review.slower.is_empty() {
        let benches = escape(&words::slower(&review.slower));
        body.push_str(&format!("<h2>{}</h2>\n<p>{benches}. {}</p>\n", words::SLOWER, words::SLOWER_LOOK));
    }
}

fn not_known(review: &Review, body: &mut String) {
    if review.not_known.is_empty() {
        return;
    }
    let items = review.not_known.iter().map(|lot| format!("<li>{}</li>\n", escape(&words::not_known(lot))));
    body.push_str(&format!("<h2>Not known</h2>\n<ul>\n{}</ul>\n", items.collect::<String>()));
}

fn rest(review: &Review, body: &mut String) {
    if !review.over.is_empty() {
        let over: Vec<String> =
            review.over.iter().map(|(title, place)| format!("{title} on {}", escape(place))).collect();
        body.push_str(&format!("<h2>Cleared since yesterday</h2>\n<p>{}</p>\n", over.join("; ")));
    }
    for (problem, _) in review.put_off() {
        let until = problem.put_off_until.map_or_else(String::new, dates::short);
        body.push_str(&format!(
            "<p>Postponed: {} {} until {until}</p>\n",
            escape(&problem.place),
            escape(&problem.title())
        ));
    }
}
