//! Model state, messages and effects.
//!
//! [`Model`] is the one state beside the screens' own: the season, its assessment, the time. Entries come in through
//! [`Model::record`] alone. Nothing here reads a clock or a file: `run` gives the time in a [`Now`] before each event and
//! carries out each [`Effect`].

mod answers;
mod cache;
mod closed;
mod drafts;
mod form_request;
pub mod go;
mod house_temperature;
mod in_two;
mod job_tick;
pub mod listing;
mod mixing;
mod msg;
mod other_day;
mod plan;
mod rescued;
mod sharing;
mod state;
mod summary;
mod to_settle;
mod trial;
mod undo;
pub mod walk_order;
mod wrong_clock;

pub use answers::{Answer, answers, answers_of, job_form};
pub use cache::Cache;
pub use drafts::DraftKey;
use drafts::Drafts;
pub use form_request::FormRequest;
pub use go::Go;
pub use job_tick::JobTick;
pub use mixing::{MixTab, MixingField, MixingRequest};
pub use msg::{Effect, Msg, NotOpened, Outcome, Response, Setting};
pub use plan::{PlanAsk, PotsAsk};
pub use rescued::Rescued;
pub use state::{About, Facts, Joined, Model, Now, Status, fault_text};
pub use summary::{HeightNow, Summary, Walked, week};
pub use undo::Undone;
pub use wrong_clock::WrongClock;
