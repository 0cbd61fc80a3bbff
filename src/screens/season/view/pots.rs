//! Pots by lot: planned, placed, lost, sold, standing, committed.

use crate::dates;
use crate::model::Model;
use crate::report::series::LotPots;
use crate::screens::season::State;
use crate::ui::{Role, fit, list, put, rows};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::{Line, Span};

/// Draws them in a narrow window.
pub(super) fn narrow(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) {
    let name = lot_cells(area);
    let heads = format!(
        "{}{:>8}{:>7}{:>12}{:>6}{:>9}{:>10}  balance",
        fit("lot", name),
        "planned",
        "placed",
        "lost/dumped",
        "sold",
        "on bench",
        "committed"
    );
    put(frame, area, 0, Span::styled(heads, model.look.style(Role::Head)));
    let lines = state.pots.iter().skip(state.list.top()).flat_map(|p| of_lot(p, model, name));
    list::text(frame, rows(area, 1).1, 0, lines);
}

/// Cells of a lot's code: less in a narrow window, so that the numbers are seen whole.
const fn lot_cells(area: Rect) -> usize {
    if area.width < 84 { 8 } else { 12 }
}

fn of_lot(pots: &LotPots, model: &Model, name: usize) -> Vec<Line<'static>> {
    let left = pots.left_text();
    let style = model.look.style(if pots.left() < 0 { Role::Act } else { Role::Plain });
    let mut lines = vec![Line::from(vec![
        Span::styled(fit(&pots.lot, name), model.look.style(Role::Title)),
        Span::raw(format!(
            "{:>8}{:>7}{:>12}{:>6}{:>9}{:>10}  ",
            pots.planned,
            pots.placed,
            pots.lost.saturating_add(pots.dumped),
            pots.sold,
            pots.standing,
            pots.committed
        )),
        Span::styled(left, style),
    ])];
    if pots.graded_sell.saturating_add(pots.graded_second).saturating_add(pots.dumped) > 0 {
        lines.push(Line::raw(format!(
            "{}graded: {} salable, {} seconds, {} dumped",
            " ".repeat(name),
            pots.graded_sell,
            pots.graded_second,
            pots.dumped
        )));
    }
    for order in model.season.orders(&pots.lot).into_iter().filter(|o| o.pots > 0) {
        lines.push(Line::raw(format!(
            "{}committed {}: {} pots",
            " ".repeat(name),
            dates::weekday(order.date),
            order.pots
        )));
    }
    lines
}

/// The pots of all lots, a row each; gives the place of the cursor.
pub(super) fn wide(state: &State, chosen: usize, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Position {
    let look = model.look;
    let heads =
        format!("  {:<8}{:>8}{:>8}{:>8}{:>8}{:>8}  balance", "lot", "planned", "placed", "sold", "on hand", "orders");
    put(frame, area, 0, Span::styled(fit(&heads, usize::from(area.width)), look.style(Role::Dim)));
    let (_, body) = rows(area, 1);
    let all: Vec<(usize, &LotPots)> = (state.calendars.all().iter().enumerate())
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
