//! Charts of a trial drawn as SVG over an axis of numbers: means with their intervals among the plots, what the design left along the
//! bench, means by rate.

use super::Words;
use crate::report::chart::ticks;
use crate::report::html::escape;
use crate::units::plain;

const WIDTH: f64 = 640.0;
const RIGHT: f64 = 14.0;
const TOP: f64 = 12.0;
/// Height of the axis below the picture.
const BOTTOM: f64 = 40.0;
/// Height of a treatment's row.
const ROW: f64 = 34.0;
/// Width of the treatments' names.
const NAMES: f64 = 150.0;
/// Left of an axis of numbers.
const LEFT: f64 = 46.0;
const HEIGHT: f64 = 240.0;
/// Plots a moving mean is taken over.
const MOVING: usize = 5;

/// An axis of numbers from one place of the picture to another.
#[derive(Clone, Copy)]
struct Axis {
    low: f64,
    high: f64,
    from: f64,
    to: f64,
}

impl Axis {
    /// An axis that holds all values, with a margin.
    fn of(values: &[f64], (from, to): (f64, f64)) -> Self {
        let good = values.iter().copied().filter(|value| value.is_finite());
        let (low, high) = good.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), v| (l.min(v), h.max(v)));
        let (low, high) = if low <= high { (low, high) } else { (0.0, 1.0) };
        let room = if high - low < 1e-9 { 1.0 } else { (high - low) * 0.06 };
        Self { low: low - room, high: high + room, from, to }
    }

    fn at(&self, value: f64) -> f64 {
        let share = ((value - self.low) / (self.high - self.low)).clamp(0.0, 1.0);
        share.mul_add(self.to - self.from, self.from)
    }

    fn ticks(&self) -> Vec<(f64, String)> {
        let label = |tick: f64| plain((tick * 1e6).round() / 1e6);
        ticks(self.low, self.high).into_iter().map(|tick| (self.at(tick), label(tick))).collect()
    }
}

/// The opening of a picture with what it shows in words.
fn open(height: f64, title: &str, text: &str) -> String {
    let (title, text) = (escape(title), escape(text));
    format!(
        "<svg viewBox=\"0 0 {WIDTH} {height}\" role=\"img\" aria-label=\"{title}\" class=\"chart\"><title>{title}</title><desc>{text}</desc>\n"
    )
}

/// The axis below, with its name.
fn below(x: &Axis, (top, bottom): (f64, f64), name: &str) -> String {
    let mut out = String::new();
    for (at, label) in x.ticks() {
        out.push_str(&format!(
            "<path d=\"M{at:.1} {top:.1}V{bottom:.1}\" class=\"grid\"/><text x=\"{at:.1}\" y=\"{:.1}\" class=\"tick\" text-anchor=\"middle\">{label}</text>\n",
            bottom + 15.0
        ));
    }
    out.push_str(&format!(
        "<path d=\"M{:.1} {bottom:.1}H{:.1}\" class=\"axis\"/><text x=\"{:.1}\" y=\"{:.1}\" class=\"tick\" text-anchor=\"end\">{}</text>\n",
        x.from,
        x.to,
        x.to,
        bottom + 32.0,
        escape(name)
    ));
    out
}

/// The axis at the left, with its name above it.
fn beside(y: &Axis, (left, right): (f64, f64), name: &str) -> String {
    let mut out = String::new();
    for (at, label) in y.ticks() {
        out.push_str(&format!(
            "<path d=\"M{left} {at:.1}H{right}\" class=\"grid\"/><text x=\"{:.0}\" y=\"{:.1}\" class=\"tick\" text-anchor=\"end\">{label}</text>\n",
            left - 5.0,
            at + 4.0
        ));
    }
    out.push_str(&format!(
        "<path d=\"M{left} {:.1}V{:.1}\" class=\"axis\"/><text x=\"{left}\" y=\"{:.1}\" class=\"tick\">{}</text>\n",
        y.to,
        y.from,
        y.to - 8.0,
        escape(name)
    ));
    out
}

/// The treatments, a row each: every plot an open circle, the mean a disk on its interval.
pub(super) fn dots(words: &Words<'_>) -> String {
    let rows = words.found.mean_rows();
    let scale = &words.scale;
    let plots: Vec<(usize, f64)> =
        words.found.data.iter().flat_map(|data| &data.plots).filter_map(|p| Some((p.treatment, p.value?))).collect();
    let of_rows =
        rows.iter().flat_map(|row| [row.mean, row.interval.map(|i| i.0), row.interval.map(|i| i.1)]).flatten();
    let all: Vec<f64> = plots.iter().map(|(_, value)| *value).chain(of_rows).map(|value| scale.value(value)).collect();
    let x = Axis::of(&all, (NAMES, WIDTH - RIGHT));
    let bottom = ROW.mul_add(rows.len() as f64, TOP);
    let title = format!("{} by treatment", words.shown());
    let mut out = open(
        bottom + BOTTOM,
        &title,
        "The table below says the same: the mean of each treatment and its interval. Circles are plots.",
    );
    out.push_str(&below(&x, (TOP, bottom), &scale.head()));
    for (at, row) in rows.iter().enumerate() {
        let y = ROW.mul_add(at as f64, TOP + ROW / 2.0);
        out.push_str(&format!("<text x=\"0\" y=\"{:.1}\">{}</text>\n", y + 4.0, escape(&row.treatment)));
        for (_, value) in plots.iter().filter(|(treatment, _)| *treatment == at) {
            out.push_str(&format!(
                "<circle cx=\"{:.1}\" cy=\"{:.1}\" r=\"3\" class=\"open\"/>\n",
                x.at(scale.value(*value)),
                y + 8.0
            ));
        }
        if let Some((low, high)) = row.interval {
            let (low, high) = (x.at(scale.value(low)), x.at(scale.value(high)));
            out.push_str(&format!(
                "<path d=\"M{low:.1} {:.1}v8M{low:.1} {:.1}H{high:.1}M{high:.1} {:.1}v8\" class=\"line solid\"/>\n",
                y - 10.0,
                y - 6.0,
                y - 10.0
            ));
        }
        if let Some(mean) = row.mean {
            out.push_str(&format!(
                "<circle cx=\"{:.1}\" cy=\"{:.1}\" r=\"4.5\" class=\"dot\"/>\n",
                x.at(scale.value(mean)),
                y - 6.0
            ));
        }
    }
    out + "</svg>\n"
}

/// What design and treatment leave of each plot, in walking order along the bench, with a moving mean of five: a slope or a wave in it is
/// position that is left over. `None` where nothing is separated.
pub(super) fn along(words: &Words<'_>) -> Option<String> {
    let residuals = words.found.judged()?.residuals();
    let scale = &words.scale;
    let points: Vec<(f64, f64)> =
        residuals.iter().map(|(number, value)| (f64::from(*number), scale.value(*value))).collect();
    let values: Vec<f64> = points.iter().map(|point| point.1).collect();
    let (x, y) = picture(&points.iter().map(|point| point.0).collect::<Vec<_>>(), &values);
    let mut out = open(
        HEIGHT,
        "What is left of each plot along the bench",
        "Dots are plots, the line is the mean of five plots side by side. Without position left over it keeps near 0.",
    );
    out.push_str(&beside(&y, (LEFT, WIDTH - RIGHT), &format!("above or below its fit{}", unit(words))));
    out.push_str(&below(&x, (HEIGHT - BOTTOM, HEIGHT - BOTTOM), "plot, in walking order"));
    out.push_str(&format!("<path d=\"M{LEFT} {:.1}H{}\" class=\"line dashed\"/>\n", y.at(0.0), WIDTH - RIGHT));
    for point in &points {
        out.push_str(&format!(
            "<circle cx=\"{:.1}\" cy=\"{:.1}\" r=\"3.5\" class=\"dot\"/>\n",
            x.at(point.0),
            y.at(point.1)
        ));
    }
    let mean = |window: &[(f64, f64)]| {
        let count = window.len().max(1) as f64;
        let sum = window.iter().fold((0.0, 0.0), |sum, point| (sum.0 + point.0, sum.1 + point.1));
        (x.at(sum.0 / count), y.at(sum.1 / count))
    };
    out.push_str(&line(points.windows(MOVING).map(mean)));
    Some(out + "</svg>\n")
}

/// The means over the rates with their intervals, and the line that ends in a plateau where one may be said. `None` without rates, or where
/// nothing is separated.
pub(super) fn by_rate(words: &Words<'_>) -> Option<String> {
    let analysis = words.found.judged()?;
    let (rates, scale) = (analysis.data().rates.as_ref()?, &words.scale);
    let rows = words.found.mean_rows();
    let values: Vec<f64> = rows
        .iter()
        .flat_map(|row| [row.mean, row.interval.map(|i| i.0), row.interval.map(|i| i.1)])
        .flatten()
        .map(|value| scale.value(value))
        .collect();
    let (x, y) = picture(rates, &values);
    let mut out = open(HEIGHT, &format!("{} by rate", scale.name), "The means of the table over their rates.");
    out.push_str(&beside(&y, (LEFT, WIDTH - RIGHT), &scale.head()));
    let unit = words.found.trial().rate_unit.clone().unwrap_or_default();
    out.push_str(&below(&x, (HEIGHT - BOTTOM, HEIGHT - BOTTOM), &unit));
    let means: Vec<(f64, f64)> =
        rates.iter().zip(&rows).filter_map(|(rate, row)| Some((x.at(*rate), y.at(scale.value(row.mean?))))).collect();
    for (rate, row) in rates.iter().zip(&rows) {
        if let Some((low, high)) = row.interval {
            let (at, low, high) = (x.at(*rate), y.at(scale.value(low)), y.at(scale.value(high)));
            out.push_str(&format!("<path d=\"M{at:.1} {low:.1}V{high:.1}\" class=\"line solid\"/>\n"));
        }
    }
    for (at, mean) in &means {
        out.push_str(&format!("<circle cx=\"{at:.1}\" cy=\"{mean:.1}\" r=\"4.5\" class=\"dot\"/>\n"));
    }
    out.push_str(&line(means.into_iter()).replace("solid", "dotted"));
    Some(out + "</svg>\n")
}

/// Both axes of a picture.
fn picture(xs: &[f64], ys: &[f64]) -> (Axis, Axis) {
    (Axis::of(xs, (LEFT, WIDTH - RIGHT)), Axis::of(ys, (HEIGHT - BOTTOM, TOP + 16.0)))
}

fn line(points: impl Iterator<Item = (f64, f64)>) -> String {
    let path = points
        .enumerate()
        .fold(String::new(), |out, (at, (x, y))| format!("{out}{}{x:.1} {y:.1}", if at == 0 { "M" } else { "L" }));
    if path.is_empty() { path } else { format!("<path d=\"{path}\" class=\"line solid\"/>\n") }
}

fn unit(words: &Words<'_>) -> String {
    match words.scale.unit {
        "" => String::new(),
        unit => format!(" ({unit})"),
    }
}
