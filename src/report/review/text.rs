//! The review as text for an 80-column screen: tomorrow's work first, then one block a flagged problem, then one line a
//! watched one.

use super::evidence;
use crate::dates;
use crate::mix::cautions::KEEP_OUT;
use crate::report::layout::wrap;
use crate::report::words;
use crate::review::{Change, Problem, Review};

/// Most pieces of evidence shown for one problem, the newest ones.
const SAW: usize = 5;

/// The whole review.
pub fn text(review: &Review) -> String {
    let mut out = String::new();
    head(review, &mut out);
    settle(review, &mut out);
    work(review, &mut out);
    for (problem, change) in review.flagged() {
        out.push('\n');
        block(review, problem, *change, &mut out);
    }
    watched(review, &mut out);
    slower(review, &mut out);
    not_known(review, &mut out);
    rest(review, &mut out);
    out
}

fn head(review: &Review, out: &mut String) {
    out.push_str(&format!("{}, evening of {}\n", review.site.name, dates::long(review.on)));
    let flagged = words::flagged(&review.flags());
    let line = format!("{} · {flagged} · limits: {}", words::round(review, None), review.limits);
    wrap(out, "", &line);
}

fn settle(review: &Review, out: &mut String) {
    if review.to_settle.is_empty() {
        return;
    }
    out.push_str("\nTo settle\n");
    for unsettled in &review.to_settle {
        wrap(out, "  ", &words::settle(unsettled, review.site.units));
    }
}

fn work(review: &Review, out: &mut String) {
    out.push_str("\nTomorrow\n");
    let closed = review.closed_together();
    if review.lists_nothing(None) {
        out.push_str("  No extra work.\n");
    }
    if let Some(left) = words::left(review) {
        wrap(out, "  ", &left);
    }
    for (benches, until) in closed {
        let until = format!("{} {}", dates::weekday(until.date_naive()), dates::time(&until));
        wrap(out, "  closed   ", &format!("{benches} until {until} ({KEEP_OUT})"));
    }
    for job in &review.jobs {
        wrap(out, &format!("  {:<8} ", job.heading()), &job.text());
    }
    for ticked in &review.ticked {
        wrap(out, &format!("  [{}]      ", ticked.sign()), &ticked.text(&words::day_after(review)));
    }
    for due in &review.plots_due {
        wrap(out, "  ", &words::plots_due(due));
    }
    for caution in review.cautions() {
        wrap(out, "  caution  ", caution.text);
    }
}

fn block(review: &Review, problem: &Problem, change: Change, out: &mut String) {
    let lot = problem.lot_beside().map_or_else(String::new, |l| format!(" ({l})"));
    wrap(
        out,
        "",
        &format!(
            "{}{lot} · {} · {} · {}",
            problem.place,
            problem.level.code().to_uppercase(),
            problem.title(),
            change.text()
        ),
    );
    let Some(lead) = problem.lead() else { return };
    let saw = evidence(problem, SAW, review.site.units);
    if !saw.is_empty() {
        wrap(out, "  seen    ", &saw.join("; "));
    }
    wrap(out, "  why     ", lead.why());
    let mut label = "  next    ";
    for step in problem.next() {
        wrap(out, label, &step);
        label = "          ";
    }
    let again = problem.parts.iter().map(|w| w.look_again).min().unwrap_or(lead.look_again);
    wrap(
        out,
        "  recheck ",
        &format!("{} · first seen {} · {}", dates::weekday(again), dates::short(lead.since), lead.basis),
    );
}

fn watched(review: &Review, out: &mut String) {
    let all = review.watched_together();
    if !all.is_empty() {
        out.push_str("\nTo watch\n");
    }
    for of in all {
        let again = of.again.map_or_else(String::new, |day| format!(", recheck {}", dates::short(day)));
        let unchecked = of.not_checked.map_or_else(String::new, |day| format!(", {}", words::not_checked(day)));
        let places = of.places.join("; ");
        let noted = if of.noted { ", noted" } else { "" };
        wrap(out, "  - ", &format!("{places}: {}{noted}{unchecked}{again}. {}", of.title, of.next.join(" ")));
    }
}

fn slower(review: &Review, out: &mut String) {
    if !review.slower.is_empty() {
        out.push('\n');
        wrap(
            out,
            &format!("{}: ", words::SLOWER),
            &format!("{}. {}", words::slower(&review.slower), words::SLOWER_LOOK),
        );
    }
}

fn not_known(review: &Review, out: &mut String) {
    if review.not_known.is_empty() {
        return;
    }
    out.push_str("\nNot known\n");
    for lot in &review.not_known {
        wrap(out, "  ", &words::not_known(lot));
    }
}

fn rest(review: &Review, out: &mut String) {
    if !review.over.is_empty() {
        let over: Vec<String> = review.over.iter().map(|(title, place)| format!("{title} on {place}")).collect();
        out.push('\n');
        wrap(out, "Cleared since yesterday: ", &over.join("; "));
    }
    for (problem, _) in review.put_off() {
        let until = problem.put_off_until.map_or_else(String::new, dates::short);
        wrap(out, "Postponed: ", &format!("{} {} until {until}", problem.place, problem.title()));
    }
}
