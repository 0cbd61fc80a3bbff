//! The season as HTML: calendars drawn and as tables, the nights, the pots, what stands where, the charts of the benches that were
//! asked for, each with its table.

use super::{escape, page, table};
use crate::dates;
use crate::mix::cautions::APPLICATION_RECORD;
use crate::report::chart::{Chart, Table};
use crate::report::season::{SeasonReport, StandingBench};
use crate::report::series::{LotCalendar, LotPots, State, Step, Topic};
use crate::report::svg::draw;
use crate::report::trial::section;
use chrono::{Datelike, NaiveDate};

/// The season as one document.
pub fn season(report: &SeasonReport) -> String {
    let title = format!("{}, season as of {}", report.site.name, dates::long(report.on));
    let mut body = format!("<h1>{}</h1>\n<p class=\"soft\">limits: {}</p>\n", escape(&title), escape(&report.limits));
    let charted = || report.benches.iter().filter_map(|bench| Some((bench, bench.charts.as_deref()?)));
    if let Some(file) = report.last_year.as_ref().filter(|_| charted().next().is_some()) {
        body.push_str(&format!("<p class=\"soft\">last year in the charts of the benches: {}</p>\n", escape(file)));
    }
    contents(report, &mut body);
    body.push_str("<h2 id=\"calendar\">Calendar</h2>\n");
    for calendar in &report.calendars {
        lot(calendar, report, &mut body);
    }
    if let Some(nights) = &report.nights {
        body.push_str("<h2 id=\"nights\">Nights</h2>\n");
        figure(&nights.chart, &mut body);
    }
    if !report.climate.is_empty() {
        body.push_str("<h2 id=\"climate\">Climate</h2>\n");
    }
    for house in &report.climate {
        figure_with(&house.chart, &house.table, &mut body);
    }
    pots(&report.pots, &mut body);
    for (n, trial) in report.trials.iter().enumerate() {
        let code = format!("Trial {}: {}", trial.found.trial().trial, trial.found.trial().question);
        body.push_str(&format!("<h2 id=\"t{n}\">{}</h2>\n{}", escape(&code), section(trial)));
    }
    benches(report, &mut body);
    for (n, (bench, drawn)) in charted().enumerate() {
        charts(n, (bench, drawn), &mut body);
    }
    if report.treated {
        body.push_str(&format!("<p class=\"soft\">{}</p>\n", escape(APPLICATION_RECORD)));
    }
    page(&title, &body)
}

fn contents(report: &SeasonReport, body: &mut String) {
    body.push_str(
        "<nav aria-label=\"On this page\"><p><a href=\"#calendar\">Calendar</a> · <a href=\"#nights\">Nights</a>",
    );
    if !report.climate.is_empty() {
        body.push_str(" · <a href=\"#climate\">Climate</a>");
    }
    body.push_str(" · <a href=\"#pots\">Pots</a>");
    for (n, trial) in report.trials.iter().enumerate() {
        body.push_str(&format!(" · <a href=\"#t{n}\">Trial {}</a>", escape(&trial.found.trial().trial)));
    }
    body.push_str(" · <a href=\"#benches\">Benches</a>");
    for (n, bench) in report.benches.iter().filter(|bench| bench.charts.is_some()).enumerate() {
        body.push_str(&format!(" · <a href=\"#b{n}\">{}</a>", escape(&bench.bench)));
    }
    body.push_str("</p></nav>\n");
}

/// A chart with what it says in words, and its table folded away.
pub(in crate::report) fn figure(chart: &Chart, body: &mut String) {
    figure_with(chart, &chart.table(), body);
}

fn figure_with(chart: &Chart, rows: &Table, body: &mut String) {
    body.push_str(&format!(
        "<figure><figcaption>{}</figcaption>\n{}<p>{}</p>\n<details><summary>As a table</summary>\n{}</details></figure>\n",
        escape(&chart.title),
        draw(chart),
        escape(&chart.text),
        table(&chart.title, rows)
    ));
}

fn lot(calendar: &LotCalendar, report: &SeasonReport, body: &mut String) {
    let name = format!("{}, {}", calendar.lot, calendar.title);
    let rows = calendar.steps.iter().map(|s| vec![s.name.to_owned(), s.state.word().to_owned(), s.words.clone()]);
    let by = calendar.forecast.as_ref().map(|by| vec!["color forecast".to_owned(), String::new(), by.clone()]);
    let heads = ["step", "status", "when"].map(ToOwned::to_owned).to_vec();
    body.push_str(&format!(
        "<figure><figcaption>{}</figcaption>\n{}{}</figure>\n",
        escape(&name),
        bars(calendar, report),
        table(&format!("Calendar of lot {}", calendar.lot), &Table { heads, rows: rows.chain(by).collect() })
    ));
}

const WIDTH: f64 = 640.0;
const NAMES: f64 = 178.0;
const ROW: f64 = 24.0;
const TOP: f64 = 44.0;

/// The calendar of a lot drawn: a bar a step, its shape and the word beside it show its state.
fn bars(calendar: &LotCalendar, report: &SeasonReport) -> String {
    let (first, last) = report.days;
    let all = ((last - first).num_days() as f64).max(1.0);
    let x = |d: NaiveDate| {
        let share = ((d - first).num_days() as f64 / all).clamp(0.0, 1.0);
        share.mul_add(WIDTH - NAMES - 8.0, NAMES)
    };
    let height = ROW.mul_add(calendar.steps.len() as f64, TOP + 4.0);
    let name = escape(&calendar.lot);
    let mut out = format!(
        "<svg viewBox=\"0 0 {WIDTH} {height}\" role=\"img\" aria-label=\"Calendar of lot {name}\" class=\"chart\"><title>Calendar of lot {name}</title><desc>The table below says the same.</desc>\n"
    );
    for month in first.iter_days().take_while(|d| *d <= last).take(500).filter(|d| d.day() == 1 && x(*d) < WIDTH - 36.0)
    {
        out.push_str(&format!(
            "<path d=\"M{at:.1} {TOP}V{height}\" class=\"grid\"/><text x=\"{at:.1}\" y=\"16\" class=\"tick\">{}</text>\n",
            month.format("%b"),
            at = x(month)
        ));
    }
    for (n, step) in calendar.steps.iter().enumerate() {
        let y = ROW.mul_add(n as f64, TOP);
        out.push_str(&format!("<text x=\"0\" y=\"{:.1}\">{}</text>\n", y + 16.0, escape(step.name)));
        out.push_str(&bar(step, (x(step.from), x(step.to)), y));
        for mark in &step.marks {
            out.push_str(&format!("<path d=\"M{:.1} {:.1}l4 7l-4 7l-4 -7z\" class=\"mark\"/>\n", x(*mark), y + 5.0));
        }
    }
    let today = x(report.on);
    out.push_str(&format!(
        "<path d=\"M{today:.1} {TOP}V{height}\" class=\"line dashed\"/><text x=\"{today:.1}\" y=\"38\" class=\"key\" text-anchor=\"middle\">{}</text>\n</svg>\n",
        dates::short(report.on)
    ));
    out
}

/// One bar with its word: filled when done, hatched by an outline when it is to come, crossed when late.
fn bar(step: &Step, (from, to): (f64, f64), y: f64) -> String {
    let wide = (to - from).max(5.0);
    let class = match step.state {
        State::Done => "full",
        State::Over => "past",
        State::Due | State::Late => "mark",
        State::Forecast => "open dashed",
        State::Planned | State::Open => "open",
    };
    // The word is placed where there is room for it.
    let (at, anchor) = if from + wide > WIDTH - 90.0 { (from - 6.0, "end") } else { (from + wide + 6.0, "start") };
    format!(
        "<rect x=\"{from:.1}\" y=\"{:.1}\" width=\"{wide:.1}\" height=\"12\" class=\"{class}\"/><text x=\"{at:.1}\" y=\"{:.1}\" class=\"tick\" text-anchor=\"{anchor}\">{}</text>\n",
        y + 6.0,
        y + 16.0,
        step.state.word()
    )
}

fn pots(pots: &[LotPots], body: &mut String) {
    let heads = [
        "lot",
        "planned",
        "placed",
        "lost",
        "graded salable",
        "seconds",
        "dumped",
        "sold",
        "on bench",
        "committed",
        "uncommitted",
    ];
    let row = |p: &LotPots| {
        let numbers =
            [p.planned, p.placed, p.lost, p.graded_sell, p.graded_second, p.dumped, p.sold, p.standing, p.committed];
        std::iter::once(p.lot.clone()).chain(numbers.iter().map(ToString::to_string)).chain([p.left_text()]).collect()
    };
    let rows = Table { heads: heads.map(ToOwned::to_owned).to_vec(), rows: pots.iter().map(row).collect() };
    body.push_str(&format!("<h2 id=\"pots\">Pots</h2>\n{}", table("Pots by lot", &rows)));
}

/// What stands where, and how the charts of a bench are got.
fn benches(report: &SeasonReport, body: &mut String) {
    body.push_str("<h2 id=\"benches\">Benches</h2>\n");
    let Some(first) = report.benches.iter().find(|bench| bench.charts.is_none()) else {
        if report.benches.is_empty() {
            body.push_str("<p>No bench has pots.</p>\n");
        }
        return;
    };
    body.push_str(&format!(
        "<p class=\"soft\">Charts of heights, water, roots, bracts, root zone and climate of every bench: \
         <code>benchwalk season --format html --benches</code>; of some: <code>--benches {}</code>, a row such as E1-E6, \
         a house or a lot. On the screens: <code>c</code> on the page of a bench.</p>\n",
        escape(&first.bench)
    ));
    let row = |bench: &StandingBench| vec![bench.bench.clone(), bench.lot.clone(), bench.pots.to_string()];
    let rows = report.benches.iter().map(row).collect();
    let heads = ["bench", "lot", "pots"].map(ToOwned::to_owned).to_vec();
    body.push_str(&table("What stands where", &Table { heads, rows }));
}

fn charts(n: usize, (bench, charts): (&StandingBench, &[(Topic, Chart)]), body: &mut String) {
    body.push_str(&format!(
        "<h2 id=\"b{n}\">Bench {} <span class=\"soft\">{}</span></h2>\n",
        escape(&bench.bench),
        escape(&bench.stands())
    ));
    if charts.is_empty() {
        body.push_str("<p>Nothing logged yet.</p>\n");
        return;
    }
    body.push_str("<div class=\"charts\">\n");
    for (_, chart) in charts {
        figure(chart, body);
    }
    body.push_str("</div>\n");
}
