//! Last year beside this one, worded and laid out: as text, as JSON, and as HTML with charts.

mod charts;
mod html;
mod json;
mod text;
mod words;

pub use charts::charts;
pub use html::html;
pub use json::json;
pub use text::text;
pub use words::{Row, chosen, cost, costs_head, heading, matched, rows, unknown, unmatched};

use crate::compare::{Cost, Course, Judged, LastYear, LotBeside, Pairs, costliest, lots};
use crate::record::Site;
use crate::season::Season;
use chrono::NaiveDate;

/// Last year's file, and how it was chosen.
pub fn file(last: &LastYear) -> String {
    format!("{}, {}", last.file, chosen(last.chosen))
}

/// What a comparison is made from, and what came of it.
#[derive(Debug, Clone)]
pub struct Comparison {
    /// This year's site.
    pub site: Site,
    /// The day up to which this year is compared.
    pub on: NaiveDate,
    /// Last year's file and how it was chosen, in words.
    pub last_file: String,
    /// This year's file, as it is shown.
    pub this_file: String,
    /// Which lots stand beside which.
    pub pairs: Pairs,
    /// Lot by lot.
    pub lots: Vec<LotBeside>,
    /// Both courses of each of these lots, this year's first, for the charts.
    pub courses: Vec<(Course, Course)>,
    /// What cost most last year.
    pub costs: Vec<Cost>,
    /// True where both seasons are assessed; else nothing is said of warnings.
    pub assessed: bool,
}

impl Comparison {
    /// Sets last year beside a season; `None` where that has no site. `this` and `now` are its courses and what stood in it;
    /// without `now` nothing is said of warnings.
    pub fn of(
        last: &LastYear,
        (season, this_file): (&Season, &str),
        on: NaiveDate,
        (this, now): (&[Course], Option<&Judged>),
    ) -> Option<Self> {
        let pairs = last.pairs(season);
        let none = Judged::default();
        let both = last.judged.as_ref().zip(now);
        let (before, now) = both.unwrap_or((&none, &none));
        let lots = lots(&pairs, (this, &last.courses), on, (now, before));
        let course = |all: &[Course], lot: &str| all.iter().find(|course| course.lot.lot == lot).cloned();
        let courses = lots
            .iter()
            .filter_map(|lot| Some((course(this, &lot.this.lot)?, course(&last.courses, &lot.last.lot)?)))
            .collect();
        Some(Self {
            site: season.site()?.clone(),
            on,
            last_file: file(last),
            this_file: this_file.to_owned(),
            costs: last.judged.as_ref().map(|judged| costliest(judged, &last.courses)).unwrap_or_default(),
            assessed: both.is_some(),
            pairs,
            lots,
            courses,
        })
    }
}
