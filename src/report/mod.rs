//! Warnings and entries into words; the evening review as text and JSON. Data in, text out.

pub mod cautions;
pub mod day;
pub mod entry;
pub mod review;
pub mod troubles;
pub mod words;
