//! When the color comes, as a grower sees it move: by the temperatures that are typed, and by the mean a response holds at.

use crate::desk::{COLOR, Desk};
use crate::season::{Crop, lot};
use benchwalk::season::Season;

/// One house of one bench in its eighth week; short days began on September 19, and the house was read at this mean on the last
/// days.
fn house(days: std::ops::Range<i64>, mean_c: f64) -> Season {
    let lot = benchwalk::record::Lot { height_low_cm: None, height_high_cm: None, ..lot("R6") };
    let crop = Crop::bare().site(|site| site.no_temperature = false).with_lot(lot).bench_in("E1", "East", 1);
    let crop = crop.filled("E1", "R6", 100, 0).on("E1").pinched(14).roots(54, 0).bracts(54, 1);
    let crop = crop.plants(54, benchwalk::record::PestName::Whitefly, 20, 0).waters(53, &[3, 2, 3]);
    days.fold(crop, |crop, n| crop.climate(n, mean_c, mean_c)).recorded()
}

/// The Season page in one line of words, of two regions side by side the right one.
fn page(desk: &mut Desk) -> String {
    desk.keys("s");
    let text = desk.text();
    let right = text.lines().map(|line| line.split_once('│').map_or(line, |(_, right)| right));
    let text = right.flat_map(str::split_whitespace).filter(|word| *word != "│").collect::<Vec<_>>().join(" ");
    desk.keys("{Esc}");
    text
}

#[test]
fn a_range_without_temperatures_says_so() {
    for size in [(80, 40), (120, 40)] {
        let said = page(&mut Desk::of(&house(0..0, 0.0), COLOR, size));
        assert!(said.contains("full color, ready"), "{said}");
        let (none, taken) = ("no temperatures written", "response taken at 70 °F");
        assert!(said.contains(none) && said.contains(taken), "{size:?}: {said}");
    }
}

#[test]
fn the_fourth_cool_day_of_a_week_moves_the_color_of_the_house() {
    let mut desk = Desk::of(&house(53..56, 17.0), COLOR, (80, 40));
    let before = page(&mut desk);
    assert!(before.contains("full color, ready") && before.contains("Nov 13 to 23, before the sale"), "{before}");
    assert!(before.contains("few temperatures written this week"), "{before}");
    // Today's, on the first bench of the house: day 63 °F, night 62 °F.
    desk.keys("w3");
    assert!(desk.text().contains("[house temp _]"), "{}", desk.text());
    desk.keys("63/62{Enter}{Esc}");
    let after = page(&mut desk);
    assert!(after.contains("Nov 21 to Dec 5, may miss the sale"), "{after}");
    assert!(after.contains("response taken at 70 °F") && !after.contains("few temperatures"), "{after}");
    // On the Evening the bench is watched.
    desk.resize(80, 60).keys("e");
    let evening = desk.text().split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(evening.contains("E1 (R6) watch (new) color running late"), "{evening}");
}

#[test]
fn heat_that_is_typed_never_brings_the_color_nearer() {
    let likely = |season: &Season| {
        let limits = benchwalk::limits::Limits::default();
        let day = crate::season::date(10, 12);
        let now = benchwalk::warnings::benches_now(season, &["E1".to_owned()], day, &limits).remove(0);
        now.outlook.full_color.unwrap()
    };
    let nothing = likely(&house(0..0, 0.0));
    for mean_c in [26.0, 27.0, 29.0, 31.0] {
        for days in [53..56, 50..57, 33..57] {
            let hot = likely(&house(days.clone(), mean_c));
            assert!(hot.likely >= nothing.likely && hot.high >= nothing.likely, "{mean_c} on {days:?}: {hot:?}");
        }
    }
}

#[test]
fn the_mean_a_response_holds_at_is_asked_for_in_the_units_of_the_site() {
    let mut desk = Desk::of(&house(50..57, 18.0), COLOR, (120, 40));
    let before = page(&mut desk);
    assert!(before.contains("response taken at 70 °F"), "{before}");
    desk.keys("gj{Enter}").keys(&"{Tab}".repeat(9));
    let text = desk.text();
    assert!(
        text.contains("response temp") && text.contains("61 to 75 °F") && text.contains("mean of day and night"),
        "{text}"
    );
    desk.keys("150{Enter}");
    assert!(desk.kept.is_empty(), "no house is that hot: {}", desk.text());
    desk.keys("64.4{Enter}");
    if desk.kept.is_empty() {
        desk.keys("{Enter}");
    }
    let kept = desk.kept.iter().map(benchwalk::record::codec::encode).collect::<Vec<_>>();
    assert!(kept[0].contains(r#""response_c":18"#), "{kept:?}\n{}", desk.text());
    desk.keys("{Esc}");
    let after = page(&mut desk);
    assert!(!after.contains("response taken") && !after.contains("may miss"), "{after}");
}
