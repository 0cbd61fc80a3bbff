//! What a form and the card say of a reading while it is typed, and what the evening makes of it: keys in, words out.

use crate::desk::{Desk, PLAIN};
use crate::season::Crop;
use benchwalk::report::review;
use benchwalk::review::build;
use benchwalk::season::Season;
use benchwalk::warnings::{Warning, assess_all};
use chrono::NaiveDate;

/// The morning of October 12, day 56, bench E1 chosen on the Round.
fn desk(crop: &Crop) -> Desk {
    Desk::of(&crop.recorded(), PLAIN, (80, 24))
}

/// A text with every run of blanks as one blank.
fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The evening of that day in words.
fn evening(desk: &Desk) -> String {
    let (season, on): (&Season, NaiveDate) = (&desk.app.model.season, desk.app.model.day);
    let all: Vec<Warning> = assess_all(season, on, &desk.app.model.limits).all().cloned().collect();
    flat(&review::text(&build(season, on, all, &[], "defaults".into()).expect("a site")))
}

fn sees(desk: &Desk, seen: &str) {
    let text = flat(&desk.text());
    assert!(text.contains(seen), "no {seen:?} in\n{}", desk.text());
}

fn sees_not(desk: &Desk, seen: &str) {
    assert!(!flat(&desk.text()).contains(seen), "{seen:?} in\n{}", desk.text());
}

#[test]
fn hard_water_at_the_hose_asks_for_less_lime_or_for_acid_by_trained_staff() {
    let mut desk = desk(&Crop::new());
    desk.keys("aq{Tab}{Tab}100");
    sees(&desk, "100 ppm as calcium carbonate is 2.0 meq/L, or 122 ppm as bicarbonate.");
    sees_not(&desk, "less lime");
    desk.keys("{Ctrl-U}180");
    sees(&desk, "! Over 2.0 meq/L (100 ppm): ask for less lime in the mix, or for acid, by trained staff.");
    sees(&desk, "Acid goes into water, never water into acid.");
    desk.keys("{Enter}");
    assert_eq!(desk.written(), ["E1 at the hose, alkalinity 180 ppm (3.6 meq/L)"]);
}

#[test]
fn a_high_ph_sends_to_the_roots_the_water_and_the_feed_in_that_order() {
    let mut desk = desk(&Crop::new());
    desk.keys("apa{Tab}7.2{Enter}");
    let said = evening(&desk);
    let steps = [
        "Knock out three pots and score the roots.",
        "Test the alkalinity of the water",
        "Acid only by trained staff",
        "never water into acid",
        "Change to an ammonium-based, more acidic feed",
        "iron chelate DTPA or EDDHA (EDTA does not hold at this pH)",
        "Test again in a week.",
    ];
    let block = said.split_once("pH high").map(|(_, block)| block).expect("a block");
    let found: Vec<usize> =
        steps.iter().map(|s| block.find(s).unwrap_or_else(|| panic!("no {s:?} in {block}"))).collect();
    assert!(found.is_sorted(), "{block}");
    // The water was tested: high, it is evidence; low, it is not spoken of again, nor acid.
    desk.keys("aq{Tab}{Tab}180{Enter}");
    let said = evening(&desk);
    assert!(
        said.contains("alkalinity 180 ppm (3.6 meq/L)") && said.contains("The alkalinity of the water is high"),
        "{said}"
    );
    desk.keys("aq{Tab}{Tab}60{Enter}");
    let said = evening(&desk);
    assert!(!said.contains("lkalinity of the water") && !said.contains("Acid only"), "{said}");
}

#[test]
fn a_low_ph_names_lime_only_with_its_caution() {
    let mut desk = desk(&Crop::new());
    desk.keys("apa{Tab}5.2{Enter}");
    let said = evening(&desk);
    let at = |text: &str| said.find(text).unwrap_or_else(|| panic!("no {text:?} in {said}"));
    assert!(at("flowable lime (dolomite) by its label") < at("Lime burns skin and eyes"));
    assert!(at("Never put dry hydrated lime on the mix.") < at("Magnesium and molybdenum are short at this pH"));
    assert!(!said.contains("ppm Mg per"), "no amounts");
}

#[test]
fn strong_salts_are_leached_only_where_no_slow_release_is_in_the_mix() {
    let after = |crop: Crop| {
        let mut desk = desk(&crop);
        desk.keys("apa{Tab}{Tab}6.0{Enter}");
        evening(&desk)
    };
    let (slow, none) = (Crop::new(), Crop::new().lot(|lot| lot.slow_release_g = Some(0.0)));
    let unknown = Crop::new().lot(|lot| lot.slow_release_g = None);
    let said = after(slow.clone().water(56, 3));
    assert!(said.contains("Do not leach: slow-release in the mix") && !said.contains("Leach with"), "{said}");
    let said = after(none.clone().water(56, 3));
    assert!(said.contains("water L1 (E1; 100 pots): Leach with clear water"), "{said}");
    let said = after(unknown.clone().water(56, 3));
    assert!(said.contains("If no slow-release is in the mix: leach with clear water"), "{said}");
    // A wet mix is held, whatever is in it; a dry one gets clear water where it may not be leached.
    for crop in [&slow, &none, &unknown] {
        let said = after(crop.clone().water(56, 5));
        assert!(said.contains("hold E1: Do not leach now: the mix is wet."), "{said}");
        assert!(!said.contains("each with clear water"), "{said}");
    }
    for crop in [slow, unknown] {
        let said = after(crop.water(56, 1));
        assert!(said.contains("Water with clear water: dry roots in strong salts burn."), "{said}");
    }
    assert!(after(none.water(56, 1)).contains("Leach with clear water"));
}

#[test]
fn low_salts_send_to_the_injector_before_more_feed() {
    let mut desk = desk(&Crop::new());
    desk.keys("apa{Tab}{Tab}0.8{Enter}");
    let said = evening(&desk);
    let at = |text: &str| said.rfind(text).unwrap_or_else(|| panic!("no {text:?} in {said}"));
    assert!(at("Check the injector") < at("Raise the feed rate, or feed at every watering."), "{said}");
    // The hose was checked, and the job is off the list.
    assert!(said.contains("check E1: Check the injector"), "{said}");
    desk.keys("aq{Tab}1.4{Enter}");
    let said = evening(&desk);
    assert!(!said.contains("check E1: Check the injector"), "{said}");
}

#[test]
fn a_root_zone_test_is_classed_by_its_method_while_it_is_typed() {
    let mut desk = desk(&Crop::new());
    desk.keys("apa{Tab}{Tab}2.6");
    sees(
        &desk,
        "EC 2.60 by pour-through is low for greenhouse crops (UMass classes): about 2.0 by saturated media extract, 0.8 by 1:2",
    );
    sees(&desk, "Target pH of the root zone: 5.8 to 6.2");
}

#[test]
fn plants_are_counted_for_whitefly_until_it_is_enough() {
    let mut desk = desk(&Crop::new());
    // On the card, before a digit and after it.
    desk.keys("fmm");
    sees(&desk, "Of 20: 0 is enough; 1: 2 more; 2: 11 more; 3: 20 more; 4 or over is enough.");
    sees(&desk, "To find a pest on 1 plant in 20 (95% sure): check 59; 20 find it 64% of the time.");
    desk.keys("2");
    sees(&desk, "20 looked at, 2: 11 more.");
    // In the form, as the count goes on.
    desk.keys("{Esc}aua{Tab}20{Tab}0");
    sees(&desk, "20 looked at, 0: enough (few).");
    desk.keys("{Ctrl-U}3");
    sees(&desk, "20 looked at, 3: 20 more.");
    desk.keys("{Ctrl-U}5");
    sees(&desk, "20 looked at, 5: enough (many).");
    // Of mites any find counts: no lines, but what a look can find.
    let mut desk = self::desk(&Crop::new());
    desk.keys("aue{Tab}20{Tab}0");
    sees_not(&desk, "enough");
    sees(&desk, "check 59; 20 find it 64% of the time.");
}

#[test]
fn the_plants_to_measure_follow_from_the_spread() {
    let mut desk = desk(&Crop::new().heights(49, &[24.0, 28.0, 26.0, 30.0]));
    desk.keys("ax");
    sees(&desk, "By the spread last time, 20 plants give the mean within 0.4 in (90% sure).");
    desk.keys("10{Space}11{Space}12");
    sees(&desk, "3 plants: mean 11.0 in, give or take 1.7; 20 plants for 0.4 in (90% sure).");
    desk.keys("{Esc}fmn");
    sees(&desk, "By the spread last time, 20 plants give the mean");
    desk.keys("10{Space}10.2{Space}10.1");
    sees(&desk, "3 plants: mean 10.1 in, give or take 0.2 (90% sure).");
}

#[test]
fn what_a_pot_uses_stands_beside_the_amount_watered() {
    let mut desk = desk(&Crop::new());
    desk.keys("aa");
    sees(&desk, "A 6-inch pot used about 4.2 fl oz a day at this age (weighed pots, Mexico 2014): a guide only.");
    let mut desk = self::desk(&Crop::new().lot(|lot| lot.rim_cm = Some(11.4)));
    desk.keys("aa");
    sees_not(&desk, "a guide only");
}
