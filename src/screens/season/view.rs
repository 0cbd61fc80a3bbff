//! How the Season page looks.

mod beside;

use super::{Part, State};
use crate::dates;
use crate::model::Model;
use crate::report::series::{self, LotCalendar, LotPots, State as Stands, Step};
use crate::screens::chart_view;
use crate::ui::regions::{Room, rule};
use crate::ui::{Role, fit, line_of, list, put, rows, wrap};
use chrono::{Datelike, NaiveDate};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::style::Style;
use ratatui::text::{Line, Span};

/// Cells of a step's name.
const NAME: usize = 20;

/// True in a window that lists the lots, with the one under the cursor beside them.
pub(super) fn lists_lots(model: &Model) -> bool {
    Room::of(model.size.0) > Room::Narrow
}

/// Draws it.
pub fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
    let (head, body) = rows(area, 2);
    put(frame, head, 0, parts(state, model));
    if Room::of(area.width) > Room::Narrow {
        rule(frame, line_of(area, 1), model.look);
        return Some(beside::view(state, model, frame, body));
    }
    match state.part {
        Part::Calendar => calendar(state, model, frame, body),
        Part::Nights => nights(state, model, frame, body),
        Part::Pots => pots(state, model, frame, body),
    }
    Some(Position { x: area.x, y: area.y })
}

/// The parts, the one shown marked by sign and style.
fn parts(state: &State, model: &Model) -> Line<'static> {
    let mut spans = Vec::new();
    for part in Part::ALL {
        let shown = part == state.part;
        let text = if shown { format!("[{}]", part.text()) } else { format!(" {} ", part.text()) };
        spans.push(Span::styled(text, model.look.style(if shown { Role::Chosen } else { Role::Plain })));
        spans.push(Span::raw("  "));
    }
    Line::from(spans)
}

/// The columns of the calendar's time axis.
struct Axis {
    days: (NaiveDate, NaiveDate),
    cells: usize,
    words: usize,
    today: NaiveDate,
}

impl Axis {
    fn new(model: &Model, width: u16) -> Option<Self> {
        let days = series::season_days(&model.season)?;
        let room = usize::from(width).saturating_sub(NAME);
        let words = if room >= 88 { 44 } else { room / 2 };
        Some(Self { days, cells: room.saturating_sub(words.saturating_add(1)).max(1), words, today: model.day })
    }

    /// An axis as wide as there is room beside the names of the steps.
    fn bars(model: &Model, width: u16) -> Option<Self> {
        let cells = usize::from(width).saturating_sub(NAME).max(1);
        Some(Self { cells, words: 0, ..Self::new(model, width)? })
    }

    /// The cell of a day; `None` outside the axis.
    fn cell(&self, day: NaiveDate) -> Option<usize> {
        let all = usize::try_from((self.days.1 - self.days.0).num_days()).unwrap_or(0).max(1);
        let gone = usize::try_from((day - self.days.0).num_days()).ok().filter(|n| *n <= all)?;
        Some(gone.saturating_mul(self.cells.saturating_sub(1)) / all)
    }

    /// The months, each where it begins.
    fn heads(&self) -> String {
        let mut text = String::new();
        let firsts = self.days.0.iter_days().take_while(|d| *d <= self.days.1).take(500).filter(|d| d.day() == 1);
        for first in firsts {
            let Some(at) = self.cell(first).filter(|at| at.saturating_add(3) <= self.cells) else { continue };
            if at >= text.len().saturating_add(usize::from(!text.is_empty())) {
                text.push_str(&" ".repeat(at.saturating_sub(text.len())));
                text.push_str(&first.format("%b").to_string());
            }
        }
        fit(&text, self.cells)
    }

    /// The bar of a step: signs where it stands, the present, days marked.
    fn bar(&self, step: &Step) -> String {
        let mut signs = vec![' '; self.cells];
        let mut set = |at: Option<usize>, sign| {
            if let Some(cell) = at.and_then(|i| signs.get_mut(i)) {
                *cell = sign;
            }
        };
        set(self.cell(self.today), '|');
        let (from, to) = (step.from.max(self.days.0), step.to.min(self.days.1));
        if let (Some(first), Some(last)) = (self.cell(from), self.cell(to)) {
            (first..=last).for_each(|at| set(Some(at), step.state.sign()));
        }
        step.marks.iter().for_each(|d| set(self.cell(*d), '*'));
        signs.into_iter().collect()
    }
}

const fn role(state: Stands) -> Role {
    match state {
        Stands::Done => Role::Good,
        Stands::Due => Role::Act,
        Stands::Late => Role::Urgent,
        Stands::Forecast => Role::Watch,
        Stands::Open => Role::Label,
        Stands::Planned | Stands::Over => Role::Plain,
    }
}

fn calendar(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) {
    let Some(axis) = Axis::new(model, area.width) else {
        put(frame, area, 0, Line::raw("No lots yet."));
        return;
    };
    let heads = format!("{}{}", " ".repeat(NAME), axis.heads());
    put(frame, area, 0, Span::styled(heads, model.look.style(Role::Head)));
    let legend = legend(usize::from(area.width));
    let foot = u16::try_from(legend.len()).unwrap_or(0);
    let room = area.height.saturating_sub(foot.saturating_add(1));
    let lines = state.calendars.iter().flat_map(|c| lot(c, &axis, model));
    let (_, body) = rows(area, 1);
    let (body, below) = rows(body, room);
    list::text(frame, body, state.list.top(), lines);
    list::text(frame, below, 0, legend.into_iter().map(Line::raw));
}

fn legend(cells: usize) -> Vec<String> {
    let states = Stands::ALL.iter().map(|s| format!("{} {}", s.sign(), s.word()));
    let all: Vec<String> = states.chain(["* given or committed".to_owned(), "| today".to_owned()]).collect();
    wrap(&all.join(", "), cells)
}

/// The rows of one lot.
fn lot(calendar: &LotCalendar, axis: &Axis, model: &Model) -> Vec<Line<'static>> {
    let title = format!("{}  {}", calendar.lot, calendar.title);
    let mut lines = vec![Line::from(Span::styled(title, model.look.style(Role::Title)))];
    for step in &calendar.steps {
        let style = model.look.style(role(step.state));
        let word = step.state.word();
        // The word of the state first, then what is to be said of it.
        let wrapped = wrap(&format!("{word} {}", step.words), axis.words);
        for (i, words) in wrapped.into_iter().enumerate() {
            let (name, bar) = if i == 0 { (step.name, axis.bar(step)) } else { ("", " ".repeat(axis.cells)) };
            let (state, rest) = words.split_at_checked(if i == 0 { word.len() } else { 0 }).unwrap_or(("", &words));
            let mut spans = named_bar(name, &bar, style);
            spans.push(Span::raw(" "));
            spans.push(Span::styled(state.to_owned(), style));
            spans.push(Span::raw(rest.to_owned()));
            lines.push(Line::from(spans));
        }
    }
    let by = calendar.forecast.iter().flat_map(|by| wrap(by, axis.cells.saturating_add(axis.words)));
    let name = |row: usize| fit(if row == 0 { "  color forecast" } else { "" }, NAME);
    lines.extend(by.enumerate().map(|(row, text)| Line::raw(format!("{}{text}", name(row)))));
    lines.push(Line::default());
    lines
}

/// The name of a step and its bar. The present is no part of the bar.
fn named_bar(name: &str, bar: &str, style: Style) -> Vec<Span<'static>> {
    let mut spans = vec![Span::raw(fit(&format!("  {name}"), NAME))];
    for (n, part) in bar.split('|').enumerate() {
        spans.extend((n > 0).then(|| Span::raw("|")));
        spans.push(Span::styled(part.to_owned(), style));
    }
    spans
}

fn nights(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) {
    match &state.nights {
        Some(nights) => chart_view::chart(frame, area, &nights.chart, (None, model.day), model.look),
        None => put(frame, area, 0, Line::raw("Nights are shown once there is a site and a lot.")),
    }
}

fn pots(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) {
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
