//! The evening review over many sites, worded and laid out: as text, as JSON, and as HTML with each site's own review.

mod html;
mod json;
mod text;
mod words;

pub use html::html;
pub use json::json;
pub use text::text;
