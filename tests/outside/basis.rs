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

/// Fails with every row that does not hold, not only the first.
pub(crate) fn check(rows: &[Row]) {
    assert!(!rows.is_empty(), "no rows");
    let wrong: Vec<String> = rows
        .iter()
        .filter(|r| r.agrees() == r.refuted)
        .map(|r| {
            let not = if r.refuted { "NOT " } else { "" };
            format!("{}: {not}{} ± {} ({:?}), got {}", r.name, r.expected, r.tolerance, r.basis, r.got)
        })
        .collect();
    assert!(wrong.is_empty(), "{} of {} rows do not hold:\n{}", wrong.len(), rows.len(), wrong.join("\n"));
}

#[test]
fn a_refuted_row_must_not_match() {
    let near = Row::new("x", Basis::FromMemory, 1.0, 0.1, 1.05);
    check(std::slice::from_ref(&near));
    assert!(std::panic::catch_unwind(|| check(&[near.clone().refuted()])).is_err());
    let far = Row { got: 2.0, ..near.clone() };
    check(&[far.clone().refuted()]);
    assert!(std::panic::catch_unwind(|| check(&[far])).is_err());
    let no_number = Row { got: f64::NAN, ..near };
    assert!(std::panic::catch_unwind(|| check(&[no_number])).is_err());
}
