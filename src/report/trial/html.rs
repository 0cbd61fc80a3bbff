//! A trial as one HTML file that alone tells what was done, how it was drawn, what was found and what could not have been seen.

use super::words::{chance, one_in, percent};
use super::{Found, Report, Words, chart};
use crate::dates;
use crate::report::chart::Table;
use crate::report::html::{escape, page, table};
use crate::terms::{Design, Term};

/// The trial as one document.
pub fn html(report: &Report) -> String {
    let trial = report.found.trial();
    let title = format!("{}, trial {}: {}", report.site, trial.trial, trial.question);
    let as_of = format!("as of {}", dates::long(report.on));
    let mut body = format!("<h1>{}</h1>\n<p class=\"soft\">{as_of}</p>\n", escape(&title));
    body.push_str(&section(report));
    page(&title, &body)
}

/// The trial as a part of a page, with headings of the third order.
pub fn section(report: &Report) -> String {
    let words = report.words();
    let mut out = String::new();
    done(report, &words, &mut out);
    found(report, &words, &mut out);
    not_seen(&words, &mut out);
    position(&words, &mut out);
    days(report, &words, &mut out);
    for other in &report.others {
        another(&Words::of(other, report.system), &mut out);
    }
    layout(&words, &mut out);
    paragraph(&words.drawn(), &mut out);
    out
}

fn heading(text: &str, out: &mut String) {
    out.push_str(&format!("<h3>{}</h3>\n", escape(text)));
}

fn paragraph(text: &str, out: &mut String) {
    out.push_str(&format!("<p>{}</p>\n", escape(text)));
}

fn items<T: AsRef<str>>(all: &[T], out: &mut String) {
    out.push_str("<ul>\n");
    for item in all {
        out.push_str(&format!("<li>{}</li>\n", escape(item.as_ref())));
    }
    out.push_str("</ul>\n");
}

fn rows(heads: &[&str], rows: Vec<Vec<String>>) -> Table {
    Table { heads: heads.iter().map(|head| (*head).to_owned()).collect(), rows }
}

/// What was done, and how it was drawn.
fn done(report: &Report, words: &Words<'_>, out: &mut String) {
    let trial = report.found.trial();
    heading("What was done", out);
    let rates = trial.rate_unit.as_ref().map_or_else(String::new, |unit| format!(" ({unit})"));
    let control = trial.control.as_ref().map_or_else(String::new, |control| format!(" The control is {control}."));
    let compared = trial.treatments.join(", ");
    paragraph(
        &format!("The question: {}. Compared: {compared}{rates}, on {}.{control}", words.subject(), words.laid()),
        out,
    );
    let reads: Vec<&str> = trial.reads.iter().map(|reading| reading.text()).collect();
    let until = trial.until.map_or_else(String::new, |until| format!(" to {}", dates::short(until)));
    paragraph(
        &format!(
            "Read: {}, every {} days from {}{until}. The main reading is {}.",
            reads.join(", "),
            trial.every(),
            dates::short(trial.from),
            reads.first().copied().unwrap_or_default()
        ),
        out,
    );
    if trial.guard {
        paragraph("A ring of guard pots stands around the plots; they are not read.", out);
    }
    if let Some(matters) =
        trial.matters.filter(|_| words.found.reading == trial.reads.first().copied().unwrap_or(words.found.reading))
    {
        paragraph(&format!("A difference of {} matters to the grower.", words.scale.amount(matters)), out);
    }
    heading("How it was drawn", out);
    paragraph(&words.drawn(), out);
    paragraph(how_drawn(trial.design), out);
}

/// What a design does, in a sentence.
const fn how_drawn(design: Design) -> &'static str {
    match design {
        Design::CompletelyRandomized => {
            "Every plot got its treatment by lot, anywhere on the bench: a place can favor a treatment only by chance, and that chance is in \
             the intervals."
        }
        Design::RandomizedBlocks => {
            "Every block holds every treatment, in an order drawn by lot: treatments are compared within blocks, so that what differs from \
             block to block is not taken for treatment."
        }
        Design::LatinSquare => {
            "Every treatment stands once in every row and once in every column, by lot: what differs from row to row and from column to \
             column is not taken for treatment."
        }
        Design::AsLaid => "Someone chose the places: nothing was drawn by lot.",
    }
}

/// What was found.
fn found(report: &Report, words: &Words<'_>, out: &mut String) {
    heading(&format!("What was found: {}", words.shown()), out);
    out.push_str("<figure>\n");
    out.push_str(&chart::dots(words));
    out.push_str(&means(words));
    out.push_str("</figure>\n");
    if let Some(verdict) = words.found.verdict() {
        if let Some(none) = words.none_told(&verdict) {
            paragraph(&none, out);
        } else {
            paragraph(&format!("{}:", words.told_head(&verdict)), out);
            items(&words.told(&verdict), out);
        }
        let untold = words.untold(&verdict).filter(|_| !verdict.told.is_empty()).map(|untold| format!("{untold}."));
        let counts = words.all_counts();
        paragraphs([untold, words.by(&verdict), words.before(), counts, words.shares(), words.response()], out);
        if let Some(reshuffled) = &words.found.reshuffled {
            let times = reshuffled.times;
            let p = one_in(reshuffled.p);
            let said = format!(
                "By reshuffling: dealt to the places {times} times more, the treatments lay as far apart {p} times."
            );
            paragraph(&said, out);
        }
        if let Some(chart) = chart::by_rate(words) {
            out.push_str(&format!("<figure>\n{chart}</figure>\n"));
        }
    } else {
        paragraphs([words.refused()], out);
    }
    let cautions = report.cautions();
    if !cautions.is_empty() {
        paragraph("To keep in mind:", out);
        items(&cautions, out);
    }
}

/// Sentences that may be missing, as paragraphs.
fn paragraphs(all: impl IntoIterator<Item = Option<String>>, out: &mut String) {
    for said in all.into_iter().flatten() {
        paragraph(&said, out);
    }
}

fn means(words: &Words<'_>) -> String {
    let row = |row: super::MeanRow| {
        let (mean, interval) = (words.number(row.mean), words.interval(&row));
        vec![row.treatment, mean, interval, row.read.to_string(), row.lost.to_string()]
    };
    let interval = format!("{} interval", percent(1.0 - words.found.rules.alpha));
    let all: Vec<Vec<String>> = words.found.mean_rows().into_iter().map(row).collect();
    let heads = ["treatment", "mean", interval.as_str(), "plots read", "plots lost"];
    table(&format!("Means: {}", words.shown()), &rows(&heads, all))
}

/// What could not have been seen.
fn not_seen(words: &Words<'_>, out: &mut String) {
    heading("What could not have been seen", out);
    let Some(verdict) = words.found.verdict() else {
        paragraph("Nothing is told apart here, so no difference could have been seen, however large.", out);
        return;
    };
    let (seen, power) = (words.seen(), percent(words.found.rules.power));
    match seen {
        Some(seen) => {
            let matters =
                words.found.trial().matters.filter(|_| words.found.trial().reads.first() == Some(&words.found.reading));
            paragraph(&format!("{seen} Larger ones are found in {power} of such trials or more."), out);
            if let Some(matters) = matters {
                paragraph(&format!("The difference that matters is {}.", words.scale.amount(matters)), out);
            }
        }
        None => paragraph("How large a difference had to be to be found cannot be said for this comparison.", out),
    }
    if !verdict.untold.is_empty() {
        paragraph("Not told apart does not mean alike: a smaller difference may be there.", out);
    }
    paragraphs([words.efficiency()], out);
}

/// Position and checks.
fn position(words: &Words<'_>, out: &mut String) {
    let Some(along) = chart::along(words) else { return };
    heading("Position and checks", out);
    out.push_str(&format!(
        "<figure><figcaption>What design and treatment leave of each plot, along the bench</figcaption>\n{along}</figure>\n"
    ));
    paragraph(
        "Dots are plots, the line is the mean of five plots side by side: without position left over it keeps near 0.",
        out,
    );
    if let Some((said, others)) = words.left_over() {
        paragraph(&said, out);
        items(&others, out);
    }
    let check = |check: super::words::Check| {
        vec![check.name.to_owned(), chance(check.p), check.says.unwrap_or_else(|| "does not speak".to_owned())]
    };
    let checks = rows(&["check", "chance", "says"], words.checks().into_iter().map(check).collect());
    out.push_str(&table("Checks", &checks));
    paragraphs([words.without_odd()], out);
}

/// One line a day, and growth.
fn days(report: &Report, words: &Words<'_>, out: &mut String) {
    if report.days.len() > 1 {
        heading("Day by day", out);
        let judged = report.days.iter().any(|day| day.p.is_some());
        let treatments = words.found.trial().treatments.iter().map(String::as_str);
        let heads: Vec<&str> =
            ["day", "plots read"].into_iter().chain(treatments).chain(judged.then_some("chance")).collect();
        let row = |day: &super::DayLine| {
            let first = [dates::short(day.day), format!("{} of {}", day.read.0, day.read.1)];
            let means = day.means.iter().map(|mean| words.number(*mean));
            let last = judged.then(|| day.p.map_or_else(|| "-".to_owned(), chance));
            first.into_iter().chain(means).chain(last).collect()
        };
        let all = report.days.iter().map(row).collect();
        out.push_str(&table(
            &format!("Means of {} by day; days are never replicates", words.scale.head()),
            &rows(&heads, all),
        ));
    }
    if let Some(growth) = &report.growth {
        another(&Words::of(growth, report.system), out);
    }
}

/// Another reading, or growth: its means and its verdict.
fn another(words: &Words<'_>, out: &mut String) {
    heading(&words.shown(), out);
    out.push_str(&means(words));
    let is_told = words.found.verdict().is_some_and(|verdict| !verdict.told.is_empty());
    let whole = Found::chance(words.found).map(|p| format!("The treatments as a whole: {}.", chance(p)));
    let more = [whole, words.seen()].into_iter().flatten().filter(|_| is_told);
    for said in words.verdict_lines().into_iter().chain(words.all_counts()).chain(more) {
        paragraph(&said, out);
    }
}

/// Where every plot stands, and what was read of it.
fn layout(words: &Words<'_>, out: &mut String) {
    heading("Layout", out);
    let values = words.found.data.as_ref().map(|data| data.plots.as_slice()).unwrap_or_default();
    let row = |plot: &crate::record::Plot| {
        let read = values.iter().find(|value| value.number == plot.number());
        let value = match read {
            Some(of) if of.lost && of.value.is_none() => "lost".to_owned(),
            Some(of) => words.number(of.value),
            None => "-".to_owned(),
        };
        vec![
            plot.number().to_string(),
            plot.bench.clone(),
            plot.row.to_string(),
            plot.column.to_string(),
            plot.block.map_or_else(|| "-".to_owned(), |block| block.to_string()),
            plot.treatment.clone(),
            plot.pots.to_string(),
            value,
        ]
    };
    let shown = words.shown();
    let heads = ["plot", "bench", "row", "column", "block", "treatment", "pots", shown.as_str()];
    let all = words.found.readings.plots.iter().map(row).collect();
    out.push_str(&table("Plots in walking order", &rows(&heads, all)));
}
