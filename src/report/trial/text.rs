//! A trial as text for an 80-column page.

use super::words::chance;
use super::{DayLine, Found, Report, Words, bar};
use crate::dates;
use crate::report::layout::wrap;

/// Columns in which intervals are drawn.
const BAR: usize = 26;

/// The whole report.
pub fn text(report: &Report) -> String {
    let words = report.words();
    let mut out = format!("Trial {}: {}\n", report.found.trial().trial, words.subject());
    wrap(&mut out, "", &format!("{}; {}", words.laid(), words.shown()));
    out.push('\n');
    means(&words, &mut out);
    out.push('\n');
    result(&words, &mut out);
    let cautions = report.cautions();
    if !cautions.is_empty() {
        out.push('\n');
    }
    for caution in cautions {
        wrap(&mut out, "  note  ", &caution);
    }
    days(report, &words, &mut out);
    for other in &report.others {
        short(&Words::of(other, report.system), &mut out);
    }
    out.push('\n');
    wrap(&mut out, "", &words.drawn());
    out
}

fn means(words: &Words<'_>, out: &mut String) {
    let rows = words.found.mean_rows();
    let sure = super::words::percent(1.0 - words.found.rules.alpha);
    let interval =
        if rows.iter().any(|row| row.interval.is_some()) { format!("{sure} interval") } else { String::new() };
    out.push_str(&format!("{:<16} {:>6}  {interval:<14} {:<BAR$} plots  lost\n", "treatment", "mean", ""));
    for (at, row) in rows.iter().enumerate() {
        out.push_str(&format!(
            "{:<16} {:>6}  {:<14} {:<BAR$} {:>5} {:>5}\n",
            row.treatment,
            words.number(row.mean),
            words.interval(row),
            bar(&rows, at, BAR),
            row.read,
            row.lost
        ));
    }
}

/// What is told apart and what is not, with all that belongs to it.
fn result(words: &Words<'_>, out: &mut String) {
    if let Some(refused) = words.refused() {
        wrap(out, "", &refused);
        return;
    }
    let Some(verdict) = words.found.verdict() else { return };
    if let Some(none) = words.none_told(&verdict) {
        wrap(out, "", &none);
    } else {
        out.push_str(&format!("{}:\n", words.told_head(&verdict)));
        for line in words.told(&verdict) {
            wrap(out, "  ", &line);
        }
        out.extend(words.untold(&verdict).map(|untold| format!("{untold}\n")));
    }
    let seen = words.seen().filter(|_| !verdict.told.is_empty());
    let said = [words.by(&verdict), words.before(), words.all_counts(), words.shares(), seen];
    for line in said.into_iter().flatten().chain(words.response()) {
        wrap(out, "", &line);
    }
    let reshuffled = words.reshuffled().map_or_else(String::new, |reshuffled| format!("{reshuffled} "));
    wrap(out, "", &format!("{reshuffled}{}", words.checks_line()));
    if let Some((said, others)) = words.left_over() {
        wrap(out, "", &said);
        for line in others {
            wrap(out, "  ", &line);
        }
    }
    if let Some(without) = words.without_odd() {
        wrap(out, "", &without);
    }
    if let Some(efficiency) = words.efficiency() {
        wrap(out, "", &efficiency);
    }
}

/// One line a day, and growth.
fn days(report: &Report, words: &Words<'_>, out: &mut String) {
    if report.days.len() < 2 {
        return;
    }
    out.push_str(&format!("\nBy day: {}; days are never replicates\n", words.scale.head()));
    for day in &report.days {
        let label = format!("  {:<7} ", dates::short(day.day));
        wrap(out, &label, &format!("{}{}", by_treatment(words, &day.means), of_day(day)));
    }
    if let Some(growth) = &report.growth {
        growth_line(&Words::of(growth, report.system), out);
    }
}

/// How much of a day was read, and its chance.
fn of_day(day: &DayLine) -> String {
    let (read, living) = day.read;
    let all = if read == living { String::new() } else { format!("; {read} of {living} plots read") };
    let p = day.p.map_or_else(String::new, |p| format!("; {}", chance(p)));
    format!("{all}{p}")
}

fn by_treatment(words: &Words<'_>, means: &[Option<f64>]) -> String {
    let one = |(at, mean): (usize, &Option<f64>)| format!("{} {}", words.treatment(at), words.number(*mean));
    means.iter().enumerate().map(one).collect::<Vec<_>>().join(", ")
}

fn growth_line(words: &Words<'_>, out: &mut String) {
    let means: Vec<Option<f64>> = words.found.mean_rows().iter().map(|row| row.mean).collect();
    let p = words.found.chance().map_or_else(String::new, |p| format!("; {}", chance(p)));
    wrap(out, "  growth  ", &format!("{}{p}", by_treatment(words, &means)));
    if let Some(verdict) = words.found.verdict() {
        let told = words.none_told(&verdict).unwrap_or_else(|| format!("{}.", words.told(&verdict).join("; ")));
        wrap(out, "          ", &told);
    }
}

/// Another reading in a few lines.
fn short(words: &Words<'_>, out: &mut String) {
    out.push_str(&format!("\n{}\n", words.shown()));
    let means: Vec<Option<f64>> = Found::mean_rows(words.found).iter().map(|row| row.mean).collect();
    wrap(out, "  means   ", &by_treatment(words, &means));
    for line in words.verdict_lines() {
        wrap(out, "  ", &line);
    }
}
