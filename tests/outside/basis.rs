//! One row: a number from outside the project, where it comes from, and what the program says.

/// What a number stands on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Basis {
    /// Printed by a source: who, what, when.
    Published(&'static str),
    /// Usual in the trade; no source was found.
    CommonPractice,
    /// Remembered, not looked up.
    FromMemory,
    /// Worked out apart from the program, from a published formula, table or date: how.
    Computed(&'static str),
}

/// One number to hold the program against.
#[derive(Debug, Clone)]
pub(crate) struct Row {
    /// What is asked, with the numbers that go in.
    pub(crate) name: String,
    /// Where `expected` comes from.
    pub(crate) basis: Basis,
    /// The number from outside.
    pub(crate) expected: f64,
    /// How far off the program may be, in the same unit.
    pub(crate) tolerance: f64,
    /// What the program says.
    pub(crate) got: f64,
    /// The outside number is known to be wrong: the program must **not** agree with it.
    pub(crate) refuted: bool,
}

impl Row {
    /// A row the program must agree with.
    pub(crate) fn new(name: impl Into<String>, basis: Basis, expected: f64, tolerance: f64, got: f64) -> Self {
        Self { name: name.into(), basis, expected, tolerance, got, refuted: false }
    }

    /// The same row as a number known to be wrong.
    #[must_use]
    pub(crate) fn refuted(self) -> Self {
        Self { refuted: true, ..self }
    }

    fn agrees(&self) -> bool {
        self.got.is_finite() && (self.got - self.expected).abs() <= self.tolerance
    }
}

/// Every row that does not hold, in words.
pub(crate) fn wrong(rows: &[Row]) -> Vec<String> {
    rows.iter()
        .filter(|r| r.agrees() == r.refuted)
        .map(|r| {
            let not = if r.refuted { "not " } else { "" };
            format!("{}: {not}{} ± {} ({:?}), got {}", r.name, r.expected, r.tolerance, r.basis, r.got)
        })
        .collect()
}

#[test]
fn a_refuted_row_must_not_match() {
    let holds = |row: &Row| wrong(std::slice::from_ref(row)).is_empty();
    let near = Row::new("x", Basis::FromMemory, 1.0, 0.1, 1.05);
    assert!(holds(&near) && !holds(&near.clone().refuted()));
    let far = Row { got: 2.0, ..near.clone() };
    assert!(!holds(&far) && holds(&far.refuted()));
    assert!(!holds(&Row { got: f64::NAN, ..near }));
}
