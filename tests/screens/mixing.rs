//! The Mixing page: what is typed, what it comes to, what is written, how it looks.

use crate::desk::{COLOR, Desk, all_drawn_at_every_size, same_in_every_dress};
use crate::season;
use benchwalk::crop::feed::{Fraction, Injector, batch_of_feed, material_for};
use benchwalk::crop::growth_regulator::{
    Strength, dose_per_pot, drench_volume, measured_out, ppm_made, product_for, usual_step,
};
use benchwalk::input::Look;
use benchwalk::terms::Material;
use benchwalk::units::{Concentration, System, Volume, parse, plain};

const SMALL: (u16, u16) = (80, 24);

/// Every state of the page by the keys that lead to it.
const PAGES: [(&str, &str); 9] = [
    ("mixing", "i"),
    ("mixing_drench", "ih{Tab}4{Space}g/L{Tab}0.1"),
    ("mixing_wrong", "ih{Tab}85%{Tab}0.1{Shift-Tab}"),
    ("mixing_strong_pack", "ih{Tab}4%liquid{Tab}3{PgDn}"),
    ("mixing_nutrient", "i{F3}a{Tab}{Tab}118{Tab}{Tab}8"),
    ("mixing_two_steps", "i{F3}b{Tab}{Tab}0.1{Tab}{Tab}8"),
    ("mixing_feed", "i{F4}15-5-15{Tab}200{Tab}{Tab}8floz{Tab}{Tab}1:100{Tab}{Tab}i"),
    ("mixing_topdress", "i{F5}5{Tab}{Tab}15"),
    ("mixing_form", "ih{Tab}4{Space}g/L{Tab}0.1{Enter}"),
];

/// From the first field of the page, whichever was marked.
fn page(desk: &mut Desk, fields: &[(&str, &str)]) {
    for (label, text) in fields {
        for _ in 0..40 {
            if marked(desk).trim_start_matches('▸').trim().starts_with(label) {
                break;
            }
            desk.keys("{Tab}");
        }
        assert!(marked(desk).contains(label), "no field {label} in\n{}", desk.text());
        desk.keys("{End}").keys(&"{Backspace}".repeat(40));
        let typed = letter(desk, text).unwrap_or_else(|| text.replace(' ', "{Space}"));
        desk.keys(&typed);
    }
}

/// The letter of what begins so in the list below the fields; `None` where the selected field has none.
fn letter(desk: &Desk, text: &str) -> Option<String> {
    let wanted = text.replace('-', " ");
    for line in desk.text().lines() {
        for (at, _) in line.match_indices("[ ] ") {
            let named = line[at + 4..].replace('-', " ").starts_with(&wanted);
            if let Some(letter) = line[..at].trim_end().chars().last().filter(|_| named) {
                return Some(letter.to_string());
            }
        }
    }
    None
}

/// The row of the field keys act on.
fn marked(desk: &Desk) -> String {
    desk.text().lines().skip(3).find(|l| l.starts_with('▸')).unwrap_or_default().to_owned()
}

/// The whole answer, blanks and line ends made one.
fn answer(desk: &mut Desk) -> String {
    desk.resize(100, 120);
    let text = desk.text();
    desk.resize(80, 24);
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn volume(text: &str) -> Volume {
    parse(text, System::Us).unwrap()
}

fn opened(look: Look, keys: &str) -> Desk {
    let mut desk = Desk::with(&season::journal(), look, SMALL);
    desk.keys(keys);
    desk
}

#[test]
fn the_page_in_color() {
    for (name, keys) in PAGES {
        insta::assert_snapshot!(format!("{name}_80x24"), opened(COLOR, keys).dump());
    }
}

#[test]
fn the_page_says_the_same_in_every_dress() {
    for (name, keys) in PAGES {
        same_in_every_dress(name, |look| opened(look, keys));
    }
}

#[test]
fn the_page_at_every_size() {
    all_drawn_at_every_size(PAGES.iter().map(|(name, keys)| (*name, opened(COLOR, keys))));
}

#[test]
fn the_cursor_stands_in_the_field() {
    let mut desk = Desk::new();
    desk.keys("ih{Tab}4g/L");
    let (buffer, cursor) = desk.draw();
    let at = cursor.unwrap();
    assert_eq!(buffer.cell((at.x - 1, at.y)).unwrap().symbol(), "L");
    desk.keys("{Left}{Left}");
    assert_eq!(desk.draw().1.unwrap().x, at.x - 2);
}

/// The amounts shown are those of the crop arithmetic, for any drench typed.
#[test]
fn a_drench_comes_to_what_the_crop_arithmetic_says() {
    for (ai, strength, ppm, pots, per_pot) in [
        ("paclobutrazol", "4 g/L", 0.1, 1000, "4 fl oz"),
        ("paclobutrazol", "0.4% liquid", 2.0, 80, "118 mL"),
        ("uniconazole", "0.55 g/L", 0.34, 240, "3 fl oz"),
        ("chlormequat", "1 lb/gal", 1500.0, 33, "200 mL"),
    ] {
        let mut desk = Desk::new();
        desk.keys("i");
        let typed = [("pots", pots.to_string()), ("per pot", per_pot.to_owned()), ("ingredient", ai.to_owned())];
        let more = [("strength", strength.to_owned()), ("ppm", ppm.to_string())];
        let all: Vec<(&str, &str)> = typed.iter().chain(&more).map(|(l, t)| (*l, t.as_str())).collect();
        page(&mut desk, &all);
        let shown = answer(&mut desk);
        let whole = drench_volume(pots, volume(per_pot), 0.0).unwrap();
        let (wanted, strength) = (Concentration::from_ppm(ppm), Strength::parse(strength).unwrap());
        let exact = product_for(wanted, whole, strength).unwrap();
        let measured = measured_out(exact, usual_step(exact)).unwrap();
        let makes = ppm_made(measured, whole, strength).unwrap();
        let dose = dose_per_pot(wanted, volume(per_pot)).unwrap();
        for piece in [
            format!("measure out {} ({})", exact.show(System::Us), exact.show(System::Metric)),
            format!("rounded {}, which makes {} ppm", measured.show(System::Metric), plain(makes.ppm())),
            format!("per pot {} mg", plain(dose.g() * 1000.0)),
            format!("= {}", plain(exact.base())),
        ] {
            assert!(shown.contains(&piece), "no '{piece}' in\n{shown}");
        }
    }
}

/// The worked examples of `tests/outside`, typed on the page: Michigan State's dilution guide, a breeder's production guide.
#[test]
fn printed_examples_come_out_on_the_page() {
    for (ai, strength, ppm, all, shown) in [
        ("uniconazole", "0.5 g/L", "5", "1 gal", "(37.9 mL)"),
        ("daminozide", "85% solid", "1000", "1 gal", "(4.45 g)"),
        ("ethephon", "39 g/L", "500", "1 gal", "1.64 fl oz"),
        ("ethephon", "39 g/L", "300", "1 gal", "0.985 fl oz"),
        ("ba-ga47", "18 g/L", "3", "100 gal", "2.13 fl oz"),
    ] {
        let mut desk = Desk::new();
        desk.keys("i");
        page(
            &mut desk,
            &[("method", "spray"), ("total volume", all), ("ingredient", ai), ("strength", strength), ("ppm", ppm)],
        );
        let answer = answer(&mut desk);
        assert!(answer.contains(&format!("measure out {shown}")) || answer.contains(shown), "no {shown} in\n{answer}");
    }
}

#[test]
fn salts_and_feeds_come_to_what_the_crop_arithmetic_says() {
    // 1 lb of magnesium sulfate on 100 gal makes 118.2 ppm Mg: the row of tests/outside.
    let mut desk = Desk::new();
    desk.keys("i{F3}");
    page(&mut desk, &[("material", "magnesium-sulfate"), ("ppm", "118.2"), ("total volume", "100gal")]);
    let wanted = Concentration::from_ppm(118.2);
    let exact = material_for(wanted, Material::MagnesiumSulfate.fraction(), volume("100 gal")).unwrap();
    assert!((exact.g() / 453.592_37 - 1.0).abs() < 0.001, "{exact:?}");
    let shown = answer(&mut desk);
    let piece = format!("({} g)", plain(exact.g()));
    assert!(shown.contains(&piece) && shown.contains("never in one stock tank with calcium"), "{piece} in\n{shown}");
    let mut desk = Desk::new();
    desk.keys("i{F4}");
    page(&mut desk, &[("bag", "20-10-20"), ("ppm N", "200"), ("total volume", "1000gal"), ("injector", "1:100")]);
    let share = Fraction::from_percent(20.0).unwrap();
    let injector = Injector::one_to(100.0).unwrap();
    let batch = batch_of_feed(Concentration::from_ppm(200.0), share, injector, volume("1000gal")).unwrap();
    let shown = answer(&mut desk);
    let piece = format!("({} kg)", plain(batch.material.g() / 1000.0));
    assert!(shown.contains(&piece) && shown.contains("20000 ppm"), "{piece} in\n{shown}");
}

#[test]
fn what_does_not_share_a_tank_is_told() {
    let mut desk = Desk::new();
    desk.keys("i{F3}");
    page(
        &mut desk,
        &[("material", "magn"), ("ppm", "118"), ("total volume", "100gal"), ("same tank", "calcium-nitrate")],
    );
    let shown = answer(&mut desk);
    let told = "magnesium-sulfate and calcium-nitrate not in one stock tank: calcium and sulfate precipitate as gypsum";
    assert!(shown.contains(&format!("NOT TOGETHER {told}")), "{shown}");
    page(&mut desk, &[("same tank", "sodium-molybdate")]);
    assert!(!answer(&mut desk).contains("NOT TOGETHER"), "{}", desk.text());
}

#[test]
fn a_wrong_value_is_told_beside_its_field_and_corrected() {
    let mut desk = Desk::new();
    desk.keys("ih{Tab}85%{Tab}0.1{Enter}");
    assert!(desk.text().contains("! what the percentage is of"), "{}", desk.text());
    assert!(desk.text().contains("Not logged: check the selected field."), "{}", desk.text());
    assert!(marked(&desk).contains("strength"), "{}", desk.text());
    desk.keys("{Backspace}{Backspace}{Backspace}4g/L");
    assert!(desk.text().contains("measure out") && !desk.text().contains("! what"), "{}", desk.text());
    desk.keys("{Tab}{Backspace}{Backspace}{Backspace}five");
    assert!(desk.text().contains("'five' is not a number"), "{}", desk.text());
    assert_eq!(desk.written(), [""; 0]);
}

#[test]
fn method_material_and_ingredient_are_picked_by_letter_with_caps_lock_too() {
    let mut desk = Desk::new();
    desk.keys("iH");
    assert!(marked(&desk).contains("paclobutrazol"), "{}", desk.text());
    assert!(desk.text().contains("h [x] paclobutrazol"), "{}", desk.text());
    desk.keys("{F3}D");
    assert!(marked(&desk).contains("calcium chloride"), "{}", desk.text());
    desk.keys("{Tab}B");
    assert!(marked(&desk).contains("spray") && desk.text().contains("a [ ] drench"), "{}", desk.text());
}

#[test]
fn the_strength_is_needed_and_never_filled_in() {
    let mut desk = Desk::new();
    desk.keys("ih{Tab}{Tab}0.1{Enter}");
    assert!(marked(&desk).contains("strength") && marked(&desk).contains("! is needed"), "{}", desk.text());
    assert!(!desk.text().contains("measure out"), "{}", desk.text());
}

#[test]
fn a_treatment_asks_for_the_end_and_the_hours() {
    let mut desk = Desk::new();
    desk.keys("ih{Tab}4g/L{Tab}0.1{Enter}");
    assert!(desk.text().contains("paclobutrazol 0.1") && desk.text().contains("REI"), "{}", desk.text());
    desk.keys("{Enter}");
    assert_eq!(desk.written(), [""; 0], "the REI is typed from the label");
    desk.keys("12{Enter}");
    assert!(desk.written().is_empty() && desk.text().contains("ended at is missing"), "{}", desk.text());
    desk.keys("now{Enter}");
    let written = desk.written();
    assert_eq!(written.len(), 1, "{written:?}\n{}", desk.text());
    assert!(
        written[0].starts_with("E1 paclobutrazol 0.1 ppm drench") && written[0].contains("closed 12 h"),
        "{written:?}"
    );
    assert!(desk.text().starts_with("Mixing"), "{}", desk.text());
}

#[test]
fn one_key_writes_to_every_bench_chosen_and_only_once() {
    let mut desk = Desk::new();
    desk.keys("i{F3}");
    page(&mut desk, &[("benches", "east"), ("material", "magn"), ("ppm", "118"), ("per pot", "8")]);
    assert!(desk.text().contains("3 benches, 240 pots of L1"), "{}", desk.text());
    desk.keys("{Enter}{Enter}");
    let written = desk.written();
    assert_eq!(written.len(), 3, "{written:?}");
    assert!(written.iter().zip(["E1", "E2", "E3"]).all(|(w, b)| w.starts_with(b) && w.contains("118")), "{written:?}");
    assert!(desk.text().contains("Already logged."), "{}", desk.text());
    // One undo takes all three back.
    desk.keys("{Esc}u");
    assert_eq!(desk.written().len(), 6, "{:?}", desk.written());
}

#[test]
fn nothing_is_lost_on_leaving() {
    let mut desk = Desk::new();
    desk.keys("ih{Tab}4g/L{Tab}0.1{Esc}");
    assert!(desk.text().starts_with("Round"), "{}", desk.text());
    desk.keys("i");
    assert!(desk.text().contains("paclo") && desk.text().contains("4g/L"), "{}", desk.text());
    assert!(desk.text().contains("80 pots at 4 fl oz"), "{}", desk.text());
}

#[test]
fn it_opens_from_every_page_with_its_benches() {
    let mut desk = Desk::new();
    desk.keys("j{Space}{Space}i");
    assert!(desk.text().contains("benches          E2 E3"), "{}", desk.text());
    desk.keys("{Esc}{Home}jjj{Enter}i");
    assert!(desk.text().contains("benches          W1"), "{}", desk.text());
    assert!(desk.text().contains("30 pots of L2"), "{}", desk.text());
}

#[test]
fn a_warning_opens_it_with_material_and_benches() {
    let mut text = season::journal();
    text = text.lines().filter(|l| !l.contains("magnesium-sulfate")).collect::<Vec<_>>().join("\n");
    let mut desk = Desk::with(&text, COLOR, SMALL);
    desk.keys("e");
    for _ in 0..12 {
        desk.keys("i");
        if desk.text().contains("magnesium sulfate") && desk.text().starts_with("Mixing") {
            break;
        }
        desk.keys("{Esc}j");
    }
    let shown = desk.text();
    assert!(shown.contains("magnesium sulfate") && shown.contains("benches          E1 E3 W1 W2"), "{shown}");
    assert!(marked(&desk).contains("ppm"), "no strength is filled in\n{shown}");
    desk.keys("118{Enter}");
    assert!(desk.written().len() > 1 && desk.written()[0].contains("magnesium"), "{:?}", desk.written());
}

#[test]
fn the_benches_are_those_of_a_house_a_lot_or_codes_and_wrong_ones_are_told() {
    for (typed, seen) in [
        ("west", "2 benches, 60 pots of L2"),
        ("l1", "3 benches, 240 pots of L1"),
        ("e2 w1", "2 benches, 110 pots of L1, L2"),
        ("W3", "1 bench, no pots"),
        ("e2 e99", "! e99 is not a bench, house or lot"),
    ] {
        let mut desk = Desk::new();
        desk.keys("i");
        page(&mut desk, &[("benches", typed)]);
        assert!(desk.text().contains(seen), "{typed}: no {seen} in\n{}", desk.text());
    }
}

#[test]
fn a_late_spray_is_told_for_each_lot() {
    let mut desk = Desk::new();
    desk.keys("i");
    let fields =
        [("method", "s"), ("area", "500ft2"), ("ingredient", "damin"), ("strength", "85%solid"), ("ppm", "2500")];
    page(&mut desk, &fields);
    let shown = answer(&mut desk);
    assert!(shown.contains("TOO LATE L1: the last safe day was Fri Sep 18, 2026"), "{shown}");
    assert!(shown.contains("TOO STRONG? 2500 ppm is above the usual maximum of 2000"), "{shown}");
    page(&mut desk, &[("second", "chlormequat"), ("strength", "118 g/L")]);
    assert!(!answer(&mut desk).contains("measure out"), "the second ppm is missing");
}
