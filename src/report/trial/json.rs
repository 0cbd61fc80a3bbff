//! A trial as one JSON object, values in the units of the journal.

use super::{Report, Told, Words};
use crate::terms::Term;
use crate::trials::Part;
use serde::Serialize;

#[derive(Serialize)]
struct Out<'a> {
    trial: &'a str,
    lot: &'a str,
    question: &'a str,
    day: String,
    reading: &'static str,
    unit: &'static str,
    design: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    seed: Option<&'a str>,
    drawn: u32,
    plots: usize,
    read: usize,
    lost: usize,
    #[serde(flatten)]
    judged: Option<Judged>,
    means: Vec<MeanOut>,
    comparisons: Vec<DifferenceOut>,
    days: Vec<DayOut>,
    cautions: Vec<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    refused: Option<String>,
    said: Vec<String>,
}

/// What is there only where something is separated.
#[derive(Serialize)]
struct Judged {
    position: PartOut,
    treatment: PartOut,
    rest: RestOut,
    #[serde(skip_serializing_if = "Option::is_none")]
    response: Option<ResponseOut>,
    #[serde(skip_serializing_if = "Option::is_none")]
    left_over: Option<LeftOut>,
    checks: Vec<CheckOut>,
    #[serde(skip_serializing_if = "Option::is_none")]
    seen: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    efficiency: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    without_odd_plot: Option<u32>,
}

#[derive(Serialize)]
struct PartOut {
    share: f64,
    df: usize,
    #[serde(skip_serializing_if = "Option::is_none")]
    f: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    p: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    reshuffled: Option<f64>,
}

#[derive(Serialize)]
struct RestOut {
    df: usize,
    ms: Option<f64>,
}

#[derive(Serialize)]
struct MeanOut {
    treatment: String,
    mean: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    low: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    high: Option<f64>,
    plots: usize,
    lost: usize,
}

#[derive(Serialize)]
struct DifferenceOut {
    a: String,
    b: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    difference: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    ratio: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    low: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    high: Option<f64>,
    p: f64,
    told: bool,
}

#[derive(Serialize)]
struct ResponseOut {
    linear_p: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    quadratic_p: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    plateau: Option<PlateauOut>,
    #[serde(skip_serializing_if = "Option::is_none")]
    said: Option<String>,
}

#[derive(Serialize)]
struct PlateauOut {
    join: f64,
    low: f64,
    high: f64,
    said: bool,
}

#[derive(Serialize)]
struct LeftOut {
    f: f64,
    p: f64,
    told: bool,
}

#[derive(Serialize)]
struct CheckOut {
    check: &'static str,
    p: f64,
    speaks: bool,
}

#[derive(Serialize)]
struct DayOut {
    day: String,
    read: usize,
    living: usize,
    means: Vec<Option<f64>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    p: Option<f64>,
}

/// One JSON object and a line end.
///
/// # Errors
/// Only what the JSON writer says, which these plain values do not give cause for.
pub fn json(report: &Report) -> Result<String, serde_json::Error> {
    let (found, words) = (&report.found, report.words());
    let trial = found.trial();
    let plots = || found.data.iter().flat_map(|data| &data.plots);
    let out = Out {
        trial: &trial.trial,
        lot: &trial.lot,
        question: &trial.question,
        day: found.span().1.to_string(),
        reading: found.reading.code(),
        unit: unit(&words),
        design: trial.design.code(),
        seed: trial.seed.as_deref(),
        drawn: trial.drawn.unwrap_or(u32::from(trial.seed.is_some())),
        plots: found.readings.plots.len(),
        read: plots().filter(|plot| plot.value.is_some()).count(),
        lost: plots().filter(|plot| plot.lost).count(),
        judged: judged(&words),
        means: means(&words),
        comparisons: comparisons(&words),
        days: days(report),
        cautions: report.cautions(),
        refused: words.refused(),
        said: words.result().into_iter().chain([words.drawn()]).collect(),
    };
    Ok(serde_json::to_string_pretty(&out)? + "\n")
}

/// The unit of the values, as the journal has them.
fn unit(words: &Words<'_>) -> &'static str {
    match words.scale.unit {
        "in" => "cm",
        unit => unit,
    }
}

fn judged(words: &Words<'_>) -> Option<Judged> {
    let (found, analysis) = (words.found, words.found.judged()?);
    let part = |part: &Part| PartOut {
        share: part.share,
        df: part.squares.df,
        f: part.f.filter(|f| f.is_finite()),
        p: part.p.filter(|p| p.is_finite()),
        reshuffled: None,
    };
    let reshuffled = found.reshuffled.as_ref().map(|reshuffled| reshuffled.p);
    let response = analysis.response.as_ref().map(|response| {
        let said = words.plateau().is_some();
        ResponseOut {
            linear_p: response.linear.p,
            quadratic_p: response.quadratic.map(|quadratic| quadratic.p),
            plateau: response.plateau.map(|p| PlateauOut { join: p.join, low: p.low, high: p.high, said }),
            said: words.response(),
        }
    });
    let left = analysis.checks.left_over.as_ref();
    let checks = words.checks().into_iter();
    Some(Judged {
        position: PartOut { f: None, p: None, ..part(&analysis.position) },
        treatment: PartOut { reshuffled, ..part(&analysis.treatment) },
        rest: RestOut { df: analysis.rest.squares.df, ms: analysis.rest.squares.mean() },
        response,
        left_over: left.map(|left| LeftOut { f: left.f, p: left.p, told: left.p < found.rules.alpha }),
        checks: checks.map(|of| CheckOut { check: of.name, p: of.p, speaks: of.says.is_some() }).collect(),
        seen: analysis.comparisons.as_ref().and_then(|comparisons| comparisons.seen),
        efficiency: analysis.efficiency,
        without_odd_plot: found.without_odd.as_ref().map(|(number, _)| *number),
    })
}

fn means(words: &Words<'_>) -> Vec<MeanOut> {
    let row = |row: super::MeanRow| MeanOut {
        treatment: row.treatment,
        mean: row.mean,
        low: row.interval.map(|interval| interval.0),
        high: row.interval.map(|interval| interval.1),
        plots: row.read,
        lost: row.lost,
    };
    words.found.mean_rows().into_iter().map(row).collect()
}

fn comparisons(words: &Words<'_>) -> Vec<DifferenceOut> {
    let Some(verdict) = words.found.verdict() else { return Vec::new() };
    let name = |at| words.treatment(at).to_owned();
    let one = |of: &Told, told: bool| {
        let (a, b) = of.pair();
        let empty = DifferenceOut {
            a: name(a),
            b: name(b),
            difference: None,
            ratio: None,
            low: None,
            high: None,
            p: 1.0,
            told,
        };
        match of {
            Told::Difference(of) => {
                let (low, high) = of.interval;
                DifferenceOut { difference: Some(of.difference), low: Some(low), high: Some(high), p: of.p, ..empty }
            }
            Told::Ratio(of) => {
                let (low, high) = (of.interval.0.exp(), of.interval.1.exp());
                let ratio = Some(of.difference.exp());
                DifferenceOut { ratio, low: Some(low), high: Some(high), p: of.p, ..empty }
            }
            Told::Score(_, p) => DifferenceOut { p: *p, ..empty },
        }
    };
    let told = verdict.told.iter().map(|of| one(of, true));
    told.chain(verdict.untold.iter().map(|of| one(of, false))).collect()
}

fn days(report: &Report) -> Vec<DayOut> {
    let day = |of: &super::DayLine| DayOut {
        day: of.day.to_string(),
        read: of.read.0,
        living: of.read.1,
        means: of.means.clone(),
        p: of.p,
    };
    report.days.iter().map(day).collect()
}
