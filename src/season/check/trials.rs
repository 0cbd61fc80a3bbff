//! Trials: a plot has its own place, a layout that was read stays, an entry of a plot is made where the plot stands.

use super::SeasonFault;
use crate::dates;
use crate::record::{Entry, Line, Place, Plot, Trial};
use crate::season::Season;
use chrono::NaiveDate;

/// No two plots of a trial stand in one place.
pub(super) fn places(all: &Season, new: &[Line]) -> Vec<SeasonFault> {
    let taken = |(index, line): (usize, &Line)| {
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
    let (trial, field) = match line {
        Line::Trial(new) => (new.trial.as_str(), changed_trial(kept.trial(&new.trial)?, new)?),
        Line::Plot(new) => {
            let field = match kept.plot(&new.plot) {
                Some(old) => changed_plot(old, new)?,
                None => "plot",
            };
            (new.trial.as_str(), field)
        }
        _ => return None,
    };
    let first = first_reading(kept, trial)?;
    let text =
        format!("cannot change: {trial} has readings since {}; a new layout is a new trial", dates::short(first));
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

/// The day of a trial's first entry of a plot that was not struck out.
fn first_reading(season: &Season, trial: &str) -> Option<NaiveDate> {
    let plots = season.plots(trial);
    plots.iter().filter_map(|plot| season.plot_entries(&plot.plot, NaiveDate::MAX).next()).map(Entry::day).min()
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
    (*bench != plot.bench).then(|| SeasonFault::new(index, "bench", text))
}
