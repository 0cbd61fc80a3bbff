//! Tomorrow's jobs: one line a job, and no bench on two lines that cannot both be done.

use crate::rng::Rng;
use crate::season::{Crop, lot};
use benchwalk::record::{LeafSign, Material, Method};
use benchwalk::report::review::text;
use benchwalk::review::{Job, Review, build};
use benchwalk::warnings::{Act, assess_all};
use chrono::{Days, NaiveDate};

/// The evening of a day in October, with the evening before to compare.
fn evening(crop: &Crop, day: u32) -> Review {
    review(crop, NaiveDate::from_ymd_opt(2026, 10, day).unwrap())
}

fn review(crop: &Crop, on: NaiveDate) -> Review {
    let season = crop.recorded();
    let of = |day| assess_all(&season, day, &crop.limits).all().cloned().collect::<Vec<_>>();
    build(&season, on, of(on), &of(on - Days::new(1)), "defaults".into()).unwrap()
}

/// The review's text without its line ends.
fn words(review: &Review) -> String {
    text(review).split_whitespace().collect::<Vec<_>>().join(" ")
}

fn job(review: &Review, wanted: impl Fn(&Job) -> bool) -> Vec<Job> {
    review.jobs.iter().filter(|job| wanted(job)).cloned().collect()
}

/// Two houses of four benches, a red lot on the first three and a white one on the rest. E3 is wet from October 1, its base on
/// October 5; the others dry down every three days. No magnesium was given; fed last on September 25.
fn autumn() -> Crop {
    let mut crop = Crop::bare().with_lot(lot("R6")).with_lot(lot("R8"));
    let benches = [("E1", "East"), ("E2", "East"), ("E3", "East"), ("E4", "East")];
    let all: Vec<_> =
        benches.into_iter().chain([("W1", "West"), ("W2", "West"), ("W3", "West"), ("W4", "West")]).collect();
    for (n, (bench, house)) in (1..).zip(&all) {
        let lot = if n <= 3 { "R6" } else { "R8" };
        crop = crop.bench_in(bench, house, n).filled(bench, lot, 100, 0).on(bench).pinched(14);
        for week in 0..6 {
            crop = crop.fed(4 + 7 * week, 200.0, None, None);
        }
        for day in 0..55 {
            let wet = *bench == "E3" && day >= 45;
            let level = if wet { 5 } else { [5, 4, 2][usize::try_from(day % 3).unwrap()] };
            crop = if *bench == "E3" && day == 49 { crop.base(day, 5, 5) } else { crop.water(day, level) };
            if level == 2 {
                crop = crop.watered(day);
            }
        }
    }
    crop
}

#[test]
fn a_bench_that_must_dry_down_is_on_no_line_that_wets_it() {
    let crop = autumn();
    let evening_9 = evening(&crop, 9);
    let said = words(&evening_9);
    assert!(said.contains("E3: Do not water until "), "{}", text(&evening_9));
    assert!(said.contains("E3: Look for a drip, a blocked drain or a cold spot (corners, bench ends)."), "{said}");
    assert!(said.contains("E3: Knock out three pots and score the roots."), "{said}");
    let drench = job(&evening_9, |job| job.act == Act::Nutrient && job.what.contains("magnesium"));
    assert_eq!(drench.len(), 1, "{}", text(&evening_9));
    assert_eq!(drench[0].benches, ["E1", "E2", "E4", "W1", "W2", "W3", "W4"]);
    assert!(said.contains("R6, R8 (all of East, West; 700 pots), but E3 only when it reads 2: "), "{said}");
    assert!(drench[0].what.contains(" gal ") && drench[0].what.contains("oz"), "{}", drench[0].what);
    for feed in job(&evening_9, |job| job.act == Act::Feed) {
        assert!(!feed.benches.iter().any(|b| b == "E3"), "{}", feed.text());
    }
    assert!(!said.contains("Water today"), "{said}");
}

#[test]
fn dried_down_and_checked_it_is_on_the_lines_again() {
    let crop = autumn().on("E3").base((10, 11), 2, 3).roots((10, 11), 1);
    let crop =
        ["E1", "E2", "E4", "W1", "W2", "W3", "W4"].into_iter().fold(crop, |crop, b| crop.on(b).water((10, 11), 2));
    let evening_11 = evening(&crop, 11);
    assert!(job(&evening_11, |job| matches!(job.act, Act::Hold(_))).is_empty(), "{}", text(&evening_11));
    let knocks = job(&evening_11, |job| job.what.contains("Knock out three pots"));
    assert!(!knocks.iter().any(|job| job.benches.iter().any(|b| b == "E3")), "{}", text(&evening_11));
    let drench = job(&evening_11, |job| job.act == Act::Nutrient && job.what.contains("magnesium"));
    assert!(drench.iter().any(|job| job.benches.iter().any(|b| b == "E3")), "{}", text(&evening_11));
}

#[test]
fn a_step_that_the_record_shows_as_done_is_not_listed_again() {
    let looked = autumn().on("E3").roots((10, 9), 1);
    let said = words(&evening(&looked, 9));
    assert!(said.contains("E3: Do not water until "), "{said}");
    assert!(!said.contains("E3: Knock out three pots"), "{said}");
}

#[test]
fn a_forgotten_drench_of_five_hundred_benches_is_told_in_a_page_or_two() {
    let (lots, houses, each) = (20, 10, 50);
    let mut crop = Crop::bare();
    for n in 0..lots {
        crop = crop.with_lot(lot(&format!("L{n}")));
    }
    for n in 0..houses * each {
        let (bench, house) = (format!("H{}-{:02}", n / each + 1, n % each + 1), format!("H{}", n / each + 1));
        crop = crop.bench_in(&bench, &house, n + 1).filled(&bench, &format!("L{}", n % lots), 80, 0).on(&bench);
        crop = crop.pinched(14).water(52, 3).water(53, 2).water(54, 3);
    }
    let evening = review(&crop, NaiveDate::from_ymd_opt(2026, 10, 10).unwrap());
    let magnesium = evening.flagged().filter(|(problem, _)| problem.title().contains("magnesium missed")).count();
    assert_eq!(magnesium, 1, "one block\n{}", text(&evening));
    let said = words(&evening);
    assert!(said.contains("L0-L19 (all of H1, H2, H3, H4, H5, H6, H7, H8, H9, H10; 40000 pots)"), "{}", text(&evening));
    assert!(text(&evening).lines().count() < 60, "{}", text(&evening));
}

/// A season of random readings and work over two lots: evenings with many problems at once.
fn random(seed: u64) -> Crop {
    let mut rng = Rng::new(seed);
    let mut crop = Crop::bare().with_lot(lot("L1")).with_lot(lot("L2"));
    for n in 0..6_u32 {
        let bench = format!("E{n}");
        let house = if n < 3 { "East" } else { "West" };
        crop =
            crop.bench_in(&bench, house, n + 1).filled(&bench, if n % 2 == 0 { "L1" } else { "L2" }, 80, 0).on(&bench);
        let mut level = 3_u8;
        for day in 30..70_i64 {
            level = match rng.below(5) {
                0 => 5,
                1 => 1,
                _ => level.saturating_sub(1).max(1),
            };
            crop = if rng.chance(0.1) { crop.base(day, level, *rng.pick(&[1, 3, 5])) } else { crop.water(day, level) };
            if rng.chance(0.05) {
                crop = crop.roots(day, *rng.pick(&[0, 1, 2, 3, 4]));
            }
            if rng.chance(0.04) {
                crop = crop.leaves(
                    day,
                    &[*rng.pick(&[LeafSign::Wilted, LeafSign::LowerYellow, LeafSign::BetweenVeins])],
                    None,
                );
            }
            if rng.chance(0.1) {
                crop = crop.watered(day);
            }
            if rng.chance(0.05) {
                crop = crop.fed(day, 200.0, None, None);
            }
            if rng.chance(0.02) {
                crop = crop.nutrient(day, Material::MagnesiumSulfate, 120.0, Method::Drench);
            }
            if rng.chance(0.05) {
                crop = crop.heights(day, &[20.0, 21.0, *rng.pick(&[16.0, 22.0, 30.0])]);
            }
        }
    }
    crop
}

/// Two jobs of one bench that cannot both be done.
fn contradict(one: &Job, other: &Job) -> bool {
    let holds = |job: &Job| matches!(job.act, Act::Hold(_));
    let pair = |a: &Job, b: &Job| {
        holds(a) && (b.act.wets() || holds(b) || b.act == Act::Spray)
            || a.act == Act::Leach && matches!(b.act, Act::Nutrient | Act::Feed)
            || a.act == Act::Water && b.act == Act::Spray
            || a.text() == b.text()
    };
    pair(one, other) || pair(other, one)
}

#[test]
fn no_bench_stands_on_two_lines_that_cannot_both_be_done() {
    // Ten thousand evenings in a sweep.
    let seasons = if std::env::var_os("BENCHWALK_SWEEP").is_some() { 250 } else { 15 };
    let (mut evenings, mut held, mut left_out) = (0, 0, 0);
    for seed in 0..seasons {
        let crop = random(seed);
        let season = crop.recorded();
        for day in 30..70 {
            let on = NaiveDate::from_ymd_opt(2026, 8, 17).unwrap() + Days::new(day);
            let all: Vec<_> = assess_all(&season, on, &crop.limits).all().cloned().collect();
            let evening = build(&season, on, all, &[], String::new()).unwrap();
            for (n, job) in evening.jobs.iter().enumerate() {
                for other in evening.jobs.iter().skip(n + 1) {
                    let shared: Vec<_> = job.benches.iter().filter(|b| other.benches.contains(b)).collect();
                    assert!(
                        shared.is_empty() || !contradict(job, other),
                        "seed {seed}, {on}: {shared:?}\n{}\n{}",
                        job.text(),
                        other.text()
                    );
                }
                held += usize::from(matches!(job.act, Act::Hold(_)));
                left_out += job.waits.len();
            }
            evenings += 1;
        }
    }
    println!("{evenings} evenings, {held} lines that keep the water off, {left_out} times benches left out");
    assert!(held > evenings / 4 && left_out > evenings / 10, "{evenings}, {held}, {left_out}");
}
