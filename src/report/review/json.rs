//! The review as one JSON object: every warning by itself, for other programs.

use crate::record::{Line, Place, Term, codec};
use crate::report::words;
use crate::review::Review;
use crate::season::{Unsettled, Writer};
use crate::trials::DueOn;
use crate::units::System;
use crate::warnings::{NotKnown, Slower, Warning};
use serde::Serialize;

/// All of a review, to be written.
#[derive(Serialize)]
pub(in crate::report) struct Out<'a> {
    on: String,
    site: &'a str,
    benches: usize,
    walked: usize,
    warnings: Vec<One<'a>>,
    jobs: Vec<JobOut<'a>>,
    closed: Vec<ClosedOut<'a>>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    plots_due: Vec<PlotsOut<'a>>,
    to_settle: Vec<SettleOut>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    not_known: Vec<NotKnownOut<'a>>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    dries_slower: Vec<SlowerOut<'a>>,
}

/// A trial with plots to be read on the day the jobs are for.
#[derive(Serialize)]
struct PlotsOut<'a> {
    trial: &'a str,
    plots: usize,
    benches: Vec<&'a str>,
}

/// A bench that dries slower than its lot.
#[derive(Serialize)]
struct SlowerOut<'a> {
    bench: &'a str,
    lot: &'a str,
    days: i64,
    at_least: bool,
    lot_days: f64,
}

/// A job of the list: to be done, or what became of it.
#[derive(Serialize)]
struct JobOut<'a> {
    listed_for: String,
    state: &'static str,
    step: &'a str,
    benches: &'a [String],
    #[serde(skip_serializing_if = "<[String]>::is_empty")]
    houses: &'a [String],
    text: String,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    waits: Vec<WaitsOut<'a>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    why: Option<&'a str>,
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    left_from_yesterday: bool,
}

/// Benches that have to wait for a job, and why.
#[derive(Serialize)]
struct WaitsOut<'a> {
    benches: &'a [String],
    why: &'static str,
}

/// The jobs, those to be done first.
fn jobs(review: &Review) -> Vec<JobOut<'_>> {
    let listed_for = review.listed_for().to_string();
    let open = review.jobs.iter().map(|job| JobOut {
        listed_for: listed_for.clone(),
        state: "open",
        step: job.step,
        benches: &job.benches,
        houses: &job.houses,
        text: job.text(),
        waits: job.waits.iter().map(|w| WaitsOut { benches: &w.benches, why: w.why.text() }).collect(),
        why: None,
        left_from_yesterday: job.left,
    });
    let ticked = review.ticked.iter().map(|ticked| JobOut {
        listed_for: listed_for.clone(),
        state: ticked.outcome.code(),
        step: &ticked.step,
        benches: &ticked.benches,
        houses: &[],
        text: ticked.text(&words::day_after(review)),
        waits: Vec::new(),
        why: ticked.why.as_deref(),
        left_from_yesterday: false,
    });
    open.chain(ticked).collect()
}

/// What is not known of a lot whose record began later than the crop.
#[derive(Serialize)]
struct NotKnownOut<'a> {
    lot: &'a str,
    since: String,
    work: Vec<&'static str>,
    heights_asked: bool,
}

#[derive(Serialize)]
struct One<'a> {
    warning: &'static str,
    level: &'static str,
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    noted: bool,
    scope: &'static str,
    benches: &'a [String],
    lot: Option<&'a str>,
    since: String,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    signs: Vec<&'static str>,
    saw: Vec<String>,
    why: &'static str,
    next: Vec<String>,
    look_again: String,
    basis: String,
    put_off_until: Option<String>,
}

#[derive(Serialize)]
struct ClosedOut<'a> {
    bench: &'a str,
    until: String,
}

/// What several laptops' records leave open: lines of the plan that contradict each other, pots that do not add up, work that
/// may be logged twice, what is not there, a wrong clock.
#[derive(Serialize, Default)]
struct SettleOut {
    what: String,
    text: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    bench: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    day: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    entry: Option<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    entries: Vec<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    writers: Vec<WriterOut>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    lines: Vec<LineOut>,
}

/// Who wrote it, when, and on which laptop where it was another one.
#[derive(Serialize)]
struct WriterOut {
    #[serde(skip_serializing_if = "Option::is_none")]
    by: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    at: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    laptop: Option<String>,
}

/// One of the contradicting lines, the fields in which they differ as the journal has them.
#[derive(Serialize)]
struct LineOut {
    id: String,
    at: Option<String>,
    by: Option<String>,
    fields: serde_json::Map<String, serde_json::Value>,
}

fn settle(unsettled: &Unsettled, system: System) -> SettleOut {
    let text = words::settle(unsettled, system);
    let plain = |what: &str| SettleOut { what: what.to_owned(), text: text.clone(), ..SettleOut::default() };
    match unsettled {
        Unsettled::Plan(contradiction) => SettleOut {
            lines: contradiction.lines.iter().map(|line| line_out(line, &contradiction.fields)).collect(),
            writers: contradiction.writers.iter().map(writer).collect(),
            ..plain(&contradiction.key.to_string())
        },
        Unsettled::Pots(pots) => SettleOut {
            bench: Some(pots.bench.clone()),
            day: Some(pots.day.to_string()),
            entry: pots.entry.map(|id| id.to_string()),
            entries: pots.entry.iter().chain(&pots.other).map(ToString::to_string).collect(),
            writers: pots.writer.iter().chain(&pots.other_writer).map(writer).collect(),
            ..plain(&format!("pots on bench {}", pots.bench))
        },
        Unsettled::Twins(twins) => SettleOut {
            day: Some(twins.day.to_string()),
            entries: twins.places.iter().flat_map(|(_, ids)| ids).map(ToString::to_string).collect(),
            writers: twins.writers.iter().map(writer).collect(),
            ..plain("logged twice")
        },
        Unsettled::NotThere(not_there) => SettleOut {
            entries: not_there.lines.iter().map(ToString::to_string).collect(),
            writers: vec![writer(&not_there.writer)],
            ..plain("not there")
        },
        Unsettled::Clock(clock) => SettleOut {
            entries: clock.lines.iter().map(ToString::to_string).collect(),
            writers: vec![writer(&clock.writer)],
            ..plain("clock")
        },
        Unsettled::Held(_) => plain("newer program"),
    }
}

fn writer(writer: &Writer) -> WriterOut {
    let at = writer.at.map(|at| at.to_rfc3339_opts(chrono::SecondsFormat::Secs, false));
    WriterOut { by: writer.by.clone(), at, laptop: writer.laptop.clone() }
}

fn line_out(line: &Line, fields: &[&'static str]) -> LineOut {
    let written: serde_json::Map<String, serde_json::Value> =
        serde_json::from_str(&codec::encode(line)).unwrap_or_default();
    let revision = line.revision();
    let null = serde_json::Value::Null;
    LineOut {
        id: line.id().to_string(),
        at: revision.and_then(|r| r.at).map(|at| at.to_rfc3339_opts(chrono::SecondsFormat::Secs, false)),
        by: revision.and_then(|r| r.by.clone()),
        fields: fields.iter().map(|f| ((*f).to_owned(), written.get(*f).unwrap_or(&null).clone())).collect(),
    }
}

/// One JSON object and a line end.
///
/// # Errors
/// Only what the JSON writer says, which these plain values do not give cause for.
pub fn json(review: &Review) -> Result<String, serde_json::Error> {
    Ok(serde_json::to_string_pretty(&out(review))? + "\n")
}

/// A review as it is written.
pub(in crate::report) fn out(review: &Review) -> Out<'_> {
    Out {
        on: review.on.to_string(),
        site: &review.site.name,
        benches: review.benches,
        walked: review.walked,
        warnings: review.warnings.iter().map(|w| one(w, review.site.units)).collect(),
        jobs: jobs(review),
        closed: review
            .closed
            .iter()
            .map(|c| ClosedOut { bench: &c.bench, until: c.until.to_rfc3339_opts(chrono::SecondsFormat::Secs, false) })
            .collect(),
        plots_due: review.plots_due.iter().map(plots_due).collect(),
        to_settle: review.to_settle.iter().map(|unsettled| settle(unsettled, review.site.units)).collect(),
        not_known: review.not_known.iter().map(not_known).collect(),
        dries_slower: review.slower.iter().map(slower).collect(),
    }
}

fn plots_due(of: &DueOn) -> PlotsOut<'_> {
    let benches = of.benches.iter().map(|(bench, _)| bench.as_str()).collect();
    PlotsOut { trial: &of.trial, plots: of.plots(), benches }
}

fn slower(of: &Slower) -> SlowerOut<'_> {
    let (days, at_least, lot_days) = (of.slow.days, of.slow.at_least, of.slow.lot);
    SlowerOut { bench: &of.bench, lot: &of.lot, days, at_least, lot_days }
}

fn not_known(of: &NotKnown) -> NotKnownOut<'_> {
    NotKnownOut {
        lot: &of.lot,
        since: of.since.to_string(),
        work: of.work.iter().map(|work| work.text()).collect(),
        heights_asked: !of.without_heights,
    }
}

fn one(warning: &Warning, system: System) -> One<'_> {
    One {
        warning: warning.name.code(),
        level: warning.level.code(),
        noted: warning.noted,
        scope: match warning.place {
            Place::Bench(_) => "bench",
            Place::Lot(_) => "lot",
            Place::House(_) => "house",
        },
        benches: &warning.benches,
        lot: warning.lot.as_deref(),
        since: warning.since.to_string(),
        signs: warning.signs.iter().map(|sign| sign.code()).collect(),
        saw: warning.evidence.iter().map(|s| words::piece(s, system)).collect(),
        why: warning.why(),
        next: warning.next(),
        look_again: warning.look_again.to_string(),
        basis: warning.basis.to_string(),
        put_off_until: warning.put_off_until.map(|d| d.to_string()),
    }
}
