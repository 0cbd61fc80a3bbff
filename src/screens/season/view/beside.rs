//! The Season page in a wide window: the lots on one time axis, the lot under the cursor beside them, its pots and the nights.

use super::axis::role;
use super::{calendar, nights, pots};
use crate::dates;
use crate::model::Model;
use crate::report::series::{LotCalendar, LotPots};
use crate::screens::season::{Part, State};
use crate::ui::regions::{Regions, Room, TEXT, heading};
use crate::ui::{Role, fit, list, rows, wrap};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::{Line, Span};

/// Cells of the list of each part, in a wide and in a very wide window.
const CALENDAR: [u16; 2] = [62, 76];
const NIGHTS: [u16; 2] = [62, 72];
const POTS: [u16; 2] = [70, 74];
/// Cells of a label beside its value.
const LABEL: usize = 18;
/// The fewest rows that the curve of the nights is drawn in, and the most.
const CURVE: (u16, u16) = (9, 18);

/// Draws it; gives the place of the cursor.
pub(super) fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Position {
    let [wide, widest] = match state.part {
        Part::Calendar => CALENDAR,
        // The season's end takes the whole width: it is never shown here.
        Part::Nights | Part::End => NIGHTS,
        Part::Pots | Part::Applications | Part::LastYear => POTS,
    };
    let list = if Room::of(area.width) == Room::Widest { widest } else { wide };
    let regions = Regions::of(frame, area, list, model.look);
    let chosen = state.chosen();
    let cursor = match state.part {
        Part::Calendar => calendar::wide(state, chosen, model, frame, regions.list),
        Part::Pots | Part::Applications | Part::LastYear => pots::wide(state, chosen, model, frame, regions.list),
        Part::Nights | Part::End => nights::wide(state, model, frame, regions.list),
    };
    let (Some(panel), Some(lot)) = (regions.panel, state.calendars.all().get(chosen)) else { return cursor };
    let numbers = state.pots.iter().find(|pots| pots.lot == lot.lot);
    let mut lines = of_lot(lot, model, usize::from(panel.width.min(TEXT)));
    let counts = numbers.map(|pots| counts(pots, model)).unwrap_or_default();
    if let Some(day) = regions.day {
        let place = heading(frame, day, ("pots", &lot.lot), model.look);
        let taken = u16::try_from(counts.len()).unwrap_or(u16::MAX);
        list::text(frame, place, 0, counts);
        if state.part != Part::Nights {
            curve(state, model, frame, rows(place, taken.saturating_add(1)).1);
        }
    } else {
        lines.extend([Line::default(), head("pots", model)]);
        lines.extend(counts);
    }
    let taken = u16::try_from(lines.len()).unwrap_or(u16::MAX);
    list::text(frame, panel, 0, lines);
    if regions.day.is_none() && state.part != Part::Nights {
        curve(state, model, frame, rows(panel, taken.saturating_add(1)).1);
    }
    cursor
}

/// A heading among lines.
fn head(name: &str, model: &Model) -> Line<'static> {
    Line::from(Span::styled(name.to_uppercase(), model.look.style(Role::Dim)))
}

/// The curve of the nights, where there is room for it.
fn curve(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) {
    if area.height > CURVE.0 {
        let place = heading(frame, area, ("nights", ""), model.look);
        nights::narrow(state, model, frame, Rect { height: place.height.min(CURVE.1), ..place });
    }
}

/// The lot under the cursor: what is done, due and to be expected, in words.
fn of_lot(calendar: &LotCalendar, model: &Model, cells: usize) -> Vec<Line<'static>> {
    let look = model.look;
    let planted = model.season.lot(&calendar.lot).map(|lot| (model.day - lot.planted).num_days()).filter(|n| *n >= 0);
    let day = planted.map_or_else(String::new, |n| format!("    day {n}"));
    let mut lines = vec![
        Line::from(vec![
            Span::styled(format!("{}   ", calendar.lot), look.style(Role::Title)),
            Span::raw(format!("{}{day}", calendar.title)),
        ]),
        Line::default(),
        head("steps", model),
    ];
    for step in &calendar.steps {
        let word = step.state.word();
        let texts = wrap(&format!("{word} {}", step.words), cells.saturating_sub(LABEL).max(1));
        for (row, text) in texts.into_iter().enumerate() {
            let name = if row == 0 { step.name } else { "" };
            let (state, rest) = text.split_at_checked(if row == 0 { word.len() } else { 0 }).unwrap_or(("", &text));
            lines.push(Line::from(vec![
                Span::styled(fit(name, LABEL), look.style(Role::Dim)),
                Span::styled(state.to_owned(), look.style(role(step.state))),
                Span::raw(rest.to_owned()),
            ]));
        }
    }
    let by = calendar.forecast.iter().flat_map(|by| wrap(by, cells.saturating_sub(LABEL).max(1)));
    lines.extend(by.enumerate().map(|(row, text)| {
        let name = fit(if row == 0 { "color forecast" } else { "" }, LABEL);
        Line::from(vec![Span::styled(name, look.style(Role::Dim)), Span::raw(text)])
    }));
    lines
}

/// A number and what it counts.
fn count(label: &str, number: u64, model: &Model) -> Line<'static> {
    let label = Span::styled(fit(label, LABEL), model.look.style(Role::Dim));
    Line::from(vec![label, Span::raw(format!("{number:>7}"))])
}

/// The pots of a lot: planned to standing, what is committed and when, what is left.
fn counts(pots: &LotPots, model: &Model) -> Vec<Line<'static>> {
    let mut lines = vec![
        count("planned", pots.planned, model),
        count("placed", pots.placed, model),
        count("lost or dumped", pots.lost.saturating_add(pots.dumped), model),
        count("sold", pots.sold, model),
        count("on benches", pots.standing, model),
        count("committed", pots.committed, model),
    ];
    for order in model.season.orders(&pots.lot).into_iter().filter(|order| order.pots > 0) {
        lines.push(count(&format!("  {}", dates::weekday(order.date)), u64::from(order.pots), model));
    }
    if pots.graded_sell.saturating_add(pots.graded_second).saturating_add(pots.dumped) > 0 {
        lines.push(count("graded salable", pots.graded_sell, model));
        lines.push(count("graded seconds", pots.graded_second, model));
    }
    let style = model.look.style(if pots.left() < 0 { Role::Act } else { Role::Plain });
    let label = Span::styled(fit("balance", LABEL), model.look.style(Role::Dim));
    lines.push(Line::from(vec![label, Span::styled(pots.left_text(), style)]));
    lines
}
