//! The fields of the form of a trial, in the order they are asked.

use crate::controls::{Choice, Fields, Input, Row};
use crate::model::Model;
use crate::record::Term;
use crate::terms::{Design, TrialReading};
use crate::units::System;

/// A field.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum F {
    Code,
    Treatments,
    RateUnit,
    Benches,
    Grid,
    Lot,
    Differ,
    Main,
    Matters,
    Spread,
    Also,
    Blocks,
    Design,
    Control,
    ControlPlots,
    Pots,
    Guard,
    SharedFeed,
    Near,
    Far,
    From,
    Every,
    Until,
    Question,
    Ended,
}

/// Field, label, whether it must be filled in, whether it stays when a trial is changed.
const ROWS: [(F, &str, bool, bool); 25] = [
    (F::Code, "code", true, false),
    (F::Treatments, "treatments", true, false),
    (F::RateUnit, "rates in", true, false),
    (F::Benches, "benches", true, false),
    (F::Grid, "rows x columns", true, false),
    (F::Lot, "lot", true, false),
    (F::Differ, "growth differs", true, false),
    (F::Main, "main reading", true, true),
    (F::Matters, "matters", false, true),
    (F::Spread, "spread of pots", false, false),
    (F::Also, "also read", false, true),
    (F::Blocks, "blocks", true, false),
    (F::Design, "design", true, false),
    (F::Control, "control", false, false),
    (F::ControlPlots, "control in block", false, false),
    (F::Pots, "pots per plot", false, false),
    (F::Guard, "guard pots", true, false),
    (F::SharedFeed, "shared feed", true, false),
    (F::Near, "first column by", false, false),
    (F::Far, "last column by", false, false),
    (F::From, "first reading", true, true),
    (F::Every, "every, days", false, true),
    (F::Until, "last reading", false, true),
    (F::Question, "question", false, true),
    (F::Ended, "ended because", false, true),
];

/// Most lots that can be picked by letter; with more the code is typed.
const LETTERS: usize = 26;

/// Where growth differs most, as it is picked.
pub(super) const DIFFER: [(&str, &str); 7] = [
    ("unknown", "not known"),
    ("rows", "row to row"),
    ("columns", "column to column"),
    ("both", "both ways"),
    ("benches", "bench to bench"),
    ("houses", "house to house"),
    ("none", "no difference known"),
];

/// The fields of a new trial, or of a change of one, empty.
pub(super) fn all(change: bool, model: &Model) -> Fields<F> {
    let asked = ROWS.into_iter().filter(|(name, _, _, stays)| if change { *stays } else { *name != F::Ended });
    let row = |(name, label, required, _): (F, &'static str, bool, bool)| {
        let row = Row::new(name, label, required, input(name, model));
        if matches!(name, F::Treatments | F::Benches) { row.long() } else { row }
    };
    Fields::new(asked.map(row).collect())
}

fn choice(code: &str, text: &str) -> Choice {
    Choice { code: code.to_owned(), text: text.to_owned() }
}

fn words<T: Term>(keep: impl Fn(&T) -> bool) -> Vec<Choice> {
    T::ALL.iter().filter(|term| keep(term)).map(|term| choice(term.code(), term.text())).collect()
}

fn input(name: F, model: &Model) -> Input {
    let lots = model.season.lots();
    match name {
        F::Lot if !lots.is_empty() && lots.len() <= LETTERS => {
            Input::one(lots.iter().map(|l| choice(&l.lot, &format!("{} {}", l.lot, l.cultivar))).collect())
        }
        F::Differ => Input::one(DIFFER.iter().map(|(code, text)| choice(code, text)).collect()),
        F::Main => Input::one(words::<TrialReading>(|_| true)),
        F::Also => Input::many(words::<TrialReading>(|_| true)),
        F::Design => Input::one(words::<Design>(|design| *design != Design::AsLaid)),
        F::Guard | F::SharedFeed => Input::one(vec![choice("yes", "yes"), choice("no", "no")]),
        _ => Input::Text(crate::controls::Field::default()),
    }
}

/// What a field takes, in full.
pub(super) fn takes(name: F, system: System) -> &'static str {
    match name {
        F::Code => "1 to 10 letters, digits or -, such as T1",
        F::Treatments => "rates such as 0,4,8,12; or names with commas between them, 2 to 24",
        F::RateUnit => "unit of the rates, such as g per pot",
        F::Benches => "codes, a row such as M1-M8, or a house: where the plots may stand",
        F::Grid => "places on each bench, such as 6x4; 1x1: a whole bench is one plot",
        F::Lot => "the lot whose pots it takes",
        F::Differ => "which way growth differs most; blocks lie across it",
        F::Main => "the reading that decides",
        F::Matters if matches!(system, System::Us) => {
            "the least difference worth acting on, such as 1in; blank: not said"
        }
        F::Matters => "the least difference worth acting on, such as 2.5cm; blank: not said",
        F::Spread => "standard deviation of single pots on one bench; blank: not known",
        F::Also => "what else is read; each one more may differ by chance",
        F::Blocks => "blocks, or plots of each treatment where the design has none",
        F::Design => "how the plots get their places",
        F::Control => "the treatment that others are compared with; blank: none",
        F::ControlPlots => "how often the control stands in each block; blank: 1",
        F::Pots => "pots treated and read as one plot; blank: 1",
        F::Guard => "a ring of pots of the same lot around the plots, not read",
        F::SharedFeed => "does feed or water run together on the bench (flood bench, shared line)?",
        F::Near | F::Far => "what lies there, such as aisle or wall; blank: nothing marked",
        F::From => "first day of readings",
        F::Every => "days from one reading to the next; blank: 7",
        F::Until => "last day of readings; the verdict is by it; blank: open",
        F::Question => "what the trial asks, in words that name no treatment; blank: a few",
        F::Ended => "why it ends early; needs the last reading",
    }
}

/// A few words next to a field.
pub(super) fn beside(name: F, system: System) -> &'static str {
    match name {
        F::Treatments => "0,4,8,12 or names",
        F::RateUnit => "g per pot",
        F::Benches => "M4, or M1-M8",
        F::Grid => "6x4; 1x1 whole bench",
        F::Matters | F::Spread if matches!(system, System::Us) => "1in",
        F::Matters | F::Spread => "2.5cm",
        F::Near | F::Far => "aisle, wall",
        _ => "",
    }
}
