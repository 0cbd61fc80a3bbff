//! A season of many benches, for load: water daily with dry-down, weekly roots, bracts, whitefly and heights, feed tests.
//! Nothing is wrong with it on purpose. Taken in beside `rng` and `season`.

use crate::rng::Rng;
use crate::season::{Crop, date, instant, lot, placement};
use benchwalk::record::{Bench, Kind, Lot, PestCount, PestName, Pinch, PinchHow, Place, Reach, Revision, TestMethod};
use chrono::{Days, NaiveDate};

/// The day all of it was planted.
const PLANTED: (u32, u32) = (8, 10);

/// So many benches, fifty a house (`H1-01` and on), with so many days written from planting on.
#[allow(dead_code, reason = "each test takes what it needs")]
pub(crate) fn large(benches: u32, days: u32, seed: u64) -> Crop {
    named(benches, days, seed, |n| format!("H{}-{:02}", n / 50 + 1, n % 50 + 1))
}

/// The same with a code for each bench, counted from 0.
pub(crate) fn named(benches: u32, days: u32, seed: u64, code: fn(u32) -> String) -> Crop {
    let mut rng = Rng::new(seed);
    let lots = (benches / 25).max(1);
    let mut crop = Crop::bare();
    for n in 0..lots {
        let one = Lot { pots: 80 * 25, planted: date(PLANTED.0, PLANTED.1), ..lot(&format!("L{n}")) };
        let one = Lot { pinch: Pinch::Soft, response_weeks: 9.0, feed_n_ppm: Some(150.0), slow_release_g: None, ..one };
        crop = crop.with_lot(one).order((11, 27), 1000);
    }
    for n in 0..benches {
        let code = code(n);
        let house = format!("H{}", n / 50 + 1);
        crop.plan.benches.push(Bench {
            bench: code.clone(),
            house,
            order: n + 1,
            area_m2: Some(9.0),
            revision: Revision::number(1),
        });
        crop.plan.placements.push(placement(&code, &format!("L{}", n % lots), 80, PLANTED));
        crop = written(crop, &mut rng, &code, n, days);
    }
    crop.with_derived_ids()
}

/// The days of one bench.
fn written(mut crop: Crop, rng: &mut Rng, bench: &str, nth: u32, days: u32) -> Crop {
    let mut level = 2 + u8::try_from(rng.below(4)).expect("under four");
    for n in 0..days {
        let day: NaiveDate = date(PLANTED.0, PLANTED.1) + Days::new(n.into());
        let minute = u32::try_from(rng.below(50)).expect("under fifty");
        for (hour, minute, kind) in day_of(rng, &mut level, n, nth).into_iter().map(|(h, m, k)| (h, minute + m, k)) {
            crop = crop.write_at(instant(day, (hour, minute)), Place::Bench(bench.into()), kind);
        }
    }
    crop
}

/// What is written of a bench on its day `n` after planting: hour, minutes later than the day's own, kind.
fn day_of(rng: &mut Rng, level: &mut u8, n: u32, nth: u32) -> Vec<(u32, u32, Kind)> {
    let mut day = vec![(7, 0, Kind::Water { level: *level, base: None })];
    if *level <= 2 {
        day.push((10, 0, Kind::Watered { ml_per_pot: None }));
        *level = 5;
    } else {
        *level = (*level - [0, 1, 1][rng.below(3)]).max(2);
    }
    if n == 14 {
        day.push((11, 0, Kind::Pinched { how: PinchHow::Soft, nodes_left: None }));
    }
    if n >= 10 && (n + nth).is_multiple_of(7) {
        day.push((7, 1, Kind::Roots { score: 0, pots: Some(3), bad: None, signs: vec![], reach: Some(Reach::Wall) }));
        let count = PestCount::Plants { inspected: 20, infested: 0 };
        day.push((7, 2, Kind::Pests { pest: PestName::Whitefly, count }));
    }
    if n >= 15 && (n + nth) % 7 == 2 {
        let height = 19.0 + 19.0 * f64::from(n - 14) / 95.0;
        let cm = (0..6).map(|_| ((height + rng.unit() - 0.5) * 10.0).round() / 10.0).collect();
        day.push((7, 3, Kind::Height { cm }));
    }
    if n >= 40 && (n + nth) % 7 == 4 {
        day.push((7, 4, Kind::Bracts { stage: (1 + (n - 40) / 10).min(7) as u8 }));
    }
    if n % 14 == 3 {
        let kind =
            Kind::RootZone { method: TestMethod::PourThrough, ph: Some(5.9), ec_ms_cm: Some(2.8), pots: Some(5) };
        day.push((9, 0, kind));
    }
    day
}
