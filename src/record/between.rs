//! The rules between the fields of one kind, named in its row of the table of kinds.

use super::checker::Checker;
use super::value::{Value, Values};
use crate::terms::{JobOutcome, Term};

/// Bad pots are some of the pots knocked out.
pub(super) fn roots(checker: &mut Checker, values: &Values) {
    checker.between(&["bad", "pots"], values.has("bad") && !values.has("pots"), || {
        "needs pots, the number knocked out".to_owned()
    });
    no_more(checker, values, "bad", "pots");
}

/// A figure of the day is there; hours over a humidity come with that humidity.
pub(super) fn climate(checker: &mut Checker, values: &Values) {
    const FIGURES: [&str; 9] =
        ["day_c", "night_c", "humidity_percent", "low_c", "high_c", "humid_hours", "vpd_kpa", "light_mol", "warm_h"];
    let none = !FIGURES.iter().any(|f| values.has(f));
    checker.between(&FIGURES, none, || "is missing; give at least one of day_c, night_c, humidity_percent".to_owned());
    checker.between(&["humid_over", "humid_hours"], values.has("humid_hours") && !values.has("humid_over"), || {
        "is missing; humid_hours are counted over it".to_owned()
    });
    if let (Some(Value::Number(low)), Some(Value::Number(high))) = (values.get("low_c"), values.get("high_c")) {
        checker.between(&["low_c", "high_c"], low > high, || "is more than high_c; give that or less".to_owned());
    }
}

/// One of these fields is there.
pub(super) fn one_at_least(checker: &mut Checker, values: &Values, fields: &[&str]) {
    let none = !fields.iter().any(|f| values.has(f));
    checker.between(fields, none, || format!("is missing; give at least one of {}", fields.join(", ")));
}

fn no_more(checker: &mut Checker, values: &Values, part: &str, whole: &str) {
    if let (Some(Value::Count(a)), Some(Value::Count(b))) = (values.get(part), values.get(whole)) {
        checker.between(&[part, whole], a > b, || format!("is {a}, more than {whole} ({b})"));
    }
}

/// One way of counting, and all of it.
pub(super) fn pests(checker: &mut Checker, values: &Values) {
    const WAYS: [&[&str]; 3] = [&["inspected", "infested"], &["cards", "count", "days"], &["larvae"]];
    const ALL: [&str; 6] = ["inspected", "infested", "cards", "count", "days", "larvae"];
    const SAY: &str = "inspected and infested, or cards, count and days, or larvae";
    let begun: Vec<&[&str]> = WAYS.into_iter().filter(|w| w.iter().any(|f| values.has(f))).collect();
    checker.between(&ALL, begun.is_empty(), || format!("is missing; give {SAY}"));
    if let [_, second, ..] = begun.as_slice() {
        let extra = second.iter().copied().find(|f| values.has(f)).unwrap_or("larvae");
        let mut fields = vec![extra];
        fields.extend(ALL.into_iter().filter(|f| *f != extra));
        checker.between(&fields, true, || format!("is a second way of counting; give only {SAY}"));
    }
    if let [way] = begun.as_slice() {
        for missing in way.iter().filter(|f| !values.has(f)) {
            checker.between(&[missing], true, || format!("is missing; give {}", way.join(", ")));
        }
    }
    no_more(checker, values, "infested", "inspected");
}

/// A job that was not needed was so for a reason.
pub(super) fn job(checker: &mut Checker, values: &Values) {
    let not_needed = values.get("outcome") == Some(&Value::Term(JobOutcome::NotNeeded.code()));
    checker.between(&["why", "outcome"], not_needed && !values.has("why"), || {
        "is missing; give the reason in a few words".to_owned()
    });
}
