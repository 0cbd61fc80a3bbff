//! Charts drawn as SVG: one self-contained picture with a text alternative, readable in gray and on paper.
//!
//! Meaning is carried by shape (solid, dashed, dotted, dots with whiskers, triangles) and by words; color is extra.

mod pen;
mod strip;

use super::chart::{Chart, Layer, Stroke, ticks};
use super::html::escape;
use crate::dates;
use chrono::{Days, NaiveDate};
use pen::Pen;

/// The picture's size in its own units; it scales to the page.
const WIDTH: f64 = 640.0;
const HEIGHT: f64 = 280.0;
const LEFT: f64 = 46.0;
const RIGHT: f64 = 12.0;
const TOP: f64 = 26.0;
const BOTTOM: f64 = 34.0;
/// Height of one line of the legend.
const LEGEND: f64 = 22.0;

struct Scale {
    first: NaiveDate,
    days: f64,
    low: f64,
    high: f64,
}

impl Scale {
    fn of(chart: &Chart) -> Self {
        let (a, b) = chart.days;
        let (first, last) = if a <= b { (a, b) } else { (b, a) };
        let days = ((last - first).num_days() as f64).max(1.0);
        let (low, high) = chart.range.filter(|(l, h)| l.is_finite() && h.is_finite()).unwrap_or_else(|| chart.extent());
        let (low, high) = if low <= high { (low, high) } else { (high, low) };
        // A flat range would have no scale.
        let pad = if high - low < 1e-9 { 1.0 } else { 0.0 };
        Self { first, days, low: low - pad, high: high + pad }
    }

    fn x(&self, day: NaiveDate) -> f64 {
        let share = ((day - self.first).num_days() as f64 / self.days).clamp(0.0, 1.0);
        share.mul_add(WIDTH - LEFT - RIGHT, LEFT)
    }

    fn y(&self, value: f64) -> f64 {
        let share = ((value - self.low) / (self.high - self.low)).clamp(0.0, 1.0);
        (1.0 - share).mul_add(HEIGHT - TOP - BOTTOM, TOP)
    }
}

/// The chart as one `<svg>` element, to stand in a figure whose caption and words say what it shows.
pub fn draw(chart: &Chart) -> String {
    let scale = Scale::of(chart);
    let strips = chart.layers.iter().filter(|layer| matches!(layer, Layer::Strip { .. })).count();
    let lines = chart.layers.len() - strips;
    // Strips stand between the days and the legend.
    let below = strip::HIGH.mul_add(strips as f64, HEIGHT);
    let height = LEGEND.mul_add(lines as f64, below);
    let mut out = format!(
        "<svg viewBox=\"0 0 {WIDTH} {height}\" role=\"img\" aria-label=\"{}\" class=\"chart\">\n",
        escape(&chart.title),
    );
    axes(chart, &scale, &mut out);
    let (mut bands, mut dots, mut marks, mut rows, mut line) = (0, 0, 0, 0, 0);
    for layer in &chart.layers {
        // The second readings, and the second things done, have a shape of their own.
        let nth = match layer {
            Layer::Dots { .. } => count(&mut dots),
            Layer::Marks { .. } => count(&mut marks),
            Layer::Band { .. } => count(&mut bands),
            Layer::Line { .. } => 0,
            Layer::Strip { name, points, full } => {
                let top = strip::HIGH.mul_add(count(&mut rows) as f64, HEIGHT);
                out.push_str(&strip::drawn((name, points, *full), &scale, top));
                continue;
            }
        };
        out.push_str(&drawn(layer, &scale, nth));
        legend(layer, LEGEND.mul_add(count(&mut line) as f64, below + 8.0), nth, &mut out);
    }
    out.push_str("</svg>\n");
    out
}

/// The first band of a chart is filled, the second only outlined, so that both can be seen where they cross.
const fn band(nth: usize) -> &'static str {
    if nth == 0 { "band" } else { "fan" }
}

fn count(so_far: &mut usize) -> usize {
    let now = *so_far;
    *so_far += 1;
    now
}

/// The signs of readings: disks, for the second readings of a chart open squares.
fn dots(points: impl Iterator<Item = (f64, f64)>, nth: usize) -> String {
    let mut pen = Pen::default();
    for (x, y) in points {
        if nth == 0 {
            // A line without length whose round ends make the disk.
            pen.shape((x, y), "h0");
        } else {
            pen.shape((x - 3.0, y - 3.0), "h6v6h-6z");
        }
    }
    pen.path(if nth == 0 { "dots" } else { "line" })
}

/// The signs of something done, standing on a height: triangles, for the second of a chart open rhombi.
fn marks(points: impl Iterator<Item = (f64, f64)>, nth: usize) -> String {
    let mut pen = Pen::default();
    for (x, y) in points {
        pen.shape((x, y - 10.0), if nth == 0 { "l5 9h-10z" } else { "l4 5-4 5-4-5z" });
    }
    pen.path(if nth == 0 { "mark" } else { "line" })
}

fn axes(chart: &Chart, scale: &Scale, out: &mut String) {
    let bottom = HEIGHT - BOTTOM;
    let right = WIDTH - RIGHT;
    let mut grid = Pen::default();
    for tick in ticks(scale.low, scale.high) {
        let y = scale.y(tick);
        grid.shape((LEFT, y), &format!("h{}", right - LEFT));
        grid.moved((right - LEFT, 0.0));
        out.push_str(&format!(
            "<text x=\"{:.0}\" y=\"{:.1}\" class=\"tick end\">{}</text>\n",
            LEFT - 5.0,
            y + 4.0,
            crate::units::plain((tick * 1e6).round() / 1e6)
        ));
    }
    out.push_str(&grid.path("grid"));
    let step = ((scale.days / 6.0 / 7.0).ceil() * 7.0).max(1.0);
    let mut at = 0.0;
    while at <= scale.days {
        // Whole days from a checked range.
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "between 0 and the length of the axis"
        )]
        let shown = scale.first.checked_add_days(Days::new(at as u64)).unwrap_or(scale.first);
        // The first and the last label stay inside the picture.
        let (x, anchor) = match scale.x(shown) {
            x if at == 0.0 => (x, ""),
            x if x > right - 24.0 => (WIDTH - 2.0, " end"),
            x => (x, " mid"),
        };
        out.push_str(&format!(
            "<text x=\"{:.1}\" y=\"{:.0}\" class=\"tick{anchor}\">{}</text>\n",
            x,
            bottom + 19.0,
            dates::short(shown)
        ));
        at += step;
    }
    out.push_str(&format!(
        "<path d=\"M{LEFT} {TOP}V{bottom}H{right}\" class=\"axis\"/><text x=\"{:.0}\" y=\"{:.0}\" class=\"tick\">{}</text>\n",
        LEFT,
        TOP - 9.0,
        escape(&chart.axis)
    ));
}

fn drawn(layer: &Layer, scale: &Scale, nth: usize) -> String {
    let mut pen = Pen::default();
    match layer {
        Layer::Band { points, .. } => {
            let good: Vec<_> = points.iter().filter(|p| p.1.is_finite() && p.2.is_finite()).collect();
            pen.curve(good.iter().map(|p| (scale.x(p.0), scale.y(p.2))));
            pen.curve(good.iter().rev().map(|p| (scale.x(p.0), scale.y(p.1))));
            pen.close();
            pen.path(band(nth))
        }
        Layer::Line { points, stroke, .. } => {
            pen.curve(points.iter().filter(|p| p.1.is_finite()).map(|p| (scale.x(p.0), scale.y(p.1))));
            pen.path(line(*stroke))
        }
        Layer::Dots { points, .. } => {
            let good = || points.iter().filter(|p| p.1.is_finite());
            for p in good() {
                let Some((low, high)) = p.2.filter(|(l, h)| l.is_finite() && h.is_finite()) else { continue };
                pen.upright((scale.x(p.0), scale.y(low)), scale.y(high));
            }
            pen.path("line") + &dots(good().map(|p| (scale.x(p.0), scale.y(p.1))), nth)
        }
        Layer::Marks { days, .. } => marks(days.iter().map(|d| (scale.x(*d), HEIGHT - BOTTOM)), nth),
        // Below the picture, on a scale of its own.
        Layer::Strip { .. } => String::new(),
    }
}

/// How a line is drawn: the classes of its path.
const fn line(stroke: Stroke) -> &'static str {
    match stroke {
        Stroke::Solid => "line",
        Stroke::Dashed => "line dashed",
        Stroke::Dotted => "line dotted",
        Stroke::LastYear => "line last",
    }
}

fn legend(layer: &Layer, y: f64, nth: usize, out: &mut String) {
    let x = LEFT;
    let one = |x: f64, y: f64| std::iter::once((x, y));
    let (name, sign) = match layer {
        Layer::Band { name, .. } => {
            (name, format!("<path d=\"M{x} {:.1}h24v8h-24z\" class=\"{}\"/>\n", y - 8.0, band(nth)))
        }
        Layer::Line { name, stroke, .. } => {
            (name, format!("<path d=\"M{x} {:.1}h24\" class=\"{}\"/>\n", y - 4.0, line(*stroke)))
        }
        Layer::Dots { name, .. } => (name, dots(one(x + 12.0, y - 4.0), nth)),
        Layer::Marks { name, .. } => (name, marks(one(x + 12.0, y + 1.0), nth)),
        // Its name stands above it.
        Layer::Strip { .. } => return,
    };
    out.push_str(&format!("{sign}<text x=\"{:.0}\" y=\"{y:.1}\" class=\"key\">{}</text>\n", x + 32.0, escape(name)));
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn day(n: u64) -> NaiveDate {
        NaiveDate::from_ymd_opt(2026, 8, 17).unwrap().checked_add_days(Days::new(n)).unwrap()
    }

    fn chart(points: &[(NaiveDate, f64)], range: Option<(f64, f64)>) -> Chart {
        Chart {
            title: "Height <E1>".into(),
            text: "Height over time".into(),
            days: (day(0), day(100)),
            axis: "cm".into(),
            range,
            layers: vec![
                Layer::Band {
                    name: "window".into(),
                    points: points.iter().map(|p| (p.0, p.1 - 1.0, p.1 + 1.0)).collect(),
                },
                Layer::Line { name: "curve".into(), points: points.to_vec(), stroke: Stroke::Dashed },
                Layer::Dots {
                    name: "readings".into(),
                    points: points.iter().map(|p| (p.0, p.1, Some((p.1, p.1)))).collect(),
                },
                Layer::Marks { name: "sprayed".into(), days: points.iter().map(|p| p.0).collect() },
                Layer::Strip { name: "difference".into(), points: points.to_vec(), full: 5.0 },
            ],
        }
    }

    #[test]
    fn no_one_and_equal_readings_are_drawn() {
        for points in [vec![], vec![(day(3), 20.0)], vec![(day(3), 20.0), (day(9), 20.0)]] {
            let svg = draw(&chart(&points, None));
            assert!(svg.starts_with("<svg") && svg.ends_with("</svg>\n") && !svg.contains("NaN"));
            assert!(svg.contains("aria-label=\"Height &lt;E1&gt;\""));
        }
    }

    proptest! {
        #[test]
        fn any_number_is_survived(values in proptest::collection::vec((0u64..200, any::<f64>()), 0..30), low in any::<f64>(), high in any::<f64>()) {
            let points: Vec<_> = values.into_iter().map(|(d, v)| (day(d), v)).collect();
            let svg = draw(&chart(&points, Some((low, high))));
            prop_assert!(!svg.contains("NaN") && !svg.contains("inf"), "{svg}");
            prop_assert!(svg.len() < 60_000);
        }
    }
}
