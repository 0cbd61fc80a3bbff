//! Trials: a plot has its own place, a layout that was read stays, an entry of a plot is made where the plot stands.

use super::SeasonFault;
use crate::dates;
use crate::record::{Entry, Kind, Line, Place, Plot, Trial};
use crate::season::Season;
use chrono::NaiveDate;

/// No two plots of a trial stand in one place.
pub(super) fn places(all: &Season, new: &[&Line]) -> Vec<SeasonFault> {
    let taken = |(index, line): (usize, &&Line)| {
        let Line::Plot(plot) = line else { return None };
        let now = all.plot(&plot.plot)?;
        let same = |other: &&Plot| {
            other.plot != now.plot && (&other.bench, other.row, other.column) == (&now.bench, now.row, now.column)
        };
        let plots = all.plots(&plot.trial);
        let other = plots.into_iter().find(same)?;
        let text = format!(
            "{} stands in row {}, column {} of {} already; give each plot its own place",
            other.plot, now.row, now.column, now.bench
        );
        Some(SeasonFault::new(index, "column", text))
    };
    new.iter().enumerate().filter_map(taken).collect()
}

/// After the first reading the layout stays as it is.
pub(super) fn kept(kept: &Season, index: usize, line: &Line) -> Option<SeasonFault> {
    let (trial, field, what) = match line {
        Line::Trial(new) => (new.trial.as_str(), changed_trial(kept.trial(&new.trial)?, new)?, "changed"),
        Line::Plot(new) => {
            let (field, what) = match kept.plot(&new.plot) {
                Some(old) => (changed_plot(old, new)?, "changed"),
                None => ("plot", "added"),
            };
            (new.trial.as_str(), field, what)
        }
        _ => return None,
    };
    let (first, is_reading) = first_entry(kept, trial)?;
    let entries = if is_reading { "readings" } else { "entries" };
    let since = dates::short(first);
    let text = format!("cannot be {what}: {trial} has {entries} since {since}; a new layout is a new trial");
    Some(SeasonFault::new(index, field, text))
}

fn changed_trial(old: &Trial, new: &Trial) -> Option<&'static str> {
    let changes = [
        ("treatments", old.treatments != new.treatments),
        ("rates", old.rates != new.rates),
        ("design", old.design != new.design),
        ("seed", old.seed != new.seed),
        ("lot", old.lot != new.lot),
    ];
    changes.into_iter().find_map(|(field, changed)| changed.then_some(field))
}

fn changed_plot(old: &Plot, new: &Plot) -> Option<&'static str> {
    let changes = [
        ("trial", old.trial != new.trial),
        ("treatment", old.treatment != new.treatment),
        ("block", old.block != new.block),
    ];
    changes.into_iter().find_map(|(field, changed)| changed.then_some(field))
}

/// The day of a trial's first entry of a plot that was not struck out, and whether anything was read of a plot on any day.
fn first_entry(season: &Season, trial: &str) -> Option<(NaiveDate, bool)> {
    let plots = season.plots(trial);
    let all = plots.iter().flat_map(|plot| season.plot_entries(&plot.plot, NaiveDate::MAX));
    let entries: Vec<&Entry> = all.filter(|entry| !matches!(*entry.kind, Kind::Strike { .. })).collect();
    let read: Vec<&Entry> = entries.iter().copied().filter(|entry| entry.name().is_finding()).collect();
    let counts = if read.is_empty() { &entries } else { &read };
    let first = counts.iter().map(|entry| entry.day()).min()?;
    Some((first, !read.is_empty()))
}

/// An entry of a plot is made on the bench where the plot stood that day.
pub(super) fn of_plot(all: &Season, index: usize, entry: &Entry) -> Option<SeasonFault> {
    let code = entry.plot.as_ref()?;
    let on = all.on(entry.day());
    let Some(plot) = on.plot(code) else {
        let text = format!("\"{code}\" is not a plot of this season; add its plot line, or omit the field");
        return Some(SeasonFault::new(index, "plot", text));
    };
    let bench = match &entry.place {
        Place::Bench(bench) => bench,
        Place::House(_) | Place::Lot(_) => return None,
    };
    let text = format!("is {bench}, and {code} stood on {} that day; give that bench", plot.bench);
    (**bench != *plot.bench).then(|| SeasonFault::new(index, "bench", text))
}
