//! Points drawn in rows of characters, between two axes of numbers.

/// Cells left of the points, with the numbers of the axis.
const AXIS: usize = 9;

/// What is drawn: the points with their signs, later ones over earlier ones, and the words of the axes.
pub(super) struct Dots<'a> {
    /// Along, up, sign.
    pub(super) points: &'a [(f64, f64, char)],
    /// A value up as text.
    pub(super) up: &'a dyn Fn(f64) -> String,
    /// A value along as text.
    pub(super) along: &'a dyn Fn(f64) -> String,
    /// What runs along, in words.
    pub(super) name: &'a str,
}

impl Dots<'_> {
    /// The rows, the highest first, with the axis below them; none where there is nothing to draw or no room.
    pub(super) fn rows(&self, cells: usize, rows: usize) -> Vec<String> {
        let (wide, high) = (cells.saturating_sub(AXIS).min(100), rows.saturating_sub(2).min(16));
        let finite = || self.points.iter().filter(|(x, y, _)| x.is_finite() && y.is_finite());
        if wide < 10 || high < 3 || finite().next().is_none() {
            return Vec::new();
        }
        let range = |of: fn(&(f64, f64, char)) -> f64| {
            finite().map(of).fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| (low.min(v), high.max(v)))
        };
        let ((left, right), (low, top)) = (range(|p| p.0), range(|p| p.1));
        let mut grid = vec![vec![' '; wide]; high];
        for (x, y, sign) in finite() {
            let (column, row) = (place(*x, (left, right), wide), place(*y, (low, top), high));
            let row = high.saturating_sub(1).saturating_sub(row);
            if let Some(cell) = grid.get_mut(row).and_then(|row| row.get_mut(column)) {
                *cell = *sign;
            }
        }
        let label = |row: usize| match row {
            0 => (self.up)(top),
            row if row == high.saturating_sub(1) => (self.up)(low),
            _ => String::new(),
        };
        let line = |(row, signs): (usize, &Vec<char>)| {
            let signs: String = signs.iter().collect();
            format!("{:>7} |{}", label(row), signs.trim_end())
        };
        let mut all: Vec<String> = grid.iter().enumerate().map(line).collect();
        all.push(format!("        +{}", "-".repeat(wide)));
        let (left, right) = ((self.along)(left), (self.along)(right));
        let middle = wide.saturating_sub(left.len()).saturating_sub(right.len());
        all.push(format!("         {left}{:^middle$}{right}", self.name));
        all
    }
}

/// The place of a value among so many.
fn place(value: f64, (low, high): (f64, f64), places: usize) -> usize {
    let share = if high > low { ((value - low) / (high - low)).clamp(0.0, 1.0) } else { 0.5 };
    let last = places.saturating_sub(1);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a share of the places")]
    let at = (share * last as f64).round() as usize;
    at
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn points_lie_between_their_axes_and_odd_ones_end_nothing() {
        let number = |v: f64| format!("{v:.0}");
        let draw = |points: &[(f64, f64, char)], cells, rows| {
            Dots { points, up: &number, along: &number, name: "g" }.rows(cells, rows)
        };
        let drawn = draw(&[(0.0, 10.0, 'o'), (12.0, 20.0, 'x'), (f64::NAN, 1.0, '!')], 30, 6);
        assert_eq!(drawn.len(), 6);
        assert!(drawn[0].starts_with("     20 |") && drawn[0].ends_with('x') && drawn[3] == "     10 |o", "{drawn:#?}");
        assert!(drawn[5].trim_start().starts_with('0') && drawn[5].ends_with("12"), "{drawn:#?}");
        assert!(draw(&[], 30, 6).is_empty() && draw(&[(1.0, 1.0, 'o')], 12, 2).is_empty());
        assert!(draw(&[(1.0, 1.0, 'o')], 30, 6).iter().any(|row| row.contains('o')));
    }
}
