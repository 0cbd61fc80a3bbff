//! A reading written right, and what was typed into a form and left.

use crate::desk::{COLOR, Desk};
use crate::season;
use benchwalk::record::{Entry, Kind, Line, Lot};

fn entries(desk: &Desk) -> Vec<&Entry> {
    desk.kept.iter().filter_map(|line| if let Line::Entry(entry) = line { Some(entry) } else { None }).collect()
}

/// The row of the field keys act on.
fn marked(desk: &Desk) -> String {
    desk.text().lines().rfind(|row| row.starts_with('▸')).unwrap_or_default().to_owned()
}

#[test]
fn write_it_right_is_the_same_form_filled_in_at_the_same_moment() {
    let mut desk = Desk::new();
    desk.keys("ab150{Tab}30{Enter}");
    desk.pass(chrono::Duration::minutes(65));
    desk.keys("{Enter}xw");
    let text = desk.text();
    assert!(text.contains("Write it right: fed on bench E1"), "{text}");
    assert!(marked(&desk).contains("150 ppm") && text.contains("= Mon Oct 12, 2026 07:10"), "{text}");
    // The first key replaces the old value.
    desk.keys("200{Enter}");
    let written = desk.written();
    assert_eq!(
        written,
        ["E1 fed 150 ppm N, 30 ppm Mg", "E1 voided an entry: written right", "E1 fed 200 ppm N, 30 ppm Mg"]
    );
    let all = entries(&desk);
    assert_eq!(all[0].at, all[2].at, "the same moment");
    assert!(desk.text().contains("VOIDED: fed 150 ppm N"), "{}", desk.text());
    // The voided one cannot be written right again.
    desk.keys("w");
    assert!(desk.text().contains("A void cannot be written right"), "{}", desk.text());
    desk.keys("{Down}{Down}w");
    assert!(desk.text().contains("Already voided"), "{}", desk.text());
}

#[test]
fn an_untouched_value_is_kept_to_the_last_digit_though_it_is_shown_rounded() {
    let mut desk = Desk::new();
    // 12 cm in a site that types inches.
    desk.keys("ak12{Space}cm{Enter}{Enter}xw");
    assert!(marked(&desk).contains("4.72 in"), "{}", desk.text());
    desk.keys("{Tab}{Tab}note{Enter}");
    let all = entries(&desk);
    assert!(matches!(*all[2].kind, Kind::Spaced { centers_cm } if (centers_cm - 12.0).abs() < 1e-9), "{all:?}");
}

#[test]
fn a_metric_length_opened_in_a_us_form_keeps_its_value_and_is_shown_rounded() {
    // Pot height 11.4 cm: 4.488188976 in.
    let journal = season::journal();
    assert!(journal.contains("11.4"));
    let mut desk = Desk::with(&journal, COLOR, (100, 60));
    desk.keys("g");
    let lot = |desk: &Desk| desk.text().lines().any(|row| row.contains('▸') && row.contains("planted Aug 17"));
    desk.keys("{Home}");
    for _ in 0..10 {
        if lot(&desk) {
            break;
        }
        desk.keys("j");
    }
    assert!(lot(&desk), "{}", desk.text());
    desk.keys("{Enter}");
    let text = desk.text();
    let row = text.lines().find(|row| row.contains("pot height")).unwrap_or_else(|| panic!("{text}")).to_owned();
    assert!(row.contains("4.49 in") && !text.contains("4.488"), "{row}");
    desk.keys("{Tab}{Tab}{Tab}{Tab}{Tab}{Tab}").keys("300");
    desk.keys("{Enter}{Enter}{Enter}");
    let lot = desk.kept.iter().find_map(|line| if let Line::Lot(lot) = line { Some(lot) } else { None });
    assert!(
        matches!(lot, Some(Lot { pots: 300, pot_height_cm: Some(cm), .. }) if (cm - 11.4).abs() < 1e-9),
        "{lot:?}\n{}",
        desk.text()
    );
}

#[test]
fn esc_says_what_is_kept_of_a_new_entry_and_what_is_discarded_of_a_change() {
    let mut desk = Desk::new();
    desk.keys("ab200{Tab}30{Esc}");
    assert!(desk.text().contains("Kept for next time, not logged: N, Mg."), "{}", desk.text());
    desk.keys("{Esc}ab");
    assert!(desk.text().contains("Kept from before, not logged yet: N, Mg."), "{}", desk.text());
    desk.keys("{Enter}");
    assert_eq!(desk.written(), ["E1 fed 200 ppm N, 30 ppm Mg"]);
    desk.keys("{Enter}xw250{Esc}");
    assert!(desk.text().contains("The entry stays as it was; not saved: N."), "{}", desk.text());
    desk.keys("w");
    assert!(marked(&desk).contains("200 ppm"), "the change is gone: {}", desk.text());
    assert_eq!(desk.written().len(), 1);
}

#[test]
fn what_fits_no_sane_crop_is_asked_about_once_and_taken_when_confirmed() {
    // The count of a bench whose lot has 320 pots.
    for keys in ["as500{Enter}", "{Enter}mf500{Enter}"] {
        let mut desk = Desk::new();
        desk.keys(keys);
        assert!(desk.written().is_empty(), "{:?}", desk.written());
        let shown = desk.text().split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(shown.contains("500 pots, but lot L1 has 320. Enter again if that is the count"), "{}", desk.text());
        desk.keys("{Enter}");
        assert_eq!(desk.written(), ["E1 counted 500 pots"], "{}", desk.text());
    }
    let mut desk = Desk::new();
    desk.keys("ax10{Space}10{Space}99{Enter}");
    assert!(desk.written().is_empty(), "{:?}", desk.written());
    let shown = desk.text().split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(shown.contains("99 in, but the others are about 10 in. Enter again if it is so"), "{}", desk.text());
    desk.keys("{Backspace}{Backspace}9.9{Enter}");
    assert_eq!(desk.written().len(), 1, "put right, it is saved: {}", desk.text());
}

#[test]
fn the_record_of_an_application_is_asked_and_remembered_per_product() {
    let mut desk = Desk::with(&season::journal(), COLOR, (80, 60));
    // Ingredient, pest, method, REI, ended; product, rate; then the record.
    let first = "afsoap{Tab}whitefly{Tab}a{Tab}12{Tab}now{Tab}Product A{Tab}as the label{Tab}";
    let record = "123-45{Tab}6:30{Tab}3 oz{Tab}400{Space}ft2{Tab}poinsettias{Tab}Kim Tester{Tab}L-77";
    desk.keys(&first.replace(' ', "{Space}")).keys(&record.replace(' ', "{Space}")).keys("{Enter}");
    let Kind::Sprayed { application, .. } = &*entries(&desk)[0].kind else { panic!("{:?}", desk.written()) };
    assert_eq!(application.epa_reg_no.as_deref(), Some("123-45"));
    assert_eq!(application.started_at.map(|at| at.format("%H:%M").to_string()).as_deref(), Some("06:30"));
    assert_eq!(application.amount_used.as_deref(), Some("3 oz"));
    assert!(application.area_m2.is_some_and(|m2| (m2 - 37.16).abs() < 0.01), "{application:?}");
    assert_eq!((application.applicator.as_deref(), application.license.as_deref()), (Some("Kim Tester"), Some("L-77")));
    // The next one of the product: all but the REI, the amounts and the times of that day.
    desk.keys("jafsoap{Tab}whitefly{Tab}a{Tab}{Tab}now{Tab}product{Space}a");
    let text = desk.text();
    for remembered in ["as the label", "123-45", "As last logged for product a, Oct 12"] {
        assert!(text.contains(remembered), "no {remembered} in\n{text}");
    }
    desk.keys("{Enter}");
    assert_eq!(entries(&desk).len(), 1, "the REI is typed every time: {}", desk.text());
    assert!(desk.text().contains("REI, hours is missing"), "{}", desk.text());
    desk.keys("24{Enter}");
    let Kind::Sprayed { application, rei_h, .. } = &*entries(&desk)[1].kind else { panic!("{:?}", desk.written()) };
    assert!((rei_h - 24.0).abs() < 1e-9);
    assert_eq!(application.epa_reg_no.as_deref(), Some("123-45"));
    assert_eq!((application.amount_used.as_deref(), application.started_at, application.area_m2), (None, None, None));
}

#[test]
fn hints_are_examples_and_letters_choose_with_caps_lock_too() {
    let mut desk = Desk::new();
    desk.keys("AFsoap{Tab}mites{Tab}B");
    let text = desk.text();
    assert!(!text.contains("text of 1 to"), "{text}");
    assert!(text.contains("as on the label") && text.contains("such as whitefly"), "{text}");
    assert!(marked(&desk).contains("method") && !marked(&desk).contains(" - "), "{}", marked(&desk));
}

#[test]
fn one_undo_takes_back_what_was_written_right_and_the_old_one_stands_again() {
    let mut desk = Desk::new();
    desk.keys("ab150{Tab}30{Enter}{Enter}xw200{Enter}{Esc}");
    desk.keys("{Esc}u");
    let model = &desk.app.model;
    let counts = |kind: fn(&Kind) -> bool| model.season.counting(model.day).filter(|e| kind(&e.kind)).count();
    let fed = |n: f64| {
        model.season.counting(model.day).any(|e| matches!(*e.kind, Kind::Fed { n_ppm, .. } if (n_ppm - n).abs() < 1e-9))
    };
    assert!(fed(150.0) && !fed(200.0), "{:?}\n{}", desk.written(), desk.text());
    assert_eq!(counts(|kind| matches!(kind, Kind::Fed { .. })), 1);
}
