//! The Season page in a wide window: the lots on one time axis, the lot under the cursor beside them, its pots and the nights.

use super::{Axis, NAME, legend, named_bar, nights, role};
use crate::dates;
use crate::model::Model;
use crate::report::series::{LotCalendar, LotPots, Step};
use crate::screens::season::{Part, State};
use crate::ui::regions::{Regions, Room, TEXT, heading};
use crate::ui::{Role, fit, list, put, rows, wrap};
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
        Part::Nights => NIGHTS,
        Part::Pots => POTS,
    };
    let list = if Room::of(area.width) == Room::Widest { widest } else { wide };
    let regions = Regions::of(frame, area, list, model.look);
    let chosen = state.chosen();
    let cursor = match state.part {
        Part::Calendar => calendars(state, chosen, model, frame, regions.list),
        Part::Pots => pots(state, chosen, model, frame, regions.list),
        Part::Nights => {
            let place = heading(frame, regions.list, ("nights", ""), model.look);
            nights(state, model, frame, place);
            Position { x: place.x, y: place.y }
        }
    };
    let (Some(panel), Some(calendar)) = (regions.panel, state.calendars.get(chosen)) else { return cursor };
    let numbers = state.pots.iter().find(|pots| pots.lot == calendar.lot);
    let mut lines = lot(calendar, model, usize::from(panel.width.min(TEXT)));
    let counts = numbers.map(|pots| counts(pots, model)).unwrap_or_default();
    if let Some(day) = regions.day {
        let place = heading(frame, day, ("pots", &calendar.lot), model.look);
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
        nights(state, model, frame, Rect { height: place.height.min(CURVE.1), ..place });
    }
}

/// The calendars of all lots on one time axis; gives the place of the cursor.
fn calendars(state: &State, chosen: usize, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Position {
    let Some(axis) = Axis::bars(model, area.width) else {
        put(frame, area, 0, Line::raw("No lots yet."));
        return Position { x: area.x, y: area.y };
    };
    let heads = format!("{}{}", " ".repeat(NAME), axis.heads());
    put(frame, area, 0, Span::styled(heads, model.look.style(Role::Dim)));
    let legend = legend(usize::from(area.width));
    let foot = u16::try_from(legend.len()).unwrap_or(0);
    let (_, body) = rows(area, 1);
    let (body, below) = rows(body, body.height.saturating_sub(foot));
    let mut lines = Vec::new();
    let (mut first, mut last) = (0, 0);
    for (at, calendar) in state.calendars.iter().enumerate() {
        if at == chosen {
            first = lines.len();
        }
        lines.push(title(calendar, at == chosen, model, usize::from(body.width)));
        lines.extend(calendar.steps.iter().map(|step| bar(step, &axis, model)));
        if at == chosen {
            last = lines.len();
        }
        lines.push(Line::default());
    }
    // The whole lot under the cursor is seen, its title whatever the room.
    let top = last.saturating_sub(usize::from(body.height)).min(first);
    list::text(frame, body, top, lines);
    list::text(frame, below, 0, legend.into_iter().map(|text| Line::styled(text, model.look.style(Role::Dim))));
    list::on_row(body, first.saturating_sub(top))
}

/// The first row of a lot, across the whole list.
fn title(calendar: &LotCalendar, chosen: bool, model: &Model, cells: usize) -> Line<'static> {
    let mark = if chosen { model.look.glyphs().here } else { " " };
    let text = fit(&format!("{mark} {}  {}", calendar.lot, calendar.title), cells);
    Line::styled(text, model.look.style(if chosen { Role::Chosen } else { Role::Title }))
}

fn bar(step: &Step, axis: &Axis, model: &Model) -> Line<'static> {
    Line::from(named_bar(step.name, &axis.bar(step), model.look.style(role(step.state))))
}

/// The lot under the cursor: what is done, due and to be expected, in words.
fn lot(calendar: &LotCalendar, model: &Model, cells: usize) -> Vec<Line<'static>> {
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

/// The pots of all lots, a row each; gives the place of the cursor.
fn pots(state: &State, chosen: usize, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Position {
    let look = model.look;
    let heads =
        format!("  {:<8}{:>8}{:>8}{:>8}{:>8}{:>8}  balance", "lot", "planned", "placed", "sold", "on hand", "orders");
    put(frame, area, 0, Span::styled(fit(&heads, usize::from(area.width)), look.style(Role::Dim)));
    let (_, body) = rows(area, 1);
    let all: Vec<(usize, &LotPots)> = (state.calendars.iter().enumerate())
        .filter_map(|(at, calendar)| Some((at, state.pots.iter().find(|pots| pots.lot == calendar.lot)?)))
        .collect();
    let at = all.iter().position(|(at, _)| *at == chosen).unwrap_or(0);
    list::list(frame, body, (at, all.len()), list::Follow::Edge, |row, chosen| {
        let Some((_, pots)) = all.get(row) else { return Line::default() };
        let mark = if chosen { look.glyphs().here } else { " " };
        let numbers = [pots.planned, pots.placed, pots.sold, pots.standing, pots.committed];
        let numbers = numbers.iter().map(|number| format!("{number:>8}")).collect::<Vec<_>>().concat();
        let text = format!("{mark} {}{numbers}  {}", fit(&pots.lot, 8), pots.left_text());
        let role = match (chosen, pots.left() < 0) {
            (true, _) => Role::Chosen,
            (false, true) => Role::Act,
            (false, false) => Role::Plain,
        };
        Line::styled(fit(&text, usize::from(body.width)), look.style(role))
    })
}
