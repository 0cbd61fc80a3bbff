//! Last year's season as it is set beside this one: where it came from, and what was worked out of it.

use super::{Course, Judged, Match, Pairs};
use crate::dates::days_between;
use crate::season::Season;
use chrono::NaiveDate;

/// How last year's file was chosen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Chosen {
    /// Named by an option.
    Named,
    /// Named in `config.toml`.
    Configured,
    /// Found in a folder.
    Found,
    /// Made with the demo.
    Demo,
}

/// Last year's season, and what was worked out of it.
#[derive(Debug, Clone)]
pub struct LastYear {
    /// The file, as it is shown.
    pub file: String,
    /// How it was chosen.
    pub chosen: Chosen,
    /// The season.
    pub season: Season,
    /// How its lots went, by lot.
    pub courses: Vec<Course>,
    /// What stood at act or urgent; `None` while that is not worked out.
    pub judged: Option<Judged>,
    /// Lots set beside each other by hand.
    pub by_hand: Vec<Match>,
}

impl LastYear {
    /// Which of its lots stands beside which of this year.
    pub fn pairs(&self, this: &Season) -> Pairs {
        Pairs::of(&self.season, this, &self.by_hand)
    }

    /// The last day of its record.
    pub fn last_day(&self) -> NaiveDate {
        last_day(&self.season).unwrap_or(NaiveDate::MIN)
    }

    /// The course of one of its lots.
    pub fn course(&self, lot: &str) -> Option<&Course> {
        self.courses.iter().find(|course| course.lot.lot == lot)
    }
}

/// The last day of a season's record: of its last entry, or of its last lot's sale where nothing is written.
pub fn last_day(season: &Season) -> Option<NaiveDate> {
    let written = season.entries().iter().map(crate::record::Entry::day).max();
    written.or_else(|| season.lots().iter().map(|lot| lot.ready_by).max())
}

/// Days between the first plantings of two seasons that are a year apart; `None` where they are not: less than half a year, or
/// more than a year and a half, or of another place. (House rule: crops of poinsettias are planted within two months of a year.)
pub fn is_year_before(last: &Season, this: &Season) -> Option<i64> {
    let first = |season: &Season| season.lots().iter().map(|lot| lot.planted).min();
    let same = match (last.site(), this.site()) {
        (Some(last), Some(this)) => last.name.trim().to_lowercase() == this.name.trim().to_lowercase(),
        _ => false,
    };
    let days = days_between(first(last)?, first(this)?);
    (same && (183..=548).contains(&days)).then_some(days)
}
