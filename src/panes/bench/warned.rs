//! What the rules say of a bench, its own first, the most severe first: level, name, since when, what to do. What is said of its
//! lot or house says so.

use crate::dates;
use crate::model::Model;
use crate::panes::sign;
use crate::ui::{Role, fit, wrap};
use crate::warnings::{Severity, Warning, Whose};
use ratatui::text::{Line, Span};

/// Cells before the name of a warning: its sign and level.
const LEVEL: usize = 10;
/// Cells before what to do.
const INDENT: usize = 3;

/// Each warning with at most so many steps; of what is not the bench's own the first alone.
pub(super) fn lines(model: &Model, bench: &str, cells: usize, steps: usize) -> Vec<Line<'static>> {
    let own = model.cache.bench(bench).map(|summary| summary.warnings.as_slice()).unwrap_or_default();
    let put_off = own.iter().filter(|w| w.put_off_until.is_some());
    let all = model.cache.own(bench).into_iter().chain(model.cache.not_own(bench)).chain(put_off);
    all.flat_map(|warning| one(warning, model, cells, steps)).collect()
}

fn one(warning: &Warning, model: &Model, cells: usize, steps: usize) -> Vec<Line<'static>> {
    let (sign, role) = sign(warning.level);
    let whose = model.cache.whose(warning);
    let steps = if matches!(whose, Whose::Bench(_)) { steps } else { steps.min(1) };
    let of = match whose {
        Whose::Bench(_) => String::new(),
        Whose::Lot(lot) => format!(", of lot {lot}"),
        Whose::House(house) => format!(", of house {house}"),
    };
    let days = match dates::days_between(warning.since, model.day) {
        ..=0 => String::new(),
        1 => " (1 day)".to_owned(),
        n => format!(" ({n} days)"),
    };
    let off = warning.put_off_until.map(|day| format!(", postponed until {}", dates::short(day)));
    let (off, is_off) = (off.clone().unwrap_or_default(), off.is_some());
    let text = format!("{}{of} since {}{days}{off}", warning.title(), dates::short(warning.since));
    let weight = match warning.level {
        _ if is_off => Role::Dim,
        Severity::Watch => Role::Plain,
        Severity::Act | Severity::Urgent => Role::Title,
    };
    let mut lines = Vec::new();
    for (n, line) in wrap(&text, cells.saturating_sub(LEVEL)).into_iter().enumerate() {
        let lead = if n == 0 { format!("{sign:<2} {}", warning.said_level()) } else { String::new() };
        let pad = " ".repeat(LEVEL.saturating_sub(lead.len()));
        let role = if is_off { Role::Dim } else { role };
        let lead = Span::styled(lead, model.look.style(role));
        lines.push(Line::from(vec![lead, Span::raw(pad), Span::styled(line, model.look.style(weight))]));
    }
    if !is_off {
        for step in warning.next().into_iter().take(steps) {
            for line in wrap(&step, cells.saturating_sub(INDENT)) {
                lines.push(Line::raw(format!("{}{line}", fit("", INDENT))));
            }
        }
    }
    lines
}
