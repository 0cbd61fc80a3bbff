//! Benchwalk: a program for growers of poinsettias. One walks the benches each morning and scores what is seen; the program keeps
//! it, warns early, and says in the evening what to do next. The program itself is `benchwalk`; this library is what it is made of.
//!
//! Three modules can be read and used on their own, with examples that run:
//!
//! - [`units`]: quantities as types, typed and shown in both unit systems;
//! - [`limits`]: the numbers the rules go by, each with its unit, range and basis;
//! - [`crop`]: the agronomy as plain arithmetic, each function with its source.
//!
//! Everything else is internal and promises no stability.
//!
//! The modules stand in reading order, ground first: a module uses only what stands above it (`tests/architecture.rs` holds
//! this; DEVELOPERS.md draws it).

pub mod dates;

pub mod characters;

pub mod progress;

pub mod units;

pub mod stats;

pub mod terms;

pub mod record;

pub mod limits;

pub mod season;

pub mod trials;

pub mod crop;

pub mod mix;

pub mod warnings;

pub mod compare;

pub mod journal;

pub mod exchange;

pub mod files;

pub mod store;

pub mod review;

pub mod totals;

pub mod report;

pub mod input;

pub mod keys;

pub mod controls;

pub mod ui;

pub mod model;

pub mod panes;

pub mod screens;

pub mod popups;

pub mod app;

pub mod term;

pub mod clock;

pub mod run;

pub mod session;

pub mod commands;
