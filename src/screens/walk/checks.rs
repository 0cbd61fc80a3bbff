//! The checks: their questions, the meaning of their digits, and the entry of a digit.

use crate::limits::Limits;
use crate::record::{Entry, Kind, KindName, PestCount, PestName, Place, Reach};
use crate::report::scales;
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

/// The scale of a check.
pub const fn scale(check: CheckName) -> Scale {
    match check {
        CheckName::Water => {
            Scale { name: check.text(), ask: "Water: lift a pot and look at the surface.", digits: scales::WATER }
        }
        CheckName::Base => Scale {
            name: check.text(),
            ask: "Water at the base: feel the mix at the bottom of the pot.",
            digits: scales::BASE,
        },
        CheckName::Roots => {
            Scale { name: check.text(), ask: "Roots: knock out pots; score the worst.", digits: scales::ROOTS }
        }
        CheckName::Reach => {
            Scale { name: check.text(), ask: "How far out have the roots grown?", digits: scales::REACH }
        }
        CheckName::Bracts => {
            Scale { name: check.text(), ask: "Bracts: the stage most plants have reached.", digits: scales::BRACTS }
        }
        CheckName::Whitefly => Scale {
            name: check.text(),
            ask: "Whitefly: turn leaves over; count infested plants.",
            digits: scales::WHITEFLY,
        },
        CheckName::Height => {
            Scale { name: check.text(), ask: "Heights: bench top to growing tip, tagged plants in order.", digits: &[] }
        }
        CheckName::Climate => {
            Scale { name: "house temp", ask: "Temperature of the whole house, once a day.", digits: &[] }
        }
    }
}

/// True when the check takes this digit.
pub(super) fn takes(check: CheckName, digit: u8) -> bool {
    match check {
        CheckName::Whitefly => digit <= 9,
        CheckName::Height | CheckName::Climate => false,
        CheckName::Water | CheckName::Base | CheckName::Roots | CheckName::Reach | CheckName::Bracts => {
            scale(check).digits.iter().any(|(d, _)| *d == digit)
        }
    }
}

/// The entry of a digit. Base and reach complete what was scored before of the water and the roots.
pub(super) fn kind(check: CheckName, digit: u8, today: &[&Entry], limits: &Limits) -> Option<Kind> {
    Some(match check {
        CheckName::Water => Kind::Water { level: digit, base: None },
        CheckName::Roots => Kind::Roots { score: digit, pots: None, bad: None, signs: Vec::new(), reach: None },
        CheckName::Base | CheckName::Reach => {
            let mut whole = Kind::clone(&scored(check, today)?.kind);
            match &mut whole {
                Kind::Water { base, .. } => *base = Some(digit),
                Kind::Roots { reach, .. } => *reach = Some(reach_of(digit)),
                _ => return None,
            }
            whole
        }
        CheckName::Bracts => Kind::Bracts { stage: digit },
        CheckName::Whitefly => {
            let count = PestCount::Plants { inspected: limits.round.pests_plants, infested: u32::from(digit) };
            Kind::Pests { pest: PestName::Whitefly, count }
        }
        CheckName::Height | CheckName::Climate => return None,
    })
}

/// The entry that the base or the reach completes: the last water or roots of today.
pub(super) fn scored<'a>(check: CheckName, today: &[&'a Entry]) -> Option<&'a Entry> {
    let completed = matches!(check, CheckName::Base | CheckName::Reach);
    today.iter().rev().find(|e| completed && e.name() == kind_name(check)).copied()
}

fn reach_of(digit: u8) -> Reach {
    match digit {
        1 => Reach::Center,
        2 => Reach::Wall,
        _ => Reach::Base,
    }
}

/// True when an entry answers a check.
pub(super) fn answers(entry: &Entry, check: CheckName) -> bool {
    let kind = &*entry.kind;
    match check {
        CheckName::Water => matches!(kind, Kind::Water { .. }),
        CheckName::Base => matches!(kind, Kind::Water { base: Some(_), .. }),
        CheckName::Roots => matches!(kind, Kind::Roots { .. }),
        CheckName::Reach => matches!(kind, Kind::Roots { reach: Some(_), .. }),
        CheckName::Bracts => matches!(kind, Kind::Bracts { .. }),
        CheckName::Whitefly => matches!(kind, Kind::Pests { pest: PestName::Whitefly, .. }),
        CheckName::Height => matches!(kind, Kind::Height { .. }),
        CheckName::Climate => matches!(kind, Kind::Climate { .. }) && matches!(entry.place, Place::House(_)),
    }
}

/// The check that an entry of this card answers.
pub(super) fn asked_by(entry: &Entry) -> Option<CheckName> {
    Some(match &*entry.kind {
        Kind::Water { base: None, .. } => CheckName::Water,
        Kind::Water { .. } => CheckName::Base,
        Kind::Roots { reach: None, .. } => CheckName::Roots,
        Kind::Roots { .. } => CheckName::Reach,
        Kind::Bracts { .. } => CheckName::Bracts,
        Kind::Pests { .. } => CheckName::Whitefly,
        Kind::Height { .. } => CheckName::Height,
        Kind::Climate { .. } => CheckName::Climate,
        _ => return None,
    })
}

/// What was logged today for a check, as the card shows it.
pub(super) fn shown(entry: &Entry, check: CheckName) -> String {
    match (&*entry.kind, check) {
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

/// The kind of entry a check makes.
pub(super) const fn kind_name(check: CheckName) -> KindName {
    match check {
        CheckName::Water | CheckName::Base => KindName::Water,
        CheckName::Roots | CheckName::Reach => KindName::Roots,
        CheckName::Bracts => KindName::Bracts,
        CheckName::Whitefly => KindName::Pests,
        CheckName::Height => KindName::Height,
        CheckName::Climate => KindName::Climate,
    }
}
