//! The layout of a trial on paper: a map for giving the treatments and one for reading, which names no treatment.
//!
//! The person who reads a plot is not to know its treatment: the map for reading holds numbers only, and not the question either.

mod drawn;

pub use drawn::html;

use super::grid::{Grid, Laid, runs};
use crate::dates;
use crate::record::Plot;
use crate::report::layout::{WIDTH, wrap};
use unicode_width::UnicodeWidthStr;

/// What a map is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Purpose {
    /// For giving the treatments.
    Giving,
    /// For reading the plots: numbers only.
    Reading,
}

/// The map for an 80-column printer.
pub fn text(laid: &Laid<'_>, purpose: Purpose) -> String {
    let mut out = String::new();
    for line in head(laid, purpose) {
        wrap(&mut out, "", &line);
    }
    for line in lines(laid, purpose, WIDTH) {
        out.push_str(&line);
        out.push('\n');
    }
    if purpose == Purpose::Giving {
        out.push('\n');
        for line in weigh_out(laid).into_iter().chain(blocks(laid)) {
            wrap(&mut out, "", &line);
        }
    }
    out
}

/// Title, how it was drawn, dates.
fn head(laid: &Laid<'_>, purpose: Purpose) -> Vec<String> {
    let trial = laid.trial;
    let (what, question) = match purpose {
        Purpose::Giving => ("map for giving the treatments", format!(": {}", trial.question)),
        Purpose::Reading => ("map for reading", String::new()),
    };
    let plots = laid.plots.len();
    vec![
        format!("Trial {}, {what}{question}", trial.trial),
        format!("lot {}, {plots} plots; {}", trial.lot, laid.drawn()),
        format!("printed for {}; first reading {}", dates::weekday(laid.on), dates::weekday(trial.from)),
    ]
}

/// The benches with their plots, in lines no wider than a window.
pub fn lines(laid: &Laid<'_>, purpose: Purpose, width: usize) -> Vec<String> {
    if laid.is_of_whole_benches() {
        return benches(laid, purpose);
    }
    let treatments = if purpose == Purpose::Giving { &laid.trial.treatments } else { &Vec::new() };
    let cell = treatments.iter().map(|t| t.width()).max().unwrap_or_default().saturating_add(6);
    let room = width.saturating_sub(14).checked_div(cell).unwrap_or_default().max(1);
    let mut out = Vec::new();
    for grid in laid.grids() {
        let columns: Vec<u32> = grid.columns.iter().copied().collect();
        for part in columns.chunks(room) {
            out.push(String::new());
            out.extend(of_bench(laid, &grid, (part, cell), purpose));
        }
    }
    if laid.trial.guard {
        out.push(format!("o guard pot, not read: {} in all", laid.guards()));
    }
    out
}

/// Whole benches as plots, a line each.
fn benches(laid: &Laid<'_>, purpose: Purpose) -> Vec<String> {
    let line = |plot: &&Plot| {
        let treatment = if purpose == Purpose::Giving { plot.treatment.as_str() } else { "" };
        format!("  plot {:>3}  {:<8}{treatment}", plot.number(), plot.bench).trim_end().to_owned()
    };
    std::iter::once(String::new()).chain(laid.plots.iter().map(line)).collect()
}

/// One bench, or a part of its columns where it is wide.
fn of_bench(laid: &Laid<'_>, grid: &Grid<'_>, (columns, cell): (&[u32], usize), purpose: Purpose) -> Vec<String> {
    let (near, far) = laid.sides();
    let first = columns.first() == grid.columns.first();
    let last = columns.last() == grid.columns.last();
    let inside = columns.len().saturating_mul(cell);
    let guard = |is: bool| if laid.trial.guard && is { "o" } else { " " };
    let (near, far) = (if first { near } else { "" }, if last { far } else { "" });
    let gap = (inside + 4).saturating_sub(near.width() + far.width()).max(2);
    let mut out = vec![format!("{:<9}{near}{}{far}", grid.bench, " ".repeat(gap)).trim_end().to_owned()];
    let named: Vec<String> = columns.iter().map(|column| padded(&format!("   {column}"), cell)).collect();
    out.push(format!("  column   {}", named.concat()).trim_end().to_owned());
    let edge = format!("         {}+{}+", guard(false), "-".repeat(inside));
    let ring = || {
        let pots: Vec<String> = columns.iter().map(|_| padded("   o", cell)).collect();
        format!("         {} {} {}", guard(first), pots.concat(), guard(last)).trim_end().to_owned()
    };
    out.extend(laid.trial.guard.then(ring));
    out.push(edge.clone());
    for row in &grid.rows {
        let plots: Vec<String> = columns
            .iter()
            .map(|column| {
                padded(&grid.plots.get(&(*row, *column)).map_or_else(String::new, |p| named_plot(p, purpose)), cell)
            })
            .collect();
        let line = format!("  row {row:<3}{}|{}|{}", guard(first), plots.concat(), guard(last));
        out.push(line.trim_end().to_owned());
    }
    out.push(edge);
    out.extend(laid.trial.guard.then(ring));
    out
}

/// A plot in its place: its number, and its treatment where that is given.
fn named_plot(plot: &Plot, purpose: Purpose) -> String {
    match purpose {
        Purpose::Giving => format!("{:>4} {}", plot.number(), plot.treatment),
        Purpose::Reading => format!("{:>4}", plot.number()),
    }
}

fn padded(text: &str, width: usize) -> String {
    format!("{text}{}", " ".repeat(width.saturating_sub(text.width())))
}

/// What each treatment needs: `12 g: plots 3, 7, 12, 6 pots, 72 g`.
pub fn weigh_out(laid: &Laid<'_>) -> Vec<String> {
    let trial = laid.trial;
    let of = |(at, treatment): (usize, &String)| {
        let own: Vec<&&Plot> = laid.plots.iter().filter(|plot| plot.treatment == *treatment).collect();
        let numbers: Vec<String> = own.iter().map(|plot| plot.number().to_string()).collect();
        let pots: u32 = own.iter().map(|plot| plot.pots).sum();
        let rate = trial.rates.as_ref().and_then(|rates| rates.get(at)).copied();
        let whole = rate.zip(amount_unit(trial.rate_unit.as_deref())).map(|(rate, unit)| {
            if rate > 0.0 {
                format!(", {} {unit}", number(rate * f64::from(pots)))
            } else {
                ", nothing to give".to_owned()
            }
        });
        format!("{treatment}: plots {}; {pots} pots{}", numbers.join(", "), whole.unwrap_or_default())
    };
    let mut all: Vec<String> = trial.treatments.iter().enumerate().map(of).collect();
    let guards = laid.guards();
    if guards > 0 {
        let as_what =
            trial.control.as_ref().map_or_else(|| "of the same lot".to_owned(), |c| format!("treated as {c}"));
        all.push(format!("guard pots (o): {guards}, {as_what}"));
    }
    all
}

/// The unit of an amount where the rate is for each pot: `g` of `g per pot`.
fn amount_unit(rate_unit: Option<&str>) -> Option<&str> {
    let unit = rate_unit?.trim();
    ["per pot", "a pot", "/pot"].iter().find_map(|ending| unit.strip_suffix(ending)).map(str::trim)
}

/// A number without more places than it needs, at most two.
fn number(value: f64) -> String {
    let text = format!("{value:.2}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// Which plots each block holds.
fn blocks(laid: &Laid<'_>) -> Option<String> {
    let mut all: Vec<u32> = laid.plots.iter().filter_map(|plot| plot.block).collect();
    all.sort_unstable();
    all.dedup();
    let of = |block: &u32| {
        let own: Vec<u32> =
            laid.plots.iter().filter(|plot| plot.block == Some(*block)).map(|plot| plot.number()).collect();
        format!("{block}: {}", runs(&own))
    };
    let said = all.iter().map(of).collect::<Vec<_>>().join("; ");
    (!said.is_empty()).then(|| format!("blocks and their plots: {said}"))
}

#[cfg(test)]
mod tests;
