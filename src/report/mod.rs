//! Warnings and entries into words; the evening review as text, JSON and HTML; charts as SVG; the round on paper; trials on the
//! benches. Data in, text out.

pub mod applications;
pub mod causes;
pub mod chart;
pub mod compare;
pub mod doubts;
pub mod entry;
pub mod html;
pub mod ics;
pub mod jobs_sheet;
pub mod labels;
mod layout;
pub mod mix;
pub mod plan;
pub mod readings;
pub mod review;
pub mod sampling;
pub mod scales;
pub mod season;
pub mod series;
pub mod share;
pub mod sheet;
pub mod sites;
pub mod svg;
pub mod totals;
pub mod trial;
pub mod words;
