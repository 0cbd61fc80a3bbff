//! The Season page: every lot's calendar on one time axis, the nights, the pots by lot, the application record.
//!
//! A part is a variant of [`Part`] with its arm in `update.rs` and `view.rs`, what it does in a file here and how it looks in
//! one under `view`.

mod calendars;
mod end;
mod last_year;
mod update;
mod view;

pub use update::update;
pub use view::view;

use crate::controls::List;
use crate::model::Model;
use crate::model::go::SeasonReport;
use crate::report::applications::{self, Record};
use crate::report::series::{self, LotPots, Nights};
use crate::report::totals::Section;
use calendars::Calendars;

/// A part of the page.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Part {
    /// Every lot's calendar.
    #[default]
    Calendar,
    /// The length of the night.
    Nights,
    /// Pots by lot.
    Pots,
    /// The application record.
    Applications,
    /// Last year beside this one.
    LastYear,
    /// What the season came to.
    End,
}

impl Part {
    /// Every part, in the order they are turned to.
    pub const ALL: [Self; 6] =
        [Self::Calendar, Self::Nights, Self::Pots, Self::Applications, Self::LastYear, Self::End];

    /// As the title names it.
    pub const fn text(self) -> &'static str {
        match self {
            Self::Calendar => "calendar",
            Self::Nights => "nights",
            Self::Pots => "pots",
            Self::Applications => "applications",
            Self::LastYear => "last year",
            Self::End => "season's end",
        }
    }

    /// True where a part is of the lots: in a wide window they are listed, with the one under the cursor beside them.
    pub const fn is_of_lots(self) -> bool {
        match self {
            Self::Calendar | Self::Nights | Self::Pots => true,
            Self::Applications | Self::LastYear | Self::End => false,
        }
    }

    /// What it writes as a file.
    const fn report(self) -> SeasonReport {
        match self {
            Self::Calendar | Self::Nights | Self::Pots => SeasonReport::Season,
            Self::Applications => SeasonReport::Applications,
            Self::LastYear => SeasonReport::LastYear,
            Self::End => SeasonReport::End,
        }
    }

    /// The one after (or before), round and round.
    #[must_use]
    pub fn turned(self, onward: bool) -> Self {
        let at = Self::ALL.iter().position(|p| *p == self).unwrap_or(0);
        let step = if onward { 1 } else { Self::ALL.len().saturating_sub(1) };
        let to = at.saturating_add(step) % Self::ALL.len();
        Self::ALL.get(to).copied().unwrap_or_default()
    }
}

/// Which part, how far it is scrolled, and what is shown: worked out when the page opens and when the season changes.
#[derive(Debug, Clone)]
pub struct State {
    part: Part,
    list: List,
    calendars: Calendars,
    nights: Option<Nights>,
    pots: Vec<LotPots>,
    applications: Option<Record>,
    last_year: last_year::LastYear,
    /// Worked out when that part is first shown.
    end: Option<Vec<Section>>,
}

impl State {
    /// The page as of the day of the round.
    pub fn new(model: &Model) -> Self {
        Self::of(model, Part::default(), List::default(), Calendars::new(model))
    }

    fn of(model: &Model, part: Part, list: List, calendars: Calendars) -> Self {
        Self {
            part,
            list,
            calendars,
            nights: series::nights(&model.season, &model.limits),
            pots: series::pots(&model.season, model.day),
            applications: applications::whole(&model.season, model.day),
            last_year: last_year::LastYear::new(model),
            end: None,
        }
    }

    /// Recomputes what is shown.
    fn refresh(&mut self, model: &Model) {
        let mut last_year = std::mem::take(&mut self.last_year);
        last_year.refresh(model);
        let calendars = std::mem::take(&mut self.calendars).renewed(model);
        let (part, list) = (self.part, self.list);
        *self = Self { last_year, ..Self::of(model, part, list, calendars) };
        end::work_out(self, model);
    }

    /// True while slow work of the part shown waits.
    pub fn waits(&self) -> bool {
        match self.part {
            Part::LastYear => self.last_year.waits(),
            Part::Calendar | Part::Nights | Part::Pots => self.calendars.waits(),
            Part::Applications | Part::End => false,
        }
    }

    /// The lot under the cursor of a wide window, by its place.
    fn chosen(&self) -> usize {
        self.list.cursor().min(self.calendars.all().len().saturating_sub(1))
    }

    /// The part shown.
    pub const fn part(&self) -> Part {
        self.part
    }
}
