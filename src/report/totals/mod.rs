//! A season's end in words: sections of notes and tables, laid out as text, as HTML and as JSON; the limits file of the next
//! season, and what is said of its plan.

mod html;
mod json;
mod limits;
mod next;
mod sections;
mod text;

pub use html::html;
pub use json::json;
pub use limits::limits_file;
pub use next::words as next_words;
pub use sections::{Section, sections};
pub use text::{Row, rows, text};

use super::season::trials;
use super::trial;
use crate::limits::Limits;
use crate::season::Season;
use crate::totals::Totals;
use crate::trials::Rules;
use chrono::NaiveDate;

/// A season's end as it is printed.
#[derive(Debug, Clone)]
pub struct SeasonEnd {
    /// What it came to.
    pub totals: Totals,
    /// The trials of which anything was read, up to that day.
    pub trials: Vec<trial::Report>,
    /// The slow-release kept for the next season: lot, grams per pot, and what it goes by.
    pub rates: Vec<(String, f64, Option<String>)>,
}

impl SeasonEnd {
    /// Of a season up to the end of a day; `None` where it has no site.
    pub fn of(season: &Season, on: NaiveDate, limits: &Limits) -> Option<Self> {
        Some(Self { trials: trials(season, on, Rules::of(limits)), ..Self::without_trials(season, on)? })
    }

    /// The same without what the trials found, which takes time to work out; `None` where it has no site.
    pub fn without_trials(season: &Season, on: NaiveDate) -> Option<Self> {
        let kept = season
            .lots()
            .into_iter()
            .filter_map(|lot| Some((lot.lot.clone(), lot.next_release_g?, lot.next_release_basis.clone())));
        Some(Self { totals: Totals::of(season, on)?, trials: Vec::new(), rates: kept.collect() })
    }

    /// The result of a trial in sentences.
    fn result(report: &trial::Report) -> Vec<String> {
        let words = report.words();
        if let Some(refused) = words.refused() {
            return vec![refused];
        }
        let Some(verdict) = words.found.verdict() else { return Vec::new() };
        if let Some(none) = words.none_told(&verdict) {
            return vec![none];
        }
        let head = format!("{}: {}.", words.told_head(&verdict), words.told(&verdict).join("; "));
        std::iter::once(head)
            .chain(words.untold(&verdict).map(|pairs| format!("{pairs}.")))
            .chain(words.response())
            .collect()
    }
}
