//! Pests and scouting.

use super::table::{Basis, limits};

const ONTARIO: Basis =
    Basis::Published("Ontario floriculture IPM 2018: under 20% of pots by mid-September is on track");
const START: Basis =
    Basis::Published("New England poinsettia biocontrol update 2013: over 5 to 7% at the start ends over 20%");
const SCOUTING: Basis =
    Basis::Published("Ontario floriculture IPM 2018: half the benches, weekly; the days are Benchwalk's rule of thumb");

limits!(
    /// Pests and scouting.
    Pests = pests {
        whitefly_days: i64 = 7, 1..30, "days", Basis::HouseRule, "checks within this many days are pooled by lot";
        whitefly_plants: u32 = 20, 1..1000, "plants", ONTARIO, "fewer plants than this are too few to judge a lot";
        whitefly_act: f64 = 20.0, 0..100, "% of plants", ONTARIO, "whitefly: act";
        whitefly_young: f64 = 7.0, 0..100, "% of plants", START, "whitefly: act in the first days";
        whitefly_young_until: i64 = 21, 0..90, "days after planting", Basis::HouseRule, "last of the first days for whitefly and gnats";
        whitefly_watch: f64 = 5.0, 0..100, "% of plants", START, "whitefly: watch";
        thrips: f64 = 40.0, 1..1000, "per card per week", Basis::Published("Rutgers, pest counts and action thresholds"), "thrips: act";
        gnat_larvae: f64 = 15.0, 1..100, "larvae per wedge", Basis::Published("Rutgers 2009, fungus gnats: 15 to 20 in 6-inch pots"), "fungus gnats: act";
        gnat_larvae_young: f64 = 3.0, 1..100, "larvae per wedge", Basis::Published("Rutgers 2009, fungus gnats: 3 to 5 in propagation"), "fungus gnats: act in the first days";
        finding_days: i64 = 14, 1..60, "days", Basis::HouseRule, "how long a pest count stays in force, unless a later one replaces it";
        cards_rising: u32 = 3, 2..10, "counts", Basis::HouseRule, "whitefly on cards: watch when this many counts each rise per card and week";
        clean_apart: i64 = 6, 1..30, "days", Basis::HouseRule, "mites and mealybugs: cleared after two clean checks this far apart", bracket "3 to 7: scouted every 3 to 4 days in propagation, weekly later (New England 2016)";
        scouted_days: i64 = 8, 1..60, "days", SCOUTING, "half the benches of a house are to be scouted within this";
        unscouted_days: i64 = 15, 1..90, "days", SCOUTING, "warn when a bench was not scouted for this long";
    }
);
