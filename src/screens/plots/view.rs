//! How the readings card looks: the plot and its place, what was read of it, what is asked, the map of the plots.

mod map;
mod so_far;

use super::work::{One, Work};
use super::{State, reading};
use crate::dates;
use crate::model::Model;
use crate::panes::shut;
use crate::record::{Entry, Plot, Term, Trial, TrialReading};
use crate::trials;
use crate::ui::regions::{Regions, Room, heading};
use crate::ui::{Role, line_of, put, rows, typed, width, wrap};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::{Line, Span};

/// Cells of the card in a wide window.
const CARD: u16 = 62;

/// Draws it.
pub fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
    if let Some(why) = state.shut(model) {
        let bench = state.bench(model).unwrap_or_default();
        let (band, below) = rows(area, shut::BAND);
        shut::band(&bench, model, frame, band, why);
        let what = format!("{} Enter returns.", shut::meaning(why, model));
        for (row, line) in (1..).zip(wrap(&what, usize::from(below.width))) {
            put(frame, below, row, Span::raw(line));
        }
        return Some(Position { x: area.x.saturating_add(1), y: area.y.saturating_add(1) });
    }
    let trial = model.season.trial(&state.trial)?;
    let work = Work::of(state, model);
    let seen = Seen { state, model, work: &work, trial };
    if Room::of(area.width) == Room::Narrow {
        let (taken, cursor) = seen.card(frame, area);
        map::view(&seen, frame, rows(area, taken.saturating_add(1)).1);
        return Some(cursor);
    }
    let regions = Regions::of(frame, area, CARD, model.look);
    let (_, cursor) = seen.card(frame, regions.list);
    if let Some(panel) = regions.panel {
        let below = heading(frame, panel, ("plots", &seen.where_from()), model.look);
        map::view(&seen, frame, rows(below, 1).1);
    }
    if let Some(day) = regions.day {
        so_far::view(&seen, frame, day);
    }
    Some(cursor)
}

/// What is drawn.
struct Seen<'m> {
    state: &'m State,
    model: &'m Model,
    work: &'m Work<'m>,
    trial: &'m Trial,
}

impl Seen<'_> {
    /// The plot that is asked, and which of its readings.
    fn asked(&self) -> Option<(&One<'_>, TrialReading)> {
        let asked = self.state.asked.as_ref()?;
        Some((self.work.one(&asked.plot)?, asked.reading))
    }

    /// The bench that is shown.
    fn where_from(&self) -> String {
        self.state.bench(self.model).map_or_else(String::new, |bench| format!("on {bench}"))
    }

    /// Draws the card; gives its rows, and the cursor's place on what is asked.
    fn card(&self, frame: &mut Frame<'_>, area: Rect) -> (u16, Position) {
        let title = self.model.look.style(Role::Title);
        let cells = usize::from(area.width);
        let mut row = 0_usize;
        let head = self.head();
        let fits = usize::from(width(&head)) <= cells;
        for line in if fits { vec![head] } else { wrap(&head, cells) } {
            put(frame, area, row, Span::styled(line, title));
            row = row.saturating_add(1);
        }
        let top = Position { x: area.x, y: area.y };
        let Some((one, of)) = self.asked() else {
            put(frame, area, row, Span::raw("Enter returns; the arrows go to a plot to read it again."));
            return (down(row.saturating_add(1)), top);
        };
        if !self.is_scheduled() {
            put(frame, area, row, Span::raw("No reading is due today: this is one more, on a day of its own."));
        }
        row = row.saturating_add(1);
        let (taken, mut cursor) = self.readings(frame, rows(area, down(row)).1, (one, of));
        row = row.saturating_add(taken);
        let below = rows(area, down(row)).1;
        let (taken, at) =
            if self.state.asks_lost { self.ask_lost(frame, below, one) } else { self.ask(frame, below, one, of) };
        cursor = at.unwrap_or(cursor);
        (down(row.saturating_add(taken)), cursor)
    }

    /// The plot by number and place, never by treatment; how far the reading got.
    fn head(&self) -> String {
        let (done, all) = self.work.count();
        match self.asked() {
            Some((one, _)) => {
                let pots = if one.plot.pots == 1 { String::new() } else { format!(", {} pots", one.plot.pots) };
                format!("plot {}   {}{pots}   {done} of {all} done", one.plot.number(), self.place(one.plot))
            }
            None => format!("All {} of {} are read.", crate::report::words::plots(all), self.state.trial),
        }
    }

    /// Where a plot stands: `row 2, third from the aisle`.
    fn place(&self, plot: &Plot) -> String {
        let bench = if self.state.bench.is_none() { format!("{}, ", plot.bench) } else { String::new() };
        match &self.trial.near_side {
            Some(near) => format!("{bench}row {}, {} from the {near}", plot.row, nth(plot.column)),
            None => format!("{bench}row {}, column {}", plot.row, plot.column),
        }
    }

    /// False for readings beside the schedule.
    fn is_scheduled(&self) -> bool {
        trials::scheduled(self.trial, self.model.day) == Some(self.state.since)
    }

    /// Every reading of the plot, what was read now and the time before; the one asked in brackets.
    fn readings(&self, frame: &mut Frame<'_>, area: Rect, (one, of): (&One<'_>, TrialReading)) -> (usize, Position) {
        let look = self.model.look;
        let names = self.work.readings.iter().map(|reading| width(reading.text())).max().unwrap_or(0);
        let mut cursor = Position { x: area.x, y: area.y };
        for (row, (reading, read)) in self.work.readings.iter().zip(&one.read).enumerate() {
            let asked = *reading == of;
            let value = read.map_or_else(|| "_".to_owned(), |entry| self.value(entry));
            let name = format!("{:<cells$}", reading.text(), cells = usize::from(names));
            let (open, close) = if asked { ("[", "]") } else { (" ", " ") };
            let role = match (asked, read) {
                (true, _) => Role::Chosen,
                (false, Some(entry)) if self.model.pending.contains(&entry.id) => Role::Pending,
                (false, Some(_)) => Role::Good,
                (false, None) => Role::Plain,
            };
            let text = format!("{open}{name}  {value}{close}");
            put(
                frame,
                area,
                row,
                Line::from(vec![
                    Span::styled(text, look.style(role)),
                    Span::styled(self.before(one.plot, *reading), look.style(Role::Label)),
                ]),
            );
            if asked {
                let x = area.x.saturating_add(names).saturating_add(3);
                cursor = Position { x, y: area.y.saturating_add(down(row)) };
            }
        }
        (self.work.readings.len(), cursor)
    }

    /// What was read now, with its day where that is not today.
    fn value(&self, entry: &Entry) -> String {
        let shown = reading::shown(&entry.kind, self.model.system(), false);
        if entry.day() == self.model.day { shown } else { format!("{shown} on {}", dates::short(entry.day())) }
    }

    /// What was read the time before: `, on Oct 5 14.1`.
    fn before(&self, plot: &Plot, of: TrialReading) -> String {
        let entries = self.model.season.plot_entries(&plot.plot, self.model.day);
        let last = entries.filter(|e| e.day() < self.state.since && trials::is_of(&e.kind, of)).last();
        last.map_or_else(String::new, |entry| {
            let value = reading::shown(&entry.kind, self.model.system(), true);
            format!("  on {} {value}", dates::short(entry.day()))
        })
    }

    /// What a digit means, or the line that is typed and why it was refused.
    fn ask(&self, frame: &mut Frame<'_>, area: Rect, one: &One<'_>, of: TrialReading) -> (usize, Option<Position>) {
        let (look, cells) = (self.model.look, usize::from(area.width));
        let mut lines: Vec<Line<'static>> = Vec::new();
        let how = reading::how(of, one.plot, self.state.ways, self.model.system());
        lines.extend(wrap(&how, cells).into_iter().map(|line| Line::styled(line, look.style(Role::Title))));
        let Some(digits) = reading::digits(of, one.plot, self.state.ways) else {
            for (row, line) in lines.iter().enumerate() {
                put(frame, area, row, line.clone());
            }
            let place = line_of(area, lines.len());
            let room = usize::from(place.width.saturating_sub(3));
            let line = &self.state.line;
            let cursor = typed(frame, place, (line.text(), line.cursor(), line.scroll(room)), look);
            let fault = self.state.fault.as_ref().map(|fault| wrap(&format!("! {fault}"), cells)).unwrap_or_default();
            let mut row = lines.len().saturating_add(1);
            for line in fault {
                put(frame, area, row, Span::styled(line, look.style(Role::Urgent)));
                row = row.saturating_add(1);
            }
            return (row, cursor);
        };
        lines.extend(flow(digits, cells, self.model));
        let taken = lines.len();
        for (row, line) in lines.into_iter().enumerate() {
            put(frame, area, row, line);
        }
        (taken, None)
    }

    /// The question before the pots of a plot are written off.
    fn ask_lost(&self, frame: &mut Frame<'_>, area: Rect, one: &One<'_>) -> (usize, Option<Position>) {
        let left = one.plot.pots.saturating_sub(trials::pots_lost(&self.model.season, one.plot, self.model.day));
        let pots = if left == 1 { "its pot leaves".to_owned() } else { format!("its {left} pots leave") };
        let text = format!(
            "Plot {} lost: {pots} the count of {}. d again: yes. Any other key: no.",
            one.plot.number(),
            one.plot.bench
        );
        let lines = wrap(&text, usize::from(area.width));
        let taken = lines.len();
        for (row, line) in lines.into_iter().enumerate() {
            put(frame, area, row, Span::styled(line, self.model.look.style(Role::Urgent)));
        }
        (taken, Some(Position { x: area.x, y: area.y }))
    }
}

/// Digits with their meaning, as many on a row as fit.
fn flow(digits: &'static [(u8, &'static str)], cells: usize, model: &Model) -> Vec<Line<'static>> {
    let mut lines: Vec<Line<'static>> = Vec::new();
    for (digit, meaning) in digits {
        let piece =
            [Span::styled(format!(" {digit} "), model.look.style(Role::Key)), Span::raw(format!("{meaning}  "))];
        let wide = usize::from(width(meaning)).saturating_add(3);
        match lines.last_mut() {
            Some(line) if line.width().saturating_add(wide) <= cells => line.spans.extend(piece),
            _ => lines.push(Line::from_iter(piece)),
        }
    }
    lines
}

/// Which one from a side.
fn nth(number: u32) -> String {
    const WORDS: [&str; 12] = [
        "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth", "eleventh",
        "twelfth",
    ];
    let word = usize::try_from(number).ok().and_then(|n| WORDS.get(n.checked_sub(1)?));
    word.map_or_else(|| format!("number {number}"), |word| (*word).to_owned())
}

fn down(row: usize) -> u16 {
    u16::try_from(row).unwrap_or(u16::MAX)
}
