//! The review as one JSON object: every warning by itself, for other programs.

use crate::record::Term;
use crate::report::words;
use crate::review::Review;
use crate::units::System;
use crate::warnings::{Scope, Warning};
use serde::Serialize;

#[derive(Serialize)]
struct Out<'a> {
    on: String,
    site: &'a str,
    benches: usize,
    walked: usize,
    warnings: Vec<One<'a>>,
    closed: Vec<ClosedOut<'a>>,
}

#[derive(Serialize)]
struct One<'a> {
    warning: &'static str,
    level: &'static str,
    scope: &'static str,
    benches: &'a [String],
    lot: Option<&'a str>,
    since: String,
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

/// One JSON object and a line end.
///
/// # Errors
/// Only what the JSON writer says, which these plain values do not give cause for.
pub fn json(review: &Review) -> Result<String, serde_json::Error> {
    let out = Out {
        on: review.on.to_string(),
        site: &review.site.name,
        benches: review.benches,
        walked: review.walked,
        warnings: review.warnings.iter().map(|w| one(w, review.site.units)).collect(),
        closed: review
            .closed
            .iter()
            .map(|c| ClosedOut { bench: &c.bench, until: c.until.to_rfc3339_opts(chrono::SecondsFormat::Secs, false) })
            .collect(),
    };
    Ok(serde_json::to_string_pretty(&out)? + "\n")
}

fn one(warning: &Warning, system: System) -> One<'_> {
    One {
        warning: warning.name.code(),
        level: warning.level.code(),
        scope: match warning.name.rule().scope() {
            Scope::Bench => "bench",
            Scope::Lot => "lot",
            Scope::House => "house",
        },
        benches: &warning.benches,
        lot: warning.lot.as_deref(),
        since: warning.since.to_string(),
        saw: warning.evidence.iter().map(|s| words::piece(s, system)).collect(),
        why: warning.name.rule().why,
        next: warning.next(),
        look_again: warning.look_again.to_string(),
        basis: warning.basis.to_string(),
        put_off_until: warning.put_off_until.map(|d| d.to_string()),
    }
}
