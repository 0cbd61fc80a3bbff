//! How the looks at one sign of a bench follow each other: seen again after some days, raised before.
//!
//! A sign goes on from one look that names it to the next, up to the limit's days later, unless a look between them is without
//! it. What begins again within the fortnight in which it was raised is not raised again before that is over: a yellow leaf here
//! and there on every other look would be a line every evening.

use super::bench_day::{BenchDay, ends, has_sign};
use crate::dates::{add_days, days_between};
use crate::record::{Entry, KindName, LeafSign};
use chrono::NaiveDate;

/// A sign from the first of the looks that name it without a break to the last.
#[derive(Debug, Clone, Copy)]
struct Spell {
    first: NaiveDate,
    last: NaiveDate,
    /// The last day on which it stands.
    until: NaiveDate,
    /// From this day on a look had named it so many days before as makes a second look.
    second: Option<NaiveDate>,
}

/// What the looks up to today say of a sign that stands.
#[derive(Debug, Clone, Copy)]
pub(super) struct Looks {
    spell: Spell,
    /// When it was raised before in this fortnight: as noted or more, and as more.
    raised: (Option<NaiveDate>, Option<NaiveDate>),
}

impl Looks {
    /// Since when it is seen without a break.
    pub(super) const fn since(&self) -> NaiveDate {
        self.spell.first
    }

    /// True where a look named it so many days before that this is the second look.
    pub(super) const fn is_second(&self) -> bool {
        self.spell.second.is_some()
    }

    /// True where it is raised on a day: not within the time in which it was raised before.
    pub(super) fn raises(&self, bench: &BenchDay<'_>, noted: bool) -> bool {
        let before = if noted { self.raised.0 } else { self.raised.1 };
        before.is_none_or(|day| days_between(day, bench.day()) >= bench.limits().leaves.again_days)
    }
}

/// The looks at a sign, where it stands today. `watched` is true of a sign that is more than noted from its first look on.
pub(super) fn of(bench: &BenchDay<'_>, sign: LeafSign, watched: bool) -> Option<Looks> {
    bench.sign(sign)?;
    let spells = spells(bench, sign);
    let (spell, earlier) = spells.split_last()?;
    let again = bench.limits().leaves.again_days;
    let mut raised: (Option<NaiveDate>, Option<NaiveDate>) = (None, None);
    for before in earlier {
        next(&mut raised.0, before.first, before.until, again);
        if let Some(from) = before.second.or_else(|| watched.then_some(before.first)) {
            next(&mut raised.1, from, before.until, again);
        }
    }
    // What was raised as more is raised as noted, too.
    raised.0 = raised.0.max(raised.1);
    Some(Looks { spell: *spell, raised })
}

/// The day on which a spell is raised, if it is: when it begins, or when the time since it was raised before is over.
fn next(raised: &mut Option<NaiveDate>, first: NaiveDate, until: NaiveDate, again: i64) {
    let day = raised.map_or(first, |before| first.max(add_days(before, again)));
    if day <= until {
        *raised = Some(day);
    }
}

/// Its spells, oldest first.
fn spells(bench: &BenchDay<'_>, sign: LeafSign) -> Vec<Spell> {
    let (leaves, counts) = (&bench.limits().leaves, bench.limits().water.leaves_days);
    let looks = bench.of(KindName::Leaves);
    let mut spells: Vec<Spell> = Vec::new();
    let mut named: Vec<&Entry> = Vec::new();
    for (at, look) in looks.iter().copied().enumerate().filter(|(_, e)| has_sign(e, sign)) {
        let rest = looks.get(at + 1..).unwrap_or_default();
        let without = rest.iter().find(|e| !has_sign(e, sign) && ends(e, look)).map(|e| e.day());
        let until = without.map_or(NaiveDate::MAX, |day| add_days(day, -1)).min(add_days(look.day(), counts));
        let apart =
            |e: &&Entry| (leaves.second_from..=leaves.second_until).contains(&days_between(e.day(), look.day()));
        let second = named.iter().any(apart).then(|| look.day());
        let broken = |spell: &Spell| {
            let clean = looks.iter().any(|e| !has_sign(e, sign) && e.day() > spell.last && e.day() < look.day());
            clean || days_between(spell.last, look.day()) > leaves.again_days
        };
        match spells.last_mut().filter(|spell| !broken(spell)) {
            Some(spell) => {
                spell.last = look.day();
                spell.until = until;
                spell.second = spell.second.or(second);
            }
            None => spells.push(Spell { first: look.day(), last: look.day(), until, second }),
        }
        named.push(look);
    }
    spells
}
