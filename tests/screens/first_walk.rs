//! The first walk of a new user: on the demo's day the first five benches ask for roots and bracts, and for nothing unusual.

use crate::desk::{COLOR, Desk};

const DEMO: &str = include_str!("../../demo-data/demo.jsonl");

/// The bench and the check that the card asks for: `Walk  M4`, `[water _]`.
fn asked(text: &str) -> Option<(String, String)> {
    let bench = text.lines().next()?.strip_prefix("Walk  ")?.split(' ').next()?.to_owned();
    let check = text.split('[').nth(1)?.trim_start_matches("re-check: ").split([' ', ',']).next()?.to_owned();
    Some((bench, check))
}

/// A usual digit for a check; heights are skipped.
fn answer(check: &str) -> &'static str {
    match check {
        "water" | "base" => "3",
        "roots" | "bracts" => "1",
        "whitefly" => "0",
        "heights" => "{Enter}",
        _ => panic!("the card asks for {check}"),
    }
}

#[test]
fn the_first_five_benches_of_the_demo_ask_for_roots_and_bracts() {
    let mut desk = Desk::with(DEMO, COLOR, (80, 24));
    desk.pass(chrono::Duration::days(2));
    desk.keys("w");
    let mut benches: Vec<String> = Vec::new();
    let mut checks: Vec<String> = Vec::new();
    for _ in 0..40 {
        let (bench, check) = asked(&desk.text()).unwrap_or_else(|| panic!("{}", desk.text()));
        if !benches.contains(&bench) {
            if benches.len() == 5 {
                break;
            }
            benches.push(bench);
        }
        desk.keys(answer(&check));
        checks.push(check);
    }
    assert_eq!(benches, ["M4", "M5", "M6", "M7", "M8"]);
    for wanted in ["water", "base", "roots", "bracts", "whitefly", "heights"] {
        assert!(checks.iter().any(|check| check == wanted), "{wanted} is not among {checks:?}");
    }
    let roots = checks.iter().position(|check| check == "roots").unwrap();
    assert!(checks[..=roots + 1].contains(&"bracts".to_owned()), "both on the first bench: {checks:?}");
    for line in ["M4 roots 1", "M4 bracts 1"] {
        assert!(desk.written().iter().any(|written| written == line), "{line} is not in {:?}", desk.written());
    }
}
