//! How things are drawn: 16 colors and modifiers, our few glyphs, text cut to its width, the frame around every page.
//!
//! Nothing here knows what is shown. Writing goes through widgets only, never through an index into the buffer, so that no
//! size of window can end the program.

mod big_text;
pub mod charts;
pub mod fields;
mod frame;
mod glyphs;
pub mod list;
mod panel;
pub mod regions;
mod sanitize;
mod text;
mod theme;

pub use big_text::Letters;
pub use frame::{Page, TooSmall, said_room, too_small};
pub use glyphs::Glyphs;
pub use panel::{panel, typed};
pub use sanitize::{plain_signs, sanitize};
pub use text::{fit, line_of, put, rows, shorten, width, wrap};
pub use theme::Role;
