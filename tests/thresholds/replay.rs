//! Replaying a season day by day gives the same warnings as opening it on that day, and the order of lines never matters.

use crate::season::{Crop, day};
use benchwalk::limits::Limits;
use benchwalk::record::{How, Kind, LeafSign, Line, Material, Method, PestName, Reach};
use benchwalk::season::Season;
use benchwalk::warnings::assess_all;
use proptest::prelude::*;

/// One thing to write on a bench.
fn thing() -> impl Strategy<Value = Kind> {
    let leaf = prop_oneof![
        Just(LeafSign::Wilted),
        Just(LeafSign::LowerYellow),
        Just(LeafSign::BetweenVeins),
        Just(LeafSign::GrayFuzz),
    ];
    prop_oneof![
        6 => (1u8..=5, proptest::option::of(1u8..=5)).prop_map(|(level, base)| Kind::Water { level, base }),
        2 => Just(Kind::Watered { ml_per_pot: Some(250.0) }),
        2 => (0u8..=5).prop_map(|score| Kind::Roots { score, pots: Some(3), bad: None, signs: vec![], reach: Some(Reach::Wall) }),
        1 => (1u8..=5).prop_map(|stage| Kind::Bracts { stage }),
        1 => proptest::collection::vec(leaf, 0..3).prop_map(|signs| Kind::Leaves { signs, plant_part: None, plants: None }),
        1 => proptest::collection::vec(15.0f64..45.0, 3..6).prop_map(|cm| Kind::Height { cm }),
        1 => (0u32..10).prop_map(|infested| Kind::Pests {
            pest: PestName::Whitefly,
            count: benchwalk::record::PestCount::Plants { inspected: 20, infested },
        }),
        1 => (5.0f64..28.0).prop_map(|c| Kind::Climate { day_c: Some(c + 4.0), night_c: Some(c), humidity_percent: Some(90.0), log: Box::default() }),
        1 => Just(Kind::Nutrient { material: Material::MagnesiumSulfate, ppm: 118.0, how: Method::Drench, ml_per_pot: Some(150.0) }),
        1 => (1u32..3).prop_map(|pots| Kind::Losses { pots, cause: None }),
        1 => Just(Kind::Pinched { how: benchwalk::record::PinchHow::Soft, nodes_left: None }),
        1 => (0i64..100, "staying-wet|roots-failing|not-walked").prop_map(|(n, warning)| Kind::PutOff {
            warning,
            until: day(n),
            why: "later".into(),
        }),
        1 => (1u32..20).prop_map(|pots| Kind::Moved { to: "E2".into(), pots }),
        1 => (0.0f64..60.0).prop_map(|rei_h| Kind::Sprayed {
            ai: "x".into(),
            against: "y".into(),
            how: How::Spray,
            rei_h,
            product: None,
            rate: None, application: Box::default() }),
    ]
}

/// A crop with things written on any day and hour, some struck out later.
fn crops() -> impl Strategy<Value = Crop> {
    let written = (0i64..100, 5u32..20, 0u32..60, thing(), proptest::option::weighted(0.1, 0i64..100));
    proptest::collection::vec(written, 1..70).prop_map(|all| {
        let start = Crop::new().bench_in("E2", "East", 2).order(102, 100);
        all.into_iter().fold(start, |crop, (n, hour, minute, kind, struck)| {
            let crop = crop.at(n, (hour, minute), kind);
            match struck {
                Some(later) if later >= n => crop.struck(later),
                _ => crop,
            }
        })
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, ..ProptestConfig::default() })]

    #[test]
    fn day_by_day_is_the_same_as_opened_on_that_day(crop in crops(), on in 0i64..105) {
        let limits = Limits::default();
        let opened = assess_all(&crop.season(), day(on), &limits);
        // Only what had been written by that evening.
        let known = crop.clone().only(|e| e.day() <= day(on));
        prop_assert_eq!(&opened, &assess_all(&known.season(), day(on), &limits));
        // Entered one after another, as on the walk.
        let mut walked = crop.clone().only(|_| false).season();
        let mut entries = crop.entries;
        entries.sort_by_key(benchwalk::record::Entry::order);
        for entry in entries {
            walked.insert(entry);
        }
        prop_assert_eq!(&opened, &assess_all(&walked, day(on), &limits));
    }

    #[test]
    fn the_order_of_lines_never_matters(crop in crops(), on in 0i64..105, seed in any::<u64>()) {
        let limits = Limits::default();
        let straight = assess_all(&crop.season(), day(on), &limits);
        let mut lines: Vec<Line> = crop.lines();
        // A plain shuffle by a multiplicative walk.
        let mut state = seed | 1;
        for i in (1..lines.len()).rev() {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
            lines.swap(i, usize::try_from(state >> 33).unwrap_or(0) % (i + 1));
        }
        prop_assert_eq!(straight, assess_all(&Season::of(lines), day(on), &limits));
    }

    #[test]
    fn no_look_again_falls_before_a_keep_out_ends(crop in crops(), on in 0i64..105) {
        let season = crop.season();
        let limits = Limits::default();
        for warning in assess_all(&season, day(on), &limits).all() {
            prop_assert!(warning.look_again > day(on), "{:?}", warning);
            prop_assert!(warning.since <= day(on), "{:?}", warning);
            for bench in &warning.benches {
                if let Some(until) = season.closed_on(bench, day(on)) {
                    prop_assert!(warning.look_again >= season.day_of(until), "{:?}", warning);
                }
            }
        }
    }
}
