//! Last year beside this one: the lots with what differs, and what to do differently.

use crate::model::{About, Model};
use crate::report::compare::{Comparison, charts, cost, costs_head, heading, matched, rows, unknown, unmatched};
use crate::screens::chart_view;
use crate::screens::season::State;
use crate::ui::regions::{Regions, TEXT};
use crate::ui::{Role, fit, list, rows as divide, wrap};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::{Line, Span};

/// Cells of what a row is about.
const LABEL: usize = 26;
/// Cells of the list of lots in a wide window.
const LIST: u16 = 62;
/// The fewest rows a chart is drawn in, and the most.
const CHART: (u16, u16) = (10, 20);

/// Draws it as one text.
pub(super) fn narrow(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) {
    let all = lines(state, model, usize::from(area.width));
    let last = all.len().saturating_sub(usize::from(area.height));
    list::text(frame, area, state.list.top().min(last), all);
}

/// Rows of the text.
pub(super) fn length(state: &State, model: &Model) -> usize {
    lines(state, model, usize::from(model.size.0)).len()
}

/// Draws the lots with what to do differently, and the lot under the cursor beside them; gives the place of the cursor.
pub(super) fn wide(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Position {
    let regions = Regions::of(frame, area, LIST, model.look);
    let Some(comparison) = state.last_year.comparison() else {
        list::text(frame, regions.list, 0, lines(state, model, usize::from(regions.list.width)));
        return Position { x: regions.list.x, y: regions.list.y };
    };
    let cells = usize::from(regions.list.width);
    let chosen = state.list.cursor().min(comparison.lots.len().saturating_sub(1));
    let mut left = files(comparison, model, cells);
    left.push(Line::default());
    let first = left.len();
    for (at, lot) in comparison.lots.iter().enumerate() {
        let mark = if at == chosen { model.look.glyphs().here } else { " " };
        let text = format!("{mark} {}  {}", heading(lot), lot.this.cultivar);
        let role = if at == chosen { Role::Chosen } else { Role::Title };
        left.push(Line::styled(fit(&text, cells), model.look.style(role)));
    }
    left.extend(left_over(comparison, cells));
    left.push(Line::default());
    left.extend(differently(state, comparison, model, cells));
    list::text(frame, regions.list, 0, left);
    if let (Some(panel), Some(lot)) = (regions.panel, comparison.lots.get(chosen)) {
        let text = one(lot, comparison, model, usize::from(panel.width.min(TEXT)));
        let taken = u16::try_from(text.len()).unwrap_or(u16::MAX).saturating_add(1);
        list::text(frame, panel, 0, text);
        let place = regions.day.unwrap_or_else(|| divide(panel, taken).1);
        drawn(comparison, chosen, model, frame, place);
    }
    list::on_row(regions.list, first.saturating_add(chosen))
}

/// The charts of a lot, as many as there is room for.
fn drawn(comparison: &Comparison, chosen: usize, model: &Model, frame: &mut Frame<'_>, area: Rect) {
    let Some((this, last)) = comparison.courses.get(chosen) else { return };
    let mut rest = area;
    for chart in charts((this, last), comparison.on, comparison.site.units) {
        if rest.height < CHART.0 {
            return;
        }
        let high = rest.height.min(CHART.1);
        let (place, below) = divide(rest, high);
        chart_view::chart(frame, place, &chart, (None, model.day), model.look);
        rest = divide(below, 1).1;
    }
}

/// All of it as one text.
fn lines(state: &State, model: &Model, cells: usize) -> Vec<Line<'static>> {
    let Some(comparison) = state.last_year.comparison() else { return none(state, model, cells) };
    let mut all = files(comparison, model, cells);
    all.push(Line::default());
    all.extend(differently(state, comparison, model, cells));
    for lot in &comparison.lots {
        all.push(Line::default());
        all.extend(one(lot, comparison, model, cells));
    }
    all.extend(left_over(comparison, cells));
    all
}

/// What is said while there is nothing to show, and why.
fn none(state: &State, model: &Model, cells: usize) -> Vec<Line<'static>> {
    let text = if let Some(why) = model.notices.get(&About::LastYear) {
        why.clone()
    } else if model.last_year.is_some() && state.last_year.waits() {
        "Calculating \u{2026}".to_owned()
    } else {
        "No season of last year beside this one. It is looked for in the folder of the season and in the data folder; name \
         its file with --beside FILE, or as beside in config.toml. benchwalk help last-year says more."
            .to_owned()
    };
    wrap(&text, cells).into_iter().map(Line::raw).collect()
}

fn files(comparison: &Comparison, model: &Model, cells: usize) -> Vec<Line<'static>> {
    let style = model.look.style(Role::Dim);
    wrap(&format!("last year: {}", comparison.last_file), cells).into_iter().map(|l| Line::styled(l, style)).collect()
}

/// A lot: its head, then a row for each thing compared.
fn one(lot: &crate::compare::LotBeside, comparison: &Comparison, model: &Model, cells: usize) -> Vec<Line<'static>> {
    let look = model.look;
    let mut all = vec![Line::styled(heading(lot), look.style(Role::Title))];
    all.extend(wrap(&matched(lot), cells).into_iter().map(Line::raw));
    for row in rows(lot, comparison.site.units, comparison.assessed) {
        let mut names = wrap(&row.what, LABEL.saturating_sub(3)).into_iter();
        let mut texts = wrap(&row.sentence(), cells.saturating_sub(LABEL).max(1)).into_iter();
        loop {
            let (name, text) = (names.next(), texts.next());
            if name.is_none() && text.is_none() {
                break;
            }
            all.push(Line::from(vec![
                Span::styled(fit(&format!("  {}", name.unwrap_or_default()), LABEL), look.style(Role::Dim)),
                Span::raw(text.unwrap_or_default()),
            ]));
        }
    }
    all
}

/// Lots without a partner.
fn left_over(comparison: &Comparison, cells: usize) -> Vec<Line<'static>> {
    let said: Vec<String> = unmatched(&comparison.pairs).into_iter().chain(unknown(&comparison.pairs)).collect();
    let first = (!said.is_empty()).then(Line::default);
    first.into_iter().chain(said.iter().flat_map(|text| wrap(text, cells)).map(Line::raw)).collect()
}

/// What to do differently.
fn differently(state: &State, comparison: &Comparison, model: &Model, cells: usize) -> Vec<Line<'static>> {
    let look = model.look;
    let mut all = vec![Line::styled("What to do differently", look.style(Role::Title))];
    let known = model.last_year.as_ref().is_some_and(|last| last.judged.is_some());
    if !known {
        all.push(Line::raw("Last year's warnings are being worked out \u{2026}"));
        return all;
    }
    if comparison.costs.is_empty() {
        all.push(Line::raw("No warning stood at act or urgent last year."));
    } else {
        all.extend(wrap(costs_head(), cells).into_iter().map(|text| Line::styled(text, look.style(Role::Dim))));
    }
    for (number, of) in (1..).zip(&comparison.costs) {
        let (said, more) = cost(of, comparison);
        let room = cells.saturating_sub(3).max(1);
        for (row, text) in wrap(&said, room).into_iter().enumerate() {
            let lead = if row == 0 { format!("{number}  ") } else { "   ".to_owned() };
            all.push(Line::raw(format!("{lead}{text}")));
        }
        let more = more.iter().flat_map(|text| wrap(text, room));
        all.extend(more.map(|text| Line::styled(format!("   {text}"), look.style(Role::Label))));
    }
    if let Some((days, of)) = state.last_year.far() {
        all.push(Line::raw(format!("This year's warnings: {days} of {of} days worked out \u{2026}")));
    }
    all
}
