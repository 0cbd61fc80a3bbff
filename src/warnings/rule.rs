//! What a rule is: everything the program knows of one warning, in one value.
#![deny(clippy::wildcard_enum_match_arm)]

use super::bench_day::BenchDay;
use super::remedy::Answer;
use super::{Basis, CheckName, Step, Warning, WarningName};
use crate::crop::symptoms;
use crate::record::{KindName, LeafSign, Place};
use std::collections::BTreeMap;

/// The cause shared by warnings that are shown together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Cause {
    /// Too much water and what it brings.
    Wet,
    /// Too little water.
    Dry,
    /// Magnesium and molybdenum.
    Extras,
    /// Feed, salts and pH.
    RootZone,
    /// Pinch.
    Pinch,
    /// Height and what is done about it.
    Height,
    /// Nights, heat and color.
    Color,
    /// Damp air and molds.
    Damp,
    /// Signs on leaves, stems and bracts.
    Leaves,
    /// One pest or disease, by its own warning.
    Pest(WarningName),
    /// Looks that were not taken.
    Unchecked,
    /// Pots short.
    Count,
    /// The house's own.
    House,
}

impl Cause {
    /// True where it is a matter of the whole lot, though it is seen bench by bench: what was given to it and what was checked,
    /// its pinch, its heights, its color, its pots.
    pub const fn is_of_lot(self) -> bool {
        match self {
            Self::Extras
            | Self::RootZone
            | Self::Pinch
            | Self::Height
            | Self::Color
            | Self::Unchecked
            | Self::Count => true,
            Self::Wet | Self::Dry | Self::Damp | Self::Leaves | Self::Pest(_) | Self::House => false,
        }
    }
}

/// How long a warning lasts when nobody answers it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Class {
    /// A state of the crop or the mix: it stays as it was last found, at its level, until a newer look of its kind.
    State,
    /// Something that happened: by days it fades to watch and ends.
    Event,
    /// Something due: it stands until it is done, or is no use any more.
    Date,
}

impl Class {
    /// In one word, as the heads of the rules name it.
    pub const fn text(self) -> &'static str {
        match self {
            Self::State => "state",
            Self::Event => "event",
            Self::Date => "date",
        }
    }
}

/// What a warning is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Scope {
    /// One bench.
    Bench,
    /// All benches of a lot.
    Lot,
    /// All benches of a house.
    House,
}

/// Everything about one warning. Each stands in its own file under `rules`.
#[derive(Debug)]
pub struct Rule {
    /// Its name.
    pub name: WarningName,
    /// The spelling of its name in the review's JSON and in `put-off` entries.
    pub code: &'static str,
    /// Where it is looked for, and how.
    pub(super) find: Find,
    /// What lies behind it.
    pub cause: Cause,
    /// How long it lasts when nobody answers it.
    pub class: Class,
    /// What it is, in two to four words.
    pub title: &'static str,
    /// Why it matters, in one sentence.
    pub why: &'static str,
    /// What to do, the first thing first. Steps that depend on what was seen come with the warning itself.
    pub next: &'static [Step],
    /// What answers it, the likeliest first; nothing where walking the benches does.
    pub answers: &'static [Answer],
    /// What it rests on, unless a warning says otherwise of itself.
    pub basis: Basis,
    /// Its signs; `None` where the symptom key has nothing to add.
    pub(super) signs: Option<Signs>,
    /// The work after which it is only watched until the next look; `None` where only a look ends it.
    pub(super) follow_up: Option<FollowUp>,
    /// What its bench's card asks for again while it stands, before the routine checks.
    pub(super) recheck: &'static [Recheck],
    /// True where the bench is to be walked last, with clean hands and tools after it.
    pub is_sick: bool,
    /// True where the same on several benches points at what a house shares: line, boiler, drain, door.
    pub(super) house_wide: bool,
}

impl Rule {
    /// What it is about.
    pub fn scope(&self) -> Scope {
        match self.find {
            Find::Bench(_) | Find::BenchLast(_) => Scope::Bench,
            Find::Lot(_) | Find::LotAndHouse(..) => Scope::Lot,
            Find::House(_) | Find::HouseEach(_) => Scope::House,
            Find::Twin(name) => name.rule().scope(),
        }
    }
}

/// A check to be taken again because of a warning.
#[derive(Debug, Clone, Copy)]
pub(super) struct Recheck {
    /// The check.
    pub(super) check: CheckName,
    /// Days after the last look since the warning began. Without a look since then it is asked for at once.
    pub(super) after: i64,
}

/// How a warning is looked for.
#[derive(Debug)]
pub(super) enum Find {
    /// On each bench with pots.
    Bench(fn(&BenchDay<'_>) -> Option<Warning>),
    /// On each bench with pots, after all others: given what they found there.
    BenchLast(fn(&BenchDay<'_>, &[Warning]) -> Option<Warning>),
    /// On all benches of a lot together.
    Lot(fn(&Group<'_, '_>) -> Option<Warning>),
    /// On all benches of a lot together, and by another way on all benches of a house.
    LotAndHouse(fn(&Group<'_, '_>) -> Option<Warning>, fn(&Group<'_, '_>) -> Option<Warning>),
    /// On all benches of a house together.
    House(fn(&Group<'_, '_>) -> Option<Warning>),
    /// On all benches of a house together, several times at once.
    HouseEach(fn(&Group<'_, '_>) -> Vec<Warning>),
    /// By the rule of its twin in the same file, which says which of the two it is.
    Twin(WarningName),
}

/// The benches with pots of one lot or house, in walking order, on a day.
#[derive(Debug)]
pub(super) struct Group<'g, 'a> {
    /// The lot or house.
    pub(super) place: Place,
    /// Its benches; one at least.
    pub(super) benches: Vec<&'g BenchDay<'a>>,
    /// What was found on each single bench, by its code.
    pub(super) of_bench: &'g BTreeMap<String, Vec<Warning>>,
}

impl<'g, 'a> Group<'g, 'a> {
    /// The first of its benches.
    pub(super) fn first(&self) -> Option<&'g BenchDay<'a>> {
        self.benches.first().copied()
    }

    /// The codes of its benches.
    pub(super) fn codes(&self) -> Vec<String> {
        self.benches.iter().map(|b| b.code().to_owned()).collect()
    }
}

/// The signs of a warning, in the terms of the symptom key.
#[derive(Debug)]
pub(super) struct Signs {
    /// The signs on the plant it is about.
    pub(super) leaves: &'static [LeafSign],
    /// True where the roots by themselves are a sign of it.
    pub(super) roots: bool,
    /// Causes that would only say the warning again.
    pub(super) but: &'static [symptoms::Cause],
}

/// Work that answers a warning without ending it.
#[derive(Debug)]
pub(super) struct FollowUp {
    /// Entries of these kinds.
    pub(super) kinds: &'static [KindName],
    /// What a spray must have been written against: any of these, in lower case, anywhere in the text.
    pub(super) against: &'static [&'static str],
}
