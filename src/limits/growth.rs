//! Pinch, height and growth regulators.

use super::table::{Basis, limits};

const UF04: Basis = Basis::Published("UF/IFAS 2004 schedules: pinch 12 to 14 days after planting, 14 crops");
const PURDUE_PINCH: Basis = Basis::Published(
    "Purdue, production problems 2008: 14 days from planting is the most recommended; the day of grace is Benchwalk's rule of thumb",
);
const ROOTED: Basis = Basis::Published(
    "a grower's guide: no pinch before roots show at the pot wall; the day is Benchwalk's rule of thumb",
);
const FLORIDA: Basis =
    Basis::Published("UF/IFAS, October growth regulator drenches, about 2009; the days are Benchwalk's rule of thumb");

limits!(
    /// Pinch, height and growth regulators.
    Growth = growth {
        pinch_rooted: i64 = 10, 1..60, "days after planting", ROOTED, "pinch due from this day, with roots at the pot wall";
        pinch_due: i64 = 14, 1..60, "days after planting", UF04, "pinch due on this day, whatever the roots";
        pinch_rooted_overdue: i64 = 15, 1..90, "days after planting", PURDUE_PINCH, "pinch overdue from this day, with roots at the pot wall", bracket "12 to 21: 12 to 14 days (UF/IFAS 2004), 14 (Kansas State 1988, Purdue 2008), 2 or 3 weeks (a trial in Indiana, 2001); one trial pinched on day 27 (University of Georgia 2015)";
        pinch_overdue: i64 = 21, 1..90, "days after planting", Basis::CommonPractice, "pinch overdue from this day", bracket "12 to 21: 12 to 14 days (UF/IFAS 2004), 14 (Kansas State 1988, Purdue 2008), 2 or 3 weeks (a trial in Indiana, 2001); one trial pinched on day 27 (University of Georgia 2015)";
        pinch_late: i64 = 7, 0..60, "days before short days", Basis::HouseRule, "a pinch nearer short days than this is late", bracket "7 to 35: 7 to 14 days (a growing-media firm), 3 to 4 weeks (UF/IFAS 2011), 4 (Iowa State 2023), 4 to 5 before bud initiation (New York, older cultivars)";
        slow_roots: i64 = 3, 1..14, "days", Basis::CommonPractice, "roots still in the center: check again after this";
        stands: i64 = 7, 1..60, "days", Basis::HouseRule, "growth regulator, pinch and heat warnings keep their level this long";
        lingers: i64 = 7, 0..60, "days", Basis::HouseRule, "and stay at watch this long after";
        height_from: i64 = 21, 0..90, "days after the start", Basis::HouseRule, "heights are checked against the window from here on";
        start_within: i64 = 7, 0..30, "days after the start", Basis::HouseRule, "a reading up to here gives the start height";
        start_plant_cm: f64 = 7.6, 0..40, "cm", Basis::HouseRule, "start height above the pot where none was measured";
        height_plants: u32 = 3, 2..100, "plants", Basis::HouseRule, "minimum readings to call a bench too tall or short";
        height_beyond_cm: f64 = 1.0, 0..20, "cm", Basis::HouseRule, "how far outside the limit the mean must be", bracket "up to 2.5 cm: the margin a trial accepted round its target at the finish (University of Georgia 2015); finished windows are 2.5 to 5 cm wide (UF/IFAS 2004)";
        height_confidence: f64 = 90.0, 50..99, "%", Basis::HouseRule, "the interval of the mean that must be outside";
        height_days: i64 = 9, 1..30, "days", Basis::HouseRule, "how long a height reading counts";
        unmeasured_days: i64 = 9, 1..60, "days", Basis::Published("UF/IFAS height-control pages 2011: weekly; the two days' grace is Benchwalk's rule of thumb"), "lot not measured for this long";
        chlormequat_after: u32 = 14, 0..90, "days after the start of short days", FLORIDA, "a chlormequat spray is late from here on";
        chlormequat_october: u32 = 15, 1..31, "day of October", Basis::Published("UMass 1999; University of Georgia 2011"), "and from this day where the region is cool";
        ethephon_before: u32 = 42, 0..120, "days before the sale", Basis::Published("growth regulator chapter, Virginia Tech and NC State: not within 6 to 8 weeks"), "ethephon closer to the sale than this is late";
        top_ethephon_spray: f64 = 500.0, 100..5000, "ppm", Basis::Published("Iowa State, 2017 and 2021"), "ethephon spray: above this is high";
        top_chlormequat_spray: f64 = 1500.0, 100..5000, "ppm", Basis::Published("Purdue, 2010: over 1,500 ppm new leaves tend to spot yellow"), "chlormequat spray: above this is high";
        top_daminozide_spray: f64 = 2000.0, 100..10000, "ppm", Basis::Published("University of Massachusetts, 1999"), "daminozide spray: above this is high";
        top_paclobutrazol_spray: f64 = 10.0, 1..200, "ppm", Basis::Published("trade press, poinsettia height control strategies"), "paclobutrazol spray: above this is high";
        top_paclobutrazol_drench: f64 = 1.0, 0..20, "ppm", Basis::Published("trade press, poinsettia height control strategies"), "paclobutrazol drench: above this is high";
        top_uniconazole_drench: f64 = 0.68, 0..20, "ppm", Basis::Published("University of Connecticut, 1990"), "uniconazole drench: above this is high";
        top_flurprimidol_drench: f64 = 0.15, 0..20, "ppm", Basis::Published("Purdue, 2010"), "flurprimidol drench: above this is high";
        top_ba_ga47_spray: f64 = 5.0, 1..200, "ppm", Basis::Published("Michigan State, 2007 and 2009"), "benzyladenine with gibberellins 4 and 7, spray: above this is high";
        top_ba_ga47_drench: f64 = 2.0, 0..50, "ppm", Basis::Published("North Carolina State, 2023"), "benzyladenine with gibberellins 4 and 7, drench: above this is high";
        top_ga3_spray: f64 = 10.0, 1..200, "ppm", Basis::Published("University of Florida, 2002"), "gibberellic acid spray: above this is high";
    }
);
