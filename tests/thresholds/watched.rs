//! What is only watched says as much in the text and in HTML as in the JSON: causes to check, and what to do.

use crate::season::{Crop, day};
use benchwalk::record::{LeafSign, TestMethod};
use benchwalk::report::html;
use benchwalk::report::review::{json, text};
use benchwalk::review::{Review, build};
use benchwalk::warnings::{LikelyCause, Severity, WarningName, assess_all};

fn evening(crop: &Crop, n: i64) -> Review {
    let season = crop.recorded();
    let today = assess_all(&season, day(n), &crop.limits).all().cloned().collect();
    build(&season, day(n), today, &[], "defaults".into()).unwrap()
}

fn plain(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Everything the JSON says to do about what is watched stands in the text and in the HTML.
#[track_caller]
fn all_is_said(review: &Review) -> usize {
    let whole: serde_json::Value = serde_json::from_str(&json(review).unwrap()).unwrap();
    let (text, page) = (plain(&text(review)), plain(&html::review(review)));
    let watched = whole["warnings"].as_array().unwrap().iter().filter(|w| w["level"] == "watch");
    let steps: Vec<&str> = watched.flat_map(|w| w["next"].as_array().unwrap()).map(|s| s.as_str().unwrap()).collect();
    for step in &steps {
        assert!(text.contains(&plain(step)), "{step}\n{text}");
        assert!(page.contains(&plain(&step.replace('\'', "&#39;"))) || page.contains(&plain(step)), "{step}\n{page}");
    }
    steps.len()
}

#[test]
fn causes_and_advice_of_a_watch_stand_in_the_text_as_in_the_json() {
    let crop = Crop::new().pinched(14).fed(36, 200.0, None, None).waters(45, &[5, 3, 2, 3]);
    let crop = crop.root_zone(47, TestMethod::PourThrough, Some(6.0), Some(1.5), 5).fed(47, 200.0, None, None);
    let crop = crop.leaves(48, &[LeafSign::LowerYellow], None);
    let review = evening(&crop, 48);
    let low = review.warnings.iter().find(|w| w.name == WarningName::SaltsLow).expect("salts on the low side");
    assert_eq!(low.level, Severity::Watch);
    let causes: Vec<String> = low.likely_causes.iter().map(LikelyCause::to_check).collect();
    let said = plain(&text(&review));
    assert!(!causes.is_empty() && causes.iter().all(|cause| said.contains(cause)), "{causes:?}\n{said}");
    assert!(all_is_said(&review) > 3, "{}", text(&review));
}

#[test]
fn color_weeks_before_the_sale_is_told_what_to_do_as_late_color_is() {
    let crop = Crop::new().pinched(14).bracts(78, 4);
    let review = evening(&crop, 79);
    let early = review.warnings.iter().find(|w| w.name == WarningName::ColorAhead).expect("early color");
    let said = early.next().join(" ");
    for part in ["63 °F (17 °C) nights", "HortScience 47:745", "earlier ship date", "small (Clemson 2011)"] {
        assert!(said.contains(part), "{part}: {said}");
    }
    assert!(early.basis.to_string().contains("Camberato, Lopez and Krug 2012"), "{}", early.basis);
    assert!(all_is_said(&review) >= 5, "{}", text(&review));
}
