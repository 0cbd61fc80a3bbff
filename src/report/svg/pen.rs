//! The `d` of a path, written short: from point to point by the difference, in tenths, and without what lies on the way.

/// How far off a curve may be drawn: less than anybody sees of a line that is 1.6 wide.
const NEAR: f64 = 0.12;

/// A path as it grows. Positions are kept in tenths, so that differences do not add up their rounding.
#[derive(Debug, Default)]
pub(super) struct Pen {
    out: String,
    /// Where it stands; `None` before anything is drawn.
    at: Option<(i64, i64)>,
}

/// In tenths. What a chart draws lies inside its picture.
#[expect(clippy::cast_possible_truncation, reason = "of a picture some hundred wide")]
fn tenths(value: f64) -> i64 {
    (value * 10.0).round() as i64
}

impl Pen {
    /// The shape at a place; it ends where it began.
    pub(super) fn shape(&mut self, (x, y): (f64, f64), shape: &str) {
        self.go((tenths(x), tenths(y)));
        self.out.push_str(shape);
    }

    /// What the shape just drawn leaves it further than where that began.
    pub(super) fn moved(&mut self, (x, y): (f64, f64)) {
        self.at = self.at.map(|(a, b)| (a + tenths(x), b + tenths(y)));
    }

    /// A line from a place straight up or down to another height.
    pub(super) fn upright(&mut self, (x, y): (f64, f64), to: f64) {
        let (x, y, to) = (tenths(x), tenths(y), tenths(to));
        self.go((x, y));
        self.out.push('v');
        self.number(to - y, true);
        self.at = Some((x, to));
    }

    /// A bar from its corner on the line: so wide, and so high, which is less than zero upwards.
    pub(super) fn bar(&mut self, (x, y): (f64, f64), (wide, high): (f64, f64)) {
        self.go((tenths(x), tenths(y)));
        for (step, by) in [("v", high), ("h", wide), ("v", -high)] {
            self.out.push_str(step);
            self.number(tenths(by), true);
        }
        self.out.push('z');
    }

    /// A curve through points from left to right or from right to left, on from where it stands if anything is drawn yet.
    pub(super) fn curve(&mut self, points: impl Iterator<Item = (f64, f64)>) {
        let mut kept: Option<(f64, f64)> = None;
        // The last point, not drawn yet, and how steep a line from the kept one may be to pass near all since.
        let mut last: Option<((f64, f64), (f64, f64))> = None;
        for point in points {
            let Some(from) = kept else {
                self.line(point);
                kept = Some(point);
                continue;
            };
            let Some((before, steep)) = last else {
                last = Some((point, cone(from, point)));
                continue;
            };
            let slope = (point.1 - from.1) / (point.0 - from.0).abs();
            if slope.is_finite() && slope >= steep.0 && slope <= steep.1 {
                let own = cone(from, point);
                last = Some((point, (steep.0.max(own.0), steep.1.min(own.1))));
            } else {
                self.line(before);
                kept = Some(before);
                last = Some((point, cone(before, point)));
            }
        }
        if let Some((point, _)) = last {
            self.line(point);
        }
    }

    /// Closes the area.
    pub(super) fn close(&mut self) {
        if !self.out.is_empty() {
            self.out.push('Z');
        }
    }

    /// The path with its class; nothing where nothing is drawn.
    pub(super) fn path(self, class: &str) -> String {
        if self.out.is_empty() { self.out } else { format!("<path class=\"{class}\" d=\"{}\"/>\n", self.out) }
    }

    /// Lifts it to a place.
    fn go(&mut self, (x, y): (i64, i64)) {
        self.step(if self.at.is_none() { 'M' } else { 'm' }, (x, y));
    }

    /// A straight line to a point; the first one is where it begins.
    fn line(&mut self, (x, y): (f64, f64)) {
        self.step(if self.at.is_none() { 'M' } else { 'l' }, (tenths(x), tenths(y)));
    }

    fn step(&mut self, letter: char, (x, y): (i64, i64)) {
        let (a, b) = self.at.unwrap_or_default();
        self.out.push(letter);
        self.number(x - a, true);
        self.number(y - b, false);
        self.at = Some((x, y));
    }

    /// A number of tenths as short as it can be written; a sign or the letter before it parts it from another.
    fn number(&mut self, tenths: i64, first: bool) {
        if tenths < 0 {
            self.out.push('-');
        } else if !first {
            self.out.push(' ');
        }
        let (whole, rest) = (tenths.unsigned_abs() / 10, tenths.unsigned_abs() % 10);
        if whole > 0 || rest == 0 {
            self.out.push_str(&whole.to_string());
        }
        if rest > 0 {
            self.out.push('.');
            self.out.push_str(&rest.to_string());
        }
    }
}

/// How steep, at the least and at the most, a line from a point may be to pass near another.
fn cone(from: (f64, f64), to: (f64, f64)) -> (f64, f64) {
    let along = (to.0 - from.0).abs();
    if along < f64::EPSILON {
        return (f64::INFINITY, f64::NEG_INFINITY);
    }
    ((to.1 - from.1 - NEAR) / along, (to.1 - from.1 + NEAR) / along)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// The corners of a path of `M` and `l`, as absolute positions.
    fn corners(d: &str) -> Vec<(f64, f64)> {
        let (mut at, mut found) = ((0.0, 0.0), Vec::new());
        for step in d.trim_end_matches('Z').split(['M', 'l']).skip(1) {
            let split = step.char_indices().skip(1).find(|(_, c)| matches!(c, ' ' | '-')).unwrap().0;
            let (x, y) = step.split_at(split);
            at = (at.0 + x.parse::<f64>().unwrap(), at.1 + y.trim().parse::<f64>().unwrap());
            found.push(at);
        }
        found
    }

    #[test]
    fn paths_are_short() {
        let mut pen = Pen::default();
        pen.curve((0..=100).map(|n| (f64::from(n) * 5.0, 20.0 + f64::from(n) * 0.5)));
        assert_eq!(pen.path("line"), "<path class=\"line\" d=\"M0 20l500 50\"/>\n");
        let mut pen = Pen::default();
        pen.shape((3.25, 7.0), "h0");
        pen.shape((4.0, 6.5), "h0");
        pen.upright((4.0, 6.5), 2.0);
        assert_eq!(pen.path("dots"), "<path class=\"dots\" d=\"M3.3 7h0m.7-.5h0m0 0v-4.5\"/>\n");
        assert_eq!(Pen::default().path("line"), "");
    }

    proptest! {
        #[test]
        fn a_curve_passes_near_every_point(values in proptest::collection::vec((0.0..300.0f64, 1u8..30), 1..80), back: bool) {
            let mut x = if back { 600.0 } else { 0.0 };
            let points: Vec<(f64, f64)> = values.iter().map(|(y, wide)| {
                x += f64::from(*wide) / 5.0 * if back { -1.0 } else { 1.0 };
                (x, *y)
            }).collect();
            let mut pen = Pen::default();
            pen.curve(points.iter().copied());
            let drawn = corners(&pen.out);
            for (x, y) in points {
                let near = |at: f64| (at - y).abs() < NEAR + 2.0;
                let met = drawn.windows(2).any(|pair| {
                    let (a, b) = if pair[0].0 <= pair[1].0 { (pair[0], pair[1]) } else { (pair[1], pair[0]) };
                    if x < a.0 - 0.06 || x > b.0 + 0.06 { return false }
                    let steep = (b.1 - a.1) / (b.0 - a.0).max(1e-9);
                    // A corner is drawn to a tenth, which on a steep line is more in height.
                    ((x - a.0).mul_add(steep, a.1) - y).abs() < NEAR + 0.06 + 0.06 * steep.abs()
                });
                prop_assert!(met || drawn.iter().any(|at| (at.0 - x).abs() < 0.06 && near(at.1)), "{x} {y}: {drawn:?}");
            }
        }
    }
}
