//! JSON as it was written: pairs in order, repeated names kept, so that a repeat can be refused instead of lost.

use serde::de::{Deserialize, Deserializer, Error, MapAccess, SeqAccess, Visitor};
use std::borrow::Cow;
use std::fmt;

/// A JSON value. Its texts are those of the line, but for those that are written with escapes there.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Raw<'t> {
    Null,
    Bool(bool),
    Number(f64),
    Text(Cow<'t, str>),
    List(Vec<Self>),
    Object(Pairs<'t>),
}

/// The names and values of an object.
pub(super) type Pairs<'t> = Vec<(Cow<'t, str>, Raw<'t>)>;

/// Room for the pairs of a usual record.
const USUAL: usize = 12;

impl Raw<'_> {
    /// The same with every text made safe to show.
    pub(super) fn marked(self) -> Self {
        match self {
            Self::Text(text) => Self::Text(match crate::record::marked(&text) {
                Cow::Borrowed(_) => text,
                Cow::Owned(marked) => Cow::Owned(marked),
            }),
            Self::List(list) => Self::List(list.into_iter().map(Self::marked).collect()),
            Self::Object(pairs) => {
                Self::Object(pairs.into_iter().map(|(name, value)| (name, value.marked())).collect())
            }
            other => other,
        }
    }

    /// The value in a message: short, and safe to show.
    pub(super) fn describe(&self) -> String {
        match self {
            Self::Null => "null".to_owned(),
            Self::Bool(b) => b.to_string(),
            Self::Number(n) if n.abs() >= 1e15 => format!("{n:e}"),
            Self::Number(n) => n.to_string(),
            Self::Text(t) => {
                let clean = crate::record::clean(t);
                let short: String = clean.chars().take(30).collect();
                let dots = if short.len() < clean.len() { "…" } else { "" };
                format!("\"{short}{dots}\"")
            }
            Self::List(_) => "a list".to_owned(),
            Self::Object(_) => "an object".to_owned(),
        }
    }
}

/// Reads one JSON value that fills the whole text.
pub(super) fn parse(text: &str) -> Result<Raw<'_>, String> {
    serde_json::from_str(text).map_err(|e| {
        if e.is_eof() {
            return "is not JSON: it ends too early; a record is one JSON object on one line".to_owned();
        }
        let said = e.to_string();
        let what = said.split(" at line ").next().unwrap_or("an error");
        format!("is not JSON: {what} at character {}", e.column())
    })
}

impl<'de> Deserialize<'de> for Raw<'de> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(AsWritten)
    }
}

/// A name, of the line itself where it has no escapes.
struct Name<'t>(Cow<'t, str>);

impl<'de> Deserialize<'de> for Name<'de> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_str(AsName)
    }
}

struct AsName;

impl<'de> Visitor<'de> for AsName {
    type Value = Name<'de>;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a string")
    }

    fn visit_borrowed_str<E: Error>(self, v: &'de str) -> Result<Name<'de>, E> {
        Ok(Name(Cow::Borrowed(v)))
    }

    fn visit_str<E: Error>(self, v: &str) -> Result<Name<'de>, E> {
        Ok(Name(Cow::Owned(v.to_owned())))
    }
}

struct AsWritten;

impl<'de> Visitor<'de> for AsWritten {
    type Value = Raw<'de>;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a JSON value")
    }

    fn visit_unit<E: Error>(self) -> Result<Raw<'de>, E> {
        Ok(Raw::Null)
    }

    fn visit_bool<E: Error>(self, v: bool) -> Result<Raw<'de>, E> {
        Ok(Raw::Bool(v))
    }

    fn visit_u64<E: Error>(self, v: u64) -> Result<Raw<'de>, E> {
        Ok(Raw::Number(v as f64))
    }

    fn visit_i64<E: Error>(self, v: i64) -> Result<Raw<'de>, E> {
        Ok(Raw::Number(v as f64))
    }

    fn visit_f64<E: Error>(self, v: f64) -> Result<Raw<'de>, E> {
        // -0 is 0: there is one spelling of each number.
        Ok(Raw::Number(v + 0.0))
    }

    fn visit_str<E: Error>(self, v: &str) -> Result<Raw<'de>, E> {
        Ok(Raw::Text(Cow::Owned(v.to_owned())))
    }

    fn visit_borrowed_str<E: Error>(self, v: &'de str) -> Result<Raw<'de>, E> {
        Ok(Raw::Text(Cow::Borrowed(v)))
    }

    fn visit_string<E: Error>(self, v: String) -> Result<Raw<'de>, E> {
        Ok(Raw::Text(Cow::Owned(v)))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut seq: A) -> Result<Raw<'de>, A::Error> {
        let mut list = Vec::new();
        while let Some(item) = seq.next_element()? {
            list.push(item);
        }
        Ok(Raw::List(list))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Raw<'de>, A::Error> {
        let mut pairs = Vec::with_capacity(USUAL);
        while let Some((Name(name), value)) = map.next_entry()? {
            pairs.push((name, value));
        }
        Ok(Raw::Object(pairs))
    }
}

#[cfg(test)]
mod tests {
    use super::{Raw, parse};

    #[test]
    fn repeated_names_are_kept() {
        let Ok(Raw::Object(pairs)) = parse(r#"{"a":1,"b":[{"c":1,"c":2}],"a":-0.0}"#) else { panic!("an object") };
        assert_eq!(pairs.len(), 3);
        assert_eq!(format!("{:?}", pairs[2].1), "Number(0.0)");
    }

    #[test]
    fn numbers_come_back_exactly() {
        for n in [0.1, 44.1, 1.0 / 3.0, 5e-324, f64::MIN_POSITIVE, 9_007_199_254_740_993.0, f64::MAX] {
            assert_eq!(parse(&n.to_string()), Ok(Raw::Number(n)));
        }
    }

    #[test]
    fn deep_nesting_is_refused_not_crashed_on() {
        assert!(parse(&"[".repeat(100_000)).is_err());
    }
}
