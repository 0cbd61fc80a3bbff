//! The parts beside the means: the response to rates, the position, the checks; each with its drawing.

use super::dots::Dots;
use super::means::head;
use super::{led, said};
use crate::model::Model;
use crate::report::trial::Words;
use crate::report::trial::words::chance;
use crate::trials::{Analysis, Contrast};
use crate::ui::Role;
use crate::units::plain;
use ratatui::text::Line;

/// Plots over which the moving mean runs.
const MOVING: usize = 5;

/// The response to rates: what is said of it, and the plots with their means over the rates.
pub(super) fn response(words: &Words<'_>, model: &Model, (cells, rows): (usize, usize)) -> Vec<Line<'static>> {
    let mut all = head(words, cells);
    all.push(Line::default());
    let Some(rates) = words.found.trial().rates.clone() else {
        all.extend(said("The treatments are not rates of one thing: there is no response to draw.", cells));
        return all;
    };
    if let Some(refused) = words.refused() {
        all.extend(said(&refused, cells));
    }
    all.extend(words.response().iter().flat_map(|text| said(text, cells)));
    if let Some(response) = words.found.judged().and_then(|analysis| analysis.response.as_ref()) {
        let one = |name: &str, of: Option<Contrast>| of.map(|of| format!("{name} {}", chance(of.p)));
        let contrasts = [
            one("straight line", Some(response.linear)),
            one("bend", response.quadratic),
            one("beyond both", response.more),
        ];
        all.extend(said(
            &format!("Chances: {}.", contrasts.into_iter().flatten().collect::<Vec<_>>().join(", ")),
            cells,
        ));
    }
    all.push(Line::default());
    let mut points: Vec<(f64, f64, char)> = Vec::new();
    for plot in words.found.data.iter().flat_map(|data| &data.plots) {
        points.extend(rates.get(plot.treatment).zip(plot.value).map(|(rate, value)| (*rate, value, '.')));
    }
    let means = words.found.mean_rows();
    points.extend(rates.iter().zip(&means).filter_map(|(rate, row)| Some((*rate, row.mean?, 'o'))));
    let unit = words.found.trial().rate_unit.clone().unwrap_or_default();
    let up = |value: f64| words.scale.number(value);
    let drawn = Dots { points: &points, up: &up, along: &|rate| plain(rate), name: &unit };
    all.extend(drawing(&drawn, "o mean   . plot", model, (cells, rows.saturating_sub(all.len()))));
    all
}

/// The position: its share, what of it is left over, and what is left of each plot along the bench.
pub(super) fn position(words: &Words<'_>, model: &Model, (cells, rows): (usize, usize)) -> Vec<Line<'static>> {
    let mut all = head(words, cells);
    all.push(Line::default());
    if let Some(refused) = words.refused() {
        all.extend(said(&refused, cells));
    }
    let left = words.found.judged().and_then(|analysis| analysis.checks.left_over.as_ref());
    let none = left.filter(|left| left.p >= words.found.rules.alpha);
    let none = none.map(|left| format!("No gradient is left over along the bench ({}).", chance(left.p)));
    all.extend([words.shares(), words.efficiency(), none].into_iter().flatten().flat_map(|text| said(&text, cells)));
    if let Some((text, others)) = words.left_over() {
        all.extend(said(&text, cells));
        all.extend(others.iter().flat_map(|other| led("  ", other, cells)));
    }
    all.push(Line::default());
    let Some(analysis) = analysis(words) else { return all };
    let residuals = analysis.residuals();
    let along = |number: u32| f64::from(number);
    let mut points: Vec<(f64, f64, char)> =
        residuals.iter().map(|(number, left)| (along(*number), *left, '.')).collect();
    for window in residuals.windows(MOVING) {
        let sum: f64 = window.iter().map(|(_, left)| left).sum();
        let middle = window.get(MOVING / 2).map(|(number, _)| along(*number));
        points.extend(middle.map(|middle| (middle, sum / window.len() as f64, 'o')));
    }
    let up = |value: f64| words.scale.number(value);
    let drawn =
        Dots { points: &points, up: &up, along: &|number| format!("plot {number:.0}"), name: "in walking order" };
    let legend = "what is left of each plot:  . plot   o mean of 5 in a row";
    all.extend(drawing(&drawn, legend, model, (cells, rows.saturating_sub(all.len()))));
    all
}

/// The checks one by one, and what is left of each plot over what was expected of it.
pub(super) fn checks(words: &Words<'_>, model: &Model, (cells, rows): (usize, usize)) -> Vec<Line<'static>> {
    let mut all = head(words, cells);
    all.push(Line::default());
    if let Some(refused) = words.refused() {
        all.extend(said(&refused, cells));
    }
    for check in words.checks() {
        let says = check.says.unwrap_or_else(|| format!("nothing speaks ({})", chance(check.p)));
        all.extend(led(&format!("{:<20} ", check.name), &says, cells));
    }
    all.extend(words.without_odd().iter().flat_map(|text| said(text, cells)));
    all.push(Line::default());
    let Some(analysis) = analysis(words) else { return all };
    let values = analysis.data().plots.iter().filter_map(|plot| plot.value);
    let points: Vec<(f64, f64, char)> =
        analysis.residuals().iter().zip(values).map(|((_, left), value)| (value - left, *left, '.')).collect();
    let number = |value: f64| words.scale.number(value);
    let drawn = Dots { points: &points, up: &number, along: &number, name: "expected" };
    let legend = "what is left of each plot, over what was expected of it";
    all.extend(drawing(&drawn, legend, model, (cells, rows.saturating_sub(all.len()))));
    all
}

fn analysis<'a>(words: &Words<'a>) -> Option<&'a Analysis> {
    words.found.analysis.as_ref().ok()
}

/// A drawing under its legend; in a low window it has its usual height, to be scrolled to.
fn drawing(drawn: &Dots<'_>, legend: &str, model: &Model, (cells, rows): (usize, usize)) -> Vec<Line<'static>> {
    let drawn = drawn.rows(cells, rows.saturating_sub(1).max(10));
    if drawn.is_empty() {
        return Vec::new();
    }
    let legend = Line::styled(legend.to_owned(), model.look.style(Role::Label));
    std::iter::once(legend).chain(drawn.into_iter().map(Line::raw)).collect()
}
