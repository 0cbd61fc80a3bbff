//! One value of one field: range, length, spelling.

use super::super::clean::{clean, unclean};
use super::super::parse;
use super::super::schema::{Field, FieldKind, PART};
use super::super::value::Value;

/// What is wrong with a value and what would be right; `None` where it is allowed.
pub(super) fn wrong(field: &Field, value: &Value) -> Option<String> {
    let give = |what: String| Some(format!("{what}; give {}", field.wanted()));
    match (field.kind, value) {
        (FieldKind::Text { most }, Value::Text(t)) => text(t, most),
        (FieldKind::Code, Value::Text(t)) => {
            let long = t.chars().count();
            // Some characters that cannot be seen are letters by their property.
            let letters = t.chars().all(|c| c.is_alphanumeric() || c == '-' || c == '.') && unclean(t).is_none();
            let fits = (1..=16).contains(&long) && letters;
            if fits { None } else { give(format!("is \"{}\"", short(t))) }
        }
        (FieldKind::Plot, Value::Text(t)) => {
            if is_plot(t) {
                None
            } else {
                give(format!("is \"{}\"", short(t)))
            }
        }
        (FieldKind::By, Value::Text(t)) => {
            let fits = (1..=8).contains(&t.chars().count()) && !t.contains(char::is_whitespace) && unclean(t).is_none();
            if fits { None } else { give(format!("is \"{}\"", short(t))) }
        }
        (FieldKind::Count { least, most } | FieldKind::Level { least, most }, Value::Count(n)) => {
            if (least..=most).contains(n) { None } else { give(format!("is {n}")) }
        }
        (FieldKind::Number { least, most }, Value::Number(n)) => {
            if (least..=most).contains(n) {
                None
            } else {
                give(format!("is {n}"))
            }
        }
        (FieldKind::Terms(_) | FieldKind::Ids, Value::List(list)) => twice(list),
        (FieldKind::Texts { most }, Value::List(list)) => texts(list, most),
        (FieldKind::Numbers { least, most }, Value::List(list)) => numbers(list, least, most).and_then(give),
        (FieldKind::Parts, Value::List(list)) => {
            parts(list).or_else(|| list.is_empty().then(|| give("is empty".to_owned()))?)
        }
        (FieldKind::Day, Value::Day(d)) if !parse::is_day(*d) => give(format!("is {d}")),
        (FieldKind::Instant, Value::At(t)) if !parse::is_instant(t) => give(format!("is {t}")),
        (FieldKind::Term(known), Value::Term(w)) if known.spelled(w).is_none() => give(format!("is {w}")),
        _ => None,
    }
}

/// `T1.7`: a trial's code, a point, and the number of a plot from 1.
fn is_plot(text: &str) -> bool {
    let Some((trial, number)) = text.rsplit_once('.') else { return false };
    let counted = (1..=4).contains(&number.len()) && number.bytes().all(|b| b.is_ascii_digit());
    is_trial(trial) && counted && !number.starts_with('0')
}

/// A trial's code: 1 to 10 letters, digits or `-`. It has no point, so that the code of a plot shows where its number begins.
pub(super) fn is_trial(text: &str) -> bool {
    let letters = text.chars().all(|c| c.is_alphanumeric() || c == '-') && unclean(text).is_none();
    (1..=10).contains(&text.chars().count()) && letters
}

fn short(text: &str) -> String {
    clean(text).chars().take(30).collect()
}

fn text(text: &str, most: usize) -> Option<String> {
    let long = text.chars().count();
    if text.trim().is_empty() {
        return Some("is empty; give some text, or omit the field".to_owned());
    }
    if long > most {
        return Some(format!("is {long} characters long; give {most} at most"));
    }
    unclean(text)
}

fn twice(list: &[Value]) -> Option<String> {
    let again = list.iter().enumerate().find_map(|(i, v)| list.iter().take(i).any(|w| w == v).then_some(v));
    again.map(|v| match v {
        Value::Term(w) => format!("has {w} twice; give it once"),
        Value::Text(t) => format!("has \"{}\" twice; give it once", short(t)),
        _ => "has the same twice; give it once".to_owned(),
    })
}

fn texts(list: &[Value], most: usize) -> Option<String> {
    let bad = list.iter().enumerate().find_map(|(i, v)| match v {
        Value::Text(t) => text(t, most).map(|why| format!("number {} {why}", i + 1)),
        _ => None,
    });
    bad.or_else(|| twice(list))
}

fn numbers(list: &[Value], least: f64, most: f64) -> Option<String> {
    if list.is_empty() {
        return Some("is empty".to_owned());
    }
    list.iter().enumerate().find_map(|(i, v)| match v {
        Value::Number(n) if !(least..=most).contains(n) => Some(format!("number {} is {n}", i + 1)),
        _ => None,
    })
}

fn parts(list: &[Value]) -> Option<String> {
    list.iter().enumerate().find_map(|(i, v)| {
        let Value::Part(part) = v else { return None };
        let ai = PART.field("ai").and_then(|f| wrong(f, &Value::Text(part.ai.clone())));
        let ppm = PART.field("ppm").and_then(|f| wrong(f, &Value::Number(part.ppm)));
        ai.map(|w| format!("part {}: ai {w}", i + 1)).or_else(|| ppm.map(|w| format!("part {}: ppm {w}", i + 1)))
    })
}
