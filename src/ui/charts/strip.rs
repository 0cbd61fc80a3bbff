//! Strips: rows below a picture that are shaded by place, such as hours over a limit day by day. Each has a letter in front that
//! the legend names.

use super::scale::Cells;
use super::{Ink, Plot};
use crate::input::Look;
use crate::ui::Role;
use ratatui::text::{Line, Span};

/// The letters of strips, in the order of their layers.
const LETTERS: [char; 4] = ['a', 'b', 'c', 'd'];

/// The signs from nothing to full, and below zero from a little to full; Braille, because blocks are two cells wide on some terminals.
const fn signs(look: Look) -> ([char; 4], [char; 2]) {
    if look.ascii {
        (['.', ':', '+', '#'], ['-', '='])
    } else {
        (['.', '\u{28c0}', '\u{28e4}', '\u{28ff}'], ['-', '='])
    }
}

/// How many rows they take.
pub(super) fn rows(plot: &Plot) -> u16 {
    u16::try_from(strips(plot).count()).unwrap_or(0)
}

fn strips(plot: &Plot) -> impl Iterator<Item = (&[(f64, f64)], f64)> {
    plot.inks
        .iter()
        .filter_map(|ink| if let Ink::Strip(_, points, full) = ink { Some((points.as_slice(), *full)) } else { None })
}

fn letter(nth: usize) -> char {
    LETTERS.get(nth).copied().unwrap_or('d')
}

/// Its letter and signs for the legend; those below zero where it has any.
pub(super) fn key(nth: usize, points: &[(f64, f64)], look: Look) -> String {
    let (above, below) = signs(look);
    let mut key = format!("{} ", letter(nth));
    if points.iter().any(|p| p.1 < 0.0) {
        key.extend(below.iter().rev());
    }
    key.extend(above);
    key
}

/// A line for each strip.
pub(super) fn lines(plot: &Plot, to: &Cells, (left, wide): (u16, u16), look: Look) -> Vec<Line<'static>> {
    let line = |nth: usize, points: &[(f64, f64)], full: f64| {
        let lead = format!("{:>1$} ", letter(nth), usize::from(left.saturating_sub(1)));
        let shaded: String = shares(points, full, to, wide).into_iter().map(|share| sign(share, look)).collect();
        Line::from(vec![Span::styled(lead, look.style(Role::Dim)), Span::styled(shaded, look.style(Role::Title))])
    };
    strips(plot).enumerate().map(|(nth, (points, full))| line(nth, points, full)).collect()
}

/// The share of the full value by cell; of several places in one cell the one farthest from zero. A place spans half a step to
/// either side.
fn shares(points: &[(f64, f64)], full: f64, to: &Cells, wide: u16) -> Vec<Option<f64>> {
    let share = |column: usize| {
        let (middle, half) = to.middle(column);
        let here = points.iter().filter(|(at, _)| to.holds_across(*at) && (at - middle).abs() <= half.max(0.5));
        let shares = here.map(|(_, value)| value / full).filter(|share| share.is_finite());
        shares.max_by(|a, b| a.abs().total_cmp(&b.abs()))
    };
    (0..usize::from(wide)).map(share).collect()
}

fn sign(share: Option<f64>, look: Look) -> char {
    let ([none, little, half, full], [under, far_under]) = signs(look);
    match share {
        None => ' ',
        Some(share) if share <= -0.5 => far_under,
        Some(share) if share < -0.02 => under,
        Some(share) if share < 0.02 => none,
        Some(share) if share < 1.0 / 3.0 => little,
        Some(share) if share < 2.0 / 3.0 => half,
        Some(_) => full,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::input::Palette;
    use crate::ui::charts::grid::ACROSS;

    fn shown(points: &[(f64, f64)], across: (f64, f64), wide: u16) -> String {
        let look = Look { color: false, ascii: true, palette: Palette::Usual };
        let to = Cells::new(across, (0.0, 1.0), (i32::from(wide) * ACROSS, 4));
        shares(points, 12.0, &to, wide).into_iter().map(|share| sign(share, look)).collect()
    }

    #[test]
    fn a_day_without_a_value_is_told_apart_from_one_with_none_of_it() {
        let points = [(0.0, 0.0), (1.0, 1.0), (3.0, 6.0), (4.0, 12.0), (5.0, -2.0), (6.0, -12.0)];
        assert_eq!(shown(&points, (0.0, 6.0), 7), ".: +#-=");
    }

    #[test]
    fn of_several_days_in_a_cell_the_one_farthest_from_zero_is_shown() {
        let points: Vec<(f64, f64)> = (0..8).map(|n| (f64::from(n), if n == 3 { 12.0 } else { 1.0 })).collect();
        let text = shown(&points, (0.0, 7.0), 4);
        assert!(text.contains('#') && text.len() == 4, "{text}");
    }

    #[test]
    fn what_is_no_number_is_left_out() {
        assert_eq!(shown(&[(f64::NAN, 3.0), (2.0, f64::NAN)], (0.0, 6.0), 7).trim(), "");
    }
}
