//! The Evening where there is room: left what is to be done and what is flagged, a line each; right the item under the cursor with
//! all that is known of it, then its bench; in the widest window the day as a third column.

use super::super::Item;
use super::{Row, SETTLES, State, again, basis_lines, head_text};
use crate::dates;
use crate::model::Model;
use crate::panes::{bench, day, sign};
use crate::report::review::evidence;
use crate::report::words;
use crate::review::{Change, Job, ListedFor, Problem, Review, Ticked};
use crate::ui::list::under_cursor;
use crate::ui::regions::{self, Regions, Room, TEXT};
use crate::ui::{Role, fit, list, put, rows as split, shorten, width, wrap};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::{Line, Span};

/// Most pieces of evidence shown for one warning, the newest ones.
const SAW: usize = 8;
/// Rows that the bench of an item is worth showing in.
const LEAST_BENCH: usize = 8;
/// Cells of the labels in the panel.
const LABEL: usize = 8;

/// Cells of the list in a window so wide.
pub(super) fn list_cells(columns: u16) -> u16 {
    (columns.saturating_mul(47) / 100).min(TEXT)
}

/// The lines over the whole width: how far the round got, what is left from yesterday.
pub(super) fn head(state: &State, model: &Model, cells: usize) -> Vec<Line<'static>> {
    let Some(review) = &state.review else { return Vec::new() };
    let mut text = head_text(state, review, model);
    if state.compared && !review.over.is_empty() {
        let over: Vec<String> = review.over.iter().map(|(title, place)| format!("{place} {title}")).collect();
        text.push_str(&format!("  Cleared since yesterday: {}.", over.join("; ")));
    }
    let lines = [Some(text), words::left(review)].into_iter().flatten();
    lines.map(|line| Line::raw(shorten(&line, cells))).collect()
}

/// Draws it.
pub(super) fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Position {
    let head = head(state, model, usize::from(area.width));
    let (top, body) = split(area, u16::try_from(head.len()).unwrap_or(0));
    for (row, line) in head.into_iter().enumerate() {
        put(frame, top, row, line);
    }
    let body = regions::rule(frame, body, model.look);
    let regions = Regions::of(frame, body, list_cells(area.width), model.look);
    let all = state.rows(model);
    let (first, marked) = (state.list.top(), Some(state.list.cursor()));
    let seen = all.iter().skip(first).position(|row| row.item == marked);
    let rest = all.len().saturating_sub(first.saturating_add(usize::from(regions.list.height)));
    let height = usize::from(regions.list.height);
    list::text(frame, regions.list, 0, all.iter().skip(first).take(height).map(|row| row.line.clone()));
    if rest > 0 {
        let last = usize::from(regions.list.height).saturating_sub(1);
        let text = format!("{} more lines below", rest.saturating_add(1));
        let text = fit(&text, usize::from(regions.list.width));
        put(frame, regions.list, last, Span::styled(text, model.look.style(Role::Dim)));
    }
    if let (Some(panel), Some(item)) = (regions.panel, state.cursor()) {
        self::panel(state, model, frame, (panel, item));
    }
    if let Some(area) = regions.day {
        day::view(model, frame, area);
    }
    list::on_row(regions.list, seen.unwrap_or(0))
}

/// The item under the cursor, then its bench where there is room.
fn panel(state: &State, model: &Model, frame: &mut Frame<'_>, (area, item): (Rect, Item<'_>)) {
    let area = Rect { width: area.width.min(TEXT), ..area };
    let (lines, room) = (details(state, model, item, usize::from(area.width)), usize::from(area.height));
    let (first, count) = (state.panel.top(), lines.len());
    list::text(frame, area, first, lines);
    let rest = count.saturating_sub(first.saturating_add(room));
    if rest > 0 {
        let text = fit(&format!("PgDn: {} more lines", rest.saturating_add(1)), usize::from(area.width));
        put(frame, area, room.saturating_sub(1), Span::styled(text, model.look.style(Role::Key)));
        return;
    }
    let Some(left) = room.checked_sub(count.saturating_add(1)).filter(|left| *left >= LEAST_BENCH) else { return };
    let Some(code) = item.bench() else { return };
    let (_, below) = split(area, u16::try_from(room.saturating_sub(left)).unwrap_or(area.height));
    let below = regions::rule(frame, below, model.look);
    bench::view(model, &code, frame, below);
}

/// How many lines of the panel are not seen in an area so high: so far it can be scrolled.
pub(super) fn panel_rest(state: &State, model: &Model) -> usize {
    let Some(item) = state.cursor() else { return 0 };
    let beside = model.size.0.saturating_sub(list_cells(model.size.0)).saturating_sub(3);
    let is_widest = Room::of(model.size.0) == Room::Widest;
    let cells = if is_widest { beside.saturating_mul(3) / 5 } else { beside };
    let cells = usize::from(cells.min(TEXT));
    details(state, model, item, cells).len().saturating_sub(room(state, model))
}

/// Rows below the head and its rule.
pub(super) fn room(state: &State, model: &Model) -> usize {
    let head = state.review.as_ref().map_or(0, |review| 1 + usize::from(review.left().next().is_some()));
    usize::from(model.size.1).saturating_sub(head).saturating_sub(5).max(1)
}

/// The rows of one item, and whether it is under the cursor.
pub(super) fn item_rows(
    state: &State,
    model: &Model,
    (item, review): (Item<'_>, &Review),
    (count, chosen): (usize, bool),
    cells: usize,
) -> Vec<Row> {
    let mut one = Lines { state, model, cells, chosen, done: Vec::new(), count };
    one.item(item, review);
    one.done
}

/// The rows of the list, none of them marked.
pub(super) fn rows(state: &State, model: &Model, cells: usize) -> Vec<Row> {
    let mut all = Lines { state, model, cells, chosen: false, done: Vec::new(), count: 0 };
    let Some(review) = &state.review else {
        all.text(&format!("{} Calculating.", model.look.glyphs().later));
        return all.done;
    };
    all.jobs(review);
    all.group("flagged", review.flagged(), review);
    all.group("watch", review.watched(), review);
    all.group("postponed", review.put_off(), review);
    all.rest(review);
    if !state.compared {
        all.text(&format!("{} Comparing with yesterday.", model.look.glyphs().later));
    }
    all.done
}

/// Lines of the list being put together.
struct Lines<'a> {
    state: &'a State,
    model: &'a Model,
    cells: usize,
    /// True for an item under the cursor.
    chosen: bool,
    done: Vec<Row>,
    /// Items begun.
    count: usize,
}

impl Lines<'_> {
    fn push(&mut self, line: Line<'static>) {
        self.done.push(Row { line, item: None, caution: None });
    }

    fn heading(&mut self, name: &str, remark: &str) {
        if !self.done.is_empty() {
            self.push(Line::default());
        }
        self.push(regions::headed((name, remark), self.cells, self.model.look));
    }

    fn text(&mut self, text: &str) {
        for line in wrap(text, self.cells.saturating_sub(1)) {
            self.push(Line::raw(format!(" {line}")));
        }
    }

    /// The rows of the next item. A problem is one line: level, place, title and what is new of it.
    fn item(&mut self, item: Item<'_>, review: &Review) {
        match item {
            Item::Job(job) => {
                let number = self.count.saturating_add(1);
                self.lines_of((format!("{number:>2} [ ] "), Role::Title), &brief(job), Role::Plain);
            }
            Item::Ticked(ticked) => {
                let text = ticked.text(&words::day_after(review));
                self.lines_of((format!("   [{}] ", ticked.sign()), Role::Dim), &text, Role::Dim);
            }
            Item::Problem(problem, new) => {
                let remark = match problem.put_off_until {
                    Some(until) => dates::weekday(until),
                    None if self.state.compared => new.text().to_owned(),
                    None => String::new(),
                };
                let remark = if remark.is_empty() { remark } else { format!(", {remark}") };
                let (sign, role) = sign(problem.level);
                let lot = problem.lot_beside().map_or_else(String::new, |lot| format!(" ({lot})"));
                let rest = format!("{}{lot}: {}{remark}", problem.place, problem.title());
                self.lines_of((format!("{sign:<2} "), role), &rest, Role::Plain);
            }
        }
    }

    /// As many lines as an item takes: what stands before it with its role, then the rest. All of them are under the cursor.
    fn lines_of(&mut self, (before, role): (String, Role), rest: &str, plain: Role) {
        let (look, number, chosen) = (self.model.look, self.count, self.chosen);
        self.count = self.count.saturating_add(1);
        let mark = if chosen { look.glyphs().here } else { " " };
        let hang = usize::from(width(&before)).saturating_add(2);
        for (at, text) in wrap(rest, self.cells.saturating_sub(hang)).into_iter().enumerate() {
            let first = at == 0;
            let lead = if first { format!("{mark} ") } else { " ".repeat(hang) };
            let mut spans = vec![Span::raw(lead)];
            spans.extend(first.then(|| Span::styled(before.clone(), look.style(role))));
            let text = fit(&text, self.cells.saturating_sub(hang));
            spans.push(Span::styled(text, look.style(plain)));
            let line = Line::from(spans);
            let line = if chosen { under_cursor(line, look) } else { line };
            self.done.push(Row { line, item: first.then_some(number), caution: None });
        }
    }

    fn jobs(&mut self, review: &Review) {
        let name = match review.listed {
            ListedFor::Today => "today",
            ListedFor::Tomorrow => "tomorrow",
        };
        self.heading(name, "in the order of the day");
        let closed = review.closed_at(Some(self.model.now.at.to_utc()));
        if review.lists_nothing(Some(self.model.now.at.to_utc())) {
            self.text("No extra work.");
        }
        for (benches, until) in closed {
            let until = format!("{} {}", dates::weekday(until.date_naive()), dates::time(&until));
            let known = self.model.known_here();
            self.text(&format!("        closed {benches} until {until} ({known})"));
        }
        for job in &review.jobs {
            self.item(Item::Job(job), review);
        }
        for ticked in &review.ticked {
            self.item(Item::Ticked(ticked), review);
        }
        for due in &review.plots_due {
            self.text(&format!("        {}", words::plots_due(due)));
        }
    }

    /// Problems under a heading.
    fn group<'p>(&mut self, name: &str, problems: impl Iterator<Item = &'p (Problem, Change)>, review: &Review) {
        let mut first = true;
        for (problem, new) in problems {
            if std::mem::take(&mut first) {
                self.heading(name, "");
            }
            self.item(Item::Problem(problem, *new), review);
        }
    }

    /// What needs no line to stand on.
    fn rest(&mut self, review: &Review) {
        let units = review.site.units;
        let settle: Vec<String> = review.to_settle.iter().map(|of| words::settle(of, units)).collect();
        let slower = format!("{}. {}", words::slower(&review.slower), words::SLOWER_LOOK);
        let slower: Vec<String> = (!review.slower.is_empty()).then_some(slower).into_iter().collect();
        let not_known: Vec<String> = review.not_known.iter().map(words::not_known).collect();
        for (name, remark, texts) in
            [("to settle", SETTLES, settle), (words::SLOWER, "", slower), ("not known", "", not_known)]
        {
            if texts.is_empty() {
                continue;
            }
            self.heading(name, remark);
            for text in texts {
                self.text(&text);
            }
        }
    }
}

/// A job in one line: where, then what, without amounts.
fn brief(job: &Job) -> String {
    let waits = job.waits.first().map(|waits| format!("{} {}", waits.place, waits.why.text())).unwrap_or_default();
    match (job.benches.is_empty(), waits.is_empty()) {
        (true, _) => format!("{waits}: {}", job.step),
        (false, true) => format!("{}: {}", job.place, job.step),
        (false, false) => format!("{}, but {waits}: {}", job.place, job.step),
    }
}

/// Everything about the item under the cursor.
fn details(state: &State, model: &Model, item: Item<'_>, cells: usize) -> Vec<Line<'static>> {
    let mut page = Details { model, cells, lines: Vec::new() };
    match (item, &state.review) {
        (Item::Job(job), Some(review)) => page.job(job, review),
        (Item::Ticked(ticked), Some(review)) => page.ticked(ticked, review),
        (Item::Problem(problem, new), Some(_)) => page.problem(problem, state.compared.then_some(new)),
        (_, None) => {}
    }
    page.lines
}

/// Lines of the panel being put together.
struct Details<'a> {
    model: &'a Model,
    cells: usize,
    lines: Vec<Line<'static>>,
}

impl Details<'_> {
    fn title(&mut self, text: &str) {
        for line in wrap(text, self.cells) {
            self.lines.push(Line::styled(line, self.model.look.style(Role::Title)));
        }
    }

    fn blank(&mut self) {
        self.lines.push(Line::default());
    }

    /// A label and its text, wrapped beside it.
    fn part(&mut self, label: &str, text: &str) {
        for (at, line) in wrap(text, self.cells.saturating_sub(LABEL)).into_iter().enumerate() {
            let lead = fit(if at == 0 { label } else { "" }, LABEL);
            let lead = Span::styled(lead, self.model.look.style(Role::Dim));
            self.lines.push(Line::from(vec![lead, Span::raw(line)]));
        }
    }

    fn job(&mut self, job: &Job, review: &Review) {
        let heading = if job.sick { "last, with clean hands and tools after it" } else { job.heading() };
        self.title(&format!("{}  ({heading})", job.place));
        self.blank();
        self.part("DO", &job.what);
        for waits in &job.waits {
            self.part("WAITS", &format!("{} {}", waits.place, waits.why.text()));
        }
        let mut named = Vec::new();
        for name in &job.names {
            if !named.contains(name) {
                named.push(*name);
                self.part("WHY", &format!("{}: {}", name.title(), name.rule().why));
            }
        }
        if job.left {
            self.part("LEFT", "It stood on yesterday's list.");
        }
        self.part("FOR", &dates::weekday(review.listed_for()));
        for caution in &job.cautions {
            self.part("CAUTION", caution.text);
        }
    }

    fn ticked(&mut self, ticked: &Ticked, review: &Review) {
        self.title(&ticked.place);
        self.blank();
        self.part("DO", &ticked.step);
        let outcome = crate::record::Term::text(ticked.outcome);
        let why = ticked.why.as_ref().map_or_else(String::new, |why| format!(": {why}"));
        self.part("TICKED", &format!("{outcome}{why}"));
        self.part("FOR", &dates::weekday(review.listed_for()));
        self.part("", "u takes the tick back.");
    }

    fn problem(&mut self, problem: &Problem, new: Option<Change>) {
        let (sign, role) = sign(problem.level);
        let lot = problem.lot_beside().map_or_else(String::new, |lot| format!(" ({lot})"));
        self.title(&format!("{}{lot}", problem.place));
        let days = problem.lead().map(|lead| dates::days_between(lead.since, self.model.day).saturating_add(1));
        let since = days.map_or_else(String::new, |days| format!(", day {days}"));
        let new = new.map_or_else(String::new, |new| format!(", {}", new.text()));
        self.lines.push(Line::from(vec![
            Span::styled(format!("{sign} {}", problem.said_level()), self.model.look.style(role)),
            Span::raw(format!("{new}{since}  {}", problem.title())),
        ]));
        self.blank();
        let saw = evidence(problem, SAW, self.model.system());
        if !saw.is_empty() {
            self.part("SEEN", &saw.join("; "));
        }
        let Some(lead) = problem.lead() else { return };
        self.part("WHY", lead.why());
        let mut label = "DO";
        for step in problem.next() {
            self.part(label, &step);
            label = "";
        }
        self.part("CHECK", &again(problem, lead));
        let until = problem.put_off_until.map(|day| format!("postponed until {}", dates::weekday(day)));
        if let Some(text) = until {
            self.part("", &text);
        }
        for text in basis_lines(problem) {
            self.part("BASIS", &text);
        }
    }
}
