//! Two seasons side by side: last year's lots matched with this year's, and both read by the day of the crop.
//!
//! - [`Courses`] reads a season into a [`Course`] a lot: what came when, what was measured by crop week, what became of the pots.
//! - [`Pairs`] says which lot of last year stands beside which of this one.
//! - [`lots`] puts the two courses beside each other, as data; the words are in `report::compare`.
//! - [`Judge`] assesses a season day by day and keeps what stood at act or urgent; [`costliest`] picks what cost most.
//!
//! All of it is worked out in small steps, so that a screen can go on between them.

mod beside;
mod costs;
mod course;
mod judge;
mod lots;
mod pairs;

pub use beside::{Chosen, LastYear, is_year_before, last_day};
pub use costs::{Cost, MOST, costliest};
pub use course::{Come, Course, Courses, Lost, Measure, Pots, Rate};
pub use judge::{Judge, Judged, Stood};
pub use lots::{Causes, ComeRow, LotBeside, MeasureRow, PotRow, StoodRow, lots};
pub use pairs::{By, Match, Pair, Pairs};
