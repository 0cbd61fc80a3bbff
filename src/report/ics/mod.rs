//! The season as a calendar file (iCalendar, RFC 5545) for phones and office calendars: due work, forecasts and orders as events of
//! whole days. One way: nothing is read back, and a restricted-entry interval (REI) is never in it, for a calendar that is out of
//! date would open a closed house.

mod events;
mod text;

pub use events::{Event, Status, events};
pub use text::calendar;
