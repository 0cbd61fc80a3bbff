//! Height against a target: the curve, the window of a day, the position of readings, and the projected finish.
//!
//! Heights are in cm from the bench to the growing tip, pot included. The approach (an elongation curve gives the shape, the
//! market's specification the final height, and measured plants are held against it) is that of Fisher and Heins, "A
//! process-control approach to poinsettia height control" (1995).

mod curve;
mod points;
mod projection;
mod sample;
mod verdict;
mod window;

pub use curve::{Curve, ThreePhase};
pub use points::Points;
pub use projection::{Outlook, Pace, Projection, Reading, project};
pub use sample::{Interval, Sample, plants_for};

pub use verdict::{Firmness, Place, Verdict, verdict};
pub use window::{Target, Window};
