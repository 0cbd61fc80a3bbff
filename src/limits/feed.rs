//! Feed: magnesium, molybdenum, nitrogen.

use super::table::{Basis, limits};

const SIX_WEEKS: Basis = Basis::CommonPractice;
const PURDUE: Basis = Basis::Published("Purdue Extension poinsettia guide: magnesium drench every 4 to 6 weeks");
const MSU: Basis = Basis::Published("Michigan State Extension: 30 to 40 ppm Mg, feed and water together");
const MO: Basis =
    Basis::Published("0.1 ppm Mo in the constant feed: Purdue Extension; trade article by university authors");

limits!(
    /// Feed.
    Feed = "feed" {
        magnesium_shown: i64 = 35, 1..120, "days after planting", Basis::HouseRule, "magnesium and molybdenum are shown as due from this day";
        magnesium_first: i64 = 42, 1..120, "days after planting", SIX_WEEKS, "first magnesium (and molybdenum) due";
        magnesium_missed: i64 = 46, 1..120, "days after planting", Basis::HouseRule, "missed from this day";
        magnesium_every: i64 = 28, 7..90, "days", PURDUE, "magnesium due again after the last";
        magnesium_again_missed: i64 = 42, 7..120, "days", PURDUE, "missed this long after the last";
        magnesium_until: i64 = 21, 0..90, "days before the sale", Basis::HouseRule, "no more magnesium is asked for after this";
        magnesium_drench_ppm: f64 = 100.0, 1..2000, "ppm Mg", Basis::Published("1 lb magnesium sulfate in 100 gal, Purdue Extension (118 ppm Mg); the 100 is a house rule"), "a drench from this strength on counts";
        magnesium_feed_ppm: f64 = 30.0, 1..200, "ppm Mg", MSU, "constant feed and water from this on meet the need";
        molybdenum_ppm: f64 = 0.1, 0..100, "ppm Mo", MO, "a feed or nutrient from this on counts";
        molybdenum_ph: f64 = 5.5, 4..7, "pH", Basis::Published("trade article by university authors: molybdenum is held back under pH 5.5"), "a root zone under this makes a missed molybdenum act";
        root_zone_days: i64 = 14, 1..60, "days", Basis::HouseRule, "how long a root zone test speaks, unless a later one replaces it";
        unfed_first: i64 = 7, 1..60, "days after planting", Basis::CommonPractice, "no feed and no slow-release by this day is told";
        unfed_days: i64 = 14, 1..90, "days", Basis::CommonPractice, "later: this long without feed is told";
    }
);
