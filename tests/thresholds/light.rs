//! Nights, color and climate. Short days start on day 33; the sale is on day 102.

use crate::season::{ABSENT, ACT, Crop, URGENT, WATCH, day, holds};
use benchwalk::record::{Kind, LeafSign, Nights};
use benchwalk::warnings::{Evidence, Figure, WarningName as N};

const LUX: &str = "Texas A&M: 2 foot-candles (about 20 lux); Michigan State: 1 (about 11)";
const NIGHTS: &str = "Kansas State (2 days a night), newspaper 2020 (1 day), first six weeks";
const HEAT: &str = "R. Kobayashi: 79 F (26 C); nights of 24 and 22 C and days are house rules";

fn lux(n: i64, time: (u32, u32), lux: f64) -> Crop {
    Crop::new().at(n, time, Kind::NightLight { lux })
}

#[test]
fn lamps_at_night() {
    holds(LUX, &lux(40, (22, 0), 11.0), 40, N::NightLight, ABSENT);
    holds(LUX, &lux(40, (22, 0), 11.1), 40, N::NightLight, WATCH);
    holds(LUX, &lux(40, (22, 0), 20.0), 40, N::NightLight, WATCH);
    holds(LUX, &lux(40, (22, 0), 20.1), 40, N::NightLight, URGENT);
    holds("the first six weeks of short days", &lux(74, (22, 0), 30.0), 74, N::NightLight, URGENT);
    holds("after six weeks", &lux(75, (22, 0), 30.0), 75, N::NightLight, ACT);
    holds("before short days", &lux(32, (22, 0), 48.0), 32, N::NightLight, ABSENT);
    holds("the first short night", &lux(33, (22, 0), 48.0), 33, N::NightLight, URGENT);
    holds("a morning reading belongs to the night before", &lux(33, (4, 0), 48.0), 33, N::NightLight, ABSENT);
    holds(
        "ended by a later night reading",
        &lux(40, (22, 0), 48.0).at(41, (22, 0), Kind::NightLight { lux: 2.0 }),
        41,
        N::NightLight,
        ABSENT,
    );
    holds(
        "not by one taken by day",
        &lux(40, (22, 0), 48.0).at(41, (12, 0), Kind::NightLight { lux: 2.0 }),
        41,
        N::NightLight,
        URGENT,
    );
    holds("speaks 14 days", &lux(40, (22, 0), 48.0), 54, N::NightLight, URGENT);
    holds("and until a later night reading", &lux(40, (22, 0), 48.0), 55, N::NightLight, URGENT);
}

#[test]
fn twilight_is_no_lamp() {
    // 26 September at 44.1 N: sunset about 18:35, sunrise about 6:37 local time.
    const MARGIN: &str = "60 minutes after sunset and before sunrise: house rule";
    holds(MARGIN, &lux(40, (19, 25), 48.0), 40, N::NightLight, ABSENT);
    holds(MARGIN, &lux(40, (19, 45), 48.0), 40, N::NightLight, URGENT);
    holds(MARGIN, &lux(41, (5, 30), 48.0), 41, N::NightLight, URGENT);
    holds(MARGIN, &lux(41, (5, 50), 48.0), 41, N::NightLight, ABSENT);
}

/// Black cloth from the evening of day 30 on.
fn covered(nights: &[(i64, bool)]) -> Crop {
    let crop = Crop::new().lot(|l| {
        l.nights = Nights::Blackout;
        l.blackout_from = Some(day(30));
    });
    let write = |crop: Crop, (n, covered): &(i64, bool)| {
        crop.at(*n, (17, 30), Kind::Blackout { night: day(*n), covered: *covered })
    };
    nights.iter().fold(crop, write)
}

#[test]
fn nights_under_cloth() {
    let all: Vec<(i64, bool)> = (30..40).map(|n| (n, true)).collect();
    holds(NIGHTS, &covered(&all), 40, N::BlackoutMissed, ABSENT);
    let mut one = all.clone();
    one[4].1 = false;
    holds("written as not covered", &covered(&one), 40, N::BlackoutMissed, ACT);
    let gap: Vec<(i64, bool)> = all.iter().copied().filter(|(n, _)| *n != 34).collect();
    holds("not written while others are", &covered(&gap), 40, N::BlackoutMissed, WATCH);
    holds("none written at all", &covered(&[]), 40, N::BlackoutMissed, ABSENT);
    holds("tonight is not yet past", &covered(&all), 39, N::BlackoutMissed, ABSENT);
    let tonight: Vec<(i64, bool)> = (30..=40).map(|n| (n, n != 40)).collect();
    holds("tonight is not yet past", &covered(&tonight), 40, N::BlackoutMissed, ABSENT);
    let last: Vec<(i64, bool)> = (30..=72).map(|n| (n, n != 71)).collect();
    holds("the 42nd night", &covered(&last), 73, N::BlackoutMissed, ACT);
    let past: Vec<(i64, bool)> = (30..=72).map(|n| (n, n != 72)).collect();
    holds("the 43rd night", &covered(&past), 73, N::BlackoutMissed, ABSENT);
    let natural = covered(&one).lot(|l| l.nights = Nights::Natural);
    holds("no cloth in the plan", &natural, 40, N::BlackoutMissed, ABSENT);
    let three: Vec<(i64, bool)> = (30..40).map(|n| (n, n % 3 != 2)).collect();
    let told = covered(&three).warning(40, N::BlackoutMissed).expect("told");
    let delay = told.evidence.iter().find_map(|s| match s {
        Evidence::Figure { figure: Figure::DelayDays, range, .. } => *range,
        _ => None,
    });
    assert_eq!(delay, Some((3.0, 6.0)), "three missed nights cost 3 to 6 days");
}

#[test]
fn nights_under_lamps() {
    const LAMPS: &str = "R. Kobayashi: lamps hold the crop back";
    let lit = |night: i64, on: bool| {
        let crop = Crop::new().lot(|l| {
            l.nights = Nights::Lights;
            l.lights_until = Some(day(45));
        });
        crop.at(night, (22, 0), Kind::Lights { night: day(night), on })
    };
    holds(LAMPS, &lit(44, false), 45, N::LightsMissed, ACT);
    holds(LAMPS, &lit(44, true), 45, N::LightsMissed, ABSENT);
    holds(LAMPS, &lit(45, true), 46, N::LightsMissed, ABSENT);
    holds(LAMPS, &lit(45, false), 46, N::LightsMissed, ABSENT);
    holds(LAMPS, &lit(46, true), 46, N::LightsMissed, ACT);
    holds(LAMPS, &lit(46, false), 46, N::LightsMissed, ABSENT);
    holds("14 days", &lit(44, false), 58, N::LightsMissed, ACT);
    holds("14 days", &lit(44, false), 59, N::LightsMissed, ABSENT);
}

#[test]
fn color_against_the_sale() {
    const AHEAD: &str = "house rule: stage 4 more than 21 days before the sale";
    // Full color: 57 days after day 33 at 9.5 weeks; with nothing written the range ends 8 days later.
    const FORECAST: &str = "Florida about 2008 scaled; full color at 86% (house rule); range of simulated houses";
    let sold = |n| Crop::new().lot(|l| l.ready_by = day(n));
    holds(FORECAST, &sold(98), 40, N::ColorBehind, ABSENT);
    holds(FORECAST, &sold(97), 40, N::ColorBehind, WATCH);
    holds(FORECAST, &sold(90), 40, N::ColorBehind, WATCH);
    holds(FORECAST, &sold(89), 40, N::ColorBehind, ACT);
    holds("a look before color is due", &sold(97).bracts(39, 1), 40, N::ColorBehind, WATCH);
    holds("late by its own stages", &sold(102).bracts(85, 2), 85, N::ColorBehind, ACT);
    holds("full color seen", &sold(98).bracts(90, 4), 90, N::ColorBehind, ABSENT);
    holds(AHEAD, &sold(102).bracts(80, 4), 80, N::ColorAhead, WATCH);
    holds(AHEAD, &sold(102).bracts(80, 4), 81, N::ColorAhead, ABSENT);
    holds(AHEAD, &sold(102).bracts(80, 3), 80, N::ColorAhead, ABSENT);
}

#[test]
fn a_stage_late_against_the_plan() {
    const PLAN: &str =
        "house rule: 10 days after the plan's day, here day 70 for first color (30 of 54 parts of 66.5 days)";
    let far = || Crop::new().lot(|l| l.ready_by = day(130));
    holds(PLAN, &far().bracts(79, 1), 79, N::ColorBehind, ABSENT);
    holds(PLAN, &far().bracts(80, 1), 80, N::ColorBehind, WATCH);
    // Seen late, after a look that missed it.
    holds(PLAN, &far().bracts(72, 1).bracts(79, 2), 79, N::ColorBehind, ABSENT);
    holds(PLAN, &far().bracts(72, 1).bracts(80, 2), 80, N::ColorBehind, WATCH);
    holds("a first look says nothing of when it came", &far().bracts(80, 2), 80, N::ColorBehind, ABSENT);
    holds("while the look speaks", &far().bracts(72, 1).bracts(80, 2), 94, N::ColorBehind, WATCH);
    holds("while the look speaks", &far().bracts(72, 1).bracts(80, 2), 95, N::ColorBehind, ABSENT);
    // Warm or cool, the plan's day is the plan's: at 18 C the forecast expects first color days later.
    let cool = (33..70).fold(far(), |crop, n| crop.climate(n, 18.0, 18.0));
    holds(PLAN, &cool.bracts(80, 1), 80, N::ColorBehind, WATCH);
}

#[test]
fn a_cool_finish_is_foreseen_from_the_last_week() {
    const FOUR: &str = "house rule: the mean of the last week is carried on once four of its days are written";
    let cool = |days: i64| {
        let sold = Crop::new().lot(|l| l.ready_by = day(100));
        (47..47 + days).fold(sold, |crop, n| crop.climate(n, 17.0, 17.0))
    };
    holds(FOUR, &cool(3), 51, N::ColorBehind, ABSENT);
    holds(FOUR, &cool(4), 51, N::ColorBehind, ACT);
    // A lot whose response holds at 17 °C is in time.
    let used = |days| cool(days).lot(|l| l.response_c = Some(17.0));
    holds(FOUR, &used(4), 51, N::ColorBehind, ABSENT);
}

#[test]
fn heat_that_is_written_never_mends_a_late_lot() {
    const HEAT: &str = "Florida about 2008: 54 days at 70 °F, 65 at 80 °F";
    let sold = |n| Crop::new().lot(|l| l.ready_by = day(n));
    let hot = |n: i64| (33..33 + n).fold(sold(91), |crop, n| crop.climate(n, 27.0, 26.5));
    holds(HEAT, &sold(91), 52, N::ColorBehind, WATCH);
    holds(HEAT, &hot(7), 52, N::ColorBehind, ACT);
    holds(HEAT, &hot(19), 52, N::ColorBehind, ACT);
}

#[test]
fn heat_in_the_first_short_days() {
    let nights =
        |from: i64, c: &[f64]| c.iter().zip(from..).fold(Crop::new(), |crop, (c, n)| crop.climate(n, 22.0, *c));
    holds(HEAT, &nights(33, &[24.0, 24.0, 24.0]), 36, N::HeatDelay, ACT);
    holds(HEAT, &nights(33, &[24.0, 24.0]), 36, N::HeatDelay, WATCH);
    holds(HEAT, &nights(33, &[22.1]), 36, N::HeatDelay, WATCH);
    holds(HEAT, &nights(33, &[22.0]), 36, N::HeatDelay, ABSENT);
    holds("before short days", &nights(30, &[24.0, 24.0, 24.0]), 33, N::HeatDelay, ABSENT);
    holds("day 28 of short days", &nights(60, &[23.0]), 60, N::HeatDelay, WATCH);
    holds("day 29 of short days", &nights(61, &[23.0]), 61, N::HeatDelay, ABSENT);
    holds("a mean of 26", &Crop::new().climate(40, 30.1, 22.0), 40, N::HeatDelay, ACT);
    holds("a mean just under 26", &Crop::new().climate(40, 29.5, 22.0), 40, N::HeatDelay, ABSENT);
    let bud = || Crop::new().leaves(70, &[LeafSign::BudBeforeColor], None);
    holds("Florida about 2008: the bud before the color", &bud(), 70, N::HeatDelay, ACT);
    holds("7 days at its level", &bud(), 77, N::HeatDelay, ACT);
    holds("then 7 as watch", &bud(), 78, N::HeatDelay, WATCH);
    holds("then no more", &bud(), 85, N::HeatDelay, ABSENT);
}

#[test]
fn cold() {
    const COOL: &str = "Clemson 2011: 15.5 C from first color; 3 days under 16 (house rule)";
    const COLD: &str = "UMass, Purdue 2012, Delaware: harm under 50 F (10 C)";
    holds(COLD, &Crop::new().climate(60, 18.0, 9.9), 60, N::ColdNights, URGENT);
    holds(COLD, &Crop::new().climate(60, 18.0, 10.0), 60, N::ColdNights, ABSENT);
    holds("speaks 3 days", &Crop::new().climate(60, 18.0, 9.0), 63, N::ColdNights, URGENT);
    holds("speaks 3 days", &Crop::new().climate(60, 18.0, 9.0), 64, N::ColdNights, ABSENT);
    let cool = |days: i64, c: f64| (75..75 + days).fold(Crop::new().bracts(72, 2), |crop, n| crop.climate(n, c, c));
    holds(COOL, &cool(3, 15.9), 77, N::ColdNights, WATCH);
    holds(COOL, &cool(2, 15.9), 77, N::ColdNights, ABSENT);
    holds(COOL, &cool(3, 16.0), 77, N::ColdNights, ABSENT);
    holds(
        "before first color",
        &(75..78).fold(Crop::new(), |c, n| c.climate(n, 15.0, 15.0)),
        77,
        N::ColdNights,
        ABSENT,
    );
    let full = (85..88).fold(Crop::new().bracts(72, 2).bracts(84, 4), |c, n| c.climate(n, 15.0, 15.0));
    holds("from stage 4 on", &full, 87, N::ColdNights, ABSENT);
}

#[test]
fn gray_mold_weather() {
    const DAMP: &str = "Georgia 2023: over 85% humidity; after 10:00 on 2 of 3 days (house rule)";
    let damp = |days: &[i64], time, percent| {
        days.iter().fold(Crop::new().bracts(72, 2), |crop, n| crop.humid(*n, time, percent))
    };
    holds(DAMP, &damp(&[80, 81], (11, 0), 86.0), 81, N::MoldWeather, ACT);
    holds(DAMP, &damp(&[80, 82], (11, 0), 86.0), 82, N::MoldWeather, ACT);
    holds(DAMP, &damp(&[80, 83], (11, 0), 86.0), 83, N::MoldWeather, ABSENT);
    holds(DAMP, &damp(&[81], (11, 0), 86.0), 81, N::MoldWeather, ABSENT);
    holds(DAMP, &damp(&[80, 81], (11, 0), 85.0), 81, N::MoldWeather, ABSENT);
    holds("read before 10:00", &damp(&[80, 81], (9, 30), 95.0), 81, N::MoldWeather, ABSENT);
    let green = Crop::new().bracts(72, 1).humid(80, (11, 0), 90.0).humid(81, (11, 0), 90.0);
    holds("stage 1", &green, 81, N::MoldWeather, ABSENT);
    let wet = |signs: &[LeafSign]| Crop::new().bracts(72, 2).leaves(80, signs, None);
    holds("wet bracts seen", &wet(&[LeafSign::WetBracts]), 80, N::MoldWeather, ACT);
    holds("with gray fuzz", &wet(&[LeafSign::WetBracts, LeafSign::GrayFuzz]), 80, N::MoldWeather, URGENT);
}
