//! The count of the days: never earlier for heat, a cool finish foreseen, and a range that holds what comes.

use super::*;
use crate::crop::color::FULL_COLOR_SHARE;
use proptest::prelude::*;

fn likely(usual_c: f64, days_c: &[Option<f64>]) -> f64 {
    House { response_days: 66.5, usual_c, days_c }.reaches(FULL_COLOR_SHARE, Seen::NOTHING).likely
}

#[test]
fn heat_never_makes_the_color_earlier() {
    for usual in [18.0, 19.5, USUAL_C, 23.0] {
        let nothing = likely(usual, &[]);
        let mut before = nothing;
        for tenths in 260..330 {
            let hot = likely(usual, &vec![Some(f64::from(tenths) / 10.0); 80]);
            assert!(hot >= nothing - 1e-9, "{usual}: {tenths} tenths");
            assert!(hot >= before - 1e-9, "{usual}: {tenths} tenths");
            before = hot;
        }
        // Also a few days of it.
        assert!(likely(usual, &[Some(30.0); 5]) >= nothing - 1e-9);
    }
}

#[test]
fn a_cool_week_is_carried_to_the_end_and_a_warm_one_for_two_weeks() {
    let weeks = |week: f64| [vec![None; 14], vec![Some(week); 7]].concat();
    let nothing = likely(USUAL_C, &[]);
    let cool = likely(USUAL_C, &weeks(18.0)) - nothing;
    assert!(cool > 7.0, "{cool}");
    let warm = nothing - likely(18.0, &weeks(21.0)) + likely(18.0, &[]) - nothing;
    let carried = 21.0 * ((21.0 - BASE_C) / (18.0 - BASE_C) - 1.0);
    assert!((warm - carried).abs() < 0.5, "{warm} {carried}");
    // Three days are no week, and a week long past is none either.
    assert!((likely(USUAL_C, &[Some(18.0); 3]) - nothing).abs() < 1.0);
    let past = |since: usize| likely(USUAL_C, &[vec![Some(18.0); 7], vec![None; since]].concat()) - nothing;
    assert!(past(5) > 7.0 && past(9) < 2.0, "{} {}", past(5), past(9));
}

#[test]
fn after_a_hot_start_first_color_comes_after_the_cyathia() {
    let hot = [Some(26.7); 30];
    let house = House { response_days: 54.0, usual_c: USUAL_C, days_c: &hot };
    let counter = house.counter();
    let [color, cyathia, ..] = counter.milestones(Seen::NOTHING, 0.0);
    assert!((color.likely - cyathia.likely - 3.0).abs() < 1e-9);
    assert!((counter.share_seen(Milestone::FirstColor) - 0.70).abs() < 1e-9);
    // What is seen is counted on from there.
    let seen = Seen { day: 50, share: 0.70 };
    let [.., pollen] = counter.milestones(seen, seen.share).map(|days| days.likely);
    assert!((65.0..69.0).contains(&pollen), "{pollen}");
}

#[test]
fn a_hot_start_is_known_by_the_first_four_weeks_and_days_not_written_are_usual_ones() {
    let hot = |days_c: &[Option<f64>]| House { response_days: 54.0, usual_c: USUAL_C, days_c }.counter().is_hot_start();
    assert!(hot(&[Some(26.7); 28]) && hot(&[Some(26.7); 14]), "what is carried counts");
    assert!(!hot(&[Some(27.6); 4]), "four hot days and two weeks of them carried are no hot month");
    assert!(!hot(&[vec![None; 21], vec![Some(29.0); 7]].concat()));
}

proptest! {
    #[test]
    fn heat_that_is_written_makes_no_milestone_earlier_than_a_usual_day_there(
        days in proptest::collection::vec(proptest::option::weighted(0.8, 12.0f64..31.0), 1..70),
        usual in 16.0f64..24.0, at in 0usize..70, heat in 26.0f64..34.0, more in 0.0f64..4.0,
    ) {
        let at = at % days.len();
        let with = |c: f64| -> Vec<Option<f64>> {
            days.iter().enumerate().map(|(n, day)| if n == at { Some(c) } else { *day }).collect()
        };
        let of = |days_c: &[Option<f64>]| {
            House { response_days: 66.5, usual_c: usual, days_c }.counter().milestones(Seen::NOTHING, 0.0)
        };
        let (usual, hot, hotter) = (of(&with(usual)), of(&with(heat)), of(&with(heat + more)));
        for ((usual, hot), hotter) in usual.iter().zip(hot).zip(hotter) {
            prop_assert!(hot.likely >= usual.likely - 1e-6, "{} before {}", hot.likely, usual.likely);
            prop_assert!(hotter.likely >= hot.likely - 1e-6, "{} before {}", hotter.likely, hot.likely);
        }
    }
}

/// Numbers of a fixed seed.
struct Chance(u64);

impl Chance {
    fn unit(&mut self) -> f64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// Normal: the sum of twelve.
    fn normal(&mut self, sd: f64) -> f64 {
        sd * ((0..12).map(|_| self.unit()).sum::<f64>() - 6.0)
    }
}

/// The means of a house's days: a level about the usual one, weeks that follow each other, a quarter with a hot start.
fn days(chance: &mut Chance, usual: f64) -> Vec<f64> {
    let level = usual + chance.normal(1.0);
    let hot = chance.unit() < 0.25;
    let mut week = 0.0;
    let mut days = Vec::new();
    for n in 0..40 {
        week = 0.7 * week + chance.normal(1.2 * 0.51_f64.sqrt());
        let start = if hot { (5.0 - 1.5 * f64::from(n)).max(0.0) } else { 0.0 };
        days.extend((0..7).map(|_| level + start + week + chance.normal(1.0)));
    }
    days
}

/// The day of full color of a crop with slopes of its own: the cool one by another base, the heat loss by another factor.
fn truth(days: &[f64], response: f64, usual: f64, base: f64, heat: f64) -> f64 {
    let worth = |mean: f64, before: bool| {
        let cool = |mean: f64| (mean - base) / (USUAL_C - base);
        let of = |mean: f64, before| if mean < USUAL_C { cool(mean.max(KNOWN_C.0)) } else { rate(mean, before, heat) };
        let worth = of(mean, before) / of(usual, false);
        if mean >= HOT_C { worth.min(1.0) } else { worth }
    };
    let mut at = 0.0;
    for (day, mean) in days.iter().enumerate() {
        let more = worth(*mean, at < INITIATION_SHARE * response);
        if at + more >= FULL_COLOR_SHARE * response {
            return day as f64 + (FULL_COLOR_SHARE * response - at) / more;
        }
        at += more;
    }
    days.len() as f64
}

/// How many of 1,000 houses have their day in the range forecast once so many days are gone, written or not, of 100. Half of the
/// crops follow the cool slope of the model, half one of their own; none follows the heat slope.
fn inside(usual: f64, gone: usize, is_written: bool) -> f64 {
    let mut chance = Chance((11 + gone as u64).wrapping_mul(0x9E37_79B9_7F4A_7C15));
    let (mut inside, mut all) = (0_u32, 0_u32);
    for n in 0..1000 {
        let days = days(&mut chance, usual);
        let response = 66.5 * (1.0 + chance.normal(0.035));
        let own = 6.0 * chance.unit();
        let base = if n % 2 == 0 { BASE_C } else { own };
        let day = truth(&days, response, usual, base, 1.5 * chance.unit());
        let known: Vec<Option<f64>> = days.iter().take(gone).map(|mean| is_written.then_some(*mean)).collect();
        let house = House { response_days: 66.5, usual_c: usual, days_c: &known };
        let range = house.reaches(FULL_COLOR_SHARE, Seen::NOTHING);
        if day > gone as f64 {
            all += 1;
            inside += u32::from((range.low - 0.5..=range.high + 0.5).contains(&day));
        }
    }
    100.0 * f64::from(inside) / f64::from(all)
}

#[test]
fn the_true_day_lies_in_the_range_in_85_to_95_of_100() {
    for usual in [USUAL_C, 19.0, 17.8] {
        for gone in [0, 14, 28, 42] {
            let share = inside(usual, gone, true);
            println!("usual {usual:.1} C, {gone} days written: {share:.1} of 100 in the range");
            assert!((85.0..=95.0).contains(&share), "usual {usual}, {gone} days: {share}");
        }
        // Days gone by that are not written are as little known as those to come.
        let unwritten = inside(usual, 42, false);
        assert!((85.0..=97.0).contains(&unwritten), "usual {usual}, nothing written by day 42: {unwritten}");
    }
}
