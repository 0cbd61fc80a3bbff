//! The checks: their questions, the meaning of their digits, and the entry of a digit.

use crate::limits::Limits;
use crate::record::{Entry, Kind, KindName, PestCount, PestName, Reach};
use crate::warnings::CheckName;

/// What a check asks and what its digits mean.
#[derive(Debug, Clone, Copy)]
pub struct Scale {
    /// One word for the check.
    pub name: &'static str,
    /// What to do to find the digit.
    pub ask: &'static str,
    /// Each digit with its meaning in words.
    pub digits: &'static [(u8, &'static str)],
}

/// Levels of water: a five-step scale of substrate moisture taught in the trade; the words are ours.
const WATER: [(u8, &str); 5] = [
    (1, "dry: very light, mix pale and shrinking from the wall"),
    (2, "light: mix light brown, falls apart; water next"),
    (3, "middle: noticeably lighter than full, mix brown"),
    (4, "heavy: mix dark, water comes at a light squeeze"),
    (5, "soaked: heaviest, mix black and shiny, drips"),
];
const BASE: [(u8, &str); 5] = [
    (1, "dry at the base: pale and crumbling"),
    (2, "drying: light brown, falls apart"),
    (3, "moist: brown, holds for a moment"),
    (4, "wet: dark, water comes at a light squeeze"),
    (5, "soaked: shiny, drips by itself"),
];
const ROOTS: [(u8, &str); 6] = [
    (0, "white to the edge"),
    (1, "up to 10% brown"),
    (2, "up to 25% brown"),
    (3, "up to 50% brown"),
    (4, "up to 75% brown"),
    (5, "more, or dead"),
];
const REACH: [(u8, &str); 3] = [(1, "still in the center of the mix"), (2, "at the pot wall"), (3, "at the base")];
/// Floral development as scored in trials at Kansas State, stages 1 to 7.
const BRACTS: [(u8, &str); 7] = [
    (1, "all green"),
    (2, "bracts start to color"),
    (3, "coloring, cyathia to be seen"),
    (4, "fully colored, cyathia to be seen"),
    (5, "fully colored, some cyathia shed pollen"),
    (6, "all cyathia shed pollen"),
    (7, "seed pods"),
];
const WHITEFLY: [(u8, &str); 2] =
    [(0, "none of the plants looked at"), (9, "1 to 9: so many plants with whitefly; ten or more by m")];

/// The scale of a check.
pub const fn scale(check: CheckName) -> Scale {
    match check {
        CheckName::Water => Scale { name: "water", ask: "Water: lift a pot and look at the surface.", digits: &WATER },
        CheckName::Base => {
            Scale { name: "base", ask: "Water at the base: feel the mix at the bottom of the pot.", digits: &BASE }
        }
        CheckName::Roots => Scale { name: "roots", ask: "Roots: knock out pots; score the worst.", digits: &ROOTS },
        CheckName::Reach => Scale { name: "reach", ask: "How far do the roots reach?", digits: &REACH },
        CheckName::Bracts => {
            Scale { name: "bracts", ask: "Bracts: the stage most plants have reached.", digits: &BRACTS }
        }
        CheckName::Whitefly => Scale {
            name: "whitefly",
            ask: "Whitefly: turn leaves over; count plants that carry it.",
            digits: &WHITEFLY,
        },
        CheckName::Height => Scale {
            name: "heights",
            ask: "Heights: bench to growing tip, the tagged plants in their order.",
            digits: &[],
        },
    }
}

/// True when the check takes this digit.
pub(super) fn takes(check: CheckName, digit: u8) -> bool {
    match check {
        CheckName::Whitefly => digit <= 9,
        CheckName::Height => false,
        CheckName::Water | CheckName::Base | CheckName::Roots | CheckName::Reach | CheckName::Bracts => {
            scale(check).digits.iter().any(|(d, _)| *d == digit)
        }
    }
}

/// The entry of a digit. Base and reach belong to an entry of water and of roots: they repeat what was scored before.
pub(super) fn kind(check: CheckName, digit: u8, today: &[&Entry], limits: &Limits) -> Option<Kind> {
    Some(match check {
        CheckName::Water => Kind::Water { level: digit, base: None },
        CheckName::Base => Kind::Water { level: water_today(today)?, base: Some(digit) },
        CheckName::Roots => roots(digit, None),
        CheckName::Reach => roots(roots_today(today)?, Some(reach_of(digit))),
        CheckName::Bracts => Kind::Bracts { stage: digit },
        CheckName::Whitefly => {
            let count = PestCount::Plants { inspected: limits.round.pests_plants, infested: u32::from(digit) };
            Kind::Pests { pest: PestName::Whitefly, count }
        }
        CheckName::Height => return None,
    })
}

fn roots(score: u8, reach: Option<Reach>) -> Kind {
    Kind::Roots { score, pots: None, bad: None, signs: Vec::new(), reach }
}

fn reach_of(digit: u8) -> Reach {
    match digit {
        1 => Reach::Center,
        2 => Reach::Wall,
        _ => Reach::Base,
    }
}

fn water_today(today: &[&Entry]) -> Option<u8> {
    today.iter().rev().find_map(|e| match e.kind {
        Kind::Water { level, .. } => Some(level),
        _ => None,
    })
}

fn roots_today(today: &[&Entry]) -> Option<u8> {
    today.iter().rev().find_map(|e| match e.kind {
        Kind::Roots { score, .. } => Some(score),
        _ => None,
    })
}

/// True when an entry answers a check.
pub(super) fn answers(entry: &Entry, check: CheckName) -> bool {
    let kind = &entry.kind;
    match check {
        CheckName::Water => matches!(kind, Kind::Water { .. }),
        CheckName::Base => matches!(kind, Kind::Water { base: Some(_), .. }),
        CheckName::Roots => matches!(kind, Kind::Roots { .. }),
        CheckName::Reach => matches!(kind, Kind::Roots { reach: Some(_), .. }),
        CheckName::Bracts => matches!(kind, Kind::Bracts { .. }),
        CheckName::Whitefly => matches!(kind, Kind::Pests { pest: PestName::Whitefly, .. }),
        CheckName::Height => matches!(kind, Kind::Height { .. }),
    }
}

/// The check that an entry of this card was written for.
pub(super) const fn asked_by(entry: &Entry) -> Option<CheckName> {
    Some(match &entry.kind {
        Kind::Water { base: None, .. } => CheckName::Water,
        Kind::Water { .. } => CheckName::Base,
        Kind::Roots { reach: None, .. } => CheckName::Roots,
        Kind::Roots { .. } => CheckName::Reach,
        Kind::Bracts { .. } => CheckName::Bracts,
        Kind::Pests { .. } => CheckName::Whitefly,
        Kind::Height { .. } => CheckName::Height,
        _ => return None,
    })
}

/// What was written today for a check, as the card shows it.
pub(super) fn shown(entry: &Entry, check: CheckName) -> String {
    match (&entry.kind, check) {
        (Kind::Water { base: Some(base), .. }, CheckName::Base) => base.to_string(),
        (Kind::Water { level, .. }, _) => level.to_string(),
        (Kind::Roots { reach: Some(reach), .. }, CheckName::Reach) => crate::record::Term::code(*reach).to_owned(),
        (Kind::Roots { score, .. }, _) => score.to_string(),
        (Kind::Bracts { stage }, _) => stage.to_string(),
        (Kind::Pests { count: PestCount::Plants { inspected, infested }, .. }, _) => format!("{infested}/{inspected}"),
        (Kind::Height { cm }, _) => format!("{} read", cm.len()),
        _ => "x".to_owned(),
    }
}

/// The kind of entry a check writes.
pub(super) const fn kind_name(check: CheckName) -> KindName {
    match check {
        CheckName::Water | CheckName::Base => KindName::Water,
        CheckName::Roots | CheckName::Reach => KindName::Roots,
        CheckName::Bracts => KindName::Bracts,
        CheckName::Whitefly => KindName::Pests,
        CheckName::Height => KindName::Height,
    }
}
