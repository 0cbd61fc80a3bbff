//! Feed: magnesium, molybdenum, nitrogen.

use super::table::{Basis, limits};

const SIX_WEEKS: Basis = Basis::CommonPractice;
const PURDUE: Basis = Basis::Published("Purdue Extension poinsettia guide: magnesium drench every 4 to 6 weeks");
const MSU: Basis = Basis::Published("Michigan State Extension: 30 to 40 ppm Mg, feed and water together");
const MO: Basis =
    Basis::Published("0.1 ppm Mo in the constant feed: Purdue Extension; trade article by university authors");

const LOW: Basis = Basis::Published("Whipker and others, Avoiding top problems of poinsettias, 2002");
const CLASSES: Basis = Basis::Published("UMass Extension, soil test classes: top of normal, top of very high");
const NEWSLETTER: Basis = Basis::Published(
    "university newsletter, poinsettia range by pour-through, 2.0 to 4.3, as quoted in the trade press",
);
const PH_LOW: Basis = Basis::Published("Owen, Whipker and Henry, university newsletter, low pH: act under 5.4");
const PH_HIGH: Basis = Basis::Published(
    "Whipker and others 2002: act over 6.5; university newsletter case: iron deficiency at 6.3 to 6.4",
);
const ALKALINITY: Basis = Basis::Published("a supplier's newsletter, 2012; UMass: trouble above 100 ppm as CaCO3");
const SAMPLES: Basis = Basis::Published("trade article by university authors: 3 to 5 pots per pour-through");
const TAPER: Basis = Basis::Published("trade article by university authors: 80 to 100 ppm N in the last 2 to 3 weeks");
const CALCIUM: Basis =
    Basis::Published("suppliers' poinsettia programs: weekly from first color; Maryland practice: every two weeks");

limits!(
    /// Feed.
    Feed = feed {
        magnesium_shown: i64 = 35, 1..120, "days after planting", Basis::HouseRule, "magnesium and molybdenum are shown as due from this day", bracket "28 to 42 days: a drench every 4 to 6 weeks (Purdue Extension)";
        magnesium_first: i64 = 42, 1..120, "days after planting", SIX_WEEKS, "first magnesium (and molybdenum) due";
        magnesium_missed: i64 = 46, 1..120, "days after planting", Basis::HouseRule, "missed from this day", bracket "28 to 42 days: a drench every 4 to 6 weeks (Purdue Extension); 4 days of grace";
        magnesium_every: i64 = 28, 7..90, "days", PURDUE, "magnesium due again after the last";
        magnesium_again_missed: i64 = 42, 7..120, "days", PURDUE, "missed this long after the last";
        magnesium_until: i64 = 21, 0..90, "days before the sale", Basis::HouseRule, "no more magnesium is called for after this";
        magnesium_drench_ppm: f64 = 100.0, 1..2000, "ppm Mg", Basis::Published("1 lb magnesium sulfate in 100 gal, Purdue Extension (118 ppm Mg); the 100 is Benchwalk's rule of thumb"), "a drench at or above this counts";
        magnesium_feed_ppm: f64 = 30.0, 1..200, "ppm Mg", MSU, "constant feed and water at or above this cover the need";
        molybdenum_ppm: f64 = 0.1, 0..100, "ppm Mo", MO, "a feed or nutrient at or above this counts";
        molybdenum_ph: f64 = 5.5, 4..7, "pH", Basis::Published("trade article by university authors: molybdenum is held back under pH 5.5"), "a root zone under this raises missed molybdenum to act";
        root_zone_days: i64 = 14, 1..60, "days", Basis::HouseRule, "how long a root zone test counts, unless a later one replaces it", bracket "7 to 28 days between tests: weekly, every 1 to 2 weeks in October, every 2 weeks (Ontario), every 4 weeks";
        unfed_first: i64 = 7, 1..60, "days after planting", Basis::CommonPractice, "warn if not fed by this day, without slow-release";
        unfed_days: i64 = 14, 1..90, "days", Basis::CommonPractice, "later: warn after this long without feed", bracket "under 21 to 28: a grower saw leaves change after 3 to 4 weeks without feed (a question to a state extension service, 2019)";
        salts_low_pour_through: f64 = 1.0, 0..20, "mS/cm", LOW, "pour-through: salts-low under this";
        salts_low_sme: f64 = 0.75, 0..20, "mS/cm", LOW, "saturated extract: salts-low under this";
        salts_low_one_to_two: f64 = 0.25, 0..20, "mS/cm", LOW, "1:2: salts-low under this";
        salts_watch_low_pour_through: f64 = 2.0, 0..20, "mS/cm", NEWSLETTER, "pour-through: under this is watch";
        salts_watch_high_pour_through: f64 = 4.3, 0..20, "mS/cm", NEWSLETTER, "pour-through: over this is watch";
        salts_high_pour_through: f64 = 4.6, 0..20, "mS/cm", CLASSES, "pour-through: salts-high over this";
        salts_high_sme: f64 = 3.5, 0..20, "mS/cm", CLASSES, "saturated extract: salts-high over this";
        salts_high_one_to_two: f64 = 1.3, 0..20, "mS/cm", CLASSES, "1:2: salts-high over this";
        salts_extreme_pour_through: f64 = 7.8, 0..30, "mS/cm", CLASSES, "pour-through: urgent over this";
        salts_extreme_sme: f64 = 6.0, 0..30, "mS/cm", CLASSES, "saturated extract: urgent over this";
        salts_extreme_one_to_two: f64 = 2.3, 0..30, "mS/cm", CLASSES, "1:2: urgent over this";
        salts_dry_at: u8 = 2, 1..3, "water level 1-5", Basis::Published("Penn State 2012: dry roots in strong salts; the level is Benchwalk's rule of thumb"), "high salts at or under this water level are urgent";
        salts_lean_start: i64 = 14, 0..60, "days after planting", Basis::HouseRule, "low readings of the first days are not watched";
        salts_lean_end: i64 = 21, 0..60, "days before the sale", Basis::HouseRule, "low readings of the last days are not watched", bracket "14 to 21: a lean feed in the last 2 to 3 weeks (trade article by university authors)";
        fewest_pots: u32 = 3, 1..20, "pots", SAMPLES, "retest if fewer pots were sampled";
        ph_low: f64 = 5.4, 4..7, "pH", PH_LOW, "ph-low under this";
        ph_low_young: f64 = 5.2, 4..7, "pH", Basis::Published("a supplier's poinsettia program: starting mix 5.2 to 5.5"), "ph-low under this in the first days";
        ph_young_until: i64 = 21, 0..60, "days after planting", Basis::HouseRule, "last of the first days for pH";
        ph_watch_low: f64 = 5.5, 4..7, "pH", PH_LOW, "from ph_low up to this is watch";
        ph_watch_high: f64 = 6.3, 5..8, "pH", PH_HIGH, "from this up to ph_high is watch";
        ph_high: f64 = 6.5, 5..9, "pH", PH_HIGH, "ph-high over this";
        alkalinity_high: f64 = 2.0, 0.5..10, "meq/L", ALKALINITY, "alkalinity of the water is high over this";
        untested_days: i64 = 15, 1..90, "days", Basis::Published("Ontario floriculture: every two weeks"), "a lot this long without a root zone test";
        taper_days: i64 = 21, 0..90, "days before the sale", TAPER, "start stepping the feed down";
        taper_ppm: f64 = 100.0, 0..500, "ppm N", TAPER, "a feed over this is not yet stepped down";
        calcium_days: i64 = 15, 1..60, "days", CALCIUM, "where calcium sprays are planned: this long without one";
    }
);
