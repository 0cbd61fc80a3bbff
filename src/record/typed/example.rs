//! Examples of what is typed into fields of text. None is a product, a strength, a rate or an REI: those stand on the label.

/// An example for a field, or where its text is found; `None` where there is none.
pub(super) fn of(field: &str) -> Option<&'static str> {
    Some(match field {
        "ai" => "common name, as on the label",
        "product" | "rate" => "as on the label",
        "epa_reg_no" => "number on the label",
        "against" => "such as whitefly",
        "target" => "such as poinsettias",
        "amount_used" => "with its unit: oz, mL, lb",
        "applicator" => "first and last name",
        "license" => "number on the license",
        "species" => "such as Encarsia",
        "cause" => "such as root rot",
        "why" => "such as wrong bench",
        "cultivar" => "such as mid red, vigorous",
        "container" => "such as 6.5 in azalea",
        "house" => "such as East",
        "lot" => "such as R1",
        "bench" | "to" => "such as E2",
        "name" => "such as North range",
        "emergency" => "whom to call, eyewash",
        "prefix" => "such as E",
        "by" => "your initials",
        _ => return None,
    })
}
