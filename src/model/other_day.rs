//! The program on another day than today: entries are logged for that day until it is put back.

use super::Model;
use crate::dates;
use crate::record::typed::Facing;
use chrono::{Datelike, NaiveDate};

impl Model {
    /// The band on every page while the program is on another day.
    pub fn band(&self) -> Option<String> {
        let day = self.other_day?;
        let shown = if day.year() == self.own_day().year() { dates::weekday(day) } else { dates::long(day) };
        Some(format!("LOGGING FOR {} \u{2014} F6 goes back to {}", shown.to_uppercase(), self.own_day_text()))
    }

    /// The own day of the program in words: `today`, or the day it was started on by `--on`.
    fn own_day_text(&self) -> String {
        if self.given { dates::weekday(self.own_day()) } else { "today".to_owned() }
    }

    /// Reads the day that is typed to put the program on.
    ///
    /// # Errors
    /// What is wrong with it, and what would be right.
    pub fn read_other_day(&self, text: &str) -> Result<NaiveDate, String> {
        if text.is_empty() {
            return Err(format!("type a day, such as {}", self.day_reader().days(Facing::Back)));
        }
        let day = self.day_reader().day(text, Facing::Back)?;
        let own = self.own_day();
        if day > own {
            return Err(format!("is {}, which is still to come", dates::long(day)));
        }
        if day == own {
            return Err(format!("is {}: entries go to that day already", dates::long(day)));
        }
        Ok(day)
    }

    /// What is said when the day is put on or put back.
    pub(super) fn say_day(&mut self) {
        let text = match self.other_day {
            Some(day) => format!("Entries go to {} now, at the present time of day.", dates::long(day)),
            None => format!("Back to {}: entries go to {}.", self.own_day_text(), dates::long(self.day)),
        };
        self.say(text);
    }

    /// Why the last entry of this session is not undone on this day: it is of a later one.
    pub fn last_is_later(&self) -> Option<String> {
        let last = self.next_undo()?.iter().map(crate::record::Entry::day).max()?;
        (self.other_day.is_some() && last > self.day)
            .then(|| format!("The last entry is of {}: press F6 first, then u.", dates::weekday(last)))
    }

    /// The names of who wrote last, the newest first, without the present one; three at most.
    pub fn last_writers(&self) -> Vec<String> {
        let written = self.season.entries().iter().rev().map(|entry| entry.by.as_ref());
        let mut names: Vec<String> = Vec::new();
        for name in self.writers.iter().rev().map(String::as_str).chain(written) {
            if name != self.by && !name.is_empty() && !names.iter().any(|known| known == name) {
                names.push(name.to_owned());
            }
            if names.len() == MOST_NAMES {
                break;
            }
        }
        names
    }
}

/// Names offered at most.
const MOST_NAMES: usize = 3;
