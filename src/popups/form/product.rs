//! What the record of an application needs, remembered per product from its last entry.
//!
//! Never the REI, nor a strength: a person reads those off the label every time. Never what belongs to one day: amounts,
//! area and times.

use super::State;
use crate::controls::Row;
use crate::dates;
use crate::model::Model;
use crate::popups::fields::About;
use crate::record::{Entry, KindName, Value, typed};

/// The field that a product is named in.
pub(super) const PRODUCT: &str = "product";

/// What is remembered of a product.
const SAME: [&str; 6] = ["ai", "epa_reg_no", "rate", "target", "applicator", "license"];

/// The rate of a growth regulator says how much of which strength went into how much water that day.
fn remembers(kind: KindName, field: &str) -> bool {
    SAME.contains(&field) && !(kind == KindName::GrowthRegulator && field == "rate")
}

/// Fills in what the last entry of the product says, where nothing else was typed.
pub(super) fn recall(state: &mut State, model: &Model) {
    let typed = state.text(PRODUCT);
    let last = last(state.ask.kind, typed.trim(), model);
    let values = last.map(|entry| entry.kind.values()).unwrap_or_default();
    let mut filled = Vec::new();
    for row in state.fields.all_mut() {
        let About::Own(field) = row.name else { continue };
        if !remembers(state.ask.kind, field.name) || !(row.is_empty() || state.recalled.contains(&field.name)) {
            continue;
        }
        row.offer(&values.get(field.name).map(|value| typed::show(field, value, model.system())).unwrap_or_default());
        if !row.is_empty() {
            filled.push((field.name, row.label));
        }
    }
    state.recalled = filled.iter().map(|(name, _)| *name).collect();
    if let Some(entry) = last.filter(|_| !filled.is_empty()) {
        let labels = filled.iter().map(|(_, label)| *label).collect::<Vec<_>>().join(", ");
        let day = dates::short(entry.day());
        state.notice =
            Some(format!("As last logged for {}, {day}: {labels}. Check them with the label.", typed.trim()));
    }
}

/// The last entry of a product that counts.
fn last<'m>(kind: KindName, product: &str, model: &'m Model) -> Option<&'m Entry> {
    if product.is_empty() {
        return None;
    }
    let same = |entry: &&Entry| {
        let named = entry.kind.values().get(PRODUCT).cloned();
        entry.name() == kind && matches!(named, Some(Value::Text(text)) if text.eq_ignore_ascii_case(product))
    };
    model.season.counting(model.day).filter(same).last()
}

/// True for the field whose change calls for what is remembered.
pub(super) fn is_product(row: About) -> bool {
    row.name() == PRODUCT
}

/// A field typed by hand is no longer filled in.
pub(super) fn typed_by_hand(state: &mut State, name: About) {
    state.recalled.retain(|recalled| *recalled != name.name());
}

/// True where a field holds what was remembered.
pub(super) fn is_recalled(state: &State, row: &Row<About>) -> bool {
    state.recalled.contains(&row.name.name()) && !row.is_empty()
}
