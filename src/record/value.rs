//! One value of one field, whatever the record it belongs to. Files, forms and rules share this type: text becomes values, the
//! rules check values, and records are built of values.

use super::{Part, Term};
use crate::dates::Tz;
use chrono::{DateTime, FixedOffset, NaiveDate};
use std::sync::Arc;
use uuid::Uuid;

/// A value of a field.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// Free text.
    Text(String),
    /// A whole number, a level or a score.
    Count(u32),
    /// A number in the field's unit.
    Number(f64),
    /// A day.
    Day(NaiveDate),
    /// An instant.
    At(DateTime<FixedOffset>),
    /// A time zone.
    Zone(Tz),
    /// A word of a closed list, by its spelling in the journal.
    Term(&'static str),
    /// True or false.
    YesNo(bool),
    /// An entry's id.
    Id(Uuid),
    /// One active ingredient.
    Part(Part),
    /// Several of one sort.
    List(Vec<Value>),
}

/// The values of one record, by field name.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Values(Vec<(&'static str, Value)>);

impl Values {
    /// None yet.
    pub const fn new() -> Self {
        Self(Vec::new())
    }

    /// None yet, with room for so many.
    pub fn with_room(many: usize) -> Self {
        Self(Vec::with_capacity(many))
    }

    /// How many fields have a value.
    pub const fn len(&self) -> usize {
        self.0.len()
    }

    /// True where no field has one.
    pub const fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// Sets all that another has.
    pub(super) fn extend(&mut self, more: Self) {
        for (name, value) in more.0 {
            self.set(name, value);
        }
    }

    /// The value of a field.
    pub fn get(&self, name: &str) -> Option<&Value> {
        self.0.iter().find(|(n, _)| *n == name).map(|(_, v)| v)
    }

    /// True where the field has a value.
    pub fn has(&self, name: &str) -> bool {
        self.get(name).is_some()
    }

    /// Sets a field, in place of a value it had.
    pub fn set(&mut self, name: &'static str, value: Value) {
        match self.0.iter_mut().find(|(n, _)| *n == name) {
            Some((_, v)) => *v = value,
            None => self.0.push((name, value)),
        }
    }

    /// Sets a field where there is a value.
    pub fn set_some<T: FieldType>(&mut self, name: &'static str, value: &T) {
        if let Some(v) = value.to_value() {
            self.set(name, v);
        }
    }

    /// The field as a type; `None` where it is not of that type, or missing and the type needs it.
    pub fn take<T: FieldType>(&self, name: &str) -> Option<T> {
        T::from_value(self.get(name))
    }

    /// Fields and values in the order they were set.
    pub fn iter(&self) -> impl Iterator<Item = (&'static str, &Value)> {
        self.0.iter().map(|(n, v)| (*n, v))
    }
}

/// A type a field may have in a record.
pub trait FieldType: Sized {
    /// As a value; `None` where there is nothing.
    fn to_value(&self) -> Option<Value>;
    /// From a value; `None` where it does not fit.
    fn from_value(value: Option<&Value>) -> Option<Self>;
}

macro_rules! field_type {
    ($($type:ty: $variant:ident;)+) => {$(
        impl FieldType for $type {
            fn to_value(&self) -> Option<Value> {
                Some(Value::$variant(self.clone()))
            }
            fn from_value(value: Option<&Value>) -> Option<Self> {
                match value {
                    Some(Value::$variant(v)) => Some(v.clone()),
                    _ => None,
                }
            }
        }
    )+};
}

field_type! {
    String: Text;
    u32: Count;
    f64: Number;
    NaiveDate: Day;
    DateTime<FixedOffset>: At;
    Tz: Zone;
    Uuid: Id;
    Part: Part;
}

impl FieldType for Arc<str> {
    fn to_value(&self) -> Option<Value> {
        Some(Value::Text(self.as_ref().to_owned()))
    }
    fn from_value(value: Option<&Value>) -> Option<Self> {
        match value {
            Some(Value::Text(text)) => Some(text.as_str().into()),
            _ => None,
        }
    }
}

impl FieldType for u8 {
    fn to_value(&self) -> Option<Value> {
        Some(Value::Count(u32::from(*self)))
    }
    fn from_value(value: Option<&Value>) -> Option<Self> {
        u32::from_value(value).and_then(|v| Self::try_from(v).ok())
    }
}

impl FieldType for bool {
    fn to_value(&self) -> Option<Value> {
        Some(Value::YesNo(*self))
    }
    fn from_value(value: Option<&Value>) -> Option<Self> {
        match value {
            Some(Value::YesNo(v)) => Some(*v),
            // A yes or no that may be left out is "no" then; the field table says which may.
            None => Some(false),
            Some(_) => None,
        }
    }
}

impl<T: Term> FieldType for T {
    fn to_value(&self) -> Option<Value> {
        Some(Value::Term(self.code()))
    }
    fn from_value(value: Option<&Value>) -> Option<Self> {
        match value {
            Some(Value::Term(code)) => Self::from_code(code),
            _ => None,
        }
    }
}

impl<T: FieldType> FieldType for Option<T> {
    fn to_value(&self) -> Option<Value> {
        self.as_ref().and_then(FieldType::to_value)
    }
    fn from_value(value: Option<&Value>) -> Option<Self> {
        match value {
            None => Some(None),
            some => T::from_value(some).map(Some),
        }
    }
}

impl<T: FieldType> FieldType for Vec<T> {
    fn to_value(&self) -> Option<Value> {
        Some(Value::List(self.iter().filter_map(FieldType::to_value).collect()))
    }
    fn from_value(value: Option<&Value>) -> Option<Self> {
        match value {
            None => Some(Self::new()),
            Some(Value::List(list)) => list.iter().map(|v| T::from_value(Some(v))).collect(),
            Some(_) => None,
        }
    }
}
