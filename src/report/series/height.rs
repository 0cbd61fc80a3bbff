//! Height against its window: both curves, readings with their spread, the fan to the sale, growth regulators; below it DIF day by
//! day, where a logger gives it.

use super::{ChartInput, Topic, climate};
use crate::crop::height::{Projection, Sample, Target};
use crate::dates;
use crate::record::{Entry, Kind, KindName};
use crate::report::chart::{Chart, Layer, Reading, Stroke};
use crate::units::{Length, Quantity};
use crate::warnings::Heights;
use chrono::NaiveDate;

pub(super) fn chart(input: &ChartInput<'_>) -> Chart {
    let shown = |cm: f64| Length::from_cm(cm).in_system(input.system);
    let confidence = input.limits.growth.height_confidence;
    let heights = input.shown.as_ref().and_then(|s| s.heights.as_ref());
    let readings = readings(input, confidence / 100.0, &shown);
    let days_of = |kind| -> Vec<NaiveDate> {
        let mut days: Vec<_> = input.shown.iter().flat_map(|s| s.of(kind)).map(Entry::day).collect();
        days.dedup();
        days
    };
    let text = text(input, heights, readings.last());
    let mut layers = Vec::new();
    if let Some(heights) = heights {
        window(heights, &shown, &mut layers);
        if let Some(projection) = &heights.projection {
            fan(&heights.target, projection, confidence, &shown, &mut layers);
        }
    }
    layers.push(Layer::Dots { name: format!("measured mean, {}% interval", confidence.round()), points: readings });
    layers.push(Layer::Marks { name: "growth regulator".to_owned(), days: days_of(KindName::GrowthRegulator) });
    layers.push(Layer::Marks { name: "pinched".to_owned(), days: days_of(KindName::Pinched) });
    layers.extend(climate::dif(input));
    input.chart(Topic::Height, (Length::unit_name(input.system), None), text, layers)
}

/// Means with the interval in which the mean of all plants lies.
fn readings(input: &ChartInput<'_>, confidence: f64, shown: &impl Fn(f64) -> f64) -> Vec<Reading> {
    let entries = input.shown.iter().flat_map(|s| s.of(KindName::Height));
    let reading = |e: &Entry| {
        let Kind::Height { cm } = &*e.kind else { return None };
        let sample = Sample::of(cm)?;
        let spread = sample.interval(confidence).map(|i| (shown(i.low), shown(i.high)));
        Some((e.day(), shown(sample.mean), spread))
    };
    entries.filter_map(reading).collect()
}

/// The two curves day by day; a side the plan leaves open is not drawn.
fn window(heights: &Heights, shown: &impl Fn(f64) -> f64, layers: &mut Vec<Layer>) {
    let target = &heights.target;
    let days = || target.start().iter_days().take_while(|d| *d <= target.finish()).take(400);
    let curve = |pick: fn(crate::crop::height::Window) -> f64| -> Vec<(NaiveDate, f64)> {
        days().map(|d| (d, shown(pick(target.window(d))))).collect()
    };
    match heights.sides {
        (true, true) => {
            let points = days().map(|d| (d, target.window(d))).map(|(d, w)| (d, shown(w.low_cm), shown(w.high_cm)));
            layers.push(Layer::Band { name: "window".to_owned(), points: points.collect() });
        }
        (false, false) => return,
        _ => {}
    }
    let mut side = |is: bool, name: &str, pick| {
        if is {
            layers.push(Layer::Line { name: name.to_owned(), points: curve(pick), stroke: Stroke::Dashed });
        }
    };
    side(heights.sides.1, "top of window", |w| w.high_cm);
    side(heights.sides.0, "bottom of window", |w| w.low_cm);
}

/// The projection as a fan that opens along the curve's own pace.
fn fan(
    target: &Target,
    projection: &Projection,
    confidence: f64,
    shown: &impl Fn(f64) -> f64,
    layers: &mut Vec<Layer>,
) {
    let begun = target.fraction(projection.from);
    let rest = 1.0 - begun;
    let days = || projection.from.iter_days().take_while(|d| *d <= projection.finish).take(400);
    let way = |d: NaiveDate| if rest > 1e-9 { ((target.fraction(d) - begun) / rest).clamp(0.0, 1.0) } else { 1.0 };
    let toward = |d: NaiveDate, end: f64| shown(way(d).mul_add(end - projection.now_cm, projection.now_cm));
    let edge = |name: String, end: f64| Layer::Line {
        name,
        points: days().map(|d| (d, toward(d, end))).collect(),
        stroke: Stroke::Dotted,
    };
    layers.push(Layer::Band {
        name: format!("expected range ({}%)", confidence.round()),
        points: days().map(|d| (d, toward(d, projection.interval.low), toward(d, projection.interval.high))).collect(),
    });
    layers.push(edge("where it is heading".to_owned(), projection.height_cm));
}

fn text(input: &ChartInput<'_>, heights: Option<&Heights>, last: Option<&Reading>) -> String {
    let length = |cm: f64| Length::from_cm(cm).show(input.system);
    let mut text = format!("Height of bench {} from the bench to the growing tip, pot included.", input.bench);
    match last {
        None => text.push_str(" Nothing measured yet."),
        Some((d, value, spread)) => {
            let unit = Length::unit_name(input.system);
            text.push_str(&format!(" Last {} {unit} on {}", crate::units::plain(*value), dates::short(*d)));
            if let Some((low, high)) = spread {
                text.push_str(&format!(" ({} to {})", crate::units::plain(*low), crate::units::plain(*high)));
            }
            text.push('.');
        }
    }
    let Some(heights) = heights else {
        text.push_str(" No window: finished heights are not in the plan, or the pinch is not logged.");
        return text;
    };
    if let (Some((d, ..)), (true, true)) = (last, heights.sides) {
        let w = heights.target.window(*d);
        text.push_str(&format!(" Window that day {} to {}.", length(w.low_cm), length(w.high_cm)));
    }
    if let Some(p) = &heights.projection {
        text.push_str(&format!(
            " Expected at the sale on {}: {} ({} to {}).",
            dates::short(p.finish),
            length(p.height_cm),
            length(p.interval.low),
            length(p.interval.high)
        ));
    }
    if heights.estimated {
        text.push_str(" Starting height estimated, not measured.");
    }
    text
}
