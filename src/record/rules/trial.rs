//! The lines of trials: what goes together in one line.

use super::super::checker::Checker;
use super::super::value::{Value, Values};
use super::field::is_trial;

/// Fewest and most treatments of one trial.
const TREATMENTS: std::ops::RangeInclusive<usize> = 2..=24;
/// Digits of a seed.
const SEED_DIGITS: usize = 8;

pub(super) fn trial(checker: &mut Checker, values: &Values) {
    code(checker, values);
    let texts = |name: &str| values.take::<Vec<String>>(name).unwrap_or_default();
    let treatments = texts("treatments");
    checker.between(&["treatments"], !TREATMENTS.contains(&treatments.len()), || {
        format!("has {}; give 2 to 24 treatments", treatments.len())
    });
    let control: Option<String> = values.take("control").flatten();
    checker.between(&["control", "treatments"], control.as_ref().is_some_and(|c| !treatments.contains(c)), || {
        format!("is none of the treatments; give one of {}", treatments.join(", "))
    });
    rates(checker, values, treatments.len());
    let drawn = values.get("design") != Some(&Value::Term("as-laid"));
    checker.between(&["seed", "design"], drawn && !values.has("seed"), || {
        "is missing; give the 8 digits it was drawn with, or design as-laid".to_owned()
    });
    for field in ["seed", "drawn"] {
        checker.between(&[field, "design"], !drawn && values.has(field), || {
            "goes only with a layout that was drawn; omit it or change design".to_owned()
        });
    }
    let seed: Option<String> = values.take("seed").flatten();
    let digits = |seed: &String| seed.len() == SEED_DIGITS && seed.bytes().all(|b| b.is_ascii_digit());
    checker.between(&["seed"], seed.is_some_and(|seed| !digits(&seed)), || {
        "is not 8 digits; give 8, such as 48213907".to_owned()
    });
    let none = values.get("reads").is_none_or(|reads| *reads == Value::List(Vec::new()));
    checker.between(&["reads"], none, || "is empty; give the main reading first, such as height".to_owned());
    if let (Some(Value::Day(from)), Some(Value::Day(until))) = (values.get("from"), values.get("until")) {
        checker.between(&["until", "from"], until < from, || {
            "is before the first reading; give that day or a later one".to_owned()
        });
    }
    checker.between(&["ended_because", "until"], values.has("ended_because") && !values.has("until"), || {
        "goes only with the last day of readings; give until, or omit it".to_owned()
    });
}

fn rates(checker: &mut Checker, values: &Values, treatments: usize) {
    let rates: Option<Vec<f64>> = values.take("rates").flatten();
    checker.between(&["rate_unit", "rates"], rates.is_some() != values.has("rate_unit"), || {
        if rates.is_some() {
            "is missing; give the unit of the rates"
        } else {
            "goes only with rates; give them, or omit it"
        }
        .to_owned()
    });
    let Some(rates) = rates else { return };
    checker.between(&["rates", "treatments"], rates.len() != treatments, || {
        format!("has {}; give one for each of the {treatments} treatments", rates.len())
    });
    let ascending = rates.windows(2).all(|pair| matches!(pair, [low, high] if low < high));
    checker.between(&["rates"], !ascending, || "is not ascending; give each rate once, the lowest first".to_owned());
}

pub(super) fn plot(checker: &mut Checker, values: &Values) {
    code(checker, values);
    let text = |name: &str| values.take::<String>(name);
    if let (Some(plot), Some(trial)) = (text("plot"), text("trial")) {
        let of = plot.rsplit_once('.').map(|(of, _)| of);
        checker.between(&["plot", "trial"], of.is_some_and(|of| of != trial), || {
            format!("is {plot}; give {trial}, a point and its number, such as {trial}.7")
        });
    }
}

fn code(checker: &mut Checker, values: &Values) {
    let bad = values.take::<String>("trial").is_some_and(|code| !is_trial(&code));
    checker.between(&["trial"], bad, || "is not a trial code; give 1 to 10 letters, digits or -".to_owned());
}
