//! What all screens share, and the words in which they are told things and ask for things.
//!
//! `Shared` is the one state beside the screens' own: the season, what was worked out of it, the time as last told. Nothing
//! here reads a clock or a file: `run` tells the time in a [`Stamp`] before each event and carries out each [`Effect`].

mod answers;
mod ask;
mod cache;
mod field;
mod mark;
mod mixing;
mod msg;
mod plan;
pub mod route;
mod shared;
mod summary;

pub use answers::{Answer, answers, answers_of};
pub use ask::{Ask, closes};
pub use cache::Cache;
pub use field::{Field, MOST, hidden};
pub use mark::moved;
pub use mixing::{MixTab, Mixing};
pub use msg::{Effect, Msg, Task, To};
pub use plan::PlanAsk;
pub use shared::{Said, Shared, Stamp};
pub use summary::{HeightNow, Summary, Walked, week};
