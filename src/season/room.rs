//! Room on a bench: how many pots fit, by its area and the spacing of the lot.

use super::Season;
use crate::record::{Kind, Place};
use chrono::NaiveDate;

/// Square centimeters of a square meter.
const CM2: f64 = 10_000.0;

impl Season {
    /// The spacing last logged for a lot, center to center, cm: on any bench where it stood; `None` where none was.
    pub fn spacing(&self, lot: &str, day: NaiveDate) -> Option<f64> {
        let spaced = self.entries.iter().rev().filter(|e| e.day() <= day && e.is_of_whole_place());
        let mut spaced =
            spaced.filter_map(|e| if let Kind::Spaced { centers_cm } = *e.kind { Some((e, centers_cm)) } else { None });
        let of_lot = |place: &Place, on| match place {
            Place::House(house) => self.benches().iter().any(|b| *b.house == **house && self.stands(&b.bench, lot, on)),
            Place::Bench(bench) => self.stands(bench, lot, on),
            Place::Lot(code) => **code == *lot,
        };
        spaced.find(|(e, _)| of_lot(&e.place, e.day()) && !self.is_struck(e, day)).map(|(_, centers)| centers)
    }

    fn stands(&self, bench: &str, lot: &str, day: NaiveDate) -> bool {
        self.standing(bench, day).is_some_and(|standing| standing.lot == lot)
    }

    /// How many pots of a lot fit on a bench in rows and files at the spacing last logged for it; `None` where the bench has no
    /// area or the lot no spacing.
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "whole and in the range just tested")]
    pub fn room_for(&self, bench: &str, lot: &str, day: NaiveDate) -> Option<u32> {
        let (area, centers) = (self.bench(bench)?.area_m2?, self.spacing(lot, day)?);
        let pots = (area * CM2 / (centers * centers)).floor();
        (0.0..=1e9).contains(&pots).then_some(pots as u32)
    }
}
