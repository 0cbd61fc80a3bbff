//! Trials on the benches: layouts drawn by lot, and what their readings say of treatment and position.
//!
//! A plot is a pot or a group of pots that got its treatment by its own draw. Everything is computed on plot values; pots within a plot
//! are subsamples. Results are typed; the words are in `report`.

mod analysis;
mod checks;
mod compare;
mod data;
mod due;
mod gradient;
mod how_many;
mod layout;
mod means;
mod model;
mod place;
mod readings;
mod refuse;
mod reshuffle;
mod response;
mod rules;
mod unequal;
mod which_way;

pub use analysis::{Analysis, Instead, Part, analyze};
pub use checks::{Checks, LeftOver};
pub use compare::{Against, Comparisons, Difference};
pub use data::{Data, Plot, Reading};
pub use due::{DueOn, DuePlot, due, due_on_benches, scheduled};
pub use gradient::{Across, Gradient, across, gradient};
pub use how_many::{Planned, error_df, planned, seen};
pub use layout::{completely_randomized, latin_square, randomized_blocks};
pub use means::Mean;
pub use place::{Differ, MOST_PLOTS, NotCompact, NotLaid, SQUARES, Stand, Wanted, place, question_of, seed_of};
pub use readings::{DayRead, GIVEN, Over, Readings, is_lost, is_of, pots_lost};
pub use refuse::{Caution, Refused};
pub use reshuffle::{Reshuffle, Reshuffled};
pub use response::{Contrast, Response};
pub use rules::Rules;
pub use which_way::{WhichWay, which_way};

#[cfg(test)]
mod tests;
