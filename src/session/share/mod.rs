//! A season that several laptops keep: which laptop this is, which carriers the settings name, and the exchange with all of them.

mod begin;
mod hubs;
mod kept;
mod laptop;
mod mirror;
mod season;
mod settings;
mod table;

pub use begin::{Begun, ShareError, begin, join};
pub use laptop::Laptop;
pub use mirror::{Mirrored, NotMirrored, mirror};
pub use season::SharedSeason;
pub use settings::{CarrierPlace, CarrierSetting, EVERY, RawCarrier, Sharer};
pub use table::{add, remove};
