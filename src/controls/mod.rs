//! What a person types into, picks from and moves through: a line, a list, the fields of a form. State only; `ui` draws it.

mod field;
mod fields;
mod guard;
mod list;
mod repeats;

pub use field::{Field, MOST};
pub use fields::{Choice, Fields, Input, Row};
pub use guard::{Guard, Verdict};
pub use list::{List, letter, named, page};
pub use repeats::{Repeats, SETTLED};
