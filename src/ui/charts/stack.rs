//! Several charts one above the other over the same days: one axis of time below all of them, so that what is high on one is
//! seen beside what was low on another.

use super::Plot;
use super::axes::{days, legend};
use super::plot::{margin, picture};
use super::strip;
use crate::input::Look;
use crate::ui::regions::heading;
use crate::ui::{Role, put, rows};
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::Span;

/// The least rows of a picture, so that each of five levels has its own.
const PICTURE: u16 = 5;
/// The least cells across.
const ACROSS: u16 = 24;
/// The most rows of a legend.
const LEGEND: usize = 2;

/// A chart of a stack: its heading, the remark after it, what is drawn.
pub(super) type Titled = ((String, String), Plot);

/// Draws as many of the charts as have room to be read, the first ones before the others; gives how many.
pub fn stack(frame: &mut Frame<'_>, area: Rect, charts: &[Titled], look: Look) -> usize {
    let left = charts.iter().map(|(_, plot)| margin(plot)).max().unwrap_or(0);
    if area.width < left.saturating_add(ACROSS) {
        return 0;
    }
    let legends: Vec<_> =
        charts.iter().map(|(_, plot)| legend(plot, (usize::from(area.width), LEGEND), look)).collect();
    let fixed: Vec<u16> = charts.iter().zip(&legends).map(|((_, plot), legend)| fixed(plot, legend.len())).collect();
    let (mut fitting, mut used) = (0_usize, 1_u16);
    for fixed in &fixed {
        used = used.saturating_add(*fixed).saturating_add(PICTURE);
        if used > area.height {
            break;
        }
        fitting = fitting.saturating_add(1);
    }
    let taken = fixed.iter().take(fitting).copied().fold(1, u16::saturating_add);
    let (mut spare, mut left_over) = (area.height.saturating_sub(taken), u16::try_from(fitting).unwrap_or(1));
    let mut rest = area;
    for ((((name, remark), plot), legend), fixed) in charts.iter().zip(legends).zip(fixed).take(fitting) {
        let high = spare / left_over.max(1);
        spare = spare.saturating_sub(high);
        left_over = left_over.saturating_sub(1);
        let (own, below) = rows(rest, fixed.saturating_add(high));
        let mut body = heading(frame, own, (name, remark), look);
        for line in legend {
            put(frame, body, 0, line);
            body = rows(body, 1).1;
        }
        let to = picture(frame, body, (plot, left), look);
        rest = below;
        if left_over == 0 {
            let text = days(plot, &to, (left, area.width.saturating_sub(left)));
            put(frame, rest, 0, Span::styled(text, look.style(Role::Dim)));
        }
    }
    fitting
}

/// Rows of a chart beside its picture: heading, legend, axis, strips.
fn fixed(plot: &Plot, legend: usize) -> u16 {
    u16::try_from(legend).unwrap_or(0).saturating_add(2).saturating_add(strip::rows(plot))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::input::Palette;
    use crate::ui::charts::Ink;
    use ratatui::Terminal;
    use ratatui::backend::TestBackend;

    fn drawn(count: usize, (width, height): (u16, u16)) -> (usize, String) {
        let plot = Plot {
            across: (0.0, 20.0),
            upright: (0.5, 5.5),
            ticks: vec![(1.0, "1".into()), (5.0, "5".into())],
            days: vec![(0.0, "Oct 1".into()), (10.0, "Oct 11".into())],
            here: None,
            inks: vec![Ink::Water("water".into(), vec![(2.0, 5.0, None), (9.0, 1.0, None)])],
        };
        let charts: Vec<Titled> = (0..count).map(|n| ((format!("chart {n}"), String::new()), plot.clone())).collect();
        let look = Look { color: false, ascii: true, palette: Palette::Usual };
        let mut terminal = Terminal::new(TestBackend::new(width, height)).unwrap();
        let mut shown = 0;
        terminal.draw(|frame| shown = stack(frame, frame.area(), &charts, look)).unwrap();
        let buffer = terminal.backend().buffer().clone();
        let rows = buffer.content.chunks(usize::from(width.max(1)));
        (shown, rows.map(|row| row.iter().map(ratatui::buffer::Cell::symbol).collect::<String>() + "\n").collect())
    }

    #[test]
    fn as_many_charts_as_can_be_read_share_one_axis_of_days() {
        let (shown, text) = drawn(4, (50, 26));
        assert_eq!(shown, 3, "{text}");
        assert!(text.contains("CHART 0") && text.contains("CHART 2") && !text.contains("CHART 3"), "{text}");
        assert_eq!(text.matches("Oct 11").count(), 1, "{text}");
        assert_eq!(drawn(4, (50, 8)).0, 0, "none rather than one that cannot be read");
        assert_eq!(drawn(4, (20, 40)).0, 0);
    }

    #[test]
    fn every_level_has_a_row_of_its_own() {
        let (_, text) = drawn(1, (40, 9));
        let rows: Vec<&str> = text.lines().filter(|row| row.contains('|')).collect();
        assert_eq!(rows.len(), 5, "{text}");
        assert!(rows[0].starts_with("5 |") && rows[0].contains('5'), "{text}");
        assert!(rows[4].starts_with("1 |"), "{text}");
    }
}
