//! Pests and scouting.

use super::table::{Basis, limits};

const ONTARIO: Basis =
    Basis::Published("Ontario floriculture IPM 2018: under 20 % of pots by mid-September is on track");
const START: Basis =
    Basis::Published("New England poinsettia biocontrol update 2013: over 5 to 7 % at the start ends over 20 %");
const SCOUTING: Basis =
    Basis::Published("Ontario floriculture IPM 2018: half the benches, weekly; the days are a house rule");

limits!(
    /// Pests and scouting.
    Pests = pests {
        whitefly_days: i64 = 7, 1..30, "days", Basis::HouseRule, "looks of these days are taken together, by lot";
        whitefly_plants: u32 = 20, 1..1000, "plants", ONTARIO, "fewer plants than this say nothing of a lot";
        whitefly_act: f64 = 20.0, 0..100, "% of plants", ONTARIO, "whitefly: act";
        whitefly_young: f64 = 7.0, 0..100, "% of plants", START, "whitefly: act in the first days";
        whitefly_young_until: i64 = 21, 0..90, "days after planting", Basis::HouseRule, "last of the first days for whitefly and gnats";
        whitefly_watch: f64 = 5.0, 0..100, "% of plants", START, "whitefly: watch";
        thrips: f64 = 40.0, 1..1000, "a card and week", Basis::Published("Rutgers, pest counts and action thresholds"), "thrips: act";
        gnat_larvae: f64 = 15.0, 1..100, "larvae a wedge", Basis::Published("Rutgers 2009, fungus gnats: 15 to 20 in 6 in pots"), "fungus gnats: act";
        gnat_larvae_young: f64 = 3.0, 1..100, "larvae a wedge", Basis::Published("Rutgers 2009, fungus gnats: 3 to 5 in propagation"), "fungus gnats: act in the first days";
        finding_days: i64 = 14, 1..60, "days", Basis::HouseRule, "how long a count speaks, unless a later one replaces it";
        clean_apart: i64 = 6, 1..30, "days", Basis::HouseRule, "mites and mealybugs: two clean looks this far apart end them";
        scouted_days: i64 = 8, 1..60, "days", SCOUTING, "half the benches of a house are to have a look for pests within this";
        unscouted_days: i64 = 15, 1..90, "days", SCOUTING, "a bench this long without a look is told";
    }
);
