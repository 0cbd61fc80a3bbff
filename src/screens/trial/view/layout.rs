//! Where the plots stand, bench by bench, and what each treatment got.

use super::{led, said};
use crate::dates;
use crate::model::Model;
use crate::record::{Kind, Plot, Trial};
use crate::trials::{GIVEN, Readings, is_lost};
use crate::ui::{Role, fit, width};
use chrono::NaiveDate;
use ratatui::text::Line;
use std::collections::BTreeMap;

/// Cells before the plots of a row.
const LEAD: usize = 7;

/// The lines of the part.
pub(super) fn lines(readings: &Readings, model: &Model, cells: usize) -> Vec<Line<'static>> {
    let trial = &readings.trial;
    let mut all = said(&format!("{}, lot {}", trial.question, trial.lot), cells);
    all.extend(said(&schedule(trial), cells));
    let mut benches: Vec<&str> = Vec::new();
    for plot in &readings.plots {
        if !benches.contains(&plot.bench.as_str()) {
            benches.push(&plot.bench);
        }
    }
    for bench in benches {
        let plots: Vec<&Plot> = readings.plots.iter().filter(|plot| plot.bench == bench).collect();
        all.push(Line::default());
        all.extend(map(bench, &plots, trial, model, cells));
    }
    all.push(Line::default());
    for treatment in &trial.treatments {
        all.extend(given(treatment, readings, model, cells));
    }
    if readings.plots.is_empty() {
        all.extend(said("No plot is laid yet.", cells));
    }
    all
}

/// When it is read, and until when.
fn schedule(trial: &Trial) -> String {
    let reads: Vec<&str> = trial.reads.iter().map(|reading| crate::record::Term::text(*reading)).collect();
    let until = trial.until.map_or_else(String::new, |until| format!(" to {}", dates::short(until)));
    let ended = trial.ended_because.as_ref().map_or_else(String::new, |why| format!("; ended early: {why}"));
    format!("reads {} every {} days from {}{until}{ended}", reads.join(", "), trial.every(), dates::short(trial.from))
}

/// One bench: rows of plots, with what lies at either side.
fn map(bench: &str, plots: &[&Plot], trial: &Trial, model: &Model, cells: usize) -> Vec<Line<'static>> {
    let columns: BTreeMap<u32, usize> = numbered(plots.iter().map(|plot| plot.column));
    let rows: BTreeMap<u32, usize> = numbered(plots.iter().map(|plot| plot.row));
    let digits = plots.iter().map(|plot| plot.number().to_string().len()).max().unwrap_or(1);
    let text = |plot: &Plot| {
        let lost = is_lost(&model.season, plot, model.day);
        format!("{:>digits$} {}", plot.number(), if lost { "lost" } else { plot.treatment.as_str() })
    };
    let widest = plots.iter().map(|plot| usize::from(width(&text(plot)))).max().unwrap_or(0);
    let room = cells.saturating_sub(LEAD) / columns.len().max(1);
    let wide = room.clamp(widest.saturating_add(1).min(room), widest.saturating_add(3)).max(4);
    let near = trial.near_side.as_deref().unwrap_or_default();
    let far = trial.far_side.as_deref().unwrap_or_default();
    let room = wide.saturating_mul(columns.len()).saturating_sub(near.len()).saturating_sub(far.len());
    let name = Line::styled(format!("bench {bench}"), model.look.style(Role::Head));
    let sides = Line::raw(format!("{}{near}{}{far}", " ".repeat(LEAD), " ".repeat(room)).trim_end().to_owned());
    let mut all = vec![name];
    all.extend((!near.is_empty() || !far.is_empty()).then_some(sides));
    for (row, _) in rows {
        let at = |column: &u32| plots.iter().find(|plot| plot.row == row && plot.column == *column);
        let blocks: Vec<u32> = plots.iter().filter(|plot| plot.row == row).filter_map(|plot| plot.block).collect();
        let block = match blocks.as_slice() {
            [first, rest @ ..] if rest.iter().all(|block| block == first) => format!("  block {first}"),
            _ => String::new(),
        };
        let plots = columns.keys().map(|column| fit(&at(column).map(|plot| text(plot)).unwrap_or_default(), wide));
        let plots = format!("{:<LEAD$}{}", format!("row {row}"), plots.collect::<String>());
        let whole = format!("{plots}{block}");
        let text = if usize::from(width(&whole)) <= cells { whole } else { fit(&plots, cells) };
        all.push(Line::raw(text.trim_end().to_owned()));
    }
    all
}

fn numbered(all: impl Iterator<Item = u32>) -> BTreeMap<u32, usize> {
    let mut sorted: Vec<u32> = all.collect();
    sorted.sort_unstable();
    sorted.dedup();
    sorted.into_iter().zip(0..).collect()
}

/// A treatment with its plots, and since when it is given.
fn given(treatment: &str, readings: &Readings, model: &Model, cells: usize) -> Vec<Line<'static>> {
    let own: Vec<&Plot> = readings.plots.iter().filter(|plot| plot.treatment == treatment).collect();
    let numbers: Vec<String> = own.iter().map(|plot| plot.number().to_string()).collect();
    let missing = readings.not_given().into_iter().filter(|plot| plot.treatment == treatment).count();
    let days: Vec<NaiveDate> = own.iter().filter_map(|plot| day_given(plot, model)).collect();
    let state = match (days.iter().min(), missing) {
        (_, missing) if missing == own.len() && missing > 0 => "not yet logged as given".to_owned(),
        (Some(day), 0) => format!("given {}", dates::short(*day)),
        (Some(day), missing) => format!("given {}, {missing} not yet", dates::short(*day)),
        (None, _) => "nothing to give".to_owned(),
    };
    led("  ", &format!("{treatment}: plots {}; {state}", numbers.join(", ")), cells)
}

fn day_given(plot: &Plot, model: &Model) -> Option<NaiveDate> {
    let mut entries = model.season.plot_entries(&plot.plot, model.day);
    let given = entries.find(|entry| match &*entry.kind {
        Kind::Topdressed { .. } => true,
        Kind::Note {} => entry.note.as_ref().is_some_and(|note| note.starts_with(GIVEN)),
        _ => false,
    });
    given.map(crate::record::Entry::day)
}
