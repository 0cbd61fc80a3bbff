//! A chart in an area: axis with its ticks, what is drawn, the marks on the axis, the days, the legend.

use super::axes::{axis, days, legend, ticks};
use super::grid::Grid;
use super::scale::Cells;
use super::{BANDS, Dash, Ink, Plot, READINGS, Reading, role, strip, stroke};
use crate::input::Look;
use crate::ui::{Role, fit, put, rows, width};
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};

/// The least room for the picture itself.
const LEAST: (u16, u16) = (10, 3);
/// The most rows of the legend.
const LEGEND: usize = 3;

/// Draws a chart. Where there is no room it says so.
pub fn plot(frame: &mut Frame<'_>, area: Rect, plot: &Plot, look: Look) {
    let legend = legend(plot, (usize::from(area.width), LEGEND), look);
    let below = u16::try_from(legend.len()).unwrap_or(0).saturating_add(2).saturating_add(strip::rows(plot));
    let left = margin(plot);
    let (wide, high) = (area.width.saturating_sub(left), area.height.saturating_sub(below));
    if wide < LEAST.0 || high < LEAST.1 {
        put(frame, area, 0, Line::raw(fit("No room for a chart.", usize::from(area.width))));
        return;
    }
    let (body, foot) = rows(area, high.saturating_add(1).saturating_add(strip::rows(plot)));
    let to = picture(frame, body, (plot, left), look);
    put(frame, foot, 0, Span::styled(days(plot, &to, (left, wide)), look.style(Role::Dim)));
    for (row, line) in legend.into_iter().enumerate() {
        put(frame, foot, row.saturating_add(1), line);
    }
}

/// Cells left of the picture: the labels of the ticks and the axis.
pub(super) fn margin(plot: &Plot) -> u16 {
    plot.ticks.iter().map(|t| width(&t.1)).max().unwrap_or(0).min(9).saturating_add(2)
}

/// Draws the picture with the labels of its ticks, the horizontal axis below it and the strips in the last rows; gives the scales.
pub(super) fn picture(frame: &mut Frame<'_>, area: Rect, (plot, left): (&Plot, u16), look: Look) -> Cells {
    let (wide, high) =
        (area.width.saturating_sub(left), area.height.saturating_sub(strip::rows(plot).saturating_add(1)));
    let mut grid = Grid::new(wide, high, look.ascii);
    let to = Cells::new(plot.across, plot.upright, grid.fine());
    draw(&mut grid, plot, &to);
    let labels = ticks(plot, &to, high);
    for (row, line) in grid.lines(look).into_iter().enumerate() {
        let label = labels.iter().find(|(at, _)| *at == row).map(|(_, text)| text.as_str()).unwrap_or_default();
        let lead = format!("{label:>0$} {1}", usize::from(left.saturating_sub(2)), look.glyphs().upright);
        let mut spans = vec![Span::styled(lead, look.style(Role::Dim))];
        spans.extend(line.spans);
        put(frame, area, row, Line::from(spans));
    }
    put(frame, area, usize::from(high), axis(plot, &to, (left, wide), look));
    for (n, line) in strip::lines(plot, &to, (left, wide), look).into_iter().enumerate() {
        put(frame, area, usize::from(high).saturating_add(n).saturating_add(1), line);
    }
    to
}

/// Draws the layers of a chart, without axes.
pub(super) fn draw(grid: &mut Grid, plot: &Plot, to: &Cells) {
    let mut bands = 0_usize;
    for ink in &plot.inks {
        match ink {
            Ink::Band(_, points) => {
                band(grid, points, bands, to);
                bands = bands.saturating_add(1);
            }
            Ink::Line(_, points, dash) => line(grid, points, *dash, to),
            Ink::Dots(..) | Ink::Water(..) | Ink::Marks(..) | Ink::Strip(..) => {}
        }
    }
    if let Some(x) = plot.here.filter(|h| to.holds_across(*h)).and_then(|h| to.x(h)) {
        for y in (0..to.fine().1).step_by(2) {
            grid.dot(x, y, '|', Role::Dim);
        }
    }
    let readings: Vec<_> = plot.inks.iter().filter_map(readings).collect();
    // The first readings lie on top: they are what the chart is about.
    for (n, (points, shown)) in readings.into_iter().enumerate().rev() {
        dots(grid, points, (n, shown), to);
    }
}

/// How readings are shown.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Shown {
    Sign,
    Digit,
    Water,
}

fn readings(ink: &Ink) -> Option<(&[Reading], Shown)> {
    match ink {
        Ink::Dots(_, points, true) => Some((points, Shown::Digit)),
        Ink::Dots(_, points, false) => Some((points, Shown::Sign)),
        Ink::Water(_, points) => Some((points, Shown::Water)),
        Ink::Band(..) | Ink::Line(..) | Ink::Marks(..) | Ink::Strip(..) => None,
    }
}

/// A few dots, so that curves stay readable through it; bands after the first are hatched.
fn band(grid: &mut Grid, points: &[(f64, f64, f64)], nth: usize, to: &Cells) {
    let sign = BANDS.get(nth.min(1)).copied().unwrap_or(':');
    let edges: Vec<(i32, i32, i32)> =
        points.iter().filter_map(|p| Some((to.x(p.0)?, to.y(p.2)?, to.y(p.1)?))).collect();
    for pair in edges.windows(2) {
        let &[(x0, top0, low0), (x1, top1, low1)] = pair else { continue };
        let (first, last) = (x0.min(x1).max(0), x0.max(x1).min(to.fine().0));
        for x in first..=last {
            let between = |a: i32, b: i32| {
                let gone = i64::from(x.saturating_sub(x0));
                let all = i64::from(x1.saturating_sub(x0));
                if all == 0 {
                    a
                } else {
                    a.saturating_add(i32::try_from(i64::from(b.saturating_sub(a)) * gone / all).unwrap_or(0))
                }
            };
            let (top, low) = (between(top0, top1), between(low0, low1));
            for y in top.min(low).max(0)..=top.max(low).min(to.fine().1) {
                let filled = if nth == 0 { matches!((x % 4, y % 4), (0, 0) | (2, 2)) } else { x % 4 == 2 };
                if filled {
                    grid.dot(x, y, sign, Role::Watch);
                }
            }
        }
    }
}

fn line(grid: &mut Grid, points: &[(f64, f64)], dash: Dash, to: &Cells) {
    let places: Vec<(i32, i32)> = points.iter().filter_map(|p| Some((to.x(p.0)?, to.y(p.1)?))).collect();
    if let &[(x, y)] = places.as_slice() {
        grid.dot(x, y, stroke(dash), role(dash));
    }
    for pair in places.windows(2) {
        let &[(x0, y0), (x1, y1)] = pair else { continue };
        let steps = x0.abs_diff(x1).max(y0.abs_diff(y1)).max(1);
        for step in 0..=steps {
            let along = f64::from(step) / f64::from(steps);
            let (x, y) = (between(x0, x1, along), between(y0, y1, along));
            // Dashes by the place across, so that they stay dashes whatever the points lie apart.
            let shown = match dash {
                Dash::Solid => true,
                Dash::Dashed => x.rem_euclid(6) < 4,
                Dash::Dotted => x.rem_euclid(2) == 0,
                Dash::DashDot => matches!(x.rem_euclid(8), 0..=3 | 6),
            };
            if shown {
                grid.dot(x, y, stroke(dash), role(dash));
            }
        }
    }
}

#[expect(clippy::cast_possible_truncation, reason = "between two whole numbers")]
fn between(a: i32, b: i32, along: f64) -> i32 {
    along.mul_add(f64::from(b) - f64::from(a), f64::from(a)).round() as i32
}

fn dots(grid: &mut Grid, points: &[Reading], (n, shown): (usize, Shown), to: &Cells) {
    let sign = READINGS.get(n).copied().unwrap_or('o');
    for (at, value, spread) in points {
        let (Some(x), Some(y)) = (to.x(*at), to.y(*value)) else { continue };
        if !(0..to.fine().0).contains(&x) {
            continue;
        }
        if let Some((low, high)) = spread.and_then(|(l, h)| Some((to.y(l)?, to.y(h)?))) {
            for y in high.min(low).max(0)..=high.max(low).min(to.fine().1) {
                grid.sign(x, y, '|', Role::Title);
            }
        }
        // What lies outside the scale is shown at its edge.
        let y = y.clamp(0, to.fine().1.saturating_sub(1));
        match (shown, digit(*value)) {
            (Shown::Water, Some(level)) if n == 0 => grid.water(x, y, level),
            (Shown::Digit, Some(level)) if n == 0 => {
                grid.sign(x, y, char::from(b'0'.saturating_add(level)), Role::Title);
            }
            _ => grid.sign(x, y, sign, Role::Title),
        }
    }
}

/// A score as its digit; `None` for what is none.
fn digit(value: f64) -> Option<u8> {
    (0..=9_u8).find(|d| (f64::from(*d) - value).abs() < 0.5)
}
