//! Benchwalk: a grower's morning walk over a poinsettia crop, kept and read.
//!
//! The modules stand in reading order, ground first: a module uses only what stands above it (`tests/architecture.rs` holds
//! this; DEVELOPERS.md draws it).

pub mod dates;

pub mod units;

pub mod terms;

pub mod record;

pub mod limits;

pub mod season;

pub mod crop;

pub mod mix;

pub mod warnings;

pub mod journal;

pub mod store;

pub mod review;

pub mod report;

pub mod input;

pub mod keys;

pub mod controls;

pub mod ui;

pub mod model;

pub mod screens;

pub mod popups;

pub mod app;

pub mod term;

pub mod clock;

pub mod run;

pub mod session;

pub mod commands;
