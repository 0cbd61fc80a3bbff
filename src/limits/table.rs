//! The macro that turns a table of limits into fields, defaults, rows and typed keys.

use super::{Choices, Limits};
use toml::de::DeValue;

/// What a number rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Basis {
    /// A published source, named.
    Published(&'static str),
    /// Common practice, no source.
    CommonPractice,
    /// House rule, shown as Benchwalk's rule of thumb: no published figure was found.
    HouseRule,
    /// From memory, not looked up.
    FromMemory,
}

impl std::fmt::Display for Basis {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Published(source) => write!(f, "published: {source}"),
            Self::CommonPractice => f.write_str("common practice, no source"),
            Self::HouseRule => f.write_str("Benchwalk's rule of thumb"),
            Self::FromMemory => f.write_str("from memory, unverified"),
        }
    }
}

/// One limit of the table.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Row {
    /// `group.name`.
    pub key: &'static str,
    /// The default.
    pub default: f64,
    /// Least value accepted.
    pub least: f64,
    /// Greatest value accepted.
    pub most: f64,
    /// True where only whole numbers make sense.
    pub whole: bool,
    /// The unit.
    pub unit: &'static str,
    /// What it rests on.
    pub basis: Basis,
    /// What it means.
    pub meaning: &'static str,
    /// Between which published figures it lies, with their source, where there are any: beside a house rule above all.
    pub bracket: Option<&'static str>,
}

/// A limit in force.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limit {
    /// Its key in the limits file.
    pub key: &'static str,
    /// Its value, in the unit of that key.
    pub value: f64,
    /// True when the grower's own file set it: the words then say "your limit".
    pub own: bool,
}

impl Limit {
    /// A limit that the plan itself sets, such as the edge of a height window.
    pub const fn planned(value: f64) -> Self {
        Self { key: "plan", value, own: false }
    }
}

/// The typed key of a limit: names it as the limits file does and reads its value. A key that is not in the tables does not
/// compile.
#[derive(Debug)]
pub struct Key<T> {
    name: &'static str,
    read: fn(&Limits) -> T,
}

// Not derived: a key can be copied whatever it points to.
impl<T> Clone for Key<T> {
    fn clone(&self) -> Self {
        *self
    }
}
impl<T> Copy for Key<T> {}

impl<T: Number> Key<T> {
    pub(super) const fn new(name: &'static str, read: fn(&Limits) -> T) -> Self {
        Self { name, read }
    }

    /// Its name in the limits file, `group.name`.
    pub const fn name(self) -> &'static str {
        self.name
    }

    /// The value in force, in the unit of its row.
    pub fn of(self, limits: &Limits) -> T {
        (self.read)(limits)
    }

    /// The value in force as evidence: with its name, and whether it is the grower's own.
    pub fn limit(self, limits: &Limits) -> Limit {
        Limit { key: self.name, value: self.of(limits).to_limit(), own: limits.is_own(self.name) }
    }
}

/// A number a limit may be.
pub trait Number: Copy {
    /// Only whole numbers.
    const WHOLE: bool;
    /// From a checked value.
    fn from_limit(value: f64) -> Self;
    /// As a plain number.
    fn to_limit(self) -> f64;
}

macro_rules! whole {
    ($($t:ty),+) => {$(
        impl Number for $t {
            const WHOLE: bool = true;
            #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss,
                     reason = "the file reader has held the value to the row's least and most, all of them small and not negative")]
            fn from_limit(value: f64) -> Self { value as $t }
            #[expect(clippy::cast_lossless, reason = "one macro for several widths")]
            fn to_limit(self) -> f64 { self as f64 }
        }
    )+};
}
whole!(u8, u32);

impl Number for i64 {
    const WHOLE: bool = true;
    #[expect(
        clippy::cast_possible_truncation,
        reason = "the file reader has held the value to the row's least and most"
    )]
    fn from_limit(value: f64) -> Self {
        value as Self
    }
    fn to_limit(self) -> f64 {
        self as f64
    }
}

impl Number for f64 {
    const WHOLE: bool = false;
    fn from_limit(value: f64) -> Self {
        value
    }
    fn to_limit(self) -> f64 {
        self
    }
}

/// A limit that is chosen rather than measured.
pub(super) trait Choice: Default + PartialEq {
    /// What the limits file takes, in words.
    const WANTED: &'static str;
    /// The choice of a value of the limits file; `None` where it is none.
    fn read(value: &DeValue<'_>) -> Option<Self>;
    /// As it stands in the limits file.
    fn written(&self) -> String;
}

/// One choice of the table.
pub(super) struct ChoiceRow {
    /// `choices.name`.
    pub(super) key: &'static str,
    /// What it decides.
    pub(super) meaning: &'static str,
    /// What it rests on.
    pub(super) basis: &'static str,
    /// What the limits file takes, in words.
    pub(super) wanted: &'static str,
    /// The default, as it stands in the limits file.
    pub(super) default: fn() -> String,
    /// Takes a value of the limits file; true where it is not the default, `None` where it is no value of this choice.
    pub(super) read: fn(&mut Choices, &DeValue<'_>) -> Option<bool>,
    /// What is in force, as it stands in the limits file.
    pub(super) written: fn(&Choices) -> String,
}

/// `name: type = default, least..most, "unit", basis, "meaning";` a line; after the meaning `, bracket "figures and source"` where
/// published figures bracket it. The group is named after its type and its field in
/// [`Limits`]. What is chosen has rows of its own, `choice name: type, "meaning", "basis";`, with a type that is a [`Choice`].
macro_rules! limits {
    (@bracket $bracket:literal) => { Some($bracket) };
    (@bracket) => { None };
    ($(#[$doc:meta])* $group:ident = $prefix:ident {
        $(choice $name:ident: $type:ty, $meaning:literal, $basis:literal;)+
    }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, PartialEq, Default)]
        pub struct $group { $(#[doc = concat!($meaning, ".")] pub $name: $type),+ }

        impl $group {
            pub(super) const ROWS: &'static [$crate::limits::table::ChoiceRow] = &[$($crate::limits::table::ChoiceRow {
                key: concat!(stringify!($prefix), ".", stringify!($name)),
                meaning: $meaning,
                basis: $basis,
                wanted: <$type as $crate::limits::table::Choice>::WANTED,
                default: || $crate::limits::table::Choice::written(&<$type>::default()),
                read: |choices, value| {
                    choices.$name = $crate::limits::table::Choice::read(value)?;
                    Some(choices.$name != <$type>::default())
                },
                written: |choices| $crate::limits::table::Choice::written(&choices.$name),
            }),+];
        }
    };
    ($(#[$doc:meta])* $group:ident = $prefix:ident {
        $($name:ident: $type:ty = $default:expr, $least:literal .. $most:literal, $unit:literal, $basis:expr, $meaning:literal $(, bracket $bracket:literal)?;)+
    }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, PartialEq)]
        pub struct $group { $(#[doc = $meaning] #[doc = concat!(" (", $unit, ")")] pub $name: $type),+ }

        impl Default for $group {
            fn default() -> Self { Self { $($name: $default),+ } }
        }

        #[expect(non_upper_case_globals, reason = "a key is spelled as in the limits file")]
        impl $group {
            $(#[doc = concat!("The key of `", stringify!($prefix), ".", stringify!($name), "`: ", $meaning, " (", $unit, ").")]
            pub const $name: $crate::limits::Key<$type> =
                $crate::limits::Key::new(concat!(stringify!($prefix), ".", stringify!($name)), |limits| limits.$prefix.$name);)+
        }

        impl $group {
            pub(super) const ROWS: &'static [$crate::limits::Row] = &[$($crate::limits::Row {
                key: concat!(stringify!($prefix), ".", stringify!($name)),
                default: $default as f64,
                least: $least as f64,
                most: $most as f64,
                whole: <$type as $crate::limits::table::Number>::WHOLE,
                unit: $unit,
                basis: $basis,
                meaning: $meaning,
                bracket: $crate::limits::table::limits!(@bracket $($bracket)?),
            }),+];

            /// Every number in force, by its key.
            pub(super) fn pairs(&self) -> Vec<(&'static str, f64)> {
                vec![$((concat!(stringify!($prefix), ".", stringify!($name)), $crate::limits::table::Number::to_limit(self.$name))),+]
            }

            /// Sets a checked value; false when the key is not of this group.
            pub(super) fn set(&mut self, key: &str, value: f64) -> bool {
                $(if key == concat!(stringify!($prefix), ".", stringify!($name)) {
                    self.$name = $crate::limits::table::Number::from_limit(value);
                    return true;
                })+
                false
            }
        }
    };
}
pub(crate) use limits;
