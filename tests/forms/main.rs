//! The forms, driven by keys without a terminal: every kind filled in, put right, saved and taken back; one bench, several, a
//! house, a lot; warnings answered by the form that is filled in for them; how a form looks at every size of window.

mod answered;
#[path = "../screens/desk.rs"]
#[expect(dead_code, reason = "the desk serves more tests than these")]
mod desk;
#[path = "../screens/dump.rs"]
mod dump;
mod every_kind;
mod looks;
mod places;
#[path = "../screens/season.rs"]
mod season;
mod strikes;
