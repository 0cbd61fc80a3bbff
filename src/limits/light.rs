//! Night light, color and climate.

use super::table::{Basis, limits};

const MSU: Basis = Basis::Published("Michigan State: some plants respond below 1 foot-candle (about 11 lux)");
const TEXAS: Basis = Basis::Published("Texas A&M: under 2 foot-candles (about 20 lux) cancels the night");
const SIX_WEEKS: Basis = Basis::Published("Kansas State: the first six weeks of short days decide");
const HEAT: Basis = Basis::Published(
    "R. Kobayashi, poinsettia flower initiation: a mean over 79 °F (26 °C) delays; nights and days are Benchwalk's rule of thumb",
);
const CHILL: Basis = Basis::Published("UMass, Purdue 2012 and Delaware: harm under 50 °F (10 °C)");
const COOL: Basis = Basis::Published("Clemson 2011: 60 °F (15.5 °C) from first color leaves bracts under market size");
const GRAY: Basis = Basis::Published(
    "University of Georgia 2023: gray mold spreads fast above 85% humidity; the hours are Benchwalk's rule of thumb",
);

limits!(
    /// Night light, color and climate.
    Light = light {
        lux_watch: f64 = 11.0, 0..1000, "lux", MSU, "night light over this: watch";
        lux_harm: f64 = 20.0, 0..1000, "lux", TEXAS, "night light over this: urgent at first, then act";
        dark_after_min: i64 = 60, 0..240, "minutes", Basis::HouseRule, "a reading counts as night this long after sunset and before sunrise", bracket "15 to 30 minutes: by so much the natural day outlasts sunset and sunrise, 15 to 20 at each end or 20 to 30 in all (two notes from Michigan State)";
        first_weeks: i64 = 42, 0..120, "days of short days", SIX_WEEKS, "the nights that decide";
        reading_days: i64 = 14, 1..60, "days", Basis::HouseRule, "how long a light reading, a missed night or a bract stage counts";
        stage_late: i64 = 10, 1..60, "days", Basis::HouseRule, "warn when a stage is this late", bracket "8 to 21 days: bud 8 and pollen 11 days late at 80 °F against 70 (University of Florida, about 2008), about 3 weeks at 85 °F against 80 (2019)";
        ahead_days: i64 = 21, 1..90, "days before the sale", Basis::HouseRule, "warn when full color comes earlier than this";
        heat_days: i64 = 28, 1..90, "days of short days", Basis::HouseRule, "heat delays in these first days";
        heat_night_c: f64 = 24.0, 10..40, "°C", HEAT, "nights at or above this delay", bracket "21 to 28 °C: nights under 70 °F (Kansas State), delay at about 82 °F at a 12-hour night (Clemson 2022)";
        heat_nights: u32 = 3, 1..28, "days", Basis::HouseRule, "on this many days";
        heat_mean_c: f64 = 26.0, 10..40, "°C", HEAT, "or one 24-hour mean at or above this";
        warm_night_c: f64 = 22.0, 10..40, "°C", HEAT, "nights over this: watch", bracket "18 to 21 °C as the limit in older texts (65 to 70 °F); 70 to 75 °F over 24 hours found harmless in chambers (Clemson)";
        cold_night_c: f64 = 10.0, 0..20, "°C", CHILL, "a night under this: urgent";
        cool_mean_c: f64 = 16.0, 5..25, "°C", COOL, "24-hour means under this from first color on: watch";
        cool_means: u32 = 3, 1..28, "days", Basis::HouseRule, "on this many days";
        bracts_before: i64 = 7, 0..60, "days before first color", Basis::HouseRule, "bracts-unchecked: a check from here on counts";
        bracts_watch: i64 = 7, 1..60, "days after first color", Basis::HouseRule, "bracts-unchecked: watch";
        bracts_act: i64 = 14, 1..60, "days after first color", Basis::HouseRule, "bracts-unchecked: act";
        early_heat_c: f64 = 32.0, 20..45, "°C", Basis::HouseRule, "heat-early: day temperatures at or above this", bracket "32 to 35 °C: a ceiling of 90 °F (32 °C) in propagation; damage over 35 °C (a growers' association, 2007)";
        early_heat_days: u32 = 2, 1..3, "of three days", Basis::HouseRule, "heat-early: on this many of the last three logged days";
        early_heat_until: i64 = 21, 0..60, "days after planting", Basis::HouseRule, "heat-early: last day";
        early_heat_stands: i64 = 7, 1..30, "days", Basis::HouseRule, "heat-early stands this long";
        climate_days: i64 = 3, 1..14, "days", Basis::HouseRule, "how long a climate reading counts";
        damp_percent: f64 = 85.0, 50..100, "% humidity", GRAY, "humidity above this after damp_hour favors gray mold";
        damp_hour: u32 = 10, 0..23, "hour of the day", Basis::HouseRule, "humidity is read after this hour";
        damp_days: u32 = 2, 1..3, "of three days", Basis::HouseRule, "on this many of three days";
        damp_hours: f64 = 12.0, 1..24, "h", Basis::HouseRule, "so many humid hours on a logger's day make it a damp one, too";
        dull_mol: f64 = 5.0, 0..60, "mol/m2 a day", Basis::HouseRule, "a house whose logger gives less than this is low in light";
        bright_mol: f64 = 10.0, 0..60, "mol/m2 a day", Basis::HouseRule, "a house whose logger gives more than this is not low in light";
        dull_mol_days: u32 = 14, 3..60, "days", Basis::HouseRule, "in the mean of so many logger days";
    }
);
