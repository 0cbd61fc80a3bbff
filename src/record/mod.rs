//! What is written down: the plan (site, lots, benches, placements, orders) and the entries (findings and work).
//!
//! These are plain values. Fields carry the names and units of the journal (JOURNAL in the README), so that the screen, the
//! file and the code speak of one thing by one name. `codec` is the only place that knows their JSON; `rules` the only place
//! that knows which values are allowed.

mod between;
mod checker;
mod clean;
pub mod codec;
mod entry;
mod field;
pub mod fields;
mod kinds;
mod lines;
pub mod parse;
pub mod rules;
pub mod schema;
pub mod typed;
mod value;

pub use crate::terms::{
    Before, Design, How, JobOutcome, LeafSign, Material, Method, Nights, PestName, Pinch, PinchHow, PlantPart, Reach,
    Region, RootSign, Term, TestMethod, TrialReading,
};
pub use checker::FieldFault;
pub use clean::{LONGEST, clean};
pub(crate) use clean::{marked, marked_code};
pub use codec::{derived_id, season_id};
pub use entry::{Entry, Place};
pub use kinds::{Application, ClimateLog, Kind, KindName, Part, PestCount, Side};
pub use lines::{Bench, Line, LineKey, Lot, LotHistory, NOBODY, Order, Placement, Plan, Plot, Revision, Site, Trial};

pub use value::{FieldType, Value, Values};
