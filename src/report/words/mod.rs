//! Evidence and places of warnings, and what is not known of a lot, in words; title, why and next steps stand with the rule of
//! each warning.
#![deny(clippy::wildcard_enum_match_arm)]

mod color;
mod drying;
mod earlier;
mod evidence;
mod known;
mod left;
mod plots;
mod round;
mod settle;
mod short;

pub use color::temperatures;
pub use drying::{SLOWER, SLOWER_LOOK, dries, slower};
pub use earlier::{history, not_known};
pub use evidence::{not_checked, piece, pieces};
pub use known::known_here;
pub use left::{day_after, left};
pub use plots::{plots, plots_due};
pub use round::{flagged, round};
pub(in crate::report) use settle::{display, written};
pub use settle::{places, settle, settle_about, version, who, who_when};
pub use short::short;

use crate::record::Place;
use crate::warnings::Warning;

/// Of what: `E1`, `lot R1`, `house East`.
pub fn place(warning: &Warning) -> String {
    match &warning.place {
        Place::Bench(code) => code.to_string(),
        Place::Lot(code) => format!("lot {code}"),
        Place::House(name) => format!("house {name}"),
    }
}
