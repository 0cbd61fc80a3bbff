//! A strip below the picture: its name, then a bar a day, up from a line for what is above zero and down from it for what is below.

use super::pen::Pen;
use super::{LEFT, RIGHT, Scale, WIDTH};
use crate::report::html::escape;
use chrono::NaiveDate;

/// Height of a strip with its name.
pub(super) const HIGH: f64 = 50.0;
/// Height of the name, and of a bar that is full.
const NAME: f64 = 18.0;
const BAR: f64 = 24.0;

/// One strip from its upper edge.
pub(super) fn drawn((name, points, full): (&str, &[(NaiveDate, f64)], f64), scale: &Scale, top: f64) -> String {
    let share = |value: f64| if full > 0.0 { (value / full).clamp(-1.0, 1.0) } else { 0.0 };
    let good = || points.iter().map(|(day, value)| (*day, share(*value))).filter(|(_, share)| share.is_finite());
    let both = good().any(|(_, share)| share < 0.0);
    let (line, high) = if both { (top + NAME + BAR / 2.0, BAR / 2.0) } else { (top + NAME + BAR, BAR) };
    let wide = ((WIDTH - LEFT - RIGHT) / scale.days).clamp(1.0, 24.0);
    let mut out = format!("<text x=\"{LEFT}\" y=\"{:.1}\" class=\"key\">{}</text>\n", top + NAME - 5.0, escape(name));
    let mut bars = Pen::default();
    for (day, share) in good() {
        let left = (scale.x(day) - wide / 2.0).clamp(LEFT, WIDTH - RIGHT - wide);
        bars.bar((left, line), (wide, -share * high));
    }
    out.push_str(&bars.path("full"));
    out.push_str(&format!("<path d=\"M{LEFT} {line:.1}H{}\" class=\"axis\"/>\n", WIDTH - RIGHT));
    out
}
