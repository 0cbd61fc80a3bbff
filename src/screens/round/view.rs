//! How the Round looks: a head with what holds for all, then a row a bench.

mod wide;

use super::State;
use super::tally::Tally;
use crate::dates;
use crate::model::listing::{Listing, Order, View};
use crate::model::{Model, Summary, Walked};
use crate::panes::{day, sign};
use crate::record::Bench;
use crate::report::words;
use crate::ui::list::{Follow, list, under_cursor};
use crate::ui::regions::Room;
use crate::ui::{Role, fit, line_of, put, rows, shorten, width, wrap};
use crate::units::{Length, Quantity};
use crate::warnings::{Warning, Whose};
use chrono::{DateTime, Datelike, FixedOffset};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::{Line, Span};
use std::collections::BTreeSet;

/// Rows above the first bench.
const HEAD: u16 = 4;
/// Cells of the column that says whether a bench is walked.
const WALKED: usize = 8;

/// A row of the list: a house above its benches, or a bench by its place among those listed.
enum Row<'m> {
    House(&'m str),
    Bench(usize, &'m Bench),
}

/// Draws it.
pub fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
    if Room::of(area.width) > Room::Narrow {
        return Some(wide::view(state, model, frame, area));
    }
    let left = model.left.as_deref();
    let plots = plots_due(model);
    let more = u16::from(left.is_some()).saturating_add(u16::from(!plots.is_empty()));
    let (head, body) = rows(area, HEAD.saturating_add(more));
    let all = model.season.benches();
    let tally = Tally::of(model, all.iter());
    put(frame, head, 0, Line::raw(tally.text(model)));
    let shared = model.shared();
    let room = beside(frame, head, &shared, model);
    put(frame, room, 0, Line::raw(ahead(model, usize::from(room.width))));
    let listed = model.listed();
    put(frame, head, 2, shown(state, model, (listed.len(), all.len()), usize::from(area.width)));
    let wide = Columns::of(area.width);
    if let Some(left) = left {
        put(frame, head, 3, Line::raw(shorten(left, usize::from(area.width))));
    }
    let heads = usize::from(head.height).saturating_sub(1);
    if !plots.is_empty() {
        put(frame, head, heads.saturating_sub(1), Line::raw(shorten(&plots, usize::from(area.width))));
    }
    put(frame, head, heads, Span::styled(wide.heads(), model.look.style(Role::Head)));
    if listed.is_empty() {
        empty(model, frame, body, all.is_empty());
    }
    let rows = listed_rows(model, &listed);
    let marked = rows.iter().position(|row| matches!(row, Row::Bench(at, _) if *at == state.list.cursor()));
    let line = |at: usize, _| match rows.get(at) {
        Some(Row::House(house)) => {
            let of_house = all.iter().filter(|b| b.house == *house);
            let text = format!("house {house}  {}", Tally::of(model, of_house).short());
            Line::from(Span::styled(
                fit(&text, usize::from(body.width)).trim_end().to_owned(),
                model.look.style(Role::Title),
            ))
        }
        Some(Row::Bench(at, bench)) => {
            let chosen = *at == state.list.cursor();
            let line = row(model, bench, &wide, (chosen, state.selected.contains(&bench.bench)));
            if chosen { under_cursor(line, model.look) } else { line }
        }
        None => Line::default(),
    };
    Some(list(frame, body, (marked.unwrap_or(0), rows.len()), Follow::Center, line))
}

/// Puts what is said of the sharing right on the second row of the head; gives what is left of that row.
fn beside(frame: &mut Frame<'_>, head: Rect, shared: &str, model: &Model) -> Rect {
    let row = line_of(head, 1);
    let cells = width(shared).min(row.width);
    let at = Rect { x: row.right().saturating_sub(cells), width: cells, ..row };
    let role = if model.share_fails() { Role::Act } else { Role::Dim };
    put(frame, at, 0, Span::styled(shared.to_owned(), model.look.style(role)));
    let gap = if cells > 0 { 2 } else { 0 };
    Rect { width: row.width.saturating_sub(cells).saturating_sub(gap), ..row }
}

/// Which plots of trials are to be read today, in one line; empty where none are.
fn plots_due(model: &Model) -> String {
    model.cache.plots_due().iter().map(words::plots_due).collect::<Vec<_>>().join("   ")
}

/// The rows: in walking order each house is headed where its benches stand together; in any other order no house is.
fn listed_rows<'m>(model: &Model, listed: &[&'m Bench]) -> Vec<Row<'m>> {
    let begins = |at: usize| at.checked_sub(1).and_then(|n| listed.get(n)).map(|b| b.house.as_str());
    let starts: Vec<&str> = listed
        .iter()
        .enumerate()
        .filter(|(at, b)| begins(*at) != Some(&b.house))
        .map(|(_, b)| b.house.as_str())
        .collect();
    let once = starts.iter().collect::<BTreeSet<_>>().len() == starts.len();
    let headed = model.listing.order == Order::Walking && once;
    let mut rows = Vec::with_capacity(listed.len().saturating_add(starts.len()));
    for (at, bench) in listed.iter().enumerate() {
        if headed && begins(at) != Some(&bench.house) {
            rows.push(Row::House(&bench.house));
        }
        rows.push(Row::Bench(at, bench));
    }
    rows
}

/// The active view and order in words, and how many benches are marked.
fn shown(state: &State, model: &Model, (listed, all): (usize, usize), cells: usize) -> Line<'static> {
    let Listing { view, order } = &model.listing;
    let count = if *view == View::All { String::new() } else { format!(" ({listed} of {all} benches)") };
    let marked = match state.selected(model).len() {
        0 => String::new(),
        n => format!("; {n} marked"),
    };
    let text = format!("Showing {}{count}, {}{marked}", view.text(), order.text());
    let role = if model.listing == Listing::default() { Role::Plain } else { Role::Act };
    Line::from(Span::styled(fit(&text, cells).trim_end().to_owned(), model.look.style(role)))
}

/// Says why the list is empty, and how to get back.
fn empty(model: &Model, frame: &mut Frame<'_>, body: Rect, none: bool) {
    let text = if none {
        "No benches yet: press g to set them up.".to_owned()
    } else {
        let view = model.listing.view.text();
        format!("Nothing to show: no bench is in this view ({view}). Press v, then a: all benches.")
    };
    for (row, line) in wrap(&text, usize::from(body.width)).into_iter().enumerate() {
        put(frame, body, row, Line::raw(line));
    }
}

/// Tonight's night, and the sales to come.
fn ahead(model: &Model, cells: usize) -> String {
    let mut parts = Vec::new();
    if let Some(minutes) = day::tonight(model) {
        parts.push(format!("night length {}", day::length(minutes)));
    }
    let mut sales: Vec<_> = model.season.lots().iter().map(|l| l.ready_by).filter(|d| *d >= model.day).collect();
    sales.sort_unstable();
    sales.dedup();
    for sale in sales.into_iter().take(3) {
        let days = sale.signed_duration_since(model.day).num_days();
        let what = if parts.len() < 2 { "sale " } else { "" };
        parts.push(match days {
            0 => format!("{what}{} is today", dates::short(sale)),
            1 => format!("{what}{} in 1 day", dates::short(sale)),
            _ => format!("{what}{} in {days} days", dates::short(sale)),
        });
    }
    let between = format!(" {} ", model.look.glyphs().between);
    // What does not fit whole is left out: the nearest sales come first.
    while parts.len() > 1 && width(&parts.join(&between)) > u16::try_from(cells).unwrap_or(u16::MAX) {
        parts.pop();
    }
    parts.join(&between)
}

/// The widths of the columns that depend on the window.
struct Columns {
    bench: usize,
    lot: usize,
    /// The six days before today; in a narrow window their digits stand close together, roots are headed by a letter, and bracts
    /// are left out.
    days: usize,
    roots: usize,
    bracts: usize,
    height: usize,
    warnings: usize,
}

impl Columns {
    /// Columns of one width in every window: mark, crop week, today, walked.
    const FIXED: usize = 2 + 5 + 6 + WALKED;

    fn of(width: u16) -> Self {
        let width = usize::from(width);
        let (bench, lot, days, roots, bracts, height) = match width {
            110.. => (12, 12, 12, 5, 6, 6),
            75.. => (6, 7, 12, 5, 6, 5),
            // The strongest warning keeps its sign in every window, next to "closed to Oct 13" too.
            60.. => (6, 7, 7, 3, 0, 5),
            _ => (6, 0, 0, 0, 0, 0),
        };
        let taken = [Self::FIXED, bench, lot, days, roots, bracts, height];
        let taken = taken.into_iter().fold(0_usize, usize::saturating_add);
        Self { bench, lot, days, roots, bracts, height, warnings: width.saturating_sub(taken) }
    }

    /// True where the digits of the days have a blank between them.
    const fn is_spaced(&self) -> bool {
        self.days > 7
    }

    fn heads(&self) -> String {
        // The head of the weeks is wider than they are: it stands over the end of the lots' column, too.
        let lot = match self.lot.checked_sub(3) {
            Some(cells) => format!("{}crop wk", fit("lot", cells)),
            None => "  wk".to_owned(),
        };
        format!(
            "  {}{lot} {}today {}{}{}{}{}",
            fit("bench", self.bench),
            fit(if self.is_spaced() { "last 6 days" } else { "6 days" }, self.days),
            fit(if self.is_spaced() { "root" } else { "r" }, self.roots),
            fit("bract", self.bracts),
            fit("ht", self.height),
            fit("walked", WALKED),
            fit("warnings", self.warnings)
        )
    }
}

/// The first two cells of a row: `*` for a marked bench, then the cursor.
fn marks(model: &Model, (chosen, marked): (bool, bool)) -> String {
    let here = model.look.glyphs().here;
    match (marked, chosen) {
        (true, true) => format!("*{here}"),
        (true, false) => "* ".to_owned(),
        (false, true) => format!("{here} "),
        (false, false) => "  ".to_owned(),
    }
}

/// The row of one bench.
fn row(model: &Model, bench: &Bench, wide: &Columns, (chosen, marked): (bool, bool)) -> Line<'static> {
    let glyphs = model.look.glyphs();
    let name = Span::raw(format!("{}{}", marks(model, (chosen, marked)), fit(&bench.bench, wide.bench)));
    let Some(summary) = model.cache.bench(&bench.bench) else {
        return Line::from(vec![name, Span::raw(glyphs.later)]);
    };
    let Some(standing) = &summary.standing else {
        // An empty bench in a house that is closed is as closed as the others.
        let closed = model.closed_until(&bench.bench).map(|_| walked(model, &bench.bench, summary));
        return Line::from([vec![name, Span::raw("empty  ")], closed.into_iter().collect()].concat());
    };
    let week = model.season.lot(&standing.lot).map(|l| week_of(model.day, l.planted)).unwrap_or_default();
    let score = |d: Option<u8>| d.map_or_else(|| glyphs.none.to_owned(), |d| d.to_string());
    let mut spans = vec![name, Span::raw(fit(&standing.lot, wide.lot)), Span::raw(format!("{week:>4} "))];
    if wide.days > 0 {
        let past = digits(summary, model, if wide.is_spaced() { " " } else { "" });
        let taken = past.iter().map(Span::width).sum();
        spans.extend(past);
        spans.push(Span::raw(" ".repeat(wide.days.saturating_sub(taken))));
    }
    spans.extend([Span::raw("  "), today(summary, model), Span::raw("   ")]);
    spans.extend([
        Span::raw(fit(&score(summary.roots.map(|r| r.0)), wide.roots)),
        Span::raw(fit(&score(summary.bracts.map(|b| b.0)), wide.bracts)),
        Span::raw(fit(&height(model, summary), wide.height)),
    ]);
    let walked = walked(model, &bench.bench, summary);
    let room = wide.warnings.saturating_sub(walked.width().saturating_sub(WALKED));
    spans.push(walked);
    spans.extend(warnings(model, &bench.bench, room));
    Line::from(spans)
}

/// The six days before today, oldest left, each as its digit.
fn digits(summary: &Summary, model: &Model, between: &'static str) -> Vec<Span<'static>> {
    let mut spans = Vec::new();
    for digit in summary.week.iter().skip(1).rev() {
        if !spans.is_empty() && !between.is_empty() {
            spans.push(Span::raw(between));
        }
        spans.push(match digit {
            Some(level) => Span::styled(level.to_string(), model.look.digit(*level)),
            None => Span::styled(model.look.glyphs().none, model.look.style(Role::Dim)),
        });
    }
    spans
}

/// Today's digit, bold whatever it is.
fn today(summary: &Summary, model: &Model) -> Span<'static> {
    match summary.week.first().copied().flatten() {
        Some(level) => Span::styled(level.to_string(), model.look.style(Role::Title).patch(model.look.digit(level))),
        None => Span::styled(model.look.glyphs().none, model.look.style(Role::Dim)),
    }
}

/// Weeks since planting, the first week being week 1.
fn week_of(today: chrono::NaiveDate, planted: chrono::NaiveDate) -> String {
    let days = today.signed_duration_since(planted).num_days();
    if days < 0 { "-".to_owned() } else { (days / 7 + 1).to_string() }
}

/// `ok`, or `+0.8` or `-1.2` outside the window in the site's unit; without a window the height itself.
fn height(model: &Model, summary: &Summary) -> String {
    let system = model.system();
    let Some(now) = summary.height else { return model.look.glyphs().none.to_owned() };
    match now.beyond_cm {
        Some(0.0) => "ok".to_owned(),
        Some(beyond) => format!("{:+.1}", Length::from_cm(beyond).in_system(system)),
        None => format!("{:.1}", Length::from_cm(now.mean_cm).in_system(system)),
    }
}

fn walked(model: &Model, bench: &str, summary: &Summary) -> Span<'static> {
    let look = model.look;
    if let Some(until) = model.closed_until(bench) {
        let when = closed_to(model, until);
        // Wider than the column: the warnings of the row stand that much further right.
        return Span::styled(format!("closed to {when} "), look.style(Role::Closed));
    }
    match summary.walked() {
        Walked::Yes => Span::styled(fit("yes", WALKED), look.style(Role::Good)),
        Walked::Part(done, all) => Span::raw(fit(&format!("{done} of {all}"), WALKED)),
        Walked::No => Span::raw(fit("no", WALKED)),
    }
}

/// Until when a bench is closed, short: the time, the day where it is not today's, the year where it is not this one.
fn closed_to(model: &Model, until: DateTime<FixedOffset>) -> String {
    match until.date_naive() {
        today if today == model.day => dates::time(&until),
        day if day.year() == model.day.year() => dates::short(day),
        day => day.year().to_string(),
    }
}

/// What a bench's row warns of, the first to be named: its own warnings, then those of its lot or house.
fn warnings_of<'m>(model: &'m Model, bench: &str) -> Vec<&'m Warning> {
    let mut all = model.cache.own(bench);
    all.extend(model.cache.not_own(bench));
    all
}

/// Whose a warning is, before its sign, and the role of both: what is not the bench's own says so and stands back.
fn whose(model: &Model, warning: &Warning) -> (&'static str, Role) {
    match model.cache.whose(warning) {
        Whose::Bench(_) => ("", sign(warning.level).1),
        Whose::Lot(_) => ("lot ", Role::Dim),
        Whose::House(_) => ("house ", Role::Dim),
    }
}

/// The strongest warning by sign and name, and how many more there are: the bench's own, where it has none that of its lot or
/// house, which says so and stands back.
fn warnings(model: &Model, bench: &str, cells: usize) -> Vec<Span<'static>> {
    let all = warnings_of(model, bench);
    let Some(first) = all.first() else { return Vec::new() };
    let more = match all.len() {
        0 | 1 => String::new(),
        n => format!(" +{}", n.saturating_sub(1)),
    };
    let (sign, _) = sign(first.level);
    let (of, role) = whose(model, first);
    // Where there is no room for more than the sign, the sign stands alone.
    let room = cells.saturating_sub(more.len());
    let least = of.len().saturating_add(sign.len()).saturating_add(4);
    let (text, more) = if room >= least {
        (fit(&format!("{of}{sign} {}", first.name.title()), room), more)
    } else if room >= sign.len() {
        (sign.to_owned(), more)
    } else {
        (sign.to_owned(), String::new())
    };
    vec![Span::styled(text.trim_end().to_owned(), model.look.style(role)), Span::raw(more)]
}
