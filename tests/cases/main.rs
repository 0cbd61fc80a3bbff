//! Small seasons in journal form with the warnings that must and must not stand on a day; see `run`.

mod run;
