//! Striking out, reopening, putting off.

use crate::desk::Desk;
use benchwalk::warnings::WarningName;

fn closed(desk: &Desk, bench: &str) -> bool {
    desk.app.model.closed_until(bench).is_some()
}

#[test]
fn any_entry_of_the_bench_page_is_struck_out_with_a_reason_and_stays_to_be_seen() {
    let mut desk = Desk::new();
    desk.keys("ab150{Enter}{Enter}x{Enter}");
    assert!(desk.text().contains("fed 150 ppm N"), "{}", desk.text());
    desk.keys("{Enter}");
    assert!(desk.text().contains("reason is missing"), "{}", desk.text());
    desk.keys("wrong{Space}bench{Enter}");
    assert_eq!(desk.written(), ["E1 fed 150 ppm N", "E1 voided an entry: wrong bench"]);
    assert!(desk.text().contains("VOIDED: fed 150 ppm N"), "{}", desk.text());
    desk.keys("{Enter}");
    assert!(desk.text().contains("A void cannot be undone"), "{}", desk.text());
    desk.keys("{Down}{Enter}");
    assert!(desk.text().contains("Already voided."), "{}", desk.text());
    assert_eq!(desk.written().len(), 2);
}

#[test]
fn a_treatment_struck_out_stays_closed_unless_the_code_is_typed() {
    let treated = "afsoap{Tab}mites{Tab}a{Tab}12{Tab}now{Enter}";
    let mut desk = Desk::new();
    desk.keys(treated).keys("uslip{Enter}");
    assert_eq!(desk.written()[1], "E1 voided an entry: slip");
    assert!(closed(&desk, "E1"), "{}", desk.text());

    let mut desk = Desk::new();
    desk.keys(treated).keys("uslip{Tab}E2{Enter}");
    assert!(desk.text().contains("type E1 to reopen"), "{}", desk.text());
    assert_eq!(desk.written().len(), 1);
    desk.keys("{Backspace}{Backspace}e1{Enter}");
    assert_eq!(desk.written()[1], "E1 voided an entry: slip (reopens)");
    assert!(!closed(&desk, "E1"), "{}", desk.text());
}

#[test]
fn several_benches_are_reopened_by_typing_all_their_codes() {
    let mut desk = Desk::new();
    desk.keys("{Space}{Space}afsoap{Tab}mites{Tab}a{Tab}12{Tab}now{Enter}u");
    desk.keys("slip{Tab}E1{Enter}");
    assert!(desk.text().contains("type E1 E2 to reopen"), "{}", desk.text());
    desk.keys("{Space}E2{Enter}");
    assert!(!closed(&desk, "E1") && !closed(&desk, "E2"), "{}", desk.text());
}

#[test]
fn put_off_until_a_day_with_a_reason() {
    let mut desk = Desk::new();
    let before = flagged(&desk, WarningName::StayingWet);
    assert!(before.is_some_and(|put_off| !put_off), "{}", desk.text());
    desk.keys("e");
    let mut steps = 0;
    while !marked_is(&desk, "staying wet") {
        desk.keys("j");
        steps += 1;
        assert!(steps < 20, "{}", desk.text());
    }
    desk.keys("p{Enter}");
    assert!(desk.text().contains("until is missing"), "{}", desk.text());
    desk.keys("+0{Tab}drain{Space}cleared{Enter}");
    assert!(desk.written().is_empty(), "{}", desk.text());
    desk.keys("{Backspace}{Backspace}+3{Enter}");
    let written = desk.written();
    assert!(
        written.iter().any(|w| w.contains("postponed staying wet until Oct 15: drain cleared")),
        "{written:?}\n{}",
        desk.text()
    );
    assert_eq!(flagged(&desk, WarningName::StayingWet), Some(true));
}

#[test]
fn a_warning_is_put_off_from_the_bench_page_too() {
    let mut desk = Desk::new();
    assert_eq!(flagged(&desk, WarningName::StayingWet), Some(false), "{}", desk.text());
    let model = &desk.app.model;
    let wet = model.cache.warnings(&model.season).find(|w| w.name == WarningName::StayingWet).cloned().unwrap();
    let code = wet.benches[0].clone();
    let at = model.standing_warnings(&code).iter().position(|w| w.name == WarningName::StayingWet).unwrap() + 1;
    while !desk.text().starts_with(&format!("Bench {code}")) {
        desk.keys(if desk.text().starts_with("Bench") { "{Right}" } else { "{Enter}" });
    }
    desk.keys("p");
    assert!(desk.text().contains(&format!("{at}  staying wet: bench {code}")), "{}", desk.text());
    desk.keys(&at.to_string()).keys("+3{Tab}drain{Space}cleared{Enter}");
    assert_eq!(
        desk.written(),
        [format!("{code} postponed staying wet until Oct 15: drain cleared")],
        "{}",
        desk.text()
    );
    assert!(desk.text().contains("postponed until Oct 15"), "{}", desk.text());
    assert_eq!(flagged(&desk, WarningName::StayingWet), Some(true));
    while !desk.text().contains("This is the last bench.") {
        desk.keys("{Right}");
    }
    desk.keys("p");
    assert!(desk.text().contains("No warning here to postpone"), "an empty bench\n{}", desk.text());
}

fn flagged(desk: &Desk, name: WarningName) -> Option<bool> {
    let model = &desk.app.model;
    let mut all = model.cache.warnings(&model.season);
    all.find(|w| w.name == name).map(|w| w.put_off_until.is_some())
}

/// True when the trouble marked in the review is called so: its form says.
fn marked_is(desk: &Desk, title: &str) -> bool {
    let text = desk.text();
    text.lines().any(|line| line.contains('\u{25b8}') && line.contains(title))
}

#[test]
fn a_trouble_of_a_lot_is_put_off_for_the_lot_and_of_benches_for_each() {
    for (title, written) in [
        ("root zone untested", vec!["L1 postponed root zone untested until Oct 14: no meter"]),
        (
            "magnesium due",
            vec![
                "E1 postponed magnesium due until Oct 14: no meter",
                "E2 postponed magnesium due until Oct 14: no meter",
                "E3 postponed magnesium due until Oct 14: no meter",
            ],
        ),
    ] {
        let mut desk = Desk::new();
        desk.keys("e");
        for _ in 0..20 {
            if !marked_is(&desk, title) {
                desk.keys("j");
            }
        }
        assert!(marked_is(&desk, title), "{}", desk.text());
        desk.keys("p+2{Tab}no{Space}meter{Enter}");
        assert_eq!(desk.written(), written, "{}", desk.text());
        desk.keys("u");
        assert_eq!(desk.written().len(), 2 * written.len(), "one undo takes all of it back");
    }
}
