//! Until when a growth regulator may be applied without harm to the bracts or the date.

use super::Ingredient;
use crate::limits::Limits;
use crate::terms::{Method, Region};
use chrono::{Datelike, Days, NaiveDate};

/// The days the rules go by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CutoffDays {
    /// A chlormequat spray is late from this many days after the start of short days. 14: house rule, from October 15 to 20
    /// of the University of Florida (about 2009) under natural nights.
    pub chlormequat_after_short_days: u32,
    /// Month and day from which a chlormequat spray is late in a cool region: October 15, the traditional northern limit
    /// (University of Massachusetts, 1999).
    pub cool_fall: (u32, u32),
    /// Ethephon is late nearer the sale than this many days: 42, the short end of "6 to 8 weeks" (Virginia Tech and North
    /// Carolina State, growth-regulator chapter).
    pub ethephon_before_sale: u32,
}

impl Default for CutoffDays {
    fn default() -> Self {
        // The figures have one home, the limits.
        Self::of(&Limits::default())
    }
}

impl CutoffDays {
    /// As the grower's limits have them.
    pub const fn of(limits: &Limits) -> Self {
        let limits = &limits.growth;
        Self {
            chlormequat_after_short_days: limits.chlormequat_after,
            cool_fall: (10, limits.chlormequat_october),
            ethephon_before_sale: limits.ethephon_before,
        }
    }
}

/// What is known of the last safe day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cutoff {
    /// This day is the last.
    Day {
        /// The last safe day.
        day: NaiveDate,
        /// Why, in words, with the source.
        why: &'static str,
    },
    /// No day in the calendar ends it.
    None {
        /// Why, in words, with the source.
        why: &'static str,
    },
    /// No published figure was found: the label decides.
    NoFigure,
}

impl Cutoff {
    /// Whether a treatment on this day comes after the last safe day. Without a figure nothing is late.
    pub fn is_late(&self, treated: NaiveDate) -> bool {
        matches!(self, Self::Day { day, .. } if treated > *day)
    }
}

/// The last safe day of an ingredient applied by a method, for a lot whose short days start on `short_days` and whose sale is on
/// `sale`.
///
/// Daminozide, paclobutrazol and uniconazole sprays stop before short days start (University of Florida about 2009 and 1998;
/// where nights are natural that was October 1 in Florida and about September 25 in cool climates). Chlormequat sprays and
/// ethephon: see [`CutoffDays`]. Early and late drenches of paclobutrazol and flurprimidol in micro amounts have no cut-off
/// (University of Florida). A day beyond the calendar counts as no figure.
pub fn cutoff(
    ingredient: Ingredient,
    method: Method,
    region: Region,
    short_days: NaiveDate,
    sale: NaiveDate,
    rules: CutoffDays,
) -> Cutoff {
    let until = |day: Option<NaiveDate>, why| day.map_or(Cutoff::NoFigure, |day| Cutoff::Day { day, why });
    match (ingredient, method) {
        (Ingredient::Ethephon, _) => until(
            sale.checked_sub_days(Days::new(rules.ethephon_before_sale.into())),
            "not within 6 to 8 weeks of the sale (Virginia Tech and North Carolina State growth-regulator chapter)",
        ),
        (Ingredient::Daminozide | Ingredient::Paclobutrazol | Ingredient::Uniconazole, Method::Spray) => until(
            short_days.pred_opt(),
            "sprays after the start of short days delay color and make bracts smaller (University of Florida, 1998 and about 2009)",
        ),
        (Ingredient::Chlormequat, Method::Spray) => chlormequat(region, short_days, rules),
        (Ingredient::Paclobutrazol | Ingredient::Flurprimidol, Method::Drench) => Cutoff::None {
            why: "no cut-off date published for small drenches (University of Florida gives late ones 1 to 3 weeks before the sale); the label decides",
        },
        _ => Cutoff::NoFigure,
    }
}

fn chlormequat(region: Region, short_days: NaiveDate, rules: CutoffDays) -> Cutoff {
    // The rule names the first day that is late; the last safe one is the day before.
    let late = short_days.checked_add_days(Days::new(rules.chlormequat_after_short_days.into()));
    let (month, day) = rules.cool_fall;
    let fall = NaiveDate::from_ymd_opt(short_days.year(), month, day).filter(|_| region == Region::Cool);
    match (late, fall) {
        (Some(late), Some(fall)) if fall < late => fall.pred_opt().map_or(Cutoff::NoFigure, |day| Cutoff::Day {
            day,
            why: "before October 15 in cool regions (University of Massachusetts, 1999)",
        }),
        (Some(late), _) => late.pred_opt().map_or(Cutoff::NoFigure, |day| Cutoff::Day {
            day,
            why: "within two weeks of the start of short days (Benchwalk's rule of thumb, after the University of Florida's October 15 to 20, about 2009)",
        }),
        _ => Cutoff::NoFigure,
    }
}

#[cfg(test)]
mod tests {
    use super::{Cutoff, CutoffDays, Ingredient, Method, Region, cutoff};
    use chrono::NaiveDate;
    use proptest::prelude::*;

    fn date(text: &str) -> NaiveDate {
        text.parse().unwrap()
    }

    fn last(ingredient: Ingredient, method: Method, region: Region, short_days: &str) -> Option<NaiveDate> {
        let sale = date("2026-11-27");
        match cutoff(ingredient, method, region, date(short_days), sale, CutoffDays::default()) {
            Cutoff::Day { day, .. } => Some(day),
            _ => None,
        }
    }

    #[test]
    fn the_last_safe_days() {
        use Ingredient::*;
        let cool = |i, m| last(i, m, Region::Cool, "2026-09-22");
        for spray in [Daminozide, Paclobutrazol, Uniconazole] {
            assert_eq!(cool(spray, Method::Spray), Some(date("2026-09-21")));
        }
        assert_eq!(cool(Chlormequat, Method::Spray), Some(date("2026-10-05")));
        assert_eq!(last(Chlormequat, Method::Spray, Region::Cool, "2026-10-04"), Some(date("2026-10-14")));
        assert_eq!(last(Chlormequat, Method::Spray, Region::Warm, "2026-10-04"), Some(date("2026-10-17")));
        // The other hemisphere: short days start in March, October is long past the crop.
        assert_eq!(last(Chlormequat, Method::Spray, Region::Cool, "2026-03-20"), Some(date("2026-04-02")));
        assert_eq!(cool(Ethephon, Method::Spray), Some(date("2026-10-16")));
        assert_eq!(cool(Paclobutrazol, Method::Drench), None);
        assert_eq!(cool(Ancymidol, Method::Spray), None);
    }

    #[test]
    fn late_is_the_day_after() {
        let answer = cutoff(
            Ingredient::Daminozide,
            Method::Spray,
            Region::Cool,
            date("2026-09-22"),
            date("2026-11-27"),
            CutoffDays::default(),
        );
        assert!(!answer.is_late(date("2026-09-21")) && answer.is_late(date("2026-09-22")));
        assert!(!Cutoff::NoFigure.is_late(date("2026-12-31")));
    }

    proptest! {
        #[test]
        fn any_day_is_answered(n in any::<i32>(), a: u32, b: (u32, u32), c: u32) {
            let rules = CutoffDays { chlormequat_after_short_days: a, cool_fall: b, ethephon_before_sale: c };
            let day = NaiveDate::from_num_days_from_ce_opt(n).unwrap_or(NaiveDate::MIN);
            for ingredient in Ingredient::ALL {
                for method in [Method::Spray, Method::Drench] {
                    let _answered = cutoff(ingredient, method, Region::Cool, day, day, rules);
                }
            }
        }
    }
}
