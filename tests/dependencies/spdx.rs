//! License expressions (SPDX, with the older `/` for a choice), evaluated rather than searched for words.

/// An expression.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Expression {
    /// One license, with its exception where it has one: `Apache-2.0 WITH LLVM-exception`.
    License(String),
    /// Both hold.
    And(Box<Self>, Box<Self>),
    /// One of two may be chosen.
    Or(Box<Self>, Box<Self>),
}

impl Expression {
    /// Reads an expression.
    pub(crate) fn parse(text: &str) -> Result<Self, String> {
        let spaced = text.replace('(', " ( ").replace(')', " ) ").replace('/', " OR ");
        let mut words = spaced.split_whitespace().peekable();
        let read = either(&mut words).and_then(|read| match words.next() {
            None => Ok(read),
            Some(word) => Err(format!("{word:?} is too much")),
        });
        read.map_err(|why| format!("{text:?}: {why}"))
    }

    /// Whether it is fulfilled by these licenses.
    pub(crate) fn holds(&self, allowed: &dyn Fn(&str) -> bool) -> bool {
        match self {
            Self::License(id) => allowed(id),
            Self::And(a, b) => a.holds(allowed) && b.holds(allowed),
            Self::Or(a, b) => a.holds(allowed) || b.holds(allowed),
        }
    }
}

type Words<'w, 't> = &'w mut std::iter::Peekable<std::str::SplitWhitespace<'t>>;

/// `OR` binds least.
fn either(words: Words<'_, '_>) -> Result<Expression, String> {
    let mut read = both(words)?;
    while words.next_if_eq(&"OR").is_some() {
        read = Expression::Or(Box::new(read), Box::new(both(words)?));
    }
    Ok(read)
}

fn both(words: Words<'_, '_>) -> Result<Expression, String> {
    let mut read = one(words)?;
    while words.next_if_eq(&"AND").is_some() {
        read = Expression::And(Box::new(read), Box::new(one(words)?));
    }
    Ok(read)
}

fn one(words: Words<'_, '_>) -> Result<Expression, String> {
    match words.next() {
        Some("(") => {
            let read = either(words)?;
            if words.next() == Some(")") { Ok(read) } else { Err("a bracket is left open".to_owned()) }
        }
        None => Err("a license is missing".to_owned()),
        Some(word @ (")" | "AND" | "OR" | "WITH")) => Err(format!("{word:?} stands where a license is wanted")),
        Some(id) if words.next_if_eq(&"WITH").is_some() => match words.next() {
            Some(exception) => Ok(Expression::License(format!("{id} WITH {exception}"))),
            None => Err("an exception is missing".to_owned()),
        },
        Some(id) => Ok(Expression::License(id.to_owned())),
    }
}

#[test]
fn expressions_are_evaluated() {
    let holds = |text: &str, allowed: &[&str]| Expression::parse(text).unwrap().holds(&|id| allowed.contains(&id));
    for (text, allowed, wanted) in [
        ("MIT", &["MIT"][..], true),
        ("MIT-0", &["MIT"], false),
        ("MIT OR GPL-3.0-only", &["MIT"], true),
        ("GPL-3.0-only/MIT", &["MIT"], true),
        ("MIT AND GPL-3.0-only", &["MIT"], false),
        ("(MIT OR Apache-2.0) AND Unicode-3.0", &["MIT"], false),
        ("(MIT OR Apache-2.0) AND Unicode-3.0", &["MIT", "Unicode-3.0"], true),
        // AND binds more than OR.
        ("GPL-3.0-only AND ISC OR MIT", &["MIT"], true),
        ("MIT OR ISC AND GPL-3.0-only", &["MIT"], true),
        ("(MIT OR ISC) AND GPL-3.0-only", &["MIT"], false),
        ("Apache-2.0 WITH LLVM-exception", &["Apache-2.0"], false),
        ("Apache-2.0 WITH LLVM-exception OR MIT", &["MIT"], true),
    ] {
        assert_eq!(holds(text, allowed), wanted, "{text} with {allowed:?}");
    }
}

#[test]
fn what_is_no_expression_is_refused() {
    for text in ["", "OR", "MIT OR", "MIT Apache-2.0", "(MIT", "MIT)", "MIT WITH", "AND MIT", "MIT OR OR MIT"] {
        assert!(Expression::parse(text).is_err(), "{text:?}");
    }
}
