//! The means of the treatments with their intervals, which are told apart, and all that is said beside it.

use super::{led, said};
use crate::dates;
use crate::model::Model;
use crate::report::trial::words::percent;
use crate::report::trial::{Verdict, Words, bar};
use crate::screens::trial::State;
use crate::trials::{Against, Over};
use crate::ui::{Role, fit, width};
use ratatui::text::Line;

/// Cells of a row beside its name and its drawn interval.
const REST: usize = 42;

/// The lines of the part.
pub(super) fn lines(words: &Words<'_>, state: &State, model: &Model, cells: usize) -> Vec<Line<'static>> {
    let mut all = head(words, cells);
    all.extend(later(words, cells));
    all.push(Line::default());
    all.extend(table(words, model, cells));
    all.push(Line::default());
    all.extend(result(words, state, model, cells));
    for caution in words.cautions() {
        all.extend(led("note  ", &caution, cells));
    }
    all.extend(said(&words.drawn(), cells));
    all
}

/// What is compared on what, how it lies, what is shown and of when.
pub(super) fn head(words: &Words<'_>, cells: usize) -> Vec<Line<'static>> {
    let parts = [words.subject(), words.laid(), words.shown()];
    let one = parts.join("   ");
    if usize::from(width(&one)) <= cells {
        return vec![Line::raw(one)];
    }
    parts.iter().flat_map(|part| said(part, cells)).collect()
}

/// That a later day is not the one shown.
fn later(words: &Words<'_>, cells: usize) -> Vec<Line<'static>> {
    let Over::Day(shown) = words.found.over else { return Vec::new() };
    let days = words.found.readings.days(words.found.reading);
    let last = days.last().filter(|last| last.day > shown && !last.is_full());
    let text = last.map(|last| {
        format!(
            "On {} only {} of {} plots were read: it is not the day shown.",
            dates::short(last.day),
            last.read,
            last.living
        )
    });
    text.map(|text| said(&text, cells)).unwrap_or_default()
}

fn table(words: &Words<'_>, model: &Model, cells: usize) -> Vec<Line<'static>> {
    let rows = words.found.mean_rows();
    let longest = rows.iter().map(|row| usize::from(width(&row.treatment))).max().unwrap_or(0);
    let name = longest.clamp(9, 16);
    let drawn = cells.saturating_sub(name).saturating_sub(REST).min(40);
    let sure = percent(1.0 - words.found.rules.alpha);
    let head = if rows.iter().any(|row| row.interval.is_some()) { format!("{sure} interval") } else { String::new() };
    let head = format!("{:<name$} {:>7}   {head:<16} {:<drawn$} plots  lost", "treatment", "mean", "");
    let mut lines = vec![Line::styled(head, model.look.style(Role::Head))];
    let by_rate = words.found.trial().rates.is_some();
    for (at, row) in rows.iter().enumerate() {
        let treatment = fit(&row.treatment, longest.min(16));
        let treatment = if by_rate { format!("{:>name$}", row.treatment) } else { fit(&treatment, name) };
        let (mean, interval) = (words.number(row.mean), words.interval(row));
        let bar = bar(&rows, at, drawn);
        lines.push(Line::raw(format!(
            "{treatment} {mean:>7}   {interval:<16} {bar:<drawn$} {:>5}  {:>4}",
            row.read, row.lost
        )));
    }
    lines
}

/// What is told apart and what is not, with all that belongs to it.
fn result(words: &Words<'_>, state: &State, model: &Model, cells: usize) -> Vec<Line<'static>> {
    if let Some(refused) = words.refused() {
        return said(&refused, cells);
    }
    let Some(verdict) = shown(words, state) else { return said("Reshuffling \u{2026}", cells) };
    let mut all = Vec::new();
    if state.other {
        all.extend(said("Not the trial's own comparisons:", cells));
    }
    if let Some(none) = words.none_told(&verdict) {
        all.extend(said(&none, cells));
    } else {
        all.push(Line::styled(format!("{}:", words.told_head(&verdict)), model.look.style(Role::Head)));
        all.extend(words.told(&verdict).iter().flat_map(|told| led(" ", told, cells)));
        all.extend(words.untold(&verdict).iter().flat_map(|untold| said(untold, cells)));
    }
    let seen = words.seen().filter(|_| !verdict.told.is_empty());
    let counts = words.all_counts().map(|counts| format!("{counts}."));
    let sentences = [words.by(&verdict), counts, words.shares(), seen, words.response()];
    all.extend(sentences.into_iter().flatten().flat_map(|text| said(&text, cells)));
    let reshuffled = match words.reshuffled() {
        _ if state.waits() => "Reshuffling \u{2026}  ".to_owned(),
        Some(reshuffled) => format!("{reshuffled}  "),
        None => String::new(),
    };
    all.extend(said(&format!("{reshuffled}{}", words.checks_line()), cells));
    if words.left_over().is_some() {
        all.extend(said("Position is left over: see the part position.", cells));
    }
    all
}

/// The comparisons shown: those of the trial's line, or the other ones.
fn shown(words: &Words<'_>, state: &State) -> Option<Verdict> {
    let own = words.found.verdict()?;
    if !state.other {
        return Some(own);
    }
    let other = if own.against == Against::All { Against::Control } else { Against::All };
    words.found.compared(other)
}
