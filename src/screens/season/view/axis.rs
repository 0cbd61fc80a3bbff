//! The time axis of the calendars: a bar a step, the months above it, what the signs mean below it.

use crate::model::Model;
use crate::report::series::{self, State as Stands, Step};
use crate::ui::{Role, fit, wrap};
use chrono::{Datelike, NaiveDate};
use ratatui::style::Style;
use ratatui::text::Span;

/// Cells of a step's name.
pub(super) const NAME: usize = 20;

/// The columns of the calendar's time axis.
pub(super) struct Axis {
    days: (NaiveDate, NaiveDate),
    pub(super) cells: usize,
    pub(super) words: usize,
    today: NaiveDate,
}

impl Axis {
    /// An axis with room for words beside the bars; `None` without a lot.
    pub(super) fn new(model: &Model, width: u16) -> Option<Self> {
        let days = series::season_days(&model.season)?;
        let room = usize::from(width).saturating_sub(NAME);
        let words = if room >= 88 { 44 } else { room / 2 };
        Some(Self { days, cells: room.saturating_sub(words.saturating_add(1)).max(1), words, today: model.day })
    }

    /// An axis as wide as there is room beside the names of the steps.
    pub(super) fn bars(model: &Model, width: u16) -> Option<Self> {
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
    pub(super) fn heads(&self) -> String {
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
    pub(super) fn bar(&self, step: &Step) -> String {
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

/// How a step in this state is drawn.
pub(super) const fn role(state: Stands) -> Role {
    match state {
        Stands::Done => Role::Good,
        Stands::Due => Role::Act,
        Stands::Late => Role::Urgent,
        Stands::Forecast => Role::Watch,
        Stands::Open => Role::Label,
        Stands::Planned | Stands::Over => Role::Plain,
    }
}

/// What the signs mean, in rows of so many cells.
pub(super) fn legend(cells: usize) -> Vec<String> {
    let states = Stands::ALL.iter().map(|s| format!("{} {}", s.sign(), s.word()));
    let all: Vec<String> = states.chain(["* given or committed".to_owned(), "| today".to_owned()]).collect();
    wrap(&all.join(", "), cells)
}

/// The name of a step and its bar. The present is no part of the bar.
pub(super) fn named_bar(name: &str, bar: &str, style: Style) -> Vec<Span<'static>> {
    let mut spans = vec![Span::raw(fit(&format!("  {name}"), NAME))];
    for (n, part) in bar.split('|').enumerate() {
        spans.extend((n > 0).then(|| Span::raw("|")));
        spans.push(Span::styled(part.to_owned(), style));
    }
    spans
}
