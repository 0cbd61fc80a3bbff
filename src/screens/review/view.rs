//! How the Evening review looks: its rows, top to bottom.

mod wide;

use super::{Item, State};
use crate::dates;
use crate::model::Model;
use crate::panes::sign;
use crate::report::review::evidence;
use crate::report::words;
use crate::review::{Change, ListedFor, Problem, Review};
use crate::ui::regions::Room;
use crate::ui::{Role, fit, list, put, wrap};
use crate::warnings::{Severity, Warning};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::{Line, Span};
use std::borrow::Cow;

/// The key that settles, beside the heading of what is to settle.
const SETTLES: &str = "! opens the first";

/// Most pieces of evidence shown for one warning, the newest ones.
const SAW: usize = 5;

/// A row of the page; the first row of an item carries its number.
#[derive(Debug, Clone)]
pub(super) struct Row {
    pub(super) line: Line<'static>,
    pub(super) item: Option<usize>,
    /// The caution it belongs to, by its place among them.
    pub(super) caution: Option<usize>,
}

/// Rows being put together.
struct Rows<'a> {
    state: &'a State,
    model: &'a Model,
    cells: usize,
    done: Vec<Row>,
    /// Items begun.
    count: usize,
    /// True for an item under the cursor.
    chosen: bool,
}

/// Draws it.
pub fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
    if Room::of(area.width) > Room::Narrow {
        return Some(wide::view(state, model, frame, area));
    }
    let all = state.rows(model);
    let (top, marked) = (state.list.top(), Some(state.list.cursor()));
    let height = usize::from(area.height);
    let seen = all.iter().skip(top).take(height).position(|row| row.item == marked);
    let more = more(all.get(top.saturating_add(height).saturating_sub(1)..).unwrap_or_default());
    list::text(frame, area, 0, all.iter().skip(top).take(height).map(|row| row.line.clone()));
    if let Some(text) = more {
        let text = fit(&text, usize::from(area.width));
        put(frame, area, height.saturating_sub(1), Span::styled(text, model.look.style(Role::Key)));
    }
    Some(list::on_row(area, seen.unwrap_or(0)))
}

/// How many rows of the list have room in the window.
pub(super) fn room(state: &State, model: &Model) -> usize {
    match Room::of(model.size.0) {
        Room::Narrow => usize::from(model.size.1.saturating_sub(4)).max(1),
        Room::Wide | Room::Widest => wide::room(state, model),
    }
}

/// The rows of the list in the window, none of them marked.
pub(super) fn rows(state: &State, model: &Model) -> Vec<Row> {
    let columns = model.size.0;
    match Room::of(columns) {
        Room::Narrow => page(Rows::new(state, model)),
        Room::Wide | Room::Widest => wide::rows(state, model, usize::from(wide::list_cells(columns))),
    }
}

/// The rows of one item of the list, and whether it is under the cursor.
pub(super) fn item_rows(state: &State, model: &Model, (at, chosen): (usize, bool)) -> Vec<Row> {
    let (Some(item), Some(review)) = (state.items().get(at).copied(), state.review.as_ref()) else { return Vec::new() };
    let columns = model.size.0;
    match Room::of(columns) {
        Room::Narrow => {
            let mut one = Rows { count: at, chosen, ..Rows::new(state, model) };
            one.item(item, review);
            one.done
        }
        Room::Wide | Room::Widest => {
            let cells = usize::from(wide::list_cells(columns));
            wide::item_rows(state, model, (item, review), (at, chosen), cells)
        }
    }
}

/// How many lines of the panel beside the list are not seen; 0 where there is no panel.
pub(super) fn panel_rest(state: &State, model: &Model) -> usize {
    match Room::of(model.size.0) {
        Room::Narrow => 0,
        Room::Wide | Room::Widest => wide::panel_rest(state, model),
    }
}

/// Said on the last row while cautions of what is to be weighed are still below: how many. `rest` are the rows from the last one
/// of the window on.
fn more(rest: &[Row]) -> Option<String> {
    let mut cautions: Vec<usize> = rest.iter().filter_map(|row| row.caution).collect();
    cautions.dedup();
    let below = rest.len() > 1 && !cautions.is_empty();
    let caution = if cautions.len() == 1 { "caution" } else { "cautions" };
    below.then(|| format!("PgDn: {} more lines, {} {caution}", rest.len(), cautions.len()))
}

/// All rows of the page in one column.
fn page(mut all: Rows<'_>) -> Vec<Row> {
    let (state, model) = (all.state, all.model);
    let Some(review) = &state.review else {
        all.text("", &format!("{} Calculating.", model.look.glyphs().later));
        return all.done;
    };
    all.head(review);
    all.settle(review);
    all.work(review);
    for (problem, new) in review.flagged() {
        all.blank();
        all.item(Item::Problem(problem, *new), review);
    }
    let mut first = true;
    for (problem, new) in review.watched() {
        if std::mem::take(&mut first) {
            all.heading("To watch");
        }
        all.item(Item::Problem(problem, *new), review);
    }
    all.slower(review);
    all.not_known(review);
    all.rest(review);
    all.done
}

/// How far the round got, the flags, and which limits are used.
pub(super) fn head_text(state: &State, review: &Review, model: &Model) -> String {
    let round = words::round(review, Some(model.now.at.to_utc()));
    format!("{round}, {}. Limits: {}.", words::flagged(&state.flags), review.limits)
}

/// When a problem is looked at again, and since when it stands.
pub(super) fn again(problem: &Problem, lead: &Warning) -> String {
    let again = problem.parts.iter().map(|w| w.look_again).min().unwrap_or(lead.look_again);
    format!("{}; first seen {}", dates::weekday(again), dates::short(lead.since))
}

/// What each warning of a problem rests on.
pub(super) fn basis_lines(problem: &Problem) -> Vec<String> {
    let mut named = Vec::new();
    let mut lines = Vec::new();
    for part in &problem.parts {
        if !named.contains(&part.name) {
            named.push(part.name);
            lines.push(format!("{}: {}", part.name.title(), part.basis));
        }
    }
    lines
}

/// The label of a line among the jobs, as wide as a box with its heading.
fn label(text: &str) -> String {
    format!("{text:>13} ")
}

impl<'a> Rows<'a> {
    fn new(state: &'a State, model: &'a Model) -> Self {
        Self { state, model, cells: usize::from(model.size.0), done: Vec::new(), count: 0, chosen: false }
    }

    fn push(&mut self, line: Line<'static>) {
        self.done.push(Row { line, item: None, caution: None });
    }

    fn blank(&mut self) {
        self.push(Line::default());
    }

    fn heading(&mut self, text: impl Into<Cow<'static, str>>) {
        self.blank();
        self.push(Line::styled(text, self.model.look.style(Role::Head)));
    }

    /// A label and its text, wrapped and hung under the text's start.
    fn text(&mut self, label: &str, text: &str) {
        let hang = usize::from(crate::ui::width(label));
        for (i, line) in wrap(text, self.cells.saturating_sub(hang)).into_iter().enumerate() {
            let lead = if i == 0 { label.to_owned() } else { " ".repeat(hang) };
            let lead = Span::styled(lead, self.model.look.style(Role::Label));
            self.push(Line::from(vec![lead, Span::raw(line)]));
        }
    }

    fn head(&mut self, review: &Review) {
        self.text("", &head_text(self.state, review, self.model));
        if let Some(left) = words::left(review) {
            self.text("", &left);
        }
    }

    fn settle(&mut self, review: &Review) {
        if review.to_settle.is_empty() {
            return;
        }
        self.heading(format!("To settle: {SETTLES}"));
        for unsettled in &review.to_settle {
            self.text("  ", &words::settle(unsettled, review.site.units));
        }
    }

    fn work(&mut self, review: &Review) {
        self.heading(match review.listed {
            ListedFor::Today => "Today",
            ListedFor::Tomorrow => "Tomorrow",
        });
        let closed = review.closed_at(Some(self.model.now.at.to_utc()));
        if review.lists_nothing(Some(self.model.now.at.to_utc())) {
            self.text("  ", "No extra work.");
        }
        for (benches, until) in closed {
            let until = format!("{} {}", dates::weekday(until.date_naive()), dates::time(&until));
            let known = self.model.known_here();
            self.text(&label("closed"), &format!("{benches} until {until} ({known})"));
        }
        for job in &review.jobs {
            self.item(Item::Job(job), review);
        }
        for ticked in &review.ticked {
            self.item(Item::Ticked(ticked), review);
        }
        for due in &review.plots_due {
            self.text(&label(""), &words::plots_due(due));
        }
        for (at, caution) in review.cautions().into_iter().enumerate() {
            let first = self.done.len();
            self.text(&label("caution"), caution.text);
            for row in self.done.iter_mut().skip(first) {
                row.caution = Some(at);
            }
        }
    }

    /// The rows of the next item.
    fn item(&mut self, item: Item<'_>, review: &Review) {
        match item {
            Item::Job(job) => {
                let left = job.left && review.listed == ListedFor::Tomorrow;
                let left = if left { " (left from yesterday)" } else { "" };
                let sign = format!("{:>2} [ ]", self.count.saturating_add(1));
                self.job((&sign, job.heading()), (&format!("{}{left}", job.text()), Role::Plain));
            }
            Item::Ticked(ticked) => {
                let sign = format!("   [{}]", ticked.sign());
                self.job((&sign, ticked.heading()), (&ticked.text(&words::day_after(review)), Role::Dim));
            }
            Item::Problem(problem, new) => match problem.put_off_until {
                Some(until) => {
                    self.problem(problem, None);
                    self.text("    until   ", &dates::weekday(until));
                }
                None if problem.level == Severity::Watch => self.watched(problem, new),
                None => self.block(problem, new),
            },
        }
    }

    /// The rows of a job behind its box; the first is marked when the cursor is on it.
    fn job(&mut self, (sign, heading): (&str, &str), (text, role): (&str, Role)) {
        let (look, number, chosen) = (self.model.look, self.count, self.chosen);
        self.count = self.count.saturating_add(1);
        let mark = if chosen { look.glyphs().here } else { " " };
        let label = format!("{mark}{sign} {heading:<6} ");
        let hang = usize::from(crate::ui::width(&label));
        let style = look.style(if chosen { Role::Chosen } else { role });
        for (at, line) in wrap(text, self.cells.saturating_sub(hang)).into_iter().enumerate() {
            let (line, item) = if at == 0 {
                (fit(&format!("{label}{line}"), self.cells), Some(number))
            } else {
                (format!("{}{line}", " ".repeat(hang)), None)
            };
            let style = if at == 0 { style } else { look.style(role) };
            self.done.push(Row { line: Line::from(Span::styled(line, style)), item, caution: None });
        }
    }

    /// The head row of a problem; marked when the cursor is on it.
    fn problem(&mut self, problem: &Problem, change: Option<Change>) {
        let (look, number, chosen) = (self.model.look, self.count, self.chosen);
        self.count = self.count.saturating_add(1);
        let (_, role) = sign(problem.level);
        let place = &problem.place;
        let lot = problem.lot_beside();
        let lot = lot.map_or_else(String::new, |l| format!(" ({l})"));
        let mark = if chosen { look.glyphs().here } else { " " };
        let change = change.map_or_else(String::new, |c| format!(" ({})", c.text()));
        let room = self.cells.saturating_sub(56).max(18);
        let cut = usize::from(crate::ui::width(place)) + lot.len() + 2 > room;
        let name = fit(&format!("{mark} {place}{lot}"), room);
        let title = fit(&problem.title(), self.cells.saturating_sub(name.len()).saturating_sub(16));
        let style = look.style(if chosen { Role::Chosen } else { Role::Title });
        self.done.push(Row {
            line: Line::from(vec![
                Span::styled(name, style),
                Span::raw(" "),
                Span::styled(problem.said_level(), look.style(role)),
                Span::raw(format!("{change}  {}", title.trim_end())),
            ]),
            item: Some(number),
            caution: None,
        });
        if cut {
            self.text("    where   ", place);
        }
    }

    fn block(&mut self, problem: &Problem, new: Change) {
        self.problem(problem, self.state.compared.then_some(new));
        let Some(lead) = problem.lead() else { return };
        let saw = evidence(problem, SAW, self.model.system());
        if !saw.is_empty() {
            self.text("    seen    ", &saw.join("; "));
        }
        self.text("    why     ", lead.why());
        let mut label = "    next    ";
        for step in problem.next() {
            self.text(label, &step);
            label = "            ";
        }
        self.text("    recheck ", &again(problem, lead));
        if self.state.basis {
            self.basis(problem);
        }
    }

    /// What is watched shows more of itself under the cursor.
    fn watched(&mut self, problem: &Problem, new: Change) {
        self.problem(problem, self.state.compared.then_some(new));
        if self.chosen {
            let saw = evidence(problem, SAW, self.model.system());
            if !saw.is_empty() {
                self.text("    seen    ", &saw.join("; "));
            }
            let mut label = "    next    ";
            for step in problem.next() {
                self.text(label, &step);
                label = "            ";
            }
        }
        if self.state.basis {
            self.basis(problem);
        }
    }

    /// What each of its warnings rests on.
    fn basis(&mut self, problem: &Problem) {
        for text in basis_lines(problem) {
            self.text("    basis   ", &text);
        }
    }

    fn slower(&mut self, review: &Review) {
        if !review.slower.is_empty() {
            self.heading(words::SLOWER);
            self.text("  ", &format!("{}. {}", words::slower(&review.slower), words::SLOWER_LOOK));
        }
    }

    fn not_known(&mut self, review: &Review) {
        if review.not_known.is_empty() {
            return;
        }
        self.heading("Not known");
        for lot in &review.not_known {
            self.text("  ", &words::not_known(lot));
        }
    }

    fn rest(&mut self, review: &Review) {
        let mut first = true;
        for (problem, new) in review.put_off() {
            if std::mem::take(&mut first) {
                self.heading("Postponed");
            }
            self.item(Item::Problem(problem, *new), review);
        }
        if self.state.compared && !review.over.is_empty() {
            self.heading("Cleared since yesterday");
            for (title, place) in &review.over {
                self.text("  ", &format!("{title} on {place}"));
            }
        }
        if !self.state.compared {
            self.blank();
            self.text("", &format!("{} Comparing with yesterday.", self.model.look.glyphs().later));
        }
    }
}
