//! Whether the walk asks for the temperature of a house: once a day, on the first bench walked there, where nothing stands for the
//! day yet. It belongs to the house; no bench waits for it.

use super::Model;
use crate::dates::add_days;
use crate::record::{Bench, KindName, Place};

/// Days that a logger's last day keeps the walk from asking: its files come about once a week (house rule).
const LOGGER_DAYS: i64 = 8;

impl Model {
    /// True where the temperature of a bench's house is still to be asked today: the site has it asked, no climate entry of the
    /// house stands for the day, no logger fills it in, and it was not skipped.
    pub fn asks_temperature(&self, bench: &str) -> bool {
        let Some(house) = self.house_of(bench) else { return false };
        let skipped = self.unasked.iter().any(|(of, day)| of == house && *day == self.day);
        let asked = self.season.site().is_some_and(|site| !site.no_temperature);
        asked && !skipped && !self.has_climate(bench) && !self.has_logger(bench, house)
    }

    /// True where a logger wrote a day of the house lately: the days since then come with its next file.
    fn has_logger(&self, bench: &str, house: &str) -> bool {
        let (from, place) = (add_days(self.day, -LOGGER_DAYS), Place::House(house.into()));
        let history = self.season.history(bench, self.day);
        let mut lately = history.of(KindName::Climate).rev().take_while(|entry| entry.day() >= from);
        lately.any(|entry| entry.is_from_logger() && entry.place == place)
    }

    /// True where a climate entry of its house stands for the day.
    pub fn has_climate(&self, bench: &str) -> bool {
        let Some(house) = self.house_of(bench) else { return false };
        let place = Place::House(house.into());
        let history = self.season.history(bench, self.day);
        history.on(self.day).any(|e| e.name() == KindName::Climate && e.place == place)
    }

    /// Not asked again today in the house of a bench.
    pub fn skip_temperature(&mut self, bench: &str) {
        let day = self.day;
        if let Some(house) = self.house_of(bench).map(str::to_owned) {
            self.unasked.insert((house, day));
        }
    }

    fn house_of(&self, bench: &str) -> Option<&str> {
        self.season.bench(bench).map(|Bench { house, .. }| house.as_str())
    }
}
