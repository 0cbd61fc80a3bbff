//! Water and roots.

use super::table::{Basis, limits};

const WATER_USE: Basis = Basis::HouseRule;
const ROOTS_LATE: Basis = Basis::Published(
    "UMass Extension, Pythium update, Nov. 13, 2015 (new roots take time); the days are Benchwalk's rule of thumb",
);

limits!(
    /// Water and roots.
    Water = water {
        wet_from: u8 = 4, 2..5, "water level 1-5", Basis::CommonPractice, "readings at or above this level count as wet: dry down between waterings";
        dry_at: u8 = 1, 1..2, "water level 1-5", Basis::CommonPractice, "a reading at or under this level counts as too dry";
        readings: u32 = 3, 2..10, "readings", Basis::HouseRule, "wet readings in a row before the warning staying-wet";
        young_until: i64 = 14, 0..60, "days after planting", WATER_USE, "last day of the first, slow-drying phase";
        rooting_until: i64 = 35, 1..90, "days after planting", WATER_USE, "last day of the second phase";
        young_watch: i64 = 8, 2..30, "days wet", WATER_USE, "staying-wet: watch in the first phase";
        young_act: i64 = 10, 2..30, "days wet", WATER_USE, "staying-wet: act in the first phase", bracket "19 days at most, by scale: what a pot uses in 5 days of week 10 takes it 19 in week 1; measured use in 15 cm pots 40, 70, 150 mL a day in weeks 1, 4, 10 (Rev. Mex. Cienc. Agríc., 2014)";
        rooting_watch: i64 = 5, 2..30, "days wet", WATER_USE, "staying-wet: watch in the second phase";
        rooting_act: i64 = 7, 2..30, "days wet", WATER_USE, "staying-wet: act in the second phase", bracket "11 days at most, by scale: what a pot uses in 5 days of week 10 takes it 11 in week 4; measured use in 15 cm pots 40, 70, 150 mL a day in weeks 1, 4, 10 (Rev. Mex. Cienc. Agríc., 2014)";
        grown_watch: i64 = 3, 2..30, "days wet", WATER_USE, "staying-wet: watch after that";
        grown_act: i64 = 5, 2..30, "days wet", WATER_USE, "staying-wet: act after that", bracket "1 to 5 days: harm after as little as a day in standing water, watered about every 5 days in a sunny, warm house (a garden column, 2015, on both)";
        wide_rim_cm: f64 = 19.0, 5..60, "cm", Basis::HouseRule, "pots of this diameter or wider hold water longer";
        wide_rim_extra: i64 = 1, 0..10, "days", Basis::HouseRule, "extra days for pots this wide";
        dull_extra: i64 = 2, 0..10, "days", Basis::HouseRule, "extra days in a low-light house";
        late_from: i64 = 35, 0..90, "days before the sale", Basis::HouseRule, "from here on pots use less water and dry slowly again";
        late_extra: i64 = 2, 0..10, "days", Basis::HouseRule, "extra days in that time; of this and a low-light house the greater counts", bracket "1 day or more: measured use falls from 150 to 122 mL a day from week 10 to 13, so that 5 days become 6 (Rev. Mex. Cienc. Agríc., 2014); slower yet on short, cool, cloudy days (a supplier)";
        extra_most: i64 = 3, 0..20, "days", Basis::HouseRule, "extra days together at most";
        second_sign_days: i64 = 7, 1..30, "days", Basis::HouseRule, "a second sign (leaves, gnats, roots) within this time raises a wet run to act";
        drench_ml: f64 = 150.0, 10..2000, "mL per pot", Basis::HouseRule, "a drench of this much or more counts as a watering";
        watered_wet_days: i64 = 14, 2..60, "days", Basis::HouseRule, "watered-wet: twice within this time";
        young_plug_until: i64 = 10, 0..30, "days after planting", Basis::CommonPractice, "wilting in wet mix up to this day may be a dry plug";
        base_soaked_h: f64 = 18.0, 1..72, "hours", Basis::HouseRule, "a base still at 5 this long after the last watering is soaked", bracket "over several hours, no number given (interview with a grower educator, 2019)";
        roots_watch: u8 = 2, 1..5, "root score 0-5", Basis::HouseRule, "roots-browning: act from this score";
        roots_failing: u8 = 3, 1..5, "root score 0-5", Basis::Published("NC State trials (roots can die while tops look sound); the score is Benchwalk's"), "roots-failing from this score";
        regrow_days: i64 = 21, 1..90, "days before the sale", ROOTS_LATE, "under this, roots will hardly recover before the sale";
        roots_first: i64 = 10, 1..60, "days after planting", Basis::HouseRule, "first root check due";
        roots_every: i64 = 7, 1..60, "days", Basis::HouseRule, "roots and the water at the base are due this often";
        roots_unchecked_watch: i64 = 14, 1..90, "days", Basis::HouseRule, "roots-unchecked: watch";
        roots_unchecked_act: i64 = 21, 1..90, "days", Basis::HouseRule, "roots-unchecked: act";
        roots_late_watch: i64 = 14, 1..90, "days", Basis::HouseRule, "roots-unchecked from color on: watch";
        roots_late_act: i64 = 28, 1..90, "days", Basis::HouseRule, "roots-unchecked from color on: act";
        losses: u32 = 2, 1..1000, "pots", Basis::HouseRule, "losses-rising: pots lost to rot, wilt or with no cause given", bracket "2 to 15% of plants lost to wilts from September to mid-November (Ontario, 2017): 2 pots or more of a hundred";
        losses_days: i64 = 7, 1..60, "days", Basis::HouseRule, "losses-rising: within this time";
        dry_young_until: i64 = 14, 0..60, "days after planting", Basis::HouseRule, "dry-young: a reading at or under dry_at up to this day";
        dry_young_stands: i64 = 7, 1..30, "days", Basis::HouseRule, "dry-young stands this long";
        reading_days: i64 = 2, 1..14, "days", Basis::HouseRule, "how long a water reading counts";
        leaves_days: i64 = 7, 1..30, "days", Basis::HouseRule, "how long leaf symptoms count, unless a later check is without them";
        roots_days: i64 = 21, 1..60, "days", Basis::HouseRule, "how long a root score counts, unless a later check replaces it";
    }
);
